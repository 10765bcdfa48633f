// Narration as it comes into a record: an ordinary one at once, a long one read in the background.
#include <array>

#include "narration/read.h"
#include "session/inner/holdings.h"

namespace sash::session::inner {
namespace {

// Numbers for things that are not in the store yet, counted on from where the store is. What they are used for goes in
// only while nothing else changed the record, so none is given twice.
NewNumber numbers_after(const NewNumber& ids) {
  using Thing = model::Thing;
  std::array<std::int64_t, std::variant_size_v<Thing>> next{};
  const auto begin = [&]<class... T>(const std::variant<T...>*) { ((next[Thing(T{}).index()] = ids(T{})), ...); };
  begin(static_cast<const Thing*>(nullptr));
  return [next](const Thing& shape) mutable { return next[shape.index()]++; };
}

}  // namespace

Done Holdings::add_narration_file(const std::string& path) { return take_narration(NarrationFile{path}); }

Done Holdings::add_text(const std::string& text) {
  if (!store) {
    if (setup.own_folder.empty()) return no_record();
    // Looked at first, so that what is no narration leaves no empty record behind.
    if (text.size() <= ordinary_narration) {
      if (const auto read = narration::read_narration(text, "The text"); !read) return read.fault();
    }
    if (const Done done = begin_beside(setup.own_folder + "/narration.sash"); !done) return done;
  }
  return take_narration(PastedNarration{text, playing.at()});
}

Done Holdings::read_again() { return take_narration(SameNarration{}); }

Done Holdings::take_narration(NarrationFrom from) {
  if (!store) return no_record();
  if (const Fault* why = store->read_only()) return *why;
  if (setup.background && (!to_read_.empty() || bytes_to_read(record(), from) > ordinary_narration)) {
    // Whatever waits will have its proposals read from all lines there are then.
    if (!std::holds_alternative<SameNarration>(from) || to_read_.empty()) to_read_.push_back(std::move(from));
    if (!reading_job.under_way()) begin_reading();
    return {};
  }
  Progress unwatched;
  const auto plan = plan_narration(record(), ids(), from, playing.footage(), unwatched);
  return plan ? carry_out(*plan) : Done(plan.fault());
}

Done Holdings::carry_out(const NarrationPlan& plan) {
  for (const auto& sentence : plan.to_say) say(sentence, News::result);
  if (const Done done = carry_out(plan.lines); !done) return done;
  if (!playing.footage().known() && !waiting_ && !record().footages.empty())
    turn_to(model::in_order(record()).front()->id, Moment());
  return carry_out(plan.proposals);
}

void Holdings::begin_reading() {
  read_at_ = revision;
  reading_job.begin([snapshot = record(), numbers = numbers_after(ids()), from = to_read_.front(),
                     current = playing.footage()](Progress& progress) {
    return plan_narration(snapshot, numbers, from, current, progress);
  });
  changed = true;
}

void Holdings::take_reading() {
  const auto plan = reading_job.poll();
  if (!plan) return;
  changed = true;
  if (*plan && read_at_ != revision) return begin_reading();  // the person went on working: once more, upon that
  to_read_.pop_front();
  const Done done = *plan ? carry_out(**plan) : Done(plan->fault());
  if (!done) say(done.fault().sentence, News::fault);
  if (!to_read_.empty()) begin_reading();
}

void Holdings::stop_reading() {
  reading_job.stop();
  to_read_.clear();
}

}  // namespace sash::session::inner
