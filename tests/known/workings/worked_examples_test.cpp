// Published worked examples, run as records through check() (tests/known/workings/worked_examples.csv). A row says:
// figures: name = number unit kind [exact]; "?" for the wanted ones
// relations: type: slot@about=figure, ... | key=text; ...   with " / " between relations
#include <gtest/gtest.h>

#include <map>

#include "model/names.h"
#include "model/record.h"
#include "quantity/unit.h"
#include "support/text.h"
#include "tools/table.h"
#include "workings/check.h"

namespace sash::workings {
namespace {

using test::Row;

std::vector<std::string_view> split_at(std::string_view text, std::string_view mark) {
  std::vector<std::string_view> parts;
  for (std::size_t at = text.find(mark); at != std::string_view::npos; at = text.find(mark)) {
    parts.push_back(trim(text.substr(0, at)));
    text.remove_prefix(at + mark.size());
  }
  parts.push_back(trim(text));
  return parts;
}

class Example {
 public:
  explicit Example(const Row& row) {
    for (const auto text : split_at(row.at("figures"), ";")) add_figure(text);
    for (const auto text : split_at(row.at("relations"), " / ")) add_relation(text);
  }
  const model::Record& record() const { return record_; }
  model::FigureId figure(const std::string& name) const { return figures_.at(name); }

 private:
  void add_figure(std::string_view text) {
    const auto equals = text.find('=');
    std::vector<std::string> words;
    for (const auto w : split(trim(text.substr(equals + 1)), ' ')) words.emplace_back(w);
    model::Figure f;
    f.id = {static_cast<std::int64_t>(figures_.size()) + 1};
    const bool wanted = words[0] == "?";
    const auto kind = quantity::kind_from_name(words.at(wanted ? 1 : 2));
    EXPECT_TRUE(kind) << text;
    f.kind = kind.value_or(quantity::Kind::other);
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
};

std::string all_sentences(const Report& report) {
  std::string text;
  for (const Finding& f : report.findings) text += f.sentence + "\n" + plain_text(f.workings) + "\n";
  return text;
}

void expect_reproduced(const Row& row) {
  const Example example(row);
  const Report report = check(example.record());
  EXPECT_EQ(report.count(Verdict::unsettled), 0u) << all_sentences(report);
  EXPECT_EQ(report.count(Verdict::conflicts), 0u) << all_sentences(report);
  if (row.at("wanted") == "first out") {
    EXPECT_NE(all_sentences(report).find(row.at("expected") + " runs out first"), std::string::npos)
        << all_sentences(report);
    return;
  }
  const FigureState* state = report.find(example.figure(row.at("wanted")));
  ASSERT_TRUE(state) << all_sentences(report);
  ASSERT_TRUE(state->reconciled) << all_sentences(report);
  const auto in = quantity::Unit::parse(state->reconciled->unit);
  const auto wanted = quantity::Unit::parse(row.at("unit"));
  ASSERT_TRUE(in && wanted);
  const bool same = in->code() == wanted->code();
  const double value = same ? state->reconciled->value : wanted->from_si(in->to_si(state->reconciled->value));
  EXPECT_NEAR(value, row.number("expected"), row.number("tolerance")) << all_sentences(report);
}

TEST(WorkedExamples, AreReproduced) {
  for (const Row& row : test::read_table("known/workings/worked_examples.csv")) {
    SCOPED_TRACE(row.at("id") + " " + row.at("source"));
    expect_reproduced(row);
  }
}

}  // namespace
}  // namespace sash::workings
