// Laws of a check: what must not change when the record is told differently, and what must change with it.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "quantity/unit.h"
#include "workings/check.h"
#include "workings/records.h"

namespace sash::workings {
namespace {

using model::RelationType;
using quantity::Kind;
using test::RecordBuilder;

// A day at the bench: acid weighed and measured, its strength, copper, what forms, and what was isolated.
RecordBuilder bench_day(double scale, const std::string& isolated_percent = "91.0 %") {
  const auto text = [&](double value, const std::string& unit) {
    char buffer[40];
    std::snprintf(buffer, sizeof buffer, "%.5g", value * scale);
    return std::string(buffer) + " " + unit;
  };
  RecordBuilder b;
  const auto volume = b.figure(text(40.0, "mL"), Kind::volume, "HNO3");
  const auto strength = b.figure("6.00 mol/L", Kind::molar_concentration, "HNO3");
  const auto acid = b.figure("", Kind::amount, "HNO3");
  const auto copper = b.figure(text(3.177, "g"), Kind::mass, "Cu");
  const auto theory = b.figure("", Kind::mass, "Cu(NO3)2");
  const auto isolated = b.figure(text(8.533, "g"), Kind::mass, "Cu(NO3)2");
  const auto percent = b.figure(isolated_percent, Kind::percent_yield);
  const auto dish = b.figure(text(50.12, "g"), Kind::mass);
  const auto together = b.figure(text(58.653, "g"), Kind::mass);
  b.relation(RelationType::in_solution, {{"strength", strength}, {"solution_volume", volume}, {"solute_amount", acid}},
             {{"substance", "HNO3"}});
  b.relation(RelationType::reaction,
             {{"reactant", copper, "Cu"}, {"reactant", acid, "HNO3"}, {"product", theory, "Cu(NO3)2"}},
             {{"equation", "Cu + HNO3 -> Cu(NO3)2 + NO + H2O"}});
  b.relation(RelationType::yield, {{"actual", isolated}, {"theoretical", theory}, {"percent", percent}});
  b.relation(RelationType::total, {{"part", dish}, {"part", isolated}, {"whole", together}});
  return b;
}

std::vector<std::pair<std::int64_t, Verdict>> verdicts(const Report& report) {
  std::vector<std::pair<std::int64_t, Verdict>> result;
  for (const Finding& f : report.findings) result.emplace_back(f.relation ? f.relation->number : 0, f.verdict);
  return result;
}

TEST(ScalingABatch, ScalesEveryAmountAndNoVerdict) {
  auto small = bench_day(1);
  auto large = bench_day(10);
  const Report one = check(small.record());
  const Report ten = check(large.record());
  EXPECT_EQ(verdicts(one), verdicts(ten));
  ASSERT_EQ(one.figures.size(), ten.figures.size());
  for (std::size_t i = 0; i < one.figures.size(); ++i) {
    const Reckoned& a = *one.figures[i].reconciled;
    const Reckoned& b = *ten.figures[i].reconciled;
    const auto si = [](const Reckoned& r) { return quantity::Unit::known(r.unit).to_si(r.value); };
    const Kind kind = small.record().figures[i].kind;
    const bool extensive = kind == Kind::mass || kind == Kind::volume || kind == Kind::amount;
    EXPECT_NEAR(si(b) / si(a), extensive ? 10 : 1, 1e-6) << a.text << " and " << b.text;
  }
}

TEST(UnitOfDisplay, NeverChangesAVerdict) {
  for (const std::string percent : {"91.0 %", "80.0 %"}) {
    auto plain = bench_day(1, percent);
    const auto expected = verdicts(check(plain.record()));
    // The same readings told in other units, with the same plus-minus.
    const std::pair<std::string, std::string> others[] = {{"g", "mg"}, {"g", "kg"}, {"mL", "L"}, {"mol/L", "mmol/L"}};
    for (const auto& [from, to] : others) {
      model::Record told = plain.record();
      for (model::Figure& f : told.figures) {
        if (!f.reading || f.reading->unit != from) continue;
        const auto in = quantity::Unit::known(from);
        const auto out = quantity::Unit::known(to);
        const auto state = *check(plain.record()).find(f.id);
        f.reading->value = out.from_si(in.to_si(f.reading->value));
        f.doubt = {model::Doubt::From::stated, out.from_si(in.to_si(state.said->spread * std::sqrt(3.0))), {}};
        f.reading->digits.clear();
        f.reading->unit = to;
      }
      auto now = verdicts(check(told));
      // A stated plus-minus takes the word "rounded" away; nothing else may change.
      auto was = expected;
      for (auto* list : {&now, &was}) {
        for (auto& [id, verdict] : *list) {
          if (verdict == Verdict::agrees_as_rounded) verdict = Verdict::agrees;
        }
        std::sort(list->begin(), list->end());
      }
      EXPECT_EQ(now, was) << from << " told as " << to;
    }
  }
}

TEST(OrderOfARecord, IsIrrelevant) {
  std::mt19937_64 random(3);
  for (const std::string percent : {"91.0 %", "80.0 %"}) {
    auto b = bench_day(1, percent);
    const Report expected = check(b.record());
    for (int n = 0; n < 20; ++n) {
      model::Record shuffled = b.record();
      std::shuffle(shuffled.figures.begin(), shuffled.figures.end(), random);
      std::shuffle(shuffled.relations.begin(), shuffled.relations.end(), random);
      const Report report = check(shuffled);
      EXPECT_EQ(report.findings, expected.findings);
      EXPECT_EQ(report.figures, expected.figures);
    }
  }
}

TEST(AnUnrelatedRelation, ChangesNoOtherVerdict) {
  auto b = bench_day(1);
  const auto before = verdicts(check(b.record()));
  const auto a = b.figure("2.00 g", Kind::mass);
  const auto c = b.figure("3.00 g", Kind::mass);
  const auto odd = b.relation(RelationType::total, {{"part", a}, {"whole", c}});
  auto after = verdicts(check(b.record()));
  std::erase_if(after, [&](const auto& v) { return v.first == odd.number; });
  EXPECT_EQ(after, before);
}

TEST(AnythingInARecord, NeitherCrashesNorComputesSilently) {
  // Every kind of figure in every slot of every type, with good, zero, negative, enormous and missing numbers.
  std::mt19937_64 random(11);
  const std::vector<std::string> slots{"mass",     "volume",   "amount",  "density", "part",    "whole",
                                       "fraction", "reactant", "product", "actual",  "percent", "strength",
                                       "same",     "count",    "each",    "heat",    "target",  "destroyer",
                                       "start",    "stated",   "in",      "out",     "current", "duration"};
  const std::vector<double> numbers{1, 0, -3, 1e-300, 1e300, std::nan(""), 1e12, 28.4};
  const std::vector<std::string> equations{"Cu + HNO3 -> Cu(NO3)2 + NO + H2O", "", "Cu -> CuO", "H2 + O2 -> H2O", "->"};
  for (int n = 0; n < 3000; ++n) {
    RecordBuilder b;
    std::vector<model::FigureId> figures;
    for (int i = 0; i < 6; ++i) {
      const auto kinds = quantity::all_kinds();
      const auto id = b.figure("1 1", kinds[random() % kinds.size()]);
      auto& f = b.edit(id);
      f.reading->unit = quantity::default_unit(f.kind).code();
      f.reading->value = numbers[random() % numbers.size()];
      f.reading->digits.clear();
      if (random() % 4 == 0) f.reading.reset();
      figures.push_back(id);
    }
    for (int r = 0; r < 3; ++r) {
      const auto id = b.relation(static_cast<RelationType>(random() % 18), {}, {});
      auto& relation = b.record().relations.back();
      relation.id = id;
      for (int t = 0; t < 3; ++t) {
        relation.terms.push_back(
            {slots[random() % slots.size()], figures[random() % figures.size()], random() % 2 == 0 ? "Cu" : ""});
      }
      relation.given["equation"] = equations[random() % equations.size()];
      if (random() % 2 == 0) relation.given["fraction"] = "3/8";
    }
    const Report report = check(b.record());
    EXPECT_GE(report.findings.size(), 3u);
    for (const Finding& f : report.findings) {
      EXPECT_FALSE(f.sentence.empty());
      EXPECT_TRUE(f.verdict != Verdict::unsettled || !f.missing.empty()) << f.sentence;
      EXPECT_TRUE(!f.computed || std::isfinite(f.computed->value)) << f.sentence;
    }
  }
}

}  // namespace
}  // namespace sash::workings
