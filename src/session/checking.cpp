#include "session/checking.h"

namespace sash::session {
namespace {

// Above this many figures and relations a check could take longer than a frame (tests/bench).
constexpr std::size_t ordinary = 400;

}  // namespace

Checking::Checking(std::function<void()> wake)
    : wake_(std::move(wake)),
      outcome_(std::make_shared<const Outcome>()),
      inbox_(std::make_shared<Inbox<std::shared_ptr<const Outcome>>>()) {}

void Checking::refresh(const model::Record& record, std::uint64_t revision) {
  wanted_ = revision;
  const auto check = [](const model::Record& r, std::uint64_t rev) {
    return std::make_shared<const Outcome>(Outcome{rev, workings::check(r), safety::check_cover(r)});
  };
  if (record.figures.size() + record.relations.size() <= ordinary) {
    outcome_ = check(record, revision);
    have_ = revision;
    return;
  }
  if (!pool_) pool_ = std::make_unique<Pool>(1);
  pool_->run([snapshot = record, revision, check, inbox = inbox_, wake = wake_] {
    inbox->put(check(snapshot, revision));
    if (wake) wake();
  });
}

bool Checking::poll() {
  bool news = false;
  for (auto& arrived : inbox_->take()) {
    if (arrived->revision < have_) continue;
    have_ = arrived->revision;
    outcome_ = std::move(arrived);
    news = true;
  }
  return news;
}

}  // namespace sash::session
