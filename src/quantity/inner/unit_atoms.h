#pragma once
// The table of unit atoms and prefixes behind Unit::parse. Pure constant data.
// Sources: UCUM 2.1 tables (codes, metric or not, definitions); SI Brochure 9th ed. tables 4, 7, 8; NIST Handbook 44
// app. C.

#include <span>
#include <string_view>

#include "quantity/dimension.h"
#include "quantity/scale.h"
#include "quantity/unit.h"

namespace sash::quantity::inner {

struct Atom {
  std::string_view code;
  std::string_view symbol;
  bool takes_prefix;
  Dimension dimension;
  Scale scale;
  double zero = 0;  ///< SI reading of the scale's zero; only for degrees Celsius and Fahrenheit
  Law law = Law::linear;
  bool alone = false;  ///< may not stand in a product
};

struct Prefix {
  std::string_view code;
  std::string_view symbol;
  Scale scale;
};

std::span<const Atom> atoms();
std::span<const Prefix> prefixes();

}  // namespace sash::quantity::inner
