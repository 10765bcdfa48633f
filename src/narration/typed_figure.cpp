#include "narration/typed_figure.h"

#include <algorithm>
#include <array>

#include "chem/names.h"
#include "quantity/trade_unit.h"
#include "support/text.h"

namespace sash::narration {
namespace {

using model::Hedge;
using quantity::Kind;

bool is_digit(char c) { return c >= '0' && c <= '9'; }

struct HedgeWord {
  std::string_view words;
  Hedge hedge;
};
constexpr std::array<HedgeWord, 15> hedge_words{{{"just over", Hedge::over},
                                                 {"more than", Hedge::over},
                                                 {"at least", Hedge::over},
                                                 {"less than", Hedge::under},
                                                 {"just under", Hedge::under},
                                                 {"about", Hedge::about},
                                                 {"around", Hedge::about},
                                                 {"roughly", Hedge::about},
                                                 {"approximately", Hedge::about},
                                                 {"ca.", Hedge::about},
                                                 {"~", Hedge::about},
                                                 {"\u2248", Hedge::about},
                                                 {"over", Hedge::over},
                                                 {"under", Hedge::under},
                                                 {"exactly", Hedge::exact}}};

class Reader {
 public:
  explicit Reader(std::string_view text) : text_(text) {}

  Outcome<TypedFigure> read() {
    while (at_ < text_.size()) {
      skip_blanks();
      if (at_ >= text_.size()) break;
      if (take_hedge() || take_leading_ph()) continue;
      if (starts_number()) {
        if (auto fault = take_quantity()) return *fault;
      } else {
        take_word();
      }
    }
    if (out_.quantities.empty()) {
      return Fault::of(Code::malformed,
                       "There is no quantity in '" + std::string(text_) +
                           "'; type a number and its unit, for example '20 mL 6 M nitric acid'.",
                       std::string(text_));
    }
    name_subject();
    return std::move(out_);
  }

 private:
  void skip_blanks() {
    for (;;) {
      while (at_ < text_.size() && (text_[at_] == ' ' || text_[at_] == '\t' || text_[at_] == ',' || text_[at_] == ';'))
        ++at_;
      if (text_.substr(at_).starts_with("\u00A0") || text_.substr(at_).starts_with("\u2009") ||
          text_.substr(at_).starts_with("\u202F")) {
        at_ += text_.substr(at_).starts_with("\u00A0") ? 2 : 3;
        continue;
      }
      return;
    }
  }

  bool take_hedge() {
    const auto rest = text_.substr(at_);
    for (const auto& [words, hedge] : hedge_words) {
      if (!starts_with_no_case(rest, words)) continue;
      const char last = words.back();
      const bool letter = last >= 'a' && last <= 'z';
      if (letter && rest.size() > words.size() && rest[words.size()] != ' ') continue;
      hedge_ = hedge;
      at_ += words.size();
      return true;
    }
    return false;
  }

  bool take_leading_ph() {
    const auto rest = text_.substr(at_);
    if (!rest.starts_with("pH") && !starts_with_no_case(rest, "ph ")) return false;
    at_ += 2;
    leading_ph_ = true;
    skip_blanks();
    if (starts_with_no_case(text_.substr(at_), "of ")) at_ += 3;
    return true;
  }

  bool starts_number() const {
    std::size_t i = at_;
    if (text_[i] == '-' || text_[i] == '+') ++i;
    if (text_.substr(i).starts_with("\u2212")) i += 3;
    if (i < text_.size() && text_[i] == '.') ++i;
    return i < text_.size() && is_digit(text_[i]);
  }

  // Digits as typed, with '.' as decimal mark; a comma before one or two digits, or after a 0, is a decimal mark too.
  std::optional<std::string> take_digits() {
    std::string digits;
    if (text_.substr(at_).starts_with("\u2212")) {
      digits = "-";
      at_ += 3;
    } else if (at_ < text_.size() && (text_[at_] == '-' || text_[at_] == '+')) {
      if (text_[at_] == '-') digits = "-";
      ++at_;
    }
    const std::size_t start = digits.size();
    while (at_ < text_.size()) {
      const char c = text_[at_];
      const bool digit_next = at_ + 1 < text_.size() && is_digit(text_[at_ + 1]);
      if (is_digit(c)) {
        digits += c;
      } else if (c == '.' && digit_next && digits.find('.') == std::string::npos) {
        digits += c;
      } else if (c == ',' && digit_next && groups_thousands()) {
        // a mark between groups of three says nothing
      } else if (c == ',' && digit_next && digits.find('.') == std::string::npos) {
        digits += '.';
      } else {
        break;
      }
      ++at_;
    }
    if (digits.size() == start) return std::nullopt;
    take_exponent(digits);
    return digits;
  }

  bool groups_thousands() const {
    std::size_t n = 0;
    for (std::size_t i = at_ + 1; i < text_.size() && is_digit(text_[i]); ++i) ++n;
    return n == 3 && at_ > 0 && text_[at_ - 1] != '0';
  }

  void take_exponent(std::string& digits) {
    const auto rest = text_.substr(at_);
    if (rest.size() < 2 || (rest[0] != 'e' && rest[0] != 'E')) return;
    const std::size_t sign = rest[1] == '-' || rest[1] == '+' ? 1 : 0;
    if (rest.size() <= 1 + sign || !is_digit(rest[1 + sign])) return;
    std::size_t n = 1 + sign;
    while (n < rest.size() && is_digit(rest[n])) ++n;
    digits += std::string(rest.substr(0, n));
    at_ += n;
  }

  // "3-5", "3 to 5", "3 – 5"
  std::optional<std::string> take_upper_end() {
    const std::size_t before = at_;
    skip_blanks();
    for (const std::string_view between : {"to ", "-", "\u2013", "or "}) {
      if (!text_.substr(at_).starts_with(between)) continue;
      at_ += between.size();
      skip_blanks();
      if (at_ < text_.size() && is_digit(text_[at_])) return take_digits();
      break;
    }
    at_ = before;
    return std::nullopt;
  }

  std::optional<double> take_plus_minus() {
    const std::size_t before = at_;
    skip_blanks();
    for (const std::string_view mark : {"\u00B1", "+/-", "+-"}) {
      if (!text_.substr(at_).starts_with(mark)) continue;
      at_ += mark.size();
      skip_blanks();
      if (const auto digits = take_digits()) return read_number(*digits);
    }
    at_ = before;
    return std::nullopt;
  }

  // The longest run of up to four words that is a unit; a new number begins a new quantity.
  std::optional<quantity::TradeUnit> take_unit() {
    skip_blanks();
    std::array<std::size_t, 4> ends{};
    std::size_t words = 0;
    for (std::size_t i = at_; i < text_.size() && words < ends.size() && !(words > 0 && is_digit(text_[i]));) {
      while (i < text_.size() && text_[i] != ' ' && text_[i] != ',' && text_[i] != ';') ++i;
      ends[words++] = i;
      while (i < text_.size() && text_[i] == ' ') ++i;
    }
    while (words > 0) {
      const auto candidate = text_.substr(at_, ends[--words] - at_);
      // "C" or "in" may begin a name; a unit is taken only when what stands there is one in the trade.
      if (const auto unit = quantity::read_trade_unit(candidate)) {
        at_ = ends[words];
        return *unit;
      }
    }
    return std::nullopt;
  }

  std::optional<Fault> take_quantity() {
    const std::size_t start = at_;
    TypedQuantity q;
    const auto lower = take_digits();
    if (!lower)
      return Fault::of(Code::malformed, "'" + std::string(text_.substr(at_)) + "' is not a number.",
                       std::string(text_));
    std::optional<double> value = read_number(*lower);
    if (!value)
      return Fault::of(Code::out_of_range, "The number '" + *lower + "' is too large or too small to use.", *lower);
    q.reading.value = *value;
    q.reading.digits = *lower;
    q.reading.hedge = hedge_.value_or(Hedge::exact);
    if (const auto upper = take_upper_end()) {
      q.reading.upper = read_number(*upper);
      q.reading.hedge = Hedge::range;
      if (q.reading.upper && *q.reading.upper < q.reading.value) std::swap(*q.reading.upper, q.reading.value);
    }
    q.plus_minus = take_plus_minus();
    if (leading_ph_) {
      q.kind = Kind::pH;
      q.reading.unit = "[pH]";
    } else if (const auto unit = take_unit()) {
      q.reading.unit = unit->unit.code();
      q.kind = unit->kind ? *unit->kind : quantity::kind_implied_by(unit->unit).value_or(Kind::other);
    } else {
      q.reading.unit = "1";
      q.kind = Kind::count;
    }
    if (!q.plus_minus) q.plus_minus = take_plus_minus();
    q.text = std::string(trim(text_.substr(start, at_ - start)));
    hedge_.reset();
    leading_ph_ = false;
    out_.quantities.push_back(std::move(q));
    return std::nullopt;
  }

  void take_word() {
    const std::size_t start = at_;
    while (at_ < text_.size() && text_[at_] != ' ') ++at_;
    if (at_ == start) ++at_;
    words_.push_back(text_.substr(start, at_ - start));
  }

  // Words that say what the number is rather than what it is of.
  void name_subject() {
    std::string subject;
    bool yield = false;
    bool excess = false;
    for (const auto word : words_) {
      const std::string lower = to_lower(word);
      if (lower == "yield" || lower == "yields") {
        yield = true;
      } else if (lower == "excess") {
        excess = true;
      } else if (lower != "of" && lower != "a" && lower != "the" && lower != "=" && lower != ":" && lower != "is") {
        subject += (subject.empty() ? "" : " ") + std::string(word);
      }
    }
    for (auto& q : out_.quantities) {
      if (q.reading.unit != "%") continue;
      if (yield) {
        q.kind = Kind::percent_yield;
      } else if (excess) {
        q.kind = Kind::percent_other;
      } else if (q.kind == Kind::other || q.kind == Kind::percent_other) {
        q.kind = subject.empty() ? Kind::percent_other : Kind::mass_percent;
      }
    }
    if (subject.empty()) return;
    const auto known = chem::normalise_name(subject);
    out_.subject = known ? known->preferred : subject;
    if (known && !known->candidates.empty() && !known->formula) {
      out_.question = "'" + subject + "' could be " + join(known->candidates, " or ") + "; say which.";
      out_.subject = subject;
    }
  }

  std::string_view text_;
  std::size_t at_ = 0;
  std::optional<Hedge> hedge_;
  bool leading_ph_ = false;
  std::vector<std::string_view> words_;
  TypedFigure out_;
};

}  // namespace

bool is_strength(Kind kind) {
  switch (kind) {
    case Kind::molar_concentration:
    case Kind::mass_concentration:
    case Kind::molality:
    case Kind::mass_percent:
    case Kind::volume_percent:
    case Kind::mass_volume_percent:
    case Kind::density:
      return true;
    default:
      return false;
  }
}

Outcome<TypedFigure> read_typed_figure(std::string_view text) { return Reader(trim(text)).read(); }

}  // namespace sash::narration
