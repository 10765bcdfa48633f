#include "chem/formula.h"

#include <fmt/format.h>

#include <cstdint>
#include <nlohmann/json.hpp>
#include <ostream>

#include "chem/molar_mass.h"
#include "chem/names.h"
#include "cli/commands/commands.h"
#include "quantity/show.h"
#include "support/text.h"

namespace sash::cli {
namespace {

// Whole counts as whole numbers: 5, not 5.0.
nlohmann::ordered_json count_json(double count) {
  const auto whole = static_cast<std::int64_t>(count);
  if (static_cast<double>(whole) == count) return whole;
  return count;
}

}  // namespace

int formula(const std::string& text, bool json, const Console& console) {
  const auto read = chem::formula_of(text);
  if (!read) return console.fail(read.fault());
  const std::vector<std::string> names = chem::NameBook::standard().names_of(*read);
  const auto mass = chem::molar_mass(*read);
  if (!mass) return console.fail(mass.fault());
  const auto shares = chem::mass_shares(*read);
  if (!shares) return console.fail(shares.fault());

  if (json) {
    nlohmann::ordered_json out;
    out["formula"] = read->plain();
    out["unicode"] = read->unicode();
    out["hill"] = read->hill();
    out["charge"] = read->charge();
    out["molar_mass"] = mass->value;
    out["uncertainty"] = mass->spread;
    out["unit"] = "g/mol";
    nlohmann::ordered_json composition = nlohmann::ordered_json::object();
    nlohmann::ordered_json fractions = nlohmann::ordered_json::object();
    for (const auto& share : *shares) {
      composition[chem::symbol_of(share.what)] = count_json(share.count);
      fractions[chem::symbol_of(share.what)] = share.fraction;
    }
    out["composition"] = std::move(composition);
    out["mass_fractions"] = std::move(fractions);
    out["names"] = names;
    if (const std::string taken = chem::reading_taken(*read); !taken.empty()) out["reading"] = taken;
    out["source"] = "IUPAC 2021 abridged standard atomic weights";
    console.out << out.dump(2) << '\n';
    return fine;
  }
  console.out << read->unicode() << '\n';
  if (const std::string taken = chem::reading_taken(*read); !taken.empty()) console.out << "  " << taken << '\n';
  // Isomers share a formula: all of them are named, none preferred.
  if (!names.empty()) console.out << "  known as    " << join(names, "; ") << '\n';
  console.out << "  molar mass  " << quantity::show_with(mass->value, mass->spread, "g/mol") << '\n';
  for (const auto& share : *shares) {
    console.out << fmt::format("  {:<6} {:>8g} x {:>10.4f} g/mol  {:>8.3f} % of the mass\n",
                               chem::symbol_of(share.what), share.count, share.mass / share.count,
                               100 * share.fraction);
  }
  console.out << "  (IUPAC 2021 abridged standard atomic weights; standard uncertainty)\n";
  return fine;
}

}  // namespace sash::cli
