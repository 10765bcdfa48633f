#include "desk/shown/settings.h"

#include <gtest/gtest.h>

namespace sash::desk {
namespace {

TEST(Settings, ComeBackAsTheyWereWritten) {
  Settings s;
  s.look = LookName::paper;
  s.font_scale = 1.5F;
  s.volume = 0.25;
  s.splits = {0.4F, 0.25F, 0.6F};
  s.window_width = 1920;
  s.window_x = -40;
  s.window_y = 12;
  s.maximised = true;
  EXPECT_EQ(read_settings(settings_text(s)), s);
}

TEST(Settings, KeepDefaultsForWhatIsMissingUnknownOrOutOfRange) {
  const Settings s = read_settings("font_scale = 40\nvolume = loud\nhat = red\nno equals sign\ntheme = paper\n");
  EXPECT_EQ(s.font_scale, 1.0F);
  EXPECT_EQ(s.volume, 1.0);
  EXPECT_EQ(s.look, LookName::paper);
}

TEST(Splits, LeaveEveryPaneUsable) {
  for (float left = 0; left <= 1; left += 0.1F) {
    for (float right = 0; right <= 1; right += 0.1F) {
      const Splits s = usable({left, right, 2});
      EXPECT_GE(s.left, 0.18F);
      EXPECT_GE(s.right, 0.17F);
      EXPECT_LE(s.left + s.right, 0.7001F);
      EXPECT_LE(s.lower, 0.85F);
    }
  }
}

}  // namespace
}  // namespace sash::desk
