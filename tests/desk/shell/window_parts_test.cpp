// The parts of the window that need no display: keys, icon, settings on disk, stills, and what is said without a
// display.
#define GLFW_INCLUDE_NONE
#include <GLFW/glfw3.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "desk/shell/inner/glfw_keys.h"
#include "desk/shell/inner/icon.h"
#include "desk/shell/inner/still_shelf.h"
#include "desk/shell/settings_file.h"
#include "desk/shell/shell.h"
#include "draw/kit/surfaceless.h"

namespace sash::desk {
namespace {

TEST(GlfwKeys, FollowThePrintedLetter) {
  EXPECT_EQ(inner::key_from_glfw(GLFW_KEY_Q, "a"), Key::a);  // a French keyboard
  EXPECT_EQ(inner::key_from_glfw(GLFW_KEY_Z, "y"), Key::y);  // a German one
  EXPECT_EQ(inner::key_from_glfw(GLFW_KEY_J, "о"), Key::j);  // a Cyrillic one prints no Latin letter
  EXPECT_EQ(inner::key_from_glfw(GLFW_KEY_5, "("), Key::n5);
}

TEST(GlfwKeys, KnowTheRest) {
  EXPECT_EQ(inner::key_from_glfw(GLFW_KEY_F12, nullptr), Key::f12);
  EXPECT_EQ(inner::key_from_glfw(GLFW_KEY_KP_7, nullptr), Key::n7);
  EXPECT_EQ(inner::key_from_glfw(GLFW_KEY_LEFT, nullptr), Key::left);
  EXPECT_EQ(inner::key_from_glfw(GLFW_KEY_BACKSLASH, "\\"), Key::backslash);
  EXPECT_EQ(inner::key_from_glfw(GLFW_KEY_LEFT_SHIFT, nullptr), Key::none);
  EXPECT_EQ(inner::mods_from_glfw(GLFW_MOD_CONTROL | GLFW_MOD_SHIFT), ctrl_shift);
}

TEST(Icon, IsOpaqueInTheMiddleAndClearInTheCorners) {
  for (const int side : {16, 48, 128}) {
    const auto pixels = inner::window_icon(side);
    ASSERT_EQ(pixels.size(), static_cast<std::size_t>(side * side * 4));
    EXPECT_EQ(pixels[3], 0);
    EXPECT_EQ(pixels[(static_cast<std::size_t>(side / 2) * static_cast<std::size_t>(side) +
                      static_cast<std::size_t>(side / 2)) *
                         4 +
                     3],
              255);
  }
}

class InFolder : public ::testing::Test {
 protected:
  InFolder() : folder_(std::filesystem::temp_directory_path() / ("sash-settings-" + std::to_string(::getpid()))) {}
  ~InFolder() override { std::filesystem::remove_all(folder_); }
  std::string file() const { return (folder_ / "deeper" / "desk.settings").string(); }
  std::filesystem::path folder_;
};

TEST_F(InFolder, SettingsComeBackAndLeaveNoLitter) {
  Settings s;
  s.look = LookName::paper;
  s.window_x = -300;
  ASSERT_TRUE(save_settings(file(), s));
  EXPECT_EQ(load_settings(file()), s);
  s.font_scale = 1.25F;
  ASSERT_TRUE(save_settings(file(), s));
  EXPECT_EQ(load_settings(file()), s);
  EXPECT_EQ(std::distance(std::filesystem::directory_iterator(folder_ / "deeper"), {}), 1);
}

TEST_F(InFolder, MissingOrOddSettingsAreTheDefaults) {
  EXPECT_EQ(load_settings(file()), Settings{});
  std::filesystem::create_directories(folder_ / "deeper");
  std::ofstream(file()) << std::string("\0\xff\x01 = \n=\n", 8);
  EXPECT_EQ(load_settings(file()), Settings{});
}

TEST_F(InFolder, SettingsThatCannotBeKeptSaySo) {
  std::filesystem::create_directories(folder_);
  std::ofstream(folder_ / "deeper") << "a file where a folder should be";
  const Done kept = save_settings(file(), {});
  ASSERT_FALSE(kept);
  EXPECT_NE(kept.fault().sentence.find(file()), std::string::npos);
}

TEST(StillShelf, KeepsByKeyAndDropsTheLongestUnseen) {
  const testing::Surfaceless gl(16, 16);
  inner::StillShelf shelf(3);
  const std::vector<std::uint8_t> pixel = {1, 2, 3, 255};
  const auto ask = [&](std::uint64_t key) { return shelf.texture(key, {1, 1}, pixel); };
  shelf.begin_frame();
  const GLuint one = ask(1);
  ask(2);
  ask(3);
  EXPECT_EQ(ask(1), one);
  for (int i = 0; i < 3; ++i) {
    shelf.begin_frame();
    EXPECT_EQ(ask(1), one);
    ask(3);
  }
  ask(4);
  EXPECT_EQ(shelf.count(), 3U);
  EXPECT_EQ(ask(1), one);
}

TEST(StillShelf, NeverDropsWhatIsInSight) {
  const testing::Surfaceless gl(16, 16);
  inner::StillShelf shelf(2);
  const std::vector<std::uint8_t> pixel = {1, 2, 3, 255};
  shelf.begin_frame();
  for (std::uint64_t key = 0; key < 10; ++key) shelf.texture(key, {1, 1}, pixel);
  EXPECT_EQ(shelf.count(), 10U);
}

class NoDesk final : public DeskApp {
 public:
  void begin(DeskServices&) override { began = true; }
  bool poll() override { return false; }
  void draw(Kit&) override {}
  std::optional<double> due() const override { return {}; }
  void drop(std::vector<std::string>) override {}
  void chosen(int, std::vector<std::string>) override {}
  bool may_close() override { return true; }
  std::string title() const override { return "Sashline"; }
  Settings& settings() override { return settings_; }
  bool began = false;

 private:
  Settings settings_;
};

TEST(Shell, SaysWhenThereIsNoDisplay) {
  const char* display = std::getenv("DISPLAY");
  const std::string before = display == nullptr ? "" : display;
  unsetenv("DISPLAY");
  unsetenv("WAYLAND_DISPLAY");
  NoDesk desk;
  const Done done = run(desk, {});
  if (display != nullptr) setenv("DISPLAY", before.c_str(), 1);
  ASSERT_FALSE(done);
  EXPECT_EQ(done.fault().code, Code::not_found);
  EXPECT_EQ(done.fault().sentence.find("There is no display to open the desk on"), 0U);
  EXPECT_FALSE(desk.began);
}

TEST(Shell, TakesItsShotFromTheEnvironment) {
  setenv("SASHLINE_SHOT", "/tmp/desk.png", 1);
  setenv("SASHLINE_SHOT_AFTER", "2.5", 1);
  ShellOptions options;
  take_environment(options);
  unsetenv("SASHLINE_SHOT");
  unsetenv("SASHLINE_SHOT_AFTER");
  EXPECT_EQ(options.shot, "/tmp/desk.png");
  EXPECT_EQ(options.shot_after, 2.5);
}

}  // namespace
}  // namespace sash::desk
