#pragma once
// Signs: the small drawings of the desk, all vectors, so that they are crisp at every scale. Every colour that carries
// meaning has its own shape here. Simple drawings of our own; the shapes of the safety signs follow the idea of ISO
// 3864 (a triangle warns, a round blue sign instructs), not any registered symbol. Main thread only.

#include "desk/draw/kit/paint.h"
#include "desk/draw/kit/theme.h"
#include "desk/shown/tone.h"

namespace sash::desk {

/// The safety sign in its own colours: octagon, triangle, diamond, disc, square with a tick.
void draw_sign(Painter& paint, const Rect& at, Safety s, const Theme& t);
/// A finding's mark: tick, tick with a wave, cross, ring with a question.
void draw_mark(Painter& paint, const Rect& at, Verdict v, Colour c);
/// A figure's glyph.
void draw_glyph(Painter& paint, const Rect& at, Family f, Colour c);
void draw_icon(Painter& paint, const Rect& at, Icon i, Colour c);
void draw_harm(Painter& paint, const Rect& at, Harm h, Colour c);

/// The largest square in the middle of `in`, at most `side` wide, on whole pixels.
Rect square_in(const Rect& in, float side);

}  // namespace sash::desk
