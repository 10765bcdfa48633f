#include "narration/cue_text.h"

#include <gtest/gtest.h>

#include "escapes.h"
#include "tools/table.h"

namespace sash::narration {
namespace {

using Type = CueNode::Type;

/// The tree as nested brackets: "v(Ann)[text]".
std::string shape(const CueTree& tree, std::size_t node = 0) {
  static const char* const names[] = {"root", "", "<>", "c", "i", "b", "u", "ruby", "rt", "v", "lang"};
  const CueNode& n = tree.nodes[node];
  if (n.type == Type::text) return n.text;
  if (n.type == Type::timestamp) return "<" + std::to_string(n.time.in_millis()) + ">";
  std::string out = names[static_cast<int>(n.type)];
  for (const std::string& c : n.classes) out += "." + c;
  if (n.type == Type::voice) out += "(" + n.text + ")";
  if (n.language) out += "@" + *n.language;
  out += "[";
  for (const std::size_t child : n.children) out += shape(tree, child);
  return out + "]";
}

TEST(Timestamp, IsCollectedAsTheStandardsParserDoes) {
  for (const sash::test::Row& row : sash::test::read_table("known/narration/webvtt_timestamps.csv")) {
    const std::string& text = row.at("timestamp");
    std::size_t at = 0;
    const auto time = collect_timestamp(text, at);
    const bool accepted = time && at == text.size();
    EXPECT_EQ(accepted, row.at("accepted") == "yes") << text << " " << row.at("source");
    if (accepted) {
      EXPECT_EQ(time->in_millis(), static_cast<std::int64_t>(row.number("seconds") * 1000 + 0.5)) << text;
    }
  }
}

TEST(CueText, BecomesTheTreeTheStandardMakesOfIt) {
  for (const sash::test::Row& row : sash::test::read_table("known/narration/webvtt_cue_text.csv")) {
    EXPECT_EQ(shape(parse_cue_text(test::unescaped(row.at("text")))), test::unescaped(row.at("tree")))
        << row.at("id") << ": " << row.at("source");
  }
}

// The expected trees below follow the parsing rules of W3C WebVTT step by step; the cases are like those of the public
// web-platform-tests (cue-text-parsing).
TEST(CueText, NestsSpans) {
  EXPECT_EQ(shape(parse_cue_text("a <b>bold <i>both</i></b> c")), "root[a b[bold i[both]] c]");
  EXPECT_EQ(shape(parse_cue_text("<c.red.big>x</c>")), "root[c.red.big[x]]");
  EXPECT_EQ(shape(parse_cue_text("<c..a. >x")), "root[c.a[x]]");
}

TEST(CueText, KeepsVoicesAndLanguages) {
  EXPECT_EQ(shape(parse_cue_text("<v.loud  Ann \n Lee >hi</v>")), "root[v.loud(Ann Lee)[hi]]");
  EXPECT_EQ(shape(parse_cue_text("<lang en-GB>a<b>x</b></lang>y")), "root[lang@en-GB[ab@en-GB[x]]y]");
  EXPECT_EQ(shape(parse_cue_text("<v A&amp;B>hi")), "root[v(A&B)[hi]]");
}

TEST(CueText, IgnoresStrayAndUnknownTags) {
  EXPECT_EQ(shape(parse_cue_text("</b>a</i>")), "root[a]");
  EXPECT_EQ(shape(parse_cue_text("<font color=red>a</font>")), "root[a]");
  EXPECT_EQ(shape(parse_cue_text("<rt>a</rt>")), "root[a]");
  EXPECT_EQ(shape(parse_cue_text("<ruby>a<rt>b</ruby>c")), "root[ruby[art[b]]c]");
  EXPECT_EQ(shape(parse_cue_text("<b>a</i>b</b>c")), "root[b[ab]c]");
}

TEST(CueText, ReadsTimestampTags) {
  EXPECT_EQ(shape(parse_cue_text("a<00:01.500>b<1>c<00:02.000 >d")), "root[a<1500>bcd]");
}

TEST(CueText, DecodesCharacterReferences) {
  EXPECT_EQ(parse_cue_text("a &amp; b &lt;c&gt; &nbsp;&deg;C").plain(), "a & b <c> \u00A0°C");
  EXPECT_EQ(parse_cue_text("&ampx &notit; &unknown; & &#65;&#x42 &#0; &#128;").plain(),
            "&x ¬it; &unknown; & AB \uFFFD €");
  EXPECT_EQ(parse_cue_text("&").plain(), "&");
}

TEST(CueText, SurvivesUnfinishedTags) {
  EXPECT_EQ(shape(parse_cue_text("a<")), "root[a]");
  EXPECT_EQ(shape(parse_cue_text("a<b")), "root[ab[]]");
  EXPECT_EQ(shape(parse_cue_text("a<00:01")), "root[a]");
  EXPECT_EQ(shape(parse_cue_text("a</")), "root[a]");
  EXPECT_EQ(shape(parse_cue_text("<v Ann")), "root[v(Ann)[]]");
}

}  // namespace
}  // namespace sash::narration
