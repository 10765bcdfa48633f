#include "chem/inner/acetyl.h"

#include <algorithm>
#include <array>
#include <string>

#include "chem/inner/glyphs.h"
#include "support/text.h"

namespace sash::chem::inner {
namespace {

constexpr std::array halogens{"F", "Cl", "Br", "I"};

// Subscript digits as plain ones, so that AcCl₃ is AcCl3.
std::string with_plain_digits(std::string_view text) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const CodePoint here = code_point_at(text, at);
    if (const auto digit = subscript_digit(here.value)) {
      out += std::to_string(*digit);
    } else {
      out += text.substr(at, here.length);
    }
    at += here.length;
  }
  return out;
}

bool is_one_of(std::string_view text, const auto& list) { return std::ranges::find(list, text) != list.end(); }

// "F3", "2O3", "(OH)3", "PO4", "^3+": three charges in all.
bool takes_three_charges(std::string_view behind) {
  constexpr std::array alone{"PO4", "AsO4", "^3+", "3+", "^{3+}", "(3+)", "³⁺"};
  if (is_one_of(behind, alone)) return true;
  if (!behind.ends_with('3')) return false;
  std::string_view one = behind.substr(0, behind.size() - 1);
  if (one.starts_with('2')) return one == "2O" || one == "2S" || one == "2Se" || one.starts_with("2(");
  return is_one_of(one, halogens) || one == "H" || (one.starts_with('(') && one.ends_with(')'));
}

// Both could be: actinium oxide chloride, acetyl hypochlorite.
bool is_oxide_halide(std::string_view behind) {
  return behind.starts_with('O') && is_one_of(behind.substr(1), halogens);
}

bool takes_one_bond(std::string_view behind) {
  if (is_one_of(behind, halogens) || behind == "2O" || behind == "H" || behind == "SH") return true;
  if (behind.starts_with("NH") || behind.starts_with("2NH")) return true;
  if (!behind.starts_with('O') || behind.size() == 1) return false;
  const char32_t next = code_point_at(behind, 1).value;
  return is_upper(next) || is_lower(next) || next == U'^' || charge_sign(next) == -1;
}

}  // namespace

AcMeans ac_means(std::string_view behind) {
  const std::string written = with_plain_digits(trim(behind));
  // What follows a hydrate dot says nothing about it.
  const std::string_view main = std::string_view(written).substr(0, std::min(written.find("·"), written.find('*')));
  if (takes_three_charges(main)) return AcMeans::metal;
  if (is_oxide_halide(main)) return AcMeans::unclear;
  return takes_one_bond(main) ? AcMeans::group : AcMeans::unclear;
}

}  // namespace sash::chem::inner
