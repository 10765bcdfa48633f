#pragma once
// The desk's faces: Inter for reading (regular, semi-bold) and for quantity symbols (italic), DejaVu Sans merged in for
// what Inter lacks, DejaVu Sans Mono for digits that must stand under each other. Built into one atlas at the sizes of
// Metrics, so text is never stretched. Main thread only (the atlas is ImGui's).

#include <imgui.h>

#include <string>

#include "desk/draw/kit/metrics.h"
#include "support/outcome.h"

namespace sash::desk {

struct FontFiles {
  std::string regular;
  std::string strong;
  std::string italic;
  std::string fallback;
  std::string fallback_strong;
  std::string mono;
};

/// The files as the Debian packages fonts-inter and fonts-dejavu-core install them.
/// Fails: Code::not_found, naming the first missing file and its package.
Outcome<FontFiles> find_fonts();

struct Fonts {
  ImFont* body = nullptr;
  ImFont* strong = nullptr;
  ImFont* small = nullptr;
  ImFont* small_strong = nullptr;
  ImFont* italic = nullptr;        ///< Latin and Greek letters only: quantity symbols, body size
  ImFont* small_italic = nullptr;  ///< the same, small size
  ImFont* title = nullptr;
  ImFont* digits = nullptr;        ///< fixed width, body size
  ImFont* small_digits = nullptr;  ///< fixed width, small size
};

/// Clears `atlas` and rasterises every face at the sizes of `m`. The caller uploads the texture.
/// Fails: Code::unreadable, naming the file.
Outcome<Fonts> build_fonts(ImFontAtlas& atlas, const FontFiles& files, const Metrics& m);

}  // namespace sash::desk
