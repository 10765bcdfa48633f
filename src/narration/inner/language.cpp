#include "narration/inner/language.h"

#include <algorithm>
#include <array>
#include <set>
#include <string>
#include <string_view>

#include "support/text.h"

namespace sash::narration {

namespace {

/// Common English words that are no common words of the other languages of Europe. Sorted.
constexpr std::array<std::string_view, 36> common = {
    "and",  "are", "as",    "at",   "be",   "but",  "for", "from", "get",  "have", "here", "if",
    "into", "is",  "it",    "it's", "just", "not",  "now", "of",   "on",   "or",   "put",  "so",
    "that", "the", "there", "this", "to",   "want", "was", "we",   "what", "with", "you",  "your"};
static_assert(std::is_sorted(common.begin(), common.end()));

/// Common words of German, French, Spanish, Portuguese, Italian, Dutch, the Nordic languages, Polish, Czech, Romanian,
/// Hungarian, Croatian, Turkish and Indonesian that are neither English nor the symbol of an element or a unit. Sorted.
// clang-format off
constexpr std::array<std::string_view, 291> foreign = {
    "aan", "aber", "acum", "adalah", "adesso", "af", "agora", "ahora", "akan", "ali", "alors", "als", "ama", "anche",
    "att", "auch", "auf", "aus", "aux", "av", "avec", "az", "až", "bei", "bij", "bir", "bo", "bu", "być", "cette",
    "che", "com", "como", "cosa", "cuando", "czy", "că", "daha", "dari", "das", "dass", "dat", "de", "dei", "del",
    "della", "delle", "dem", "den", "dengan", "der", "des", "det", "deze", "değil", "di", "din", "dit", "dla",
    "donde", "door", "du", "där", "då", "een", "egy", "ei", "ein", "eine", "einen", "einer", "el", "ela", "ele",
    "ella", "elle", "en", "então", "esse", "est", "esta", "este", "esto", "está", "et", "ett", "että", "ez", "facem",
    "fra", "från", "för", "gdy", "gibi", "gli", "haben", "har", "hay", "het", "hier", "hogy", "hän", "här", "ich",
    "ihr", "ik", "ikke", "il", "ile", "ils", "ini", "inte", "io", "isso", "ist", "isto", "itt", "itu", "iz", "için",
    "jag", "jak", "je", "jeg", "jest", "jetzt", "jos", "jsme", "jsou", "już", "já", "kako", "kami", "kan", "kann",
    "když", "kell", "kita", "kun", "la", "las", "le", "les", "leur", "lo", "loro", "los", "maar", "maintenant",
    "mais", "mamy", "med", "meg", "met", "mit", "mitä", "molto", "muito", "mutta", "muy", "myös", "máme", "már",
    "más", "még", "naar", "nach", "nebo", "nel", "nella", "nem", "není", "nicht", "nie", "niet", "niin", "nije",
    "noch", "nog", "nos", "nous", "nu", "numa", "nyt", "não", "nós", "och", "od", "oder", "og", "ook", "ora", "ou",
    "où", "pada", "pe", "pelo", "pentru", "perché", "pero", "più", "poi", "por", "porque", "pro", "puis", "på", "que",
    "questa", "questo", "qui", "quindi", "sada", "schon", "sekarang", "ses", "seu", "sich", "sie", "sind", "sitä",
    "się", "smo", "som", "sono", "sont", "su", "sua", "sunt", "sur", "são", "så", "să", "tady", "tai", "también",
    "também", "teraz", "teď", "tidak", "til", "très", "tämä", "uit", "um", "uma", "un", "una", "und", "unde", "une",
    "uno", "unos", "uns", "untuk", "vagy", "vain", "vamos", "van", "var", "ve", "veel", "vi", "vil", "von", "voor",
    "vous", "være", "wat", "wenn", "wie", "wieder", "wij", "wir", "wird", "yang", "zijn", "zu", "zum", "är", "çok",
    "è", "és", "être", "în", "über", "şimdi", "što", "że", "že", "și"};
// clang-format on
static_assert(std::is_sorted(foreign.begin(), foreign.end()));

template <std::size_t n>
bool holds(const std::array<std::string_view, n>& sorted, std::string_view word) {
  return std::binary_search(sorted.begin(), sorted.end(), word);
}

/// What was met in the part looked at.
struct Met {
  std::size_t words = 0;
  std::size_t english = 0;
  std::size_t other = 0;
  std::set<std::string> other_words;
  std::size_t latin = 0;   ///< letters
  std::size_t script = 0;  ///< letters of other scripts
};

/// Greek to Georgian and beyond, then Japanese to Korean; what lies between is signs. Source: Unicode block names.
bool other_script(char32_t c) { return (c >= 0x0370 && c < 0x1E00) || (c >= 0x3040 && c < 0xD7B0); }
bool latin_letter(char32_t c) {
  return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= 0xC0 && c < 0x0250 && c != 0xD7 && c != 0xF7) ||
         (c >= 0x1E00 && c < 0x1F00);
}

void count_letters(std::string_view word, Met& met) {
  for (std::size_t i = 0; i < word.size();) {
    const CodePoint c = code_point_at(word, i);
    met.latin += latin_letter(c.value) ? 1 : 0;
    met.script += other_script(c.value) ? 1 : 0;
    i += c.length;
  }
}

void count_word(std::string_view piece, Met& met) {
  constexpr std::string_view marks = ".,;:!?\"()[]-'";
  ++met.words;
  count_letters(piece, met);
  const auto first = piece.find_first_not_of(marks);
  if (first == std::string_view::npos) return;
  std::string word = to_lower(piece.substr(first, piece.find_last_not_of(marks) - first + 1));
  if (holds(common, word)) ++met.english;
  if (!holds(foreign, word)) return;
  ++met.other;
  met.other_words.insert(std::move(word));
}

Met look_at(std::span<const model::NarrationLine> lines) {
  constexpr std::size_t sample = 20000;  // words looked at
  Met met;
  for (const model::NarrationLine& line : lines) {
    if (line.noise) continue;
    std::size_t at = 0;
    const std::string_view s = line.text;
    while ((at = s.find_first_not_of(" \n\t", at)) != std::string_view::npos && met.words < sample) {
      const std::size_t end = std::min(s.find_first_of(" \n\t", at), s.size());
      count_word(s.substr(at, end - at), met);
      at = end;
    }
  }
  return met;
}

}  // namespace

bool looks_english(std::span<const model::NarrationLine> lines) {
  constexpr std::size_t enough = 60;  // words, before the lack of English ones tells something
  const Met met = look_at(lines);
  // A few letters may be symbols: "Delta H", "alpha" written in Greek.
  if (met.script >= 8 && met.script > met.latin) return false;
  if (met.other >= 3 && met.other_words.size() >= 2 && met.other > met.english) return false;
  return met.words < enough || met.english * 12 >= met.words;
}

}  // namespace sash::narration
