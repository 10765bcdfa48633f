#include "narration/inner/phrase.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "narration/inner/unit_words.h"
#include "narration/inner/word_set.h"

namespace sash::narration {

namespace {

using quantity::Kind;

constexpr WordSet<12> fillers = {
    {"more", "extra", "further", "other", "additional", "full", "whole", "good", "big", "small", "level", "solid"}};

/// Past words that may stand between a number and its unit, and past the hyphen of "a 20-minute wait".
std::size_t past_fillers(const TokenStream& s, std::size_t at) {
  if (s.is(at, "-") && s[at].glued && at + 1 < s.size() && s[at + 1].glued) return at + 1;
  std::size_t p = at;
  constexpr WordSet hesitating{"yeah", "uh", "um", "er", "yes"};
  if (hesitating.has(s.text(p)) && !s.is(p + 1, "so")) ++p;
  for (int i = 0; i < 2 && fillers.has(s.text(p)); ++i) ++p;
  if (s.is(p, "or") && s.is(p + 1, "so")) p += 2;
  return p;
}

bool is_digits(const TokenStream& s, std::size_t at) { return s.is_type(at, Token::Type::number); }

std::optional<SpokenUnit> unit_at(const TokenStream& s, std::size_t at) {
  const std::size_t p = past_fillers(s, at);
  return read_spoken_unit(s, p, at > 0 && is_digits(s, at - 1) && p <= at + 1);
}

/// "(half) a mil", "(a quarter) of an hour", "(half) mil", "(point eight) of a liter".
std::optional<SpokenUnit> unit_behind_share(const TokenStream& s, std::size_t at) {
  std::size_t p = at;
  const bool of = s.is(p, "of");
  if (of) ++p;
  const bool article = s.is(p, "a") || s.is(p, "an") || s.is(p, "one");
  if (article) ++p;
  if (of && !article) return std::nullopt;  // "half of drops": a share of something
  return read_spoken_unit(s, p, false);
}

bool is_dash(const TokenStream& s, std::size_t at) { return s.is(at, "-") || s.is(at, "\u2013") || s.is(at, "\u2014"); }

struct SecondNumber {
  SpokenNumber number;
  std::optional<SpokenUnit> first_unit;  ///< "70 degrees to 80 degrees"
};

/// The upper end of a range behind the first number (or its unit).
std::optional<SecondNumber> range_end(const TokenStream& s, const SpokenNumber& low, bool between) {
  std::size_t p = low.last;
  std::optional<SpokenUnit> first_unit;
  const auto joins = [&](std::size_t at) {
    return s.is(at, "to") || s.is(at, "or") || is_dash(s, at) || (between && s.is(at, "and"));
  };
  if (!joins(p)) {
    first_unit = read_spoken_unit(s, p, is_digits(s, p - 1));
    if (!first_unit || !joins(first_unit->last)) return std::nullopt;
    p = first_unit->last;
  }
  ++p;
  if (s.is(p, "maybe") || s.is(p, "even") || s.is(p, "possibly") || s.is(p, "about")) ++p;
  const auto high = read_spoken_number(s, p);
  if (!high || high->value <= low.value || high->value > low.value * 1000 + 10) return std::nullopt;
  return SecondNumber{*high, first_unit};
}

/// "(a day) or two": the number that makes a range of one unit. 0 when there is none.
std::size_t or_two(const TokenStream& s, std::size_t at, double& upper) {
  if (!s.is(at, "or")) return 0;
  const auto high = read_spoken_number(s, at + 1);
  if (!high || high->fraction || high->decimal || high->value < 2 || high->value > 4) return 0;
  if (read_spoken_unit(s, high->last, is_digits(s, high->last - 1))) return 0;  // "a gram or two grams"
  upper = high->value;
  return high->last;
}

/// "± 0.01", "plus or minus a tenth": half the width of what is stated, and the token behind it.
struct PlusMinus {
  double half_width;
  std::size_t last;
};
std::optional<PlusMinus> plus_minus(const TokenStream& s, std::size_t at) {
  if (s.is(at, "±") || s.is(at, "+/-")) {
    ++at;
  } else if (s.is(at, "plus") && (s.is(at + 1, "or") || s.is(at + 1, "and")) && s.is(at + 2, "minus")) {
    at += 3;
  } else if (s.is(at, "plus") && s.is(at + 1, "minus")) {
    at += 2;
  } else {
    return std::nullopt;
  }
  const auto number = read_spoken_number(s, at);
  if (!number || number->value <= 0) return std::nullopt;
  return PlusMinus{number->value, number->last};
}

void take_unit(Phrase& p, const SpokenUnit& unit) {
  p.unit = unit.unit;
  p.kind = unit.kind;
  p.bare_degrees = unit.bare_degrees;
  p.misheard = unit.misheard;
  p.unit_said = true;
  p.last = unit.last;
}

/// "1 hour 20 minutes", "two minutes and thirty seconds": one duration in the smaller unit.
void join_durations(const TokenStream& s, Phrase& p) {
  constexpr std::array<std::string_view, 3> order = {"h", "min", "s"};
  const auto rank = [&](std::string_view unit) {
    return static_cast<std::size_t>(std::find(order.begin(), order.end(), unit) - order.begin());
  };
  const std::size_t mine = rank(p.unit);
  if (p.kind != Kind::duration || mine >= 2 || p.upper) return;
  std::size_t at = p.last;
  if (s.is(at, "and") || s.is(at, ",")) ++at;
  const auto number = read_spoken_number(s, at);
  if (!number || number->fraction) return;
  const auto unit = unit_at(s, number->last);
  if (!unit || rank(unit->unit) != mine + 1 || number->value >= 60) return;
  p.value = p.value * 60 + number->value;
  p.digits.clear();
  p.unit = unit->unit;
  p.number_last = number->last;
  p.last = unit->last;
}

bool is_between(const TokenStream& s, std::size_t at) {
  for (std::size_t back = 1; back <= 3 && back <= at; ++back) {
    const std::string_view word = s.text(at - back);
    if (word == "between") return true;
    if (word != "about" && word != "somewhere" && word != "around" && word != "say") return false;
  }
  return false;
}

Phrase of_number(const SpokenNumber& n) {
  Phrase p;
  p.first = n.first;
  p.last = p.number_last = n.last;
  p.number = n;
  p.value = n.value;
  p.digits = n.digits;
  p.fraction = n.fraction;
  return p;
}

/// "it went from 22 to 39", "warmed itself from 17 degrees to 51": where it began and where it ended, no range.
bool is_way(const TokenStream& s, std::size_t at) {
  constexpr WordSet moving{"went",    "goes",   "go",      "gone",   "climbed", "climbs", "rose",    "rises",  "risen",
                           "dropped", "drops",  "fell",    "falls",  "fallen",  "warmed", "warms",   "cooled", "cools",
                           "heated",  "jumped", "jumps",   "came",   "comes",   "come",   "crept",   "creeps", "moved",
                           "taken",   "took",   "up",      "down",   "changed", "itself", "shot",    "gained", "shrank",
                           "swung",   "sank",   "brought", "rising", "falling", "going",  "climbing"};
  if (at == 0 || !s.is(at - 1, "from")) return false;
  for (std::size_t back = 2; back <= 5 && back <= at; ++back) {
    if (moving.has(s.text(at - back))) return true;
  }
  return false;
}

void take_range(const TokenStream& s, Phrase& p) {
  const auto high = range_end(s, p.number, is_between(s, p.first));
  if (!high || is_way(s, p.first)) return;
  const auto unit = unit_at(s, high->number.last);
  if (high->first_unit && unit && unit->unit != high->first_unit->unit) return;
  const bool words = p.number.article;
  if (words) return;
  // Two numbers without a unit are a ratio or a coincidence, unless a dash or "between" joins them; later passes may
  // still give the pair a unit.
  p.upper = high->number.value;
  p.digits = p.digits.empty() || high->number.digits.empty() ? "" : p.digits;
  p.hedge = model::Hedge::range;
  p.last = p.number_last = high->number.last;
  if (unit) {
    take_unit(p, *unit);
  } else if (high->first_unit) {
    p.unit = high->first_unit->unit;
    p.kind = high->first_unit->kind;
    p.bare_degrees = high->first_unit->bare_degrees;
    p.unit_said = true;
  }
}

std::optional<Phrase> read_pH(const TokenStream& s, std::size_t at) {
  std::size_t p = at;
  if (s.is(p, "ph")) {
    ++p;
  } else if (s.is(p, "p") && s.is(p + 1, "h")) {
    p += 2;
  } else {
    return std::nullopt;
  }
  if (s.is(p, "of") || s.is(p, "=")) ++p;
  const auto number = read_spoken_number(s, p);
  if (!number || number->fraction || number->value > 16 || number->value < -2) return std::nullopt;
  Phrase out = of_number(*number);
  take_range(s, out);
  if (out.unit_said) return std::nullopt;  // "pH, 5 mL of"
  out.first = at;
  out.unit = "[pH]";
  out.kind = Kind::pH;
  out.unit_said = true;
  return out;
}

}  // namespace

std::optional<Phrase> read_phrase(const TokenStream& s, std::size_t at) {
  if (auto acidity = read_pH(s, at)) return acidity;
  auto number = read_spoken_number(s, at);
  if (!number) number = read_article(s, at);
  if (!number) {
    // "add to mils": "two" written as it sounds, where nothing but a number can stand.
    const bool sounds_like_two = s.is(at, "too") || (s.is(at, "to") && at > 0 && s.is_type(at - 1, Token::Type::word));
    const bool sounds_like_four = s.is(at, "for");
    if (!sounds_like_two && !sounds_like_four) return std::nullopt;
    const auto unit = read_spoken_unit(s, at + 1, false);
    if (!unit || !unit->plural || unit->kind == Kind::duration || unit->kind == Kind::other || unit->bare_degrees) {
      return std::nullopt;
    }
    if (!s.is(unit->last, "of")) return std::nullopt;
    SpokenNumber heard;
    heard.first = at;
    heard.last = at + 1;
    heard.value = sounds_like_four ? 4 : 2;
    heard.digits = sounds_like_four ? "4" : "2";
    Phrase p = of_number(heard);
    take_unit(p, *unit);
    p.misheard = true;
    return p;
  }

  Phrase p = of_number(*number);
  const bool share = number->fraction || (number->decimal && s.is(number->last, "of"));
  if (share) {
    if (const auto unit = unit_behind_share(s, number->last)) {
      take_unit(p, *unit);
      p.fraction = false;
      return p;
    }
    if (number->fraction) {
      if (const auto unit = unit_at(s, number->last); unit && !s.is(number->last, "more")) {
        take_unit(p, *unit);
        p.fraction = false;
        return p;
      }
      return p;
    }
  }
  const bool couple = number->vague && s.is(number->last, "of");  // "a couple of hours"
  const auto unit = unit_at(s, number->last + (couple ? 1 : 0));
  if (number->article && !unit) return std::nullopt;
  if (!number->article) take_range(s, p);
  if (p.upper) return p;
  if (const auto width = plus_minus(s, number->last)) {
    if (const auto behind = unit_at(s, width->last)) {
      p.half_width = width->half_width;
      take_unit(p, *behind);
      return p;
    }
  }
  if (!unit) return p;
  take_unit(p, *unit);
  if (const auto width = plus_minus(s, p.last)) {
    const auto same = unit_at(s, width->last);
    if (!same || same->unit == p.unit) {
      p.half_width = width->half_width;
      p.last = same ? same->last : width->last;
      return p;
    }
  }
  if (const auto tail = read_fraction_tail(s, p.last); tail && p.value < 100 && !number->decimal) {
    p.value += tail->value;
    p.digits.clear();
    p.last = p.number_last = tail->last;
  } else if (double upper = 0; number->article || p.value == 1) {
    if (const std::size_t last = or_two(s, p.last, upper); last != 0) {
      p.upper = upper;
      p.hedge = model::Hedge::range;
      p.digits.clear();
      p.last = last;
    }
  }
  join_durations(s, p);
  return p;
}

std::vector<Phrase> find_phrases(const TokenStream& s, const std::vector<bool>& blocked) {
  std::vector<Phrase> found;
  for (std::size_t i = 0; i < s.size();) {
    if (blocked[i]) {
      ++i;
      continue;
    }
    auto phrase = read_phrase(s, i);
    if (!phrase) {
      ++i;
      continue;
    }
    const std::size_t last =
        phrase->unit == "mm[Hg]" || phrase->unit == "[in_i'Hg]" ? phrase->number_last : phrase->last;
    for (std::size_t k = phrase->first; k < last; ++k) {
      if (blocked[k]) phrase->last = 0;
    }
    if (phrase->last == 0) {
      ++i;
      continue;
    }
    i = phrase->last;
    found.push_back(std::move(*phrase));
  }
  return found;
}

}  // namespace sash::narration
