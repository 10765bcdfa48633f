#include "script/inner/html.h"

#include <gtest/gtest.h>

namespace sash::script::inner {
namespace {

TEST(Html, EscapesWhatCouldBeMarkup) {
  EXPECT_EQ(escaped("<a href=\"x\">'&'</a>\x01"), "&lt;a href=&quot;x&quot;&gt;&#39;&amp;&#39;&lt;/a&gt;");
  EXPECT_EQ(escaped_lines("a\nb"), "a<br>b");
}

// RFC 4648, section 10 (test vectors).
TEST(Html, Base64FollowsThePublishedVectors) {
  EXPECT_EQ(base64(""), "");
  EXPECT_EQ(base64("f"), "Zg==");
  EXPECT_EQ(base64("fo"), "Zm8=");
  EXPECT_EQ(base64("foo"), "Zm9v");
  EXPECT_EQ(base64("foob"), "Zm9vYg==");
  EXPECT_EQ(base64("fooba"), "Zm9vYmE=");
  EXPECT_EQ(base64("foobar"), "Zm9vYmFy");
}

TEST(Html, TypesetsSymbolsFractionsAndLinksFigures) {
  using workings::Piece;
  Piece number = Piece::of_number("28.4", "g");
  number.figure = model::FigureId{7};
  const auto html = typeset({Piece::of_symbol("m", "Cu"), Piece::of_sign("="), number});
  EXPECT_NE(html.find("<i>m</i><sub>Cu</sub>"), std::string::npos) << html;
  EXPECT_NE(html.find("<a href=\"#figure-7\">"), std::string::npos) << html;
  const auto fraction = typeset({Piece::of_fraction({Piece::words("<top>")}, {Piece::words("bottom")})});
  EXPECT_NE(fraction.find("&lt;top&gt;"), std::string::npos) << fraction;
}

}  // namespace
}  // namespace sash::script::inner
