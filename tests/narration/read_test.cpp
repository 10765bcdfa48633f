#include "narration/read.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace sash::narration {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

NarrationText read(std::string_view bytes, std::string_view name = "talk.txt") {
  auto text = read_narration(bytes, name);
  EXPECT_TRUE(text.ok()) << (text.ok() ? "" : text.fault().sentence);
  return text.ok() ? *text : NarrationText();
}

/// "seconds+at text" for each line; noise in brackets.
std::vector<std::string> lines(const NarrationText& text) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < text.lines.size(); ++i) {
    std::string s = std::to_string(text.sources[i].cue.in_millis() / 1000) + "+" + std::to_string(text.sources[i].at) +
                    " " + text.lines[i].text;
    out.push_back(text.lines[i].noise ? "(" + s + ")" : s);
  }
  return out;
}

TEST(ReadNarration, TellsTheFormsApart) {
  EXPECT_EQ(read("WEBVTT\n\n00:01.000 --> 00:02.000\na").form, Form::webvtt);
  EXPECT_EQ(read("1\n00:00:01,000 --> 00:00:02,000\na").form, Form::subrip);
  EXPECT_EQ(read("[0:02] a").form, Form::timed_text);
  EXPECT_EQ(read("just words").form, Form::plain_text);
}

TEST(ReadNarration, ReadsMarksInlineAndOnTheirOwnLine) {
  EXPECT_THAT(lines(read("[0:02] one\ntwo\n\n[1:00:03]\nthree [1:00:09] four\n")),
              ElementsAre("2+0 one\ntwo", "3603+0 three", "3609+0 four"));
  EXPECT_THAT(lines(read("0:02\none\n0:05\ntwo\n")), ElementsAre("2+0 one", "5+0 two"));
  EXPECT_THAT(lines(read("[00:00:01.000 --> 00:00:02.500]  one\n")), ElementsAre("1+0 one"));
}

TEST(ReadNarration, EndsAParagraphWhereTheNextBegins) {
  const NarrationText text = read("[0:02] one\n[0:07] two three");
  EXPECT_EQ(text.lines[0].when, (Stretch{Moment::seconds(2), Moment::seconds(7)}));
  EXPECT_GT(text.lines[1].when.until, text.lines[1].when.from);
}

TEST(ReadNarration, DropsTheRepeatsOfRollingCaptions) {
  const NarrationText text = read(
      "1\n00:00:01,000 --> 00:00:02,000\nwe take\n\n2\n00:00:02,000 --> 00:00:03,000\nwe take\nfive grams\n\n"
      "3\n00:00:03,000 --> 00:00:04,000\nfive grams\nof salt and\n\n4\n00:00:04,000 --> 00:00:05,000\nof salt "
      "and\nstir\n",
      "a.srt");
  EXPECT_TRUE(text.rolling);
  EXPECT_THAT(lines(text), ElementsAre("1+0 we take", "2+8 five grams", "3+11 of salt and", "4+12 stir"));
}

TEST(ReadNarration, KeepsTheFirstTimeOfEachWord) {
  const NarrationText text = read(
      "WEBVTT\n\n00:01.000 --> 00:02.000\nwe<00:01.300><c> take</c>\n\n00:02.000 --> 00:02.010\nwe take\n\n"
      "00:02.010 --> 00:04.000\nwe take\nfive<00:02.500><c> grams</c>\n\n00:04.000 --> 00:04.010\nfive grams\n\n"
      "00:04.010 --> 00:05.000\nfive grams\nnow\n",
      "a.vtt");
  EXPECT_TRUE(text.rolling);
  EXPECT_THAT(lines(text), ElementsAre("1+0 we take", "2+8 five grams", "4+11 now"));
  EXPECT_THAT(text.lines[0].words,
              ElementsAre(model::Word{0, 2, Moment::seconds(1)}, model::Word{3, 4, Moment::millis(1300)}));
  EXPECT_THAT(text.lines[1].words,
              ElementsAre(model::Word{0, 4, Moment::millis(2010)}, model::Word{5, 5, Moment::millis(2500)}));
}

TEST(ReadNarration, FollowsCaptionsThatGrowWordByWord) {
  const NarrationText text = read(
      "1\n00:00:01,000 --> 00:00:02,000\nfive\n\n2\n00:00:02,000 --> 00:00:03,000\nfive grams\n\n"
      "3\n00:00:03,000 --> 00:00:04,000\nfive grams of\n\n4\n00:00:04,000 --> 00:00:05,000\nfive grams of salt\n",
      "a.srt");
  EXPECT_THAT(lines(text), ElementsAre("1+0 five", "2+5 grams", "3+11 of", "4+14 salt"));
}

TEST(ReadNarration, LeavesASpeakerWhoRepeatsHimselfAlone) {
  const NarrationText text = read(
      "1\n00:00:01,000 --> 00:00:02,000\nstir it\n\n2\n00:00:02,000 --> 00:00:03,000\nstir it\n\n"
      "3\n00:00:03,000 --> 00:00:04,000\nfilter it\n\n4\n00:00:04,000 --> 00:00:05,000\nwash it\n",
      "a.srt");
  EXPECT_FALSE(text.rolling);
  EXPECT_EQ(text.lines.size(), 4u);
}

TEST(ReadNarration, TakesNoRefrainForRollingCaptions) {
  std::string song;
  for (int i = 1; i <= 9; ++i)
    song += "\n00:0" + std::to_string(i) + ".000 --> 00:0" + std::to_string(i) + ".900\nla la\n";
  EXPECT_EQ(read("WEBVTT\n" + song, "a.vtt").lines.size(), 9u);
}

TEST(ReadNarration, NamesTheSpeakerOfAVoiceSpan) {
  EXPECT_EQ(read("WEBVTT\n\n00:01.000 --> 00:02.000\n<v Ann>hello").lines[0].speaker, "Ann");
}

TEST(ReadNarration, MarksMusicAndInventedPhrases) {
  EXPECT_THAT(lines(read("1\n00:00:01,000 --> 00:00:02,000\n[Music]\n\n2\n00:00:02,000 --> 00:00:03,000\nThank you.\n\n"
                         "3\n00:00:03,000 --> 00:00:04,000\nfive grams\n\n4\n00:00:04,000 --> 00:00:05,000\n♪ ♪\n",
                         "a.srt")),
              ElementsAre("(1+0 [Music])", "(2+0 Thank you.)", "3+0 five grams", "(4+0 ♪ ♪)"));
  EXPECT_THAT(lines(read("[0:01] five grams\n[0:02] Thank you.")), ElementsAre("1+0 five grams", "2+0 Thank you."));
}

TEST(ReadNarration, ReadsOtherEncodings) {
  EXPECT_EQ(read("[0:01] 60 \xB0\x43 in the B\xFC\x63hner").lines[0].text, "60 °C in the Büchner");
  EXPECT_EQ(read(std::string_view("\xFF\xFE[\0"
                                  "0\0:\0"
                                  "0\0"
                                  "1\0]\0 \0a\0",
                                  18))
                .lines[0]
                .text,
            "a");
  EXPECT_EQ(read("\xEF\xBB\xBF[0:01] a\r\nb\r\n").lines[0].text, "a\nb");
  const auto latin = read_narration("[0:01] \xE9t\xE9", "a.txt", "ISO-8859-1");
  ASSERT_TRUE(latin.ok());
  EXPECT_EQ(latin->lines[0].text, "été");
}

// Bytes by the Unicode Consortium's mapping tables (MAPPINGS/VENDORS/MICSFT/WINDOWS, EASTASIA).
TEST(ReadNarration, DetectsOtherAlphabetsInShortFiles) {
  const NarrationText russian = read(
      "1\n00:00:01,000 --> 00:00:02,000\n\xD2\xE5\xEF\xE5\xF0\xFC \xEC\xFB \xE1\xE5\xF0\xB8\xEC "
      "\xE4\xE2\xE0 \xE3\xF0\xE0\xEC\xEC\xE0 \xF1\xEE\xEB\xE8\n\n2\n00:00:03,000 --> 00:00:04,000\n"
      "\xE8 \xE6\xE4\xB8\xEC \xED\xE5\xEC\xED\xEE\xE3\xEE, \xEF\xEE\xEA\xE0 "
      "\xF0\xE0\xF1\xF2\xE2\xEE\xF0 \xEE\xF1\xF2\xFB\xED\xE5\xF2\n",
      "a.srt");
  EXPECT_EQ(russian.encoding, "windows-1251");
  EXPECT_EQ(russian.lines[0].text, "Теперь мы берём два грамма соли");
  EXPECT_EQ(read("[0:01] add 5 \xB5L, \xBD litre, 3 \xB1 1, it\x92s done").lines[0].text,
            "add 5 µL, ½ litre, 3 ± 1, it’s done");
}

TEST(ReadNarration, TakesWhatSignsItselfAsCaptionsAtItsWord) {
  const std::string_view nulls("WEBVTT\n\0\0\0\n\n00:01.000 --> 00:02.000\n\0\0\0\0\0\0a\n", 44);
  EXPECT_EQ(read(nulls, "a.vtt").lines[0].text, "\uFFFD\uFFFD\uFFFD\uFFFD\uFFFD\uFFFDa");
  EXPECT_EQ(read(std::string_view("[0:01] a\0b", 10)).lines[0].text, "a\uFFFDb");
}

TEST(ReadNarration, SaysWhatIsNoText) {
  const auto zip = read_narration(std::string_view("PK\x03\x04\0\0\0\0", 8), "a.srt");
  ASSERT_FALSE(zip.ok());
  EXPECT_EQ(zip.fault().sentence,
            "a.srt is a ZIP archive, not text; a narration is a SubRip, WebVTT or plain text file.");
  std::string noise;
  for (int i = 0; i < 4000; ++i) noise += static_cast<char>((i * 7919) % 251);
  EXPECT_EQ(read_narration(noise, "a.vtt").fault().code, Code::malformed);
  EXPECT_EQ(read_narration("", "a.vtt").fault().sentence, "a.vtt holds no line of narration.");
  EXPECT_EQ(read_narration("abc", "a.txt", "klingon").fault().code, Code::unknown_name);
}

TEST(ReadNarration, KeepsBackwardsAndOverlappingTimesWithASentence) {
  const NarrationText text = read(
      "1\n00:00:05,000 --> 00:00:04,000\nb\n\n2\n00:00:01,000 --> 00:00:09,000\na\n\n3\n00:00:08,000 --> "
      "00:00:10,000\nc\n",
      "a.srt");
  EXPECT_THAT(lines(text), ElementsAre("1+0 a", "5+0 b", "8+0 c"));
  EXPECT_THAT(text.warnings, ElementsAre(HasSubstr("1 cue ends before its start"), HasSubstr("run backwards on line 6"),
                                         HasSubstr("cues start before")));
}

TEST(ReadNarration, ReadsAMislabelledSubRip) {
  const NarrationText text = read("1\n00:00:01,000 --> 00:00:02,000\na\n", "talk.vtt");
  EXPECT_THAT(text.warnings, ElementsAre("talk.vtt does not begin with the line WEBVTT, so it was read as SubRip."));
}

TEST(ReadNarration, KeepsTheWordsBehindTimesItCannotRead) {
  const NarrationText text = read(
      "1\n00:00:01,000 --> 00:00:02,000\none\n\n2\n00:00:xx,000 --> 00:00:04,000\ntwo\n\n3\n00:00:05,000 --> "
      "00:00:06,000\nthree\n",
      "a.srt");
  EXPECT_THAT(lines(text), ElementsAre("1+0 one", "2+0 two", "5+0 three"));
  EXPECT_THAT(text.warnings, ElementsAre("1 time line could not be read, the first on line 6; the words behind it "
                                         "follow the line before."));
}

TEST(ReadNarration, SaysHowWebVttWritesTimesWhenNoneIsAllowed) {
  EXPECT_EQ(read_narration("WEBVTT\n\n00:00:01,000 --> 00:00:02,000\na\n", "a.vtt").fault().sentence,
            "a.vtt holds no line of narration that WebVTT allows: 1 time line could not be read and was left out, the "
            "first on line 3; WebVTT writes them like \"00:01:02.500 --> 00:01:04.000\".");
}

TEST(ReadNarration, MendsAFewBrokenBytesWithoutTakingTheFileForAnotherEncoding) {
  const NarrationText text = read("[0:01] 60 °C, 5 µL, ½ of it, 3 ± 1, A → B, caf\xE9", "a.txt");
  EXPECT_EQ(text.encoding, "UTF-8");
  EXPECT_EQ(text.lines[0].text, "60 °C, 5 µL, ½ of it, 3 ± 1, A → B, caf\uFFFD");
  EXPECT_THAT(text.warnings, ElementsAre("a.txt has bytes that are no UTF-8; they are shown as \uFFFD."));
}

std::string cue(std::size_t n) {
  const std::size_t s = 3 * n;
  return fmt::format("{}\n{:02}:{:02}:{:02},000 --> {:02}:{:02}:{:02},000\nAnd now {} grams of salt\nand stir.\n\n", n,
                     s / 3600, s / 60 % 60, s % 60, (s + 2) / 3600, (s + 2) / 60 % 60, (s + 2) % 60, n);
}

TEST(ReadNarration, TakesTheWholeCuesBeforeTheLimitAndSaysWhatIsLeftOut) {
  std::string big;
  std::size_t whole = 0;  // cues that fit
  for (std::size_t n = 1; big.size() <= most_bytes; ++n) {
    big += cue(n);
    whole = big.size() <= most_bytes ? n : whole;
  }
  const std::uint64_t of = 200u << 20;
  const auto text = read_narration(big, "big.srt", {}, of);
  ASSERT_TRUE(text.ok()) << text.fault().sentence;
  ASSERT_EQ(text->lines.size(), whole);
  EXPECT_EQ(text->lines.back().text, fmt::format("And now {} grams of salt\nand stir.", whole));
  // Five lines a cue: the next one begins right behind the line named.
  const std::size_t end = 3 * whole;
  EXPECT_THAT(
      text->warnings,
      ElementsAre(fmt::format(
          "big.srt has 200 MB, far more than a narration: its first 12 MB were read, up to {}:{:02}:{:02}; what "
          "follows its line {} was left out, and comes in when it is saved as a file of its own and added.",
          end / 3600, end / 60 % 60, end % 60, 5 * whole)));
}

TEST(ReadNarration, PartsNoCharacterAtTheLimit) {
  std::string wide;  // UTF-16, big end first, without a mark
  while (wide.size() <= most_bytes) {
    for (const char c : cue(wide.size())) wide += std::string{'\0', c};
  }
  const auto text = read_narration(wide, "wide.srt");
  ASSERT_TRUE(text.ok());
  EXPECT_EQ(text->encoding, "UTF-16BE");
  EXPECT_TRUE(text->lines.back().text.ends_with("grams of salt\nand stir.")) << text->lines.back().text;
  EXPECT_THAT(text->warnings, testing::Contains(HasSubstr("wide.srt has 12 MB")));

  const std::string endless = "[0:01] 4 g of it" + std::string(most_bytes, 'a') + "\xC3\xA9";
  EXPECT_THAT(read(endless, "endless.txt").warnings, testing::Contains(HasSubstr("what follows its line 0 was left")));
}

TEST(ReadNarration, NoticesAnotherLanguage) {
  std::string german = "[0:01] ";
  for (int i = 0; i < 30; ++i) german += "wir nehmen jetzt zwei Gramm Salz und warten ein wenig ";
  EXPECT_THAT(read(german, "film.txt").warnings, ElementsAre(HasSubstr("film.txt does not look like English")));
}

// Sentences of our own, in the languages named.
TEST(ReadNarration, NoticesAnotherLanguageInAFewWordsToo) {
  for (const char* foreign :
       {"Jetzt nehmen wir zwei Gramm Salz und warten ein wenig.", "On prend deux grammes de sel et on attend un peu.",
        "Ahora tomamos dos gramos de sal y esperamos un poco.",
        "Agora pegamos dois gramas de sal e esperamos um pouco.",
        "Adesso prendiamo due grammi di sale e aspettiamo un po' nella stanza.",
        "Nu nemen we twee gram zout en wachten een beetje.", "Nu tar vi två gram salt och väntar en stund på det.",
        "Teraz bierzemy dwa gramy soli i nie czekamy długo, bo jest już gorące.",
        "Şimdi iki gram tuz alıyoruz ve bir süre bekliyoruz, çok sıcak.",
        "Теперь берём два грамма соли и немного ждём.", "Τώρα παίρνουμε δύο γραμμάρια αλάτι.",
        "では、塩を2グラム取ります。", "现在我们取两克食盐，然后等一会儿。",
        "이제 소금 2그램을 넣고 잠시 기다립니다."}) {
    const NarrationText text = read(std::string("[0:01] ") + foreign, "film.txt");
    EXPECT_THAT(text.warnings, ElementsAre("film.txt does not look like English; the lines are kept, but figures are "
                                           "recognised in English only, so some may be missed."))
        << foreign;
    EXPECT_EQ(text.lines.size(), 1U);
  }
}

TEST(ReadNarration, TakesEnglishWithForeignWordsAndSignsForEnglish) {
  for (const char* english :
       {"20 mL nitric acid. 3 g copper.", "ΔH is −57 kJ/mol, and α, β, γ and δ are what we call the four angles.",
        "Eau de vie, that is what the French call it; sel de mer is just salt from the sea.",
        "Stir. Filter. Wash. Dry. Weigh: 4.62 g.",
        "This is the Fehling test, von Fehling's own, and it is not hard."}) {
    EXPECT_THAT(read(std::string("[0:01] ") + english, "talk.txt").warnings, testing::IsEmpty()) << english;
  }
}

TEST(ReadNarration, GuessesTimesWhereThereAreNone) {
  const NarrationText text = read("first paragraph here\n\nsecond one");
  EXPECT_EQ(text.lines.size(), 2u);
  EXPECT_EQ(text.lines[1].when.from, text.lines[0].when.until);
}

}  // namespace
}  // namespace sash::narration
