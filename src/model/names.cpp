#include "model/names.h"

#include <algorithm>
#include <array>

namespace sash::model {
namespace {

// One list an enum, in the order of its values.
constexpr std::array<std::string_view, 5> hedges{"exact", "about", "under", "over", "range"};
constexpr std::array<std::string_view, 4> sources{"said", "shown", "read_off", "worked_out"};
constexpr std::array<std::string_view, 9> roles{"measured_out", "added",         "solvent",   "product", "recovered",
                                                "condition",    "stated_result", "remainder", "other"};
constexpr std::array<std::string_view, 4> doubts{"as_said", "stated", "instrument", "assumed_exact"};
constexpr std::array<std::string_view, 3> standings{"proposed", "confirmed", "refused"};
constexpr std::array<std::string_view, 14> routes{"inhalation", "skin",  "eyes",        "ingestion", "burn",
                                                  "cold",       "fire",  "blast",       "pressure",  "cut",
                                                  "electric",   "noise", "environment", "other"};
constexpr std::array<std::string_view, 4> levels{"danger", "warning", "caution", "notice"};
constexpr std::array<std::string_view, 2> deliveries{"shown", "spoken"};
constexpr std::array<std::string_view, 18> relation_types{
    "same_portion", "in_solution", "dilution",     "mixing",          "share",         "total",
    "count_each",   "reaction",    "chain",        "yield",           "gas_given_off", "heat",
    "quench",       "titration",   "electrolysis", "element_balance", "duration",      "equilibrium"};

constexpr const auto& names(Hedge) { return hedges; }
constexpr const auto& names(Source) { return sources; }
constexpr const auto& names(Role) { return roles; }
constexpr const auto& names(Doubt::From) { return doubts; }
constexpr const auto& names(Standing) { return standings; }
constexpr const auto& names(Route) { return routes; }
constexpr const auto& names(Level) { return levels; }
constexpr const auto& names(Delivery) { return deliveries; }
constexpr const auto& names(RelationType) { return relation_types; }

template <class E>
std::string_view nth(E v) {
  return names(v).at(static_cast<std::size_t>(v));
}

}  // namespace

std::string_view name_of(Hedge v) { return nth(v); }
std::string_view name_of(Source v) { return nth(v); }
std::string_view name_of(Role v) { return nth(v); }
std::string_view name_of(Doubt::From v) { return nth(v); }
std::string_view name_of(Standing v) { return nth(v); }
std::string_view name_of(Route v) { return nth(v); }
std::string_view name_of(Level v) { return nth(v); }
std::string_view name_of(Delivery v) { return nth(v); }
std::string_view name_of(RelationType v) { return nth(v); }

template <class E>
std::optional<E> from_name(std::string_view name) {
  const auto& list = names(E{});
  const auto it = std::find(list.begin(), list.end(), name);
  if (it == list.end()) return std::nullopt;
  return static_cast<E>(it - list.begin());
}

template <class E>
std::vector<std::string_view> all_names() {
  const auto& list = names(E{});
  return {list.begin(), list.end()};
}

#define SASH_NAMED(E)                                            \
  template std::optional<E> from_name<E>(std::string_view name); \
  template std::vector<std::string_view> all_names<E>();
SASH_NAMED(Hedge)
SASH_NAMED(Source)
SASH_NAMED(Role)
SASH_NAMED(Doubt::From)
SASH_NAMED(Standing)
SASH_NAMED(Route)
SASH_NAMED(Level)
SASH_NAMED(Delivery)
SASH_NAMED(RelationType)
#undef SASH_NAMED

}  // namespace sash::model
