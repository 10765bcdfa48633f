// Duration: a stated time against the time code of the footage.
#include <cmath>

#include "support/text.h"
#include "workings/relations/kinds.h"

namespace sash::workings {
namespace {

using quantity::Kind;

// A pin sits where somebody pressed a key; taken as plus-minus half a second at each end (common practice, no source).
constexpr double pin_spread = 0.5 / 1.7320508075688772;

// "1:02:03.5" or "12:34" as seconds.
std::optional<double> read_time(std::string_view text) {
  double seconds = 0;
  const auto parts = split(trim(text), ':');
  if (parts.size() > 3) return std::nullopt;
  for (const auto part : parts) {
    const auto number = read_number(trim(part));
    if (!number || *number < 0) return std::nullopt;
    seconds = seconds * 60 + *number;
  }
  return seconds;
}

class Duration final : public RelationKind {
 public:
  std::string_view label() const override { return "duration"; }
  std::span<const Slot> slots() const override {
    static const std::vector<Slot> slots{{"stated", "stated time", {Kind::duration}}};
    return slots;
  }

  void draft(Drafting& d) const override {
    const auto stated = d.figure("stated", {quantity::dimension::time});
    if (!stated) return d.missing("the stated time");
    d.aim(stated->quantity);
    const model::Place& place = stated->value->figure->place;
    const auto from = time_of(d, "from", place.from);
    const auto until = time_of(d, "until", place.until);
    if (!from || !until) return;
    if (!(*until > *from)) return d.missing("an end after the beginning");
    const std::size_t shown =
        d.constant("shown " + std::to_string(d.relation().id.number), "time between the pins",
                   Piece::of_symbol("t", "footage"), Kind::duration, quantity::default_unit(Kind::duration),
                   *until - *from, std::hypot(pin_spread, pin_spread), "time code of the footage");
    d.product("the stated time and the time code", {{stated->quantity, -1}, {shown, 1}});
    d.note("Footage that was cut or sped up shows less time than passed.");
  }

 private:
  static std::optional<double> time_of(Drafting& d, const std::string& key, std::optional<Moment> pinned) {
    if (const auto text = d.given(key)) {
      const auto seconds = read_time(*text);
      if (!seconds) d.missing("a time such as 12:34.5 for “" + key + "”");
      return seconds;
    }
    if (pinned) return pinned->in_seconds();
    d.missing("where it " + std::string(key == "from" ? "begins" : "ends") + " in the footage");
    return std::nullopt;
  }
};

}  // namespace

const RelationKind& duration() {
  static const Duration kind;
  return kind;
}

}  // namespace sash::workings
