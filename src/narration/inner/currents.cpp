#include "narration/inner/currents.h"

#include <algorithm>
#include <utility>

#include "chem/electrolysis.h"
#include "embedded/electrode_products.h"
#include "narration/inner/equations.h"
#include "support/check.h"
#include "support/text.h"

namespace sash::narration {

namespace {

using model::RelationType;
using model::Role;
using quantity::Kind;

/// What an electrode gives, and how many electrons one unit of it takes.
struct ElectrodeProduct {
  std::string_view name;
  std::string_view formula;
  int electrons = 1;
};

const std::vector<ElectrodeProduct>& electrode_products() {
  static const std::vector<ElectrodeProduct> all = [] {
    std::vector<ElectrodeProduct> rows;
    bool header = true;
    for (const std::string_view line : split_lines(embedded::electrode_products)) {
      if (std::exchange(header, false)) continue;
      const auto cells = split(line, '\t');
      promise(cells.size() == 4, "a row of the electrode products has four cells");
      const auto electrons = read_integer(cells[2]);
      promise(electrons.has_value(), "electrons are a whole number");
      rows.push_back({cells[0], cells[1], static_cast<int>(*electrons)});
    }
    return rows;
  }();
  return all;
}

const ElectrodeProduct* electrode_product(const std::string& name) {
  const auto& all = electrode_products();
  const auto it = std::find_if(all.begin(), all.end(), [&](const ElectrodeProduct& p) { return p.name == name; });
  return it == all.end() ? nullptr : &*it;
}

class Currents {
 public:
  Currents(const Ledger& told, Wirings& to) : told_(told), to_(to) {}

  void run() {
    for (std::size_t i = 0; i < told_.size(); ++i) {
      if (!told_.stands(i) || told_.role(i) != Role::stated_result || told_[i].same_sample_as) continue;
      const ElectrodeProduct* known = electrode_product(told_.matter(i));
      const Kind k = told_.kind(i);
      if (known == nullptr || (k != Kind::amount && k != Kind::mass && k != Kind::gas_volume)) continue;
      const int electrons = known->electrons;
      from_current(i, electrons);
      from_electrons(i, electrons);
    }
  }

 private:
  void from_current(std::size_t i, int electrons) {
    constexpr std::size_t reach = 30;
    const auto currents = told_.before(i, reach, 2, [&](std::size_t k) { return told_.kind(k) == Kind::current; });
    const auto times = told_.before(i, reach, 4, [&](std::size_t k) { return told_.kind(k) == Kind::duration; });
    for (const std::size_t current : currents) {
      for (const std::size_t time : times) {
        const Sized n = scaled(told_.sized(current) * told_.sized(time), 1 / (electrons * chem::faraday));
        SpokenRelation r{RelationType::electrolysis,
                         {{"current", current, ""}, {"duration", time, ""}},
                         {{"electrons", std::to_string(electrons)}},
                         told_[i].subject,
                         "what a current sets free in a time"};
        const auto matter = matter_of(told_[i].subject);
        r.terms.push_back({"product", i, matter ? matter->formula : ""});
        const bool last = current == currents.front() && time == times.front();
        to_.offer(i, last ? ground::fair : ground::loose, as_said(i, n), std::move(r));
      }
    }
  }

  /// So many moles of electrons, so many to each.
  void from_electrons(std::size_t i, int electrons) {
    if (electrons == 1 && told_.matter(i) == "electrons") return;
    const auto before = told_.before(
        i, 6, 1, [&](std::size_t k) { return told_.kind(k) == Kind::amount && told_.matter(k) == "electrons"; });
    if (before.empty() || told_.kind(i) != Kind::amount) return;
    to_.offer(i, ground::fair, scaled(told_.sized(before.front()), 1.0 / electrons),
              {RelationType::share,
               {{"whole", before.front(), ""}, {"part", i, ""}},
               {{"fraction", "1/" + std::to_string(electrons)}},
               told_[i].subject,
               "so many electrons to each"});
  }

  std::optional<Sized> as_said(std::size_t i, const Sized& n) const {
    constexpr Sized room{0.02406, 0.0003};  // m3/mol at 20 °C, ideal gas law
    if (told_.kind(i) == Kind::amount) return n;
    if (told_.kind(i) == Kind::gas_volume) return n * room;
    const auto molar_mass = told_.molar_mass(substance_of(told_[i].subject));
    if (!molar_mass) return std::nullopt;
    return n * *molar_mass;
  }

  const Ledger& told_;
  Wirings& to_;
};

}  // namespace

void wire_currents(const Ledger& told, Wirings& to) { Currents(told, to).run(); }

}  // namespace sash::narration
