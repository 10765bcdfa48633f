#include "narration/inner/mention.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "chem/names.h"
#include "narration/inner/everyday.h"
#include "narration/inner/heard_names.h"
#include "narration/inner/materials.h"
#include "narration/inner/mention_meaning.h"
#include "narration/inner/name_ending.h"
#include "narration/inner/name_kind.h"
#include "narration/inner/word_set.h"

namespace sash::narration {

namespace {

/// The words as the name book wants them: parted by white space, with their punctuation; and which tokens each covers.
struct Pieces {
  std::vector<std::string_view> words;
  std::vector<std::size_t> first_token;  ///< per word, one more at the end
  std::vector<std::size_t> word_of;      ///< per token
};

Pieces pieces_of(const TokenStream& s, std::span<const model::NarrationLine> lines) {
  Pieces out;
  out.word_of.resize(s.size());
  std::uint32_t line = 0;
  std::uint32_t begin = 0;
  std::uint32_t end = 0;
  const auto close = [&] {
    if (!out.first_token.empty()) out.words.push_back(std::string_view(lines[line].text).substr(begin, end - begin));
  };
  for (std::size_t i = 0; i < s.size(); ++i) {
    if (!s[i].glued || out.first_token.empty() || s[i].line != line) {
      close();
      out.first_token.push_back(i);
      line = s[i].line;
      begin = s[i].begin;
    }
    end = s[i].end;
    out.word_of[i] = out.first_token.size() - 1;
  }
  close();
  out.first_token.push_back(s.size());
  return out;
}

/// "CuSO4" is meant as a formula, "up" and "so" are not, though they could be read as one.
bool is_plainly_formula(std::string_view written) {
  std::size_t capitals = 0;
  std::size_t digits = 0;
  for (const char c : written) {
    capitals += c >= 'A' && c <= 'Z' ? 1 : 0;
    digits += c >= '0' && c <= '9' ? 1 : 0;
  }
  return (capitals >= 2 && written.size() > 2) || (digits > 0 && capitals + digits >= 2) ||
         (digits > 0 && written.size() > 3);
}

/// "H two S O four": letters and numbers only. "up to" is none.
bool is_spelled_out(const TokenStream& s, std::size_t first, std::size_t last) {
  constexpr WordSet numbers{"two", "three", "four", "five", "six", "seven", "eight", "to", "too", "for"};
  std::size_t letters = 0;
  for (std::size_t i = first; i < last; ++i) {
    const bool letter = s[i].type == Token::Type::word && s.text(i).size() == 1;
    letters += letter ? 1 : 0;
    const bool number = s[i].type == Token::Type::number || numbers.has(s.text(i));
    if (!letter && !number && !(s[i].type == Token::Type::word && is_plainly_formula(s[i].raw))) return false;
  }
  return letters > 0;
}

/// "4-aminophenol"
bool is_locant(const TokenStream& s, std::size_t at) {
  return s[at].type == Token::Type::number && s.is(at + 1, "-") && s[at + 1].glued &&
         s.is_type(at + 2, Token::Type::word) && s[at + 2].glued;
}

/// What the name book says of the words at a token.
struct Booked {
  chem::KnownName known;
  std::size_t last = 0;  ///< the token behind the name
};

/// Finds the mentions one after the other.
class Finder {
 public:
  Finder(const TokenStream& s, std::span<const model::NarrationLine> lines) : s_(s), pieces_(pieces_of(s, lines)) {}

  std::vector<Mention> run() {
    for (std::size_t i = 0; i < s_.size();) {
      const bool may_begin = s_[i].type == Token::Type::word || is_locant(s_, i);
      i = may_begin ? take(i) : i + 1;
    }
    heard_.recognise_again(s_, found_);
    return std::move(found_);
  }

 private:
  /// The name in the book that begins at `at`, where it is meant as one.
  std::optional<Booked> booked(std::size_t at) const {
    if (pieces_.first_token[pieces_.word_of[at]] != at || is_common_word(s_.text(at))) return std::nullopt;
    auto match = chem::NameBook::standard().find_longest(pieces_.words, pieces_.word_of[at]);
    if (!match) return std::nullopt;
    std::size_t last = pieces_.first_token[pieces_.word_of[at] + match->length];
    // The last word may carry its comma or full stop.
    while (last > at + 1 && s_[last - 1].type == Token::Type::sign && s_[last - 1].text != ")") --last;
    return Booked{std::move(match->known), last};
  }

  bool is_plain(const Booked& name, std::size_t at) const {
    const bool formula = name.last > at + 1 ? is_spelled_out(s_, at, name.last) : is_plainly_formula(s_[at].raw);
    return !name.known.doubtful && (name.known.reading == chem::NameReading::name || formula) &&
           (!is_locant(s_, at) || name.last > at + 2);
  }

  /// Takes the mention at `at`, if there is one; the token to go on at.
  std::size_t take(std::size_t at) {
    std::size_t material_last = at;
    const Material* material = Materials::all().longest(s_, at, material_last);
    std::optional<Booked> name = booked(at);
    const std::size_t name_last = name ? name->last : at;
    if (material != nullptr && material->has('n') && material_last >= name_last) return material_last;
    std::size_t heard_last = at;
    const Material* sounding = is_locant(s_, at) ? nullptr : heard_material(s_, at, heard_last);
    if (sounding != nullptr && heard_last <= std::max(name_last, material_last)) {
      sounding = nullptr;  // as it is written it says at least as much
      heard_last = at;
    }
    if (name && is_plain(*name, at) && name_last > material_last && heard_last <= name_last &&
        !is_everyday(s_, at, name_last)) {
      add_booked(*name, at);
    } else if (material != nullptr && !is_everyday(s_, at, material_last) && heard_last <= material_last) {
      if (material->has('m') && !material->has('l') && is_likened(s_, at)) return material_last;
      found_.push_back(mention_of(*material, at, material_last));
    } else if (sounding != nullptr) {
      found_.push_back(mention_of(*sounding, at, heard_last));
      heard_.learn(s_, at, heard_last, *sounding);
    } else if (const std::size_t last = name_by_ending(s_, at); last != 0) {
      add_unlisted(at, last);
    } else {
      return at + 1;
    }
    return behind();
  }

  void add_booked(const Booked& name, std::size_t at) {
    Mention m;
    m.first = at;
    m.last = name.last;
    m.name = name.known.preferred;
    m.mixture = name.known.is_mixture;
    m.solution = name.known.is_solution_word;
    set_kind_by_name(m);
    found_.push_back(std::move(m));
  }

  void add_unlisted(std::size_t first, std::size_t last) {
    Mention m;
    m.first = first;
    m.last = last;
    for (std::size_t k = first; k < last; ++k) {
      m.name += (k > first && !s_[k].glued ? " " : "") + std::string(s_.text(k));
    }
    set_kind_by_name(m);
    found_.push_back(std::move(m));
  }

  /// The token behind the last mention, with what is said of its solution.
  std::size_t behind() {
    Mention& m = found_.back();
    if (s_.is(m.last, "solution")) m.solution = true;
    // "borax water": its solution.
    if (s_.is(m.last, "water") && !s_.is(m.last + 1, "bath") && m.dissolves && !m.generic) {
      m.solution = true;
      ++m.last;
    }
    return m.last;
  }

  const TokenStream& s_;
  Pieces pieces_;
  std::vector<Mention> found_;
  HeardNames heard_;
};

}  // namespace

std::vector<Mention> find_mentions(const TokenStream& s, std::span<const model::NarrationLine> lines) {
  std::vector<Mention> found = Finder(s, lines).run();
  settle_mentions(s, found);
  return found;
}

}  // namespace sash::narration
