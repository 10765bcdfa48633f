#include "store/inner/mend.h"

#include <algorithm>
#include <optional>

#include "store/inner/fields.h"
#include "store/inner/sound.h"

namespace sash::store {
namespace {

class Mender {
 public:
  explicit Mender(model::Record& record) : record_(record) {}

  std::vector<std::string> mend() {
    for (auto& line : record_.lines) stand_in(line.footage);
    for (auto& figure : record_.figures) mend(figure);
    for (auto& hazard : record_.hazards) stand_in(hazard.place.footage);
    for (auto& callout : record_.callouts) {
      stand_in(callout.place.footage);
      erase_lost(callout.hazards, "callout", callout.id.number, [](model::HazardId id) { return id; });
    }
    for (auto& note : record_.notes) stand_in(note.place.footage);
    for (auto& chapter : record_.chapters) stand_in(chapter.place.footage);
    for (auto& relation : record_.relations) {
      erase_lost(relation.terms, "relation", relation.id.number, [](const model::Term& term) { return term.figure; });
    }
    return std::move(problems_);
  }

 private:
  void mend(model::Figure& figure) {
    stand_in(figure.place.footage);
    if (figure.words && lost(figure.words->line)) {
      figure.words.reset();
      say("figure", figure.id.number, "its narration line");
    }
    if (figure.portion && lost(*figure.portion)) {
      figure.portion.reset();
      say("figure", figure.id.number, "its portion");
    }
    if (figure.corrected_by && lost(*figure.corrected_by)) {
      figure.corrected_by.reset();
      say("figure", figure.id.number, "its correction");
    }
  }

  template <class E, class F>
  void erase_lost(std::vector<E>& list, const char* type, std::int64_t id, F target) {
    const auto gone = std::remove_if(list.begin(), list.end(), [&](const E& each) { return lost(target(each)); });
    if (gone == list.end()) return;
    list.erase(gone, list.end());
    say(type, id, "something it points at");
  }

  // Room for stand-ins is bounded as that for footages is; past it everything goes to the first.
  void stand_in(model::FootageId& id) {
    if (!lost(id)) return;
    problems_.push_back("footage " + std::to_string(id.number) + " is gone");
    if (record_.footages.size() >= most_footages) {
      id = record_.footages.front().id;
      return;
    }
    model::Footage footage;
    footage.id = id;
    footage.title = "unreadable footage";
    const auto by_id = [](const model::Footage& a, const model::Footage& b) { return a.id < b.id; };
    record_.footages.insert(std::upper_bound(record_.footages.begin(), record_.footages.end(), footage, by_id),
                            footage);
  }

  template <class Tag>
  bool lost(Id<Tag> id) const {
    return find(record_, id) == nullptr;
  }
  void say(const std::string& type, std::int64_t id, const std::string& what) {
    problems_.push_back(type + " " + std::to_string(id) + " has lost " + what);
  }

  model::Record& record_;
  std::vector<std::string> problems_;
};

}  // namespace

std::vector<std::string> mend_references(model::Record& record) { return Mender(record).mend(); }

}  // namespace sash::store
