#pragma once
// FakeDesk: the whole desk on the windowless harness over a record held in memory. It keeps every intent that was asked
// for and carries out the few that a page must see answered (seeking, making and changing things, undo); findings and
// cover are the real ones. No files, no media, no background work.

#include <map>
#include <memory>
#include <vector>

#include "desk/app.h"
#include "draw/kit/harness.h"
#include "safety/cover.h"
#include "workings/check.h"

namespace sash::testing {

struct FakeLook {
  int width = 1280;
  int height = 720;
  float scale = 1;
  desk::ThemeName theme = desk::ThemeName::dim;
  bool pixels = false;
};

class FakeDesk {
 public:
  explicit FakeDesk(model::Record record, FakeLook look = {});
  ~FakeDesk();
  FakeDesk(const FakeDesk&) = delete;
  FakeDesk& operator=(const FakeDesk&) = delete;

  Harness& hand() { return *harness_; }
  desk::App& app() { return app_; }
  model::Record& record() { return record_; }
  session::Transport& transport() { return transport_; }
  /// After a change of record() from outside.
  void changed();

  /// All intents so far, or those of one type.
  const std::vector<session::Intent>& intents() const { return intents_; }
  template <class T>
  std::vector<T> asked() const {
    std::vector<T> out;
    for (const auto& i : intents_) {
      if (const auto* t = std::get_if<T>(&i)) out.push_back(*t);
    }
    return out;
  }
  void forget() { intents_.clear(); }

  // What the view says besides.
  bool has_record = true;
  std::optional<std::string> read_only;
  std::vector<session::Notice> notices;
  std::vector<session::Job> jobs;
  std::vector<std::string> recent;
  std::map<model::FootageId, session::FootageState> footage;
  bool can_choose = true;
  std::vector<std::string> folder{"captions.srt", "bench.mp4", "lessons/", ".hidden"};

 private:
  class Pictures;
  void frame(desk::Kit& kit);
  void apply(const session::Intent& intent);
  session::SessionView view() const;

  model::Record record_;
  std::vector<model::Record> undo_;
  std::uint64_t revision_ = 1;
  workings::Report report_;
  safety::Cover cover_;
  session::Transport transport_;
  std::optional<session::ThingRef> just_made_;
  std::vector<session::Intent> intents_;
  desk::App app_;
  std::unique_ptr<Harness> harness_;
  std::unique_ptr<Pictures> pictures_;
};

}  // namespace sash::testing
