// A settings file that something else wrote over: the desk opens with usable values whatever stands in it.
#include <gtest/gtest.h>

#include <cmath>

#include "desk/shown/settings.h"
#include "fuzz/mangler.h"

namespace sash::desk {
namespace {

void expect_usable(const Settings& s, const std::string& text) {
  EXPECT_TRUE(s.font_scale >= least_font_scale && s.font_scale <= most_font_scale) << text;
  EXPECT_TRUE(s.volume >= 0 && s.volume <= 1) << text;
  EXPECT_EQ(usable(s.splits), s.splits) << text;
  EXPECT_TRUE(s.window_width >= 320 && s.window_width <= 16384) << text;
  EXPECT_TRUE(s.window_height >= 240 && s.window_height <= 16384) << text;
  for (const auto& place : {s.window_x, s.window_y}) EXPECT_TRUE(!place || std::abs(*place) <= 65536) << text;
  const Settings kept = read_settings(settings_text(s));  // four decimals
  EXPECT_EQ(read_settings(settings_text(kept)), kept) << text;
}

TEST(SettingsFuzz, MangledSettingsAreUsable) {
  Settings all;
  all.look = LookName::paper;
  all.font_scale = 1.25F;
  all.volume = 0.5;
  all.window_x = -40;
  all.window_y = 30;
  all.maximised = true;
  const std::vector<std::string> pieces{"=",          "\n",
                                        "nan",        "inf",
                                        "-1",         "1e999",
                                        "0x10",       "1,5",
                                        "99999",      "\xff\xfe",
                                        "2147483648", "theme = ",
                                        "\r",         std::string(1, '\0'),
                                        "-0",         "yes",
                                        "volume = ",  "split_left = 0.99\n"};
  test::Mangler mangler(5);
  for (int i = 0; i < 4000 && !HasFailure(); ++i) {
    const std::string text = mangler.mangle(settings_text(all), pieces);
    expect_usable(read_settings(text), text);
  }
}

}  // namespace
}  // namespace sash::desk
