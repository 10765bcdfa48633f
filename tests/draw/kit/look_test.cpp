// What the kit looks like: drawn without a window, compared with itself, and saved for people to look at.
#include <gtest/gtest.h>

#include <set>

#include "desk/draw/kit/controls.h"
#include "desk/draw/kit/panes.h"
#include "desk/draw/kit/signs.h"
#include "draw/kit/gallery.h"
#include "draw/kit/harness.h"

namespace sash::desk {
namespace {

using testing::Gallery;
using testing::Harness;
using testing::HarnessLook;
using testing::Pixels;

std::string gallery_png(HarnessLook look, const std::string& name) {
  look.pixels = true;
  Harness h(look);
  Gallery gallery;
  gallery.notices.say({.text = "Figure removed: 20 mL nitric acid.", .action = "Undo"}, 0);
  gallery.notices.say({.text = "The narration has no line after 12:40.", .tone = Safety::caution}, 0);
  h.show([&](Kit& kit) { gallery.draw(kit); });
  h.key(Key::tab);
  h.move_to("open");
  h.wait(1);
  const Pixels p = h.pixels();
  testing::save_png(p, testing::shots_folder() / name);
  return testing::png_bytes(p);
}

TEST(Look, IsTheSameToTheByteOverRuns) {
  EXPECT_EQ(gallery_png({}, "kit-dim-100.png"), gallery_png({}, "kit-dim-100.png"));
}

TEST(Look, EveryThemeAndScaleDraws) {
  const std::set<std::string> all = {
      gallery_png({.width = 1280, .height = 720, .scale = 1, .theme = ThemeName::paper}, "kit-paper-100.png"),
      gallery_png({.width = 1920, .height = 1080, .scale = 1.5F, .theme = ThemeName::dim}, "kit-dim-150.png"),
      gallery_png({.width = 1920, .height = 1080, .scale = 1.5F, .theme = ThemeName::paper}, "kit-paper-150.png")};
  EXPECT_EQ(all.size(), 3U);
}

/// A small empty window in which one thing after another is drawn.
class Easel {
 public:
  using Draw = std::function<void(Painter&, const Rect&, const Theme&)>;
  Pixels drawn(const Draw& draw) {
    harness_.show([&](Kit& kit) {
      const Root root(kit);
      Painter paint;
      draw(paint, {{12, 12}, {52, 52}}, kit.theme());
    });
    return harness_.pixels();
  }

 private:
  Harness harness_{{.width = 64, .height = 64, .theme = ThemeName::paper, .pixels = true}};
};

TEST(Look, EverySignDiffersInShapeNotOnlyInColour) {
  Easel easel;
  std::set<std::vector<bool>> silhouettes;  // which pixels differ from the ground
  for (const Safety s : {Safety::danger, Safety::warning, Safety::caution, Safety::notice, Safety::safe}) {
    const Pixels p = easel.drawn([s](Painter& paint, const Rect& at, const Theme& t) { draw_sign(paint, at, s, t); });
    std::vector<bool> shape;
    for (int y = 0; y < p.height; ++y) {
      for (int x = 0; x < p.width; ++x) shape.push_back(p.at(x, y) != p.at(2, 2));
    }
    silhouettes.insert(shape);
  }
  EXPECT_EQ(silhouettes.size(), 5U);
}

TEST(Look, EveryGlyphIconAndHarmIsItsOwnDrawing) {
  Easel easel;
  std::set<std::vector<std::uint8_t>> drawings;
  std::size_t count = 0;
  const auto add = [&](const Easel::Draw& draw) {
    drawings.insert(easel.drawn(draw).rgba);
    ++count;
  };
  for (int f = 0; f <= static_cast<int>(Family::other); ++f) {
    add([f](Painter& p, const Rect& at, const Theme& t) { draw_glyph(p, at, static_cast<Family>(f), t.text); });
  }
  // The clock is one drawing under two names, and pressure and electricity are drawn as the quantities are.
  for (int i = 1; i < static_cast<int>(Icon::count_); ++i) {
    if (static_cast<Icon>(i) == Icon::clock) continue;
    add([i](Painter& p, const Rect& at, const Theme& t) { draw_icon(p, at, static_cast<Icon>(i), t.text); });
  }
  for (int k = 0; k <= static_cast<int>(Harm::other); ++k) {
    if (static_cast<Harm>(k) == Harm::pressure || static_cast<Harm>(k) == Harm::electric) continue;
    add([k](Painter& p, const Rect& at, const Theme& t) { draw_harm(p, at, static_cast<Harm>(k), t.text); });
  }
  EXPECT_EQ(drawings.size(), count);
}

}  // namespace
}  // namespace sash::desk
