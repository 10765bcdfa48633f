#include "desk/draw/kit/fonts.h"

#include <imgui_freetype.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>

namespace sash::desk {
namespace {

/// What the desk may have to print: Latin, Greek, Cyrillic names, sub- and superscripts, arrows, maths, shapes,
/// dingbats.
constexpr std::array<ImWchar, 35> ranges = {0x0020, 0x024F,  // Latin
                                            0x02B0, 0x02FF,  // modifier letters
                                            0x0370, 0x03FF,  // Greek
                                            0x0400, 0x045F,  // Cyrillic
                                            0x1E00, 0x1EFF,  // Latin, additional
                                            0x2010, 0x205E,  // punctuation
                                            0x2070, 0x209C,  // superscripts and subscripts
                                            0x20A0, 0x20BF,  // currency
                                            0x2100, 0x214F,  // letter-like: ℃ ℓ Ω Å
                                            0x2150, 0x2189,  // vulgar fractions
                                            0x2190, 0x21FF,  // arrows, with ⇌
                                            0x2200, 0x22FF,  // mathematical operators
                                            0x2300, 0x23FF,  // technical
                                            0x2500, 0x25FF,  // lines, blocks, geometric shapes
                                            0x2600, 0x27BF,  // symbols, dingbats
                                            0x27F0, 0x27FF,  // long arrows
                                            0xFFFD, 0xFFFD,  // for what no face has
                                            0};

/// Digits and what stands among them.
constexpr std::array<ImWchar, 9> digit_ranges = {0x0020, 0x007E, 0x00A0, 0x00FF, 0x2010, 0x2030, 0x2212, 0x2212, 0};

/// Letters that stand for quantities.
constexpr std::array<ImWchar, 5> symbol_ranges = {0x0020, 0x007E, 0x0370, 0x03FF, 0};

constexpr std::string_view inter = "/usr/share/fonts/opentype/inter/";
constexpr std::string_view dejavu = "/usr/share/fonts/truetype/dejavu/";

ImFont* add(ImFontAtlas& atlas, const std::string& file, float size, const ImWchar* glyphs, bool merge,
            float drop = 0) {
  ImFontConfig config;
  config.MergeMode = merge;
  config.PixelSnapH = true;
  config.OversampleH = 1;
  config.GlyphOffset.y = drop;
  config.FontBuilderFlags = ImGuiFreeTypeBuilderFlags_LightHinting;
  return atlas.AddFontFromFileTTF(file.c_str(), size, &config, glyphs);
}

/// Figures change under the eye while footage plays; with equal widths they do so without dancing.
void make_digits_equally_wide(ImFont& font) {
  float widest = 0;
  for (ImWchar c = '0'; c <= '9'; ++c) widest = std::max(widest, font.FindGlyph(c)->AdvanceX);
  for (ImWchar c = '0'; c <= '9'; ++c) {
    auto& glyph =
        const_cast<ImFontGlyph&>(*font.FindGlyph(c));  // the font is ours and not const: FindGlyph only says so
    const float shift = std::floor((widest - glyph.AdvanceX) / 2);
    glyph.X0 += shift;
    glyph.X1 += shift;
    glyph.AdvanceX = widest;
    font.IndexAdvanceX[c] = widest;
  }
}

}  // namespace

Outcome<FontFiles> find_fonts() {
  const FontFiles files{std::string(inter) + "Inter-Regular.otf",    std::string(inter) + "Inter-SemiBold.otf",
                        std::string(inter) + "Inter-Italic.otf",     std::string(dejavu) + "DejaVuSans.ttf",
                        std::string(dejavu) + "DejaVuSans-Bold.ttf", std::string(dejavu) + "DejaVuSansMono.ttf"};
  for (const std::string* file :
       {&files.regular, &files.strong, &files.italic, &files.fallback, &files.fallback_strong, &files.mono}) {
    std::error_code ignored;
    if (std::filesystem::exists(*file, ignored)) continue;
    const bool is_inter = file->starts_with(inter);
    return Fault::of(Code::not_found,
                     "The font file " + *file + " is missing; install the package " +
                         (is_inter ? "fonts-inter" : "fonts-dejavu-core") + ".",
                     *file);
  }
  return files;
}

Outcome<Fonts> build_fonts(ImFontAtlas& atlas, const FontFiles& files, const Metrics& m) {
  atlas.Clear();
  atlas.FontBuilderIO = ImGuiFreeType::GetBuilderForFreeType();
  atlas.Flags |= ImFontAtlasFlags_NoPowerOfTwoHeight;
  atlas.TexGlyphPadding = 1;
  const auto reading = [&](const std::string& main, const std::string& fallback, float size) {
    ImFont* font = add(atlas, main, size, ranges.data(), false);
    if (font) add(atlas, fallback, size, ranges.data(), true);
    return font;
  };
  Fonts fonts;
  fonts.body = reading(files.regular, files.fallback, m.body);
  fonts.strong = reading(files.strong, files.fallback_strong, m.body);
  fonts.small = reading(files.regular, files.fallback, m.small);
  fonts.small_strong = reading(files.strong, files.fallback_strong, m.small);
  fonts.italic = add(atlas, files.italic, m.body, symbol_ranges.data(), false);
  fonts.small_italic = add(atlas, files.italic, m.small, symbol_ranges.data(), false);
  fonts.title = reading(files.strong, files.fallback_strong, m.title);
  fonts.digits = add(atlas, files.mono, m.digits, digit_ranges.data(), false);
  fonts.small_digits = add(atlas, files.mono, m.small, digit_ranges.data(), false);
  if (!fonts.body || !fonts.strong || !fonts.small || !fonts.italic || !fonts.small_italic || !fonts.title ||
      !fonts.digits || !atlas.Build()) {
    return Fault::of(Code::unreadable, "A font file could not be read: " + files.regular + " or one beside it.",
                     files.regular);
  }
  for (ImFont* font : atlas.Fonts) make_digits_equally_wide(*font);
  return fonts;
}

}  // namespace sash::desk
