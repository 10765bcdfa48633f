#pragma once
// A record told in two lines, for tests: its figures, "m=28.4 g mass; V=? volume", and its relations,
// "same_portion: mass=m, volume=V | density=1.42 g/mL". Wanted figures are told as "?"; behind the kind may stand
// "exact" and "of SUBJECT"; a slot's about stands behind "@"; relations are separated by " / ", given keys by ";".
// It checks the record once, when first asked.

#include <gtest/gtest.h>

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/names.h"
#include "model/record.h"
#include "quantity/unit.h"
#include "support/text.h"
#include "workings/check.h"

namespace sash::workings::test {

class ToldRecord {
 public:
  ToldRecord(std::string_view figures, std::string_view relations) {
    for (const auto text : split_at(figures, ";")) add_figure(text);
    for (const auto text : split_at(relations, " / ")) add_relation(text);
  }

  const model::Record& record() const { return record_; }
  model::FigureId figure(const std::string& name) const { return figures_.at(name); }

  const Report& report() const {
    if (!report_) report_ = check(record_);
    return *report_;
  }
  const Finding& first() const { return report().findings.at(0); }

  /// The best value of a figure as reconciled, in the unit it is shown in; 0 and a failed test where there is none.
  Reckoned reconciled(const std::string& name) const {
    const FigureState* state = report().find(figure(name));
    EXPECT_TRUE(state != nullptr && state->reconciled) << everything_said();
    return state != nullptr && state->reconciled ? *state->reconciled : Reckoned{};
  }
  double value(const std::string& name) const { return reconciled(name).value; }
  double si(const std::string& name) const {
    const Reckoned r = reconciled(name);
    return quantity::Unit::parse(r.unit)->to_si(r.value);
  }
  /// In a unit of one's choice.
  double value_in(const std::string& name, const std::string& unit) const {
    const Reckoned r = reconciled(name);
    const auto in = quantity::Unit::parse(r.unit.empty() ? "1" : r.unit);
    const auto wanted = quantity::Unit::parse(unit);
    EXPECT_TRUE(in && wanted) << r.unit << " " << unit;
    if (!in || !wanted) return 0;
    return in->code() == wanted->code() ? r.value : wanted->from_si(in->to_si(r.value));
  }

  /// Sentences and workings of all findings, for failed tests.
  std::string everything_said() const {
    std::string text;
    for (const Finding& f : report().findings) {
      text += f.sentence + "\n" + plain_text(f.workings) + "\n";
      for (const auto& note : f.notes) text += note + "\n";
    }
    return text;
  }

 private:
  static std::vector<std::string_view> split_at(std::string_view text, std::string_view mark) {
    std::vector<std::string_view> parts;
    for (std::size_t at = text.find(mark); at != std::string_view::npos; at = text.find(mark)) {
      parts.push_back(trim(text.substr(0, at)));
      text.remove_prefix(at + mark.size());
    }
    parts.push_back(trim(text));
    return parts;
  }

  void add_figure(std::string_view text) {
    const auto equals = text.find('=');
    const auto of = text.find(" of ");
    std::vector<std::string> words;
    for (const auto w : split(trim(text.substr(equals + 1, of - std::min(of, equals + 1))), ' ')) words.emplace_back(w);
    model::Figure f;
    f.id = {static_cast<std::int64_t>(figures_.size()) + 1};
    const bool wanted = words[0] == "?";
    const auto kind = quantity::kind_from_name(words.at(wanted ? 1 : 2));
    EXPECT_TRUE(kind) << text;
    f.kind = kind.value_or(quantity::Kind::other);
    if (of != std::string_view::npos) f.subject = trim(text.substr(of + 4));
    if (!wanted) {
      const auto number = read_number(words[0]);
      EXPECT_TRUE(number) << text;
      f.reading = model::Reading{number.value_or(0), {}, words[0], words[1], model::Hedge::exact};
      if (words.size() > 3) f.doubt.from = model::Doubt::From::assumed_exact;
    }
    figures_[std::string(text.substr(0, equals))] = f.id;
    record_.figures.push_back(f);
  }

  void add_relation(std::string_view text) {
    const auto colon = text.find(": ");
    model::Relation r;
    r.id = {static_cast<std::int64_t>(record_.relations.size()) + 1000};
    const auto type = model::from_name<model::RelationType>(text.substr(0, colon));
    EXPECT_TRUE(type) << text;
    r.type = type.value_or(model::RelationType::total);
    const auto halves = split_at(text.substr(colon + 2), " | ");
    for (const auto term : split_at(halves[0], ", ")) {
      const auto equals = term.rfind('=');
      const auto at = term.find('@');
      const std::string slot(term.substr(0, std::min(at, equals)));
      const std::string about(at == std::string_view::npos ? "" : term.substr(at + 1, equals - at - 1));
      r.terms.push_back({slot, figures_.at(std::string(term.substr(equals + 1))), about});
    }
    if (halves.size() > 1) {
      for (const auto pair : split_at(halves[1], ";")) {
        const auto equals = pair.find('=');
        r.given[std::string(pair.substr(0, equals))] = std::string(pair.substr(equals + 1));
      }
    }
    record_.relations.push_back(r);
  }

  model::Record record_;
  std::map<std::string, model::FigureId> figures_;
  mutable std::optional<Report> report_;
};

}  // namespace sash::workings::test
