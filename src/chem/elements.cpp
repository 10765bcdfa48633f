#include "chem/elements.h"

#include <algorithm>
#include <array>
#include <vector>

#include "chem/inner/table.h"
#include "embedded/atomic_weights.h"
#include "embedded/isotope_masses.h"
#include "support/check.h"

namespace sash::chem {
namespace {

constexpr int element_count = 118;

std::vector<Element> read_elements() {
  std::vector<Element> read;
  read.reserve(element_count);
  inner::each_row(embedded::atomic_weights, [&read](inner::TableRow row) {
    Element e;
    e.number = inner::cell_integer(row[0]);
    e.symbol = row[1];
    e.name = row[2];
    if (!row[3].empty()) {
      e.weight = inner::cell_number(row[3]);
      e.bound = inner::cell_number(row[4]);
    }
    e.standard = row[5];
    e.interval = e.standard.starts_with('[');
    promise(e.number == static_cast<int>(read.size()) + 1, "the table of atomic weights is in order of atomic number");
    read.push_back(e);
  });
  promise(read.size() == element_count, "the table of atomic weights holds every element");
  return read;
}

// One or two letters, each in a slot of 27: a symbol becomes an index without searching.
constexpr std::size_t slot(std::string_view symbol) {
  const auto upper = static_cast<std::size_t>(symbol[0] - 'A');
  const std::size_t lower = symbol.size() == 1 ? 0 : static_cast<std::size_t>(symbol[1] - 'a') + 1;
  return upper * 27 + lower;
}

constexpr bool looks_like_symbol(std::string_view s) {
  return (s.size() == 1 || (s.size() == 2 && s[1] >= 'a' && s[1] <= 'z')) && s[0] >= 'A' && s[0] <= 'Z';
}

struct Isotope {
  Nuclide what;
  IsotopeMass weighs;
};

std::vector<Isotope> read_isotopes() {
  std::vector<Isotope> read;
  inner::each_row(embedded::isotope_masses, [&read](inner::TableRow row) {
    read.push_back({Nuclide{inner::cell_integer(row[0]), inner::cell_integer(row[1])},
                    IsotopeMass{inner::cell_number(row[2]), inner::cell_number(row[3])}});
  });
  std::ranges::sort(read, {}, &Isotope::what);
  return read;
}

}  // namespace

std::string_view weights_table_name() { return "IUPAC standard atomic weights 2021, abridged"; }

std::span<const Element> elements() {
  static const std::vector<Element> all = read_elements();
  return all;
}

const Element* find_element(std::string_view symbol) {
  static const auto index = [] {
    std::array<const Element*, 26 * 27> by_slot{};
    for (const Element& e : elements()) by_slot[slot(e.symbol)] = &e;
    return by_slot;
  }();
  return looks_like_symbol(symbol) ? index[slot(symbol)] : nullptr;
}

const Element& element(int number) {
  promise(number >= 1 && number <= element_count, "an atomic number lies between 1 and 118");
  return elements()[static_cast<std::size_t>(number) - 1];
}

std::optional<IsotopeMass> isotope_mass(int number, int mass_number) {
  static const std::vector<Isotope> all = read_isotopes();
  const auto at = std::ranges::lower_bound(all, Nuclide{number, mass_number}, {}, &Isotope::what);
  if (at == all.end() || at->what != Nuclide{number, mass_number}) return std::nullopt;
  return at->weighs;
}

std::string symbol_of(Nuclide what) {
  const std::string symbol(element(what.number).symbol);
  if (!what.mass_number) return symbol;
  if (what == Nuclide{1, 2}) return "D";
  if (what == Nuclide{1, 3}) return "T";
  return "[" + std::to_string(*what.mass_number) + symbol + "]";
}

}  // namespace sash::chem
