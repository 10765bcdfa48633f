#include "chem/inner/known_ions.h"

#include <string>
#include <unordered_set>

#include "chem/inner/table.h"
#include "embedded/cation_charges.h"
#include "embedded/ions.h"
#include "support/text.h"

namespace sash::chem::inner {
namespace {

std::unordered_set<std::string> read_ions() {
  std::unordered_set<std::string> known;
  each_row(embedded::ions, [&known](TableRow row) { known.emplace(row[1]); });
  each_row(embedded::cation_charges, [&known](TableRow row) {
    for (const std::string_view charge : split(row[1], ';')) {
      known.insert(std::string(row[0]) + "^" + (charge == "1" ? "" : std::string(charge)) + "+");
    }
  });
  return known;
}

}  // namespace

bool is_known_ion(std::string_view plain) {
  static const std::unordered_set<std::string> known = read_ions();
  return known.contains(std::string(plain));
}

}  // namespace sash::chem::inner
