#include "narration/inner/ledger.h"

#include <algorithm>

#include "chem/names.h"
#include "narration/inner/relating.h"
#include "quantity/said.h"
#include "quantity/value.h"
#include "support/text.h"

namespace sash::narration {

namespace {

quantity::Said said_of(const model::Reading& r) {
  constexpr quantity::Hedge hedges[] = {quantity::Hedge::exact, quantity::Hedge::about, quantity::Hedge::under,
                                        quantity::Hedge::over, quantity::Hedge::range};
  return {r.value, r.upper, r.digits, hedges[static_cast<std::size_t>(r.hedge)], false};
}

bool ends_sentence(const std::string& text, std::size_t i) {
  const char c = text[i];
  return (c == '.' || c == '!' || c == '?') && (i + 1 == text.size() || text[i + 1] == ' ');
}

/// Words of a name that tell it from others.
std::vector<std::string_view> telling_words(std::string_view substance) {
  constexpr std::size_t letters = 4;
  std::vector<std::string_view> found;
  for (const std::string_view name : split(substance, ' ')) {
    const std::string_view word = name.substr(0, name.find('('));
    if (word.size() >= letters && word != "acid" && word != "solution") found.push_back(word);
  }
  return found;
}

/// As names are spelled here.
std::string respelled(std::string text) {
  return replace_all(replace_all(std::move(text), "sulph", "sulf"), "aluminum", "aluminium");
}

}  // namespace

Ledger::Ledger(const Reading& reading, std::span<const model::NarrationLine> lines)
    : figures_(reading.figures), samples_(samples_of(reading)), sample_(figures_.size(), samples_.size()) {
  for (std::size_t s = 0; s < samples_.size(); ++s) {
    for (const std::size_t m : samples_[s].members) sample_[m] = s;
  }
  std::vector<std::size_t> line_begins;
  for (const model::NarrationLine& line : lines) {
    line_begins.push_back(text_.size());
    text_ += respelled(to_lower(replace_all(line.text, "\n", " "))) + " ";
  }
  for (const SpokenFigure& f : figures_) {
    matter_.push_back(without_water(substance_of(f.subject)));
    const SpokenPiece& piece = f.pieces.front();
    begins_.push_back(piece.line < line_begins.size() ? line_begins[piece.line] + piece.begin : text_.size());
  }
}

const Sample& Ledger::sample_of(std::size_t i) const { return samples_[sample_[i]]; }

bool Ledger::one_sample(std::size_t a, std::size_t b) const {
  return sample_[a] < samples_.size() && sample_[a] == sample_[b];
}

Sized Ledger::sized(std::size_t i) const {
  const SpokenFigure& f = figures_[i];
  const auto unit = quantity::unit_for(f.kind, f.reading.unit);
  if (!unit) return {};
  const quantity::Estimate e = quantity::estimate_of(said_of(f.reading), f.kind, unit->symbol());
  const auto value = quantity::Value::of(e.best, e.spread.standard, *unit);
  return value ? Sized{value->si(), value->si_spread()} : Sized{};
}

bool Ledger::agrees(std::size_t i, const Sized& computed) const {
  constexpr double coverage = 2;  // as the workings judge
  const SpokenFigure& f = figures_[i];
  const auto unit = quantity::unit_for(f.kind, f.reading.unit);
  if (!unit) return false;
  const Sized own = sized(i);
  return std::abs(own.value - computed.value) <= coverage * std::hypot(own.spread, computed.spread) ||
         quantity::agrees_as_rounded(said_of(f.reading), unit->from_si(computed.value));
}

std::optional<Sized> Ledger::molar_mass(const std::string& substance) const {
  if (substance.empty()) return std::nullopt;
  const auto mass = molar_masses_.of(substance);
  return mass ? std::optional(Sized{mass->value / 1000, mass->spread / 1000}) : std::nullopt;
}

std::vector<std::string> Ledger::substances_near(std::size_t i, std::size_t reach) const {
  std::vector<std::string> found;
  const auto add = [&](std::size_t k) {
    const std::string substance = substance_of(figures_[k].subject);
    if (!substance.empty() && std::find(found.begin(), found.end(), substance) == found.end())
      found.push_back(substance);
  };
  add(i);
  for (std::size_t k = i; k-- > 0 && i - k <= reach;) add(k);
  for (std::size_t k = i + 1; k < size() && k <= i + 2; ++k) add(k);
  return found;
}

std::vector<std::size_t> Ledger::before(std::size_t i, std::size_t reach, std::size_t most,
                                        const std::function<bool(std::size_t)>& wanted) const {
  std::vector<std::size_t> found;
  for (std::size_t k = i; k-- > 0 && i - k <= reach && found.size() < most;) {
    if (stands(k) && wanted(k)) found.push_back(k);
  }
  return found;
}

std::vector<std::size_t> Ledger::around(std::size_t i, quantity::Kind wanted) const {
  constexpr std::size_t back = 6;
  constexpr std::size_t ahead = 2;
  std::vector<std::size_t> found;
  for (std::size_t k = i > back ? i - back : 0; k < size() && k <= i + ahead; ++k) {
    if (k != i && stands(k) && kind(k) == wanted) found.push_back(k);
  }
  for (const std::size_t k : sample_of(i).members) {
    if (stands(k) && kind(k) == wanted && std::find(found.begin(), found.end(), k) == found.end()) found.push_back(k);
  }
  return found;
}

std::string Ledger::sentence(std::size_t i) const {
  constexpr std::size_t reach = 160;  // captions may have no full stops at all
  std::size_t begin = std::min(begins_[i], text_.size());
  for (std::size_t n = 0; begin > 0 && n < reach && !ends_sentence(text_, begin - 1); ++n) --begin;
  std::size_t end = begins_[i];
  for (std::size_t n = 0; end < text_.size() && n < reach && !ends_sentence(text_, end); ++n) ++end;
  return text_.substr(begin, end - begin);
}

bool Ledger::sentence_has(std::size_t i, std::string_view word) const {
  return sentence(i).find(word) != std::string::npos;
}

bool Ledger::leads_to(std::size_t i, std::string_view word) const {
  constexpr std::size_t back = 60;
  std::size_t begin = begins_[i] - std::min(begins_[i], back);
  if (i > 0) begin = std::clamp(begins_[i - 1] + figures_[i - 1].text.size(), begin, begins_[i]);
  return std::string_view(text_).substr(begin, begins_[i] - begin).find(word) != std::string_view::npos;
}

bool Ledger::said_close(std::size_t i, std::string_view word) const {
  constexpr std::size_t back = 40;
  constexpr std::size_t ahead = 40;
  const std::size_t begin = begins_[i] - std::min(begins_[i], back);
  return std::string_view(text_).substr(begin, begins_[i] - begin + ahead).find(word) != std::string_view::npos;
}

bool Ledger::sentence_names(std::size_t i, const std::string& substance, const std::string& other) const {
  const std::string words = sentence(i);
  const auto telling = telling_words(substance);
  return std::any_of(telling.begin(), telling.end(), [&](std::string_view word) {
    return other.find(word) == std::string::npos && words.find(word) != std::string::npos;
  });
}

/// By any name it has.
const std::vector<std::size_t>& Ledger::mentions_of(const std::string& substance) const {
  if (!mentions_found_) {
    mentions_found_ = true;
    const std::vector<std::string_view> words = split(text_, ' ');
    const chem::NameBook& names = chem::NameBook::standard();
    for (std::size_t at = 0; at < words.size();) {
      const auto match = words[at].empty() ? std::nullopt : names.find_longest(words, at);
      if (match) {
        const auto place = static_cast<std::size_t>(words[at].data() - text_.data());
        mentions_[without_water(substance_of(match->known.preferred))].push_back(place);
      }
      at += match ? std::max<std::size_t>(match->length, 1) : 1;
    }
  }
  return mentions_[substance];
}

bool Ledger::named_nearby(std::size_t i, const std::string& substance) const {
  constexpr std::size_t back = 600;
  constexpr std::size_t ahead = 120;
  const auto near = [&](std::size_t place) { return place + back >= begins_[i] && place <= begins_[i] + ahead; };
  std::vector<std::size_t> places = mentions_of(without_water(substance));
  // "The acid" is the one that is spoken of.
  if (substance.ends_with(" acid") && sentence_has(i, "acid")) return true;
  for (const std::string_view word : telling_words(substance)) {
    for (std::size_t at = text_.find(word); at != std::string::npos; at = text_.find(word, at + 1))
      places.push_back(at);
  }
  return places.empty() || std::any_of(places.begin(), places.end(), near);
}

const std::vector<std::string>& Ledger::all_named() const {
  mentions_of({});
  if (all_named_.empty()) {
    for (const auto& [substance, places] : mentions_) {
      if (!substance.empty() && !places.empty()) all_named_.push_back(substance);
    }
  }
  return all_named_;
}

std::vector<std::string> Ledger::named_before(std::size_t i) const {
  constexpr std::size_t back = 320;
  std::vector<std::string> found;
  mentions_of({});
  for (const auto& [substance, places] : mentions_) {
    const bool near = std::any_of(places.begin(), places.end(),
                                  [&](std::size_t place) { return place < begins_[i] && place + back >= begins_[i]; });
    if (near && !substance.empty()) found.push_back(substance);
  }
  return found;
}

std::string Ledger::last_named(std::size_t i) const {
  mentions_of({});
  std::string last;
  std::size_t at = 0;
  for (const auto& [substance, places] : mentions_) {
    for (const std::size_t place : places) {
      if (place > begins_[i] || place < at || substance == "water") continue;
      at = place;
      last = substance;
    }
  }
  return last;
}

int Ledger::sentences_between(std::size_t a, std::size_t b) const {
  int count = 0;
  for (std::size_t at = std::min(begins_[a], begins_[b]); at < std::max(begins_[a], begins_[b]) && at < text_.size();
       ++at)
    count += ends_sentence(text_, at) ? 1 : 0;
  return count;
}

}  // namespace sash::narration
