#include "narration/read.h"

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

TEST(ReadNarration, CutsWhatIsFarTooLong) {
  std::string big = "[0:01] start\n";
  while (big.size() < most_bytes + 100) {
    big += "[0:02] ";
    for (int i = 0; i < 1000; ++i) big += "and then we add some more of it and stir and wait\n";
  }
  const NarrationText text = read(big, "big.txt");
  EXPECT_THAT(text.warnings, testing::Contains(HasSubstr("only its first 32 MB")));
}

TEST(ReadNarration, NoticesAnotherLanguage) {
  std::string german = "[0:01] ";
  for (int i = 0; i < 30; ++i) german += "wir nehmen jetzt zwei Gramm Salz und warten ein wenig ";
  EXPECT_THAT(read(german, "film.txt").warnings, ElementsAre(HasSubstr("film.txt does not look like English")));
}

TEST(ReadNarration, GuessesTimesWhereThereAreNone) {
  const NarrationText text = read("first paragraph here\n\nsecond one");
  EXPECT_EQ(text.lines.size(), 2u);
  EXPECT_EQ(text.lines[1].when.from, text.lines[0].when.until);
}

}  // namespace
}  // namespace sash::narration
