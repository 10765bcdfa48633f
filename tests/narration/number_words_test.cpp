#include "narration/inner/number_words.h"

#include <gtest/gtest.h>
#include <unicode/rbnf.h>

#include <random>

namespace sash::narration {
namespace {

std::optional<double> value_of(const std::string& words) {
  model::NarrationLine line;
  line.text = words;
  const TokenStream s = tokenise(std::span(&line, 1));
  const auto number = read_spoken_number(s, 0);
  if (!number || number->last != s.size()) return std::nullopt;
  return number->value;
}

/// Numbers in words as ICU's rule-based formatter spells them, an outside reference for English number words.
class Speller {
 public:
  explicit Speller(const char* rule_set) {
    UErrorCode error = U_ZERO_ERROR;
    format_ = std::make_unique<icu::RuleBasedNumberFormat>(icu::URBNF_SPELLOUT, icu::Locale::getEnglish(), error);
    format_->setDefaultRuleSet(icu::UnicodeString(rule_set), error);
    EXPECT_TRUE(U_SUCCESS(error)) << rule_set;
  }
  std::string operator()(double number) const {
    icu::UnicodeString words;
    format_->format(number, words);
    std::string out;
    words.toUTF8String(out);
    return out;
  }

 private:
  std::unique_ptr<icu::RuleBasedNumberFormat> format_;
};

// Reference: Unicode CLDR spellout rules for English, through ICU RuleBasedNumberFormat.
TEST(NumberWords, ReadBackWhatIcuSpells) {
  for (const char* rules :
       {"%spellout-numbering", "%spellout-cardinal", "%spellout-cardinal-verbose", "%spellout-numbering-verbose"}) {
    const Speller spell(rules);
    std::mt19937 random(17);
    for (int i = 0; i < 3000; ++i) {
      const int size = i % 4;
      const int limit = size == 0 ? 100 : size == 1 ? 1000 : size == 2 ? 100'000 : 9'999'999;
      const double number = std::uniform_int_distribution<int>(0, limit)(random);
      const std::string words = spell(number);
      EXPECT_EQ(value_of(words), number) << words << " (" << rules << ")";
    }
  }
}

TEST(NumberWords, ReadBackDecimalsAndNegativesAsIcuSpellsThem) {
  const Speller spell("%spellout-numbering");
  std::mt19937 random(18);
  for (int i = 0; i < 3000; ++i) {
    const double number = std::uniform_int_distribution<int>(-99'999, 99'999)(random) / 1000.0;
    const std::string words = spell(number);
    const auto read = value_of(words);
    ASSERT_TRUE(read) << words;
    EXPECT_NEAR(*read, number, 1e-9) << words;
  }
}

struct Said {
  const char* words;
  double value;
};

// Ways of speaking that no formatter has; the values are plain English.
TEST(NumberWords, ReadHowPeopleSpeak) {
  for (const Said& s : {Said{"two fifty", 250},
                        Said{"eleven hundred and fifty", 1150},
                        Said{"point nine", 0.9},
                        Said{"zero point oh three three", 0.033},
                        Said{"1 point 5 4", 1.54},
                        Said{"24 point 1", 24.1},
                        Said{"three point two seven", 3.27},
                        Said{"nought point five", 0.5},
                        Said{"one point twenty five", 1.25},
                        Said{"one oh five", 105},
                        Said{"a hundred", 100},
                        Said{"a hundred and fifty", 150},
                        Said{"a couple hundred", 200},
                        Said{"a dozen", 12},
                        Said{"half a dozen", 6},
                        Said{"three and a half", 3.5},
                        Said{"one and three quarter", 1.75},
                        Said{"2 1/2", 2.5},
                        Said{"2½", 2.5},
                        Said{"1,500", 1500},
                        Said{"2 hundred and fifty", 250},
                        Said{"1.5 million", 1.5e6},
                        Said{"minus ten", -10},
                        Said{"two thirds", 2.0 / 3},
                        Said{"a quarter", 0.25},
                        Said{"a hundredth", 0.01},
                        Said{"1.8 x 10^-5", 1.8e-5},
                        Said{"two times ten to the minus three", 0.002}}) {
    const auto read = value_of(s.words);
    ASSERT_TRUE(read) << s.words;
    EXPECT_NEAR(*read, s.value, 1e-9) << s.words;
  }
}

TEST(NumberWords, KeepTheDigitsThatWereSaid) {
  model::NarrationLine line;
  line.text = "four point zero zero";
  const TokenStream s = tokenise(std::span(&line, 1));
  EXPECT_EQ(read_spoken_number(s, 0)->digits, "4.00");
}

}  // namespace
}  // namespace sash::narration
