#pragma once
// Records for tests, made of one-line figures: b.figure("28.4 g", Kind::mass, "copper").

#include <initializer_list>
#include <string>
#include <utility>

#include "model/record.h"

namespace sash::workings::test {

struct Slotted {
  std::string slot;
  model::FigureId figure;
  std::string about = {};
};

class RecordBuilder {
 public:
  /// `text` is a number as said and a UCUM unit ("28.4 g"); empty for a figure that is wanted.
  model::FigureId figure(const std::string& text, quantity::Kind kind, const std::string& subject = {}) {
    model::Figure f;
    f.id = {++last_};
    f.kind = kind;
    f.subject = subject;
    if (!text.empty()) {
      const auto space = text.find(' ');
      model::Reading reading;
      reading.digits = text.substr(0, space);
      reading.value = std::stod(reading.digits);
      reading.unit = space == std::string::npos ? "1" : text.substr(space + 1);
      f.reading = reading;
    }
    record_.figures.push_back(f);
    return f.id;
  }

  /// A figure with a stated plus-minus.
  model::FigureId figure_within(const std::string& text, double half_width, quantity::Kind kind) {
    const auto id = figure(text, kind);
    edit(id).doubt = {model::Doubt::From::stated, half_width, {}};
    return id;
  }

  model::RelationId relation(model::RelationType type, std::initializer_list<Slotted> terms,
                             std::map<std::string, std::string> given = {}) {
    model::Relation r;
    r.id = {++last_};
    r.type = type;
    for (const Slotted& t : terms) r.terms.push_back({t.slot, t.figure, t.about});
    r.given = std::move(given);
    record_.relations.push_back(r);
    return r.id;
  }

  model::Figure& edit(model::FigureId id) {
    for (model::Figure& f : record_.figures) {
      if (f.id == id) return f;
    }
    std::abort();
  }
  model::Record& record() { return record_; }
  const model::Record& record() const { return record_; }

 private:
  model::Record record_;
  std::int64_t last_ = 0;
};

}  // namespace sash::workings::test
