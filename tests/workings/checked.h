#pragma once
// What a check of a made record comes to, for tests: its report, its first finding, the value of a figure; and the
// portion of nitric acid most of them begin with.

#include <gtest/gtest.h>

#include <map>
#include <string>
#include <utility>

#include "quantity/unit.h"
#include "records.h"
#include "workings/check.h"

namespace sash::workings::test {

inline Report checked(const RecordBuilder& b) { return check(b.record()); }

inline Finding first(const RecordBuilder& b) { return checked(b).findings.at(0); }

/// The best value of a figure as reconciled, in the unit it is shown in; 0 and a failed test where there is none.
inline Reckoned reconciled(const RecordBuilder& b, model::FigureId id) {
  const Report report = checked(b);
  const FigureState* state = report.find(id);
  EXPECT_TRUE(state != nullptr && state->reconciled) << report.findings.at(0).sentence;
  return state != nullptr && state->reconciled ? *state->reconciled : Reckoned{};
}

inline double value_of(const RecordBuilder& b, model::FigureId id) { return reconciled(b, id).value; }

inline double si_of(const RecordBuilder& b, model::FigureId id) {
  const Reckoned r = reconciled(b, id);
  return quantity::Unit::parse(r.unit)->to_si(r.value);
}

/// A mass and a volume of nitric acid, of density 1.42 g/mL unless said otherwise: 20.0 mL weigh 28.4 g.
inline RecordBuilder acid(const std::string& mass, const std::string& volume = "20.0 mL",
                          std::map<std::string, std::string> given = {{"density", "1.42 g/mL"}}) {
  RecordBuilder b;
  const auto m = b.figure(mass, quantity::Kind::mass, "nitric acid");
  const auto v = b.figure(volume, quantity::Kind::volume, "nitric acid");
  b.relation(model::RelationType::same_portion, {{"mass", m}, {"volume", v}}, std::move(given));
  return b;
}

}  // namespace sash::workings::test
