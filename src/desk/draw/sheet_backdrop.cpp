#include "desk/draw/sheet_backdrop.h"

#include <algorithm>
#include <cmath>

#include "desk/draw/font_measure.h"
#include "desk/draw/sheet_blocks.h"
#include "desk/shown/words.h"

namespace sash::desk {

void Backdrop::behind(Surfaces& surfaces) const {
  scale_and_rules();
  stills(surfaces);
  wave();
  bands();
  loop();
}

void Backdrop::scale_and_rules() const {
  const SheetColumns& c = shown_.columns;
  paint_.fill({at_.min, {x(c.scale) + c.scale.width, at_.max.y}}, t().sunken.faded(0.5F));
  for (const auto* column : {&c.sound, &c.figures, &c.safety}) {
    paint_.vline(std::round(x(*column)) - m().hair, at_.min.y, at_.max.y, t().line, m().hair);
  }
  const Moment from = shown_.elastic.at(top_);
  const Moment until = shown_.elastic.at(top_ + view_height());
  auto mark = std::lower_bound(shown_.marks.begin(), shown_.marks.end(), from);
  if (mark != shown_.marks.begin()) --mark;
  const float line = FontMeasure(*kit_.fonts().small_digits).line_height();
  for (; mark != shown_.marks.end() && *mark <= until; ++mark) {
    const float y = std::round(to_window(shown_.elastic.y(*mark)));
    paint_.hline(y, x(c.scale) + c.scale.width - m().px(6), x(c.scale) + c.scale.width, t().faint, m().hair);
    paint_.hline(y, x(c.scale) + c.scale.width, content_right(), t().line.faded(0.45F), m().hair);
    paint_.text_in({{x(c.scale), y - line / 2}, {x(c.scale) + c.scale.width - m().px(8), y + line / 2}},
                   kit_.fonts().small_digits, t().muted, short_clock_text(*mark), Align::right);
  }
}

// Stills stand at their time; one that would cover the one above is left out.
void Backdrop::stills(Surfaces& surfaces) const {
  const SheetColumns::Column& c = shown_.columns.picture;
  if (c.width <= 0) return;
  const float width = c.width - m().px(8);
  for (const Film::Reel& reel : shown_.film.reels()) {
    const auto state = frame_.view.footage.find(reel.footage);
    if (state == frame_.view.footage.end()) continue;
    const auto& list = state->second.stills;
    const Moment from = shown_.elastic.at(top_ - static_cast<double>(width)) - reel.start;
    const Moment until = shown_.elastic.at(top_ + view_height()) - reel.start;
    auto still =
        std::lower_bound(list.begin(), list.end(), from, [](const session::Still& s, Moment at) { return s.at < at; });
    // The slot grid keeps the choice of stills the same while the sheet scrolls.
    const double slot = static_cast<double>(std::round(width * 0.68F));
    double last_slot = -1;
    for (; still != list.end() && still->at <= until; ++still) {
      const double y = shown_.elastic.y(reel.start + still->at);
      const double this_slot = std::floor(y / slot);
      if (this_slot <= last_slot) continue;
      last_slot = this_slot;
      const Surface s = surfaces.still(*still);
      if (!s.there()) continue;
      const float height = std::min(width * s.height / s.width, static_cast<float>(slot) - m().px(3));
      const float w = height * s.width / s.height;
      const float top = std::round(to_window(this_slot * slot));
      const float left = std::round(x(c) + (c.width - w) / 2);
      paint_.list().AddImageRounded(s.texture, {left, top}, {left + w, top + height}, {0, 0}, {1, 1}, IM_COL32_WHITE,
                                    m().px(3));
    }
  }
}

void Backdrop::wave() const {
  const SheetColumns::Column& c = shown_.columns.wave;
  const float middle = std::round(x(c) + c.width / 2);
  const float reach = c.width / 2 - m().px(3);
  const float step = std::max(2.0F, m().px(2));
  std::vector<const media::Waveform*> waves;
  for (const Film::Reel& reel : shown_.film.reels()) {
    const auto state = frame_.view.footage.find(reel.footage);
    waves.push_back(state == frame_.view.footage.end() ? nullptr : state->second.waveform.get());
  }
  const double first = std::floor(top_ / static_cast<double>(step)) * static_cast<double>(step);
  for (double y = first; y < std::min(top_ + view_height(), shown_.elastic.height()); y += static_cast<double>(step)) {
    const Moment from = shown_.elastic.at(y);
    const Film::Spot spot = shown_.film.from_film(from);
    std::size_t reel = 0;
    while (reel + 1 < waves.size() && shown_.film.reels()[reel].footage != spot.footage) ++reel;
    if (reel >= waves.size() || waves[reel] == nullptr) continue;
    // A silent stretch may be minutes long in one step: half a second of it tells enough.
    const Moment length = std::min(shown_.elastic.at(y + static_cast<double>(step)) - from, Moment::millis(500));
    const auto extent = waves[reel]->over({spot.at, spot.at + std::max(length, Moment::millis(10))});
    const float low = static_cast<float>(extent.low) / 32767 * reach;
    const float high = static_cast<float>(extent.high) / 32767 * reach;
    const float top = to_window(y);
    paint_.fill({{middle + low - 0.5F, top}, {middle + high + 0.5F, top + step}}, t().wave);
  }
}

void Backdrop::bands() const {
  const Moment from = shown_.elastic.at(top_);
  const Moment until = shown_.elastic.at(top_ + view_height());
  const float lane = SheetSizes::of(m()).lane;
  for (const std::uint32_t i : shown_.hazard_spans.over(from, until)) {
    const HazardShown& h = shown_.hazards[i];
    const float top = std::max(at_.min.y, to_window(shown_.elastic.y(h.span.from)));
    const float bottom = std::min(at_.max.y, std::max(to_window(shown_.elastic.y(h.span.until)), top + m().px(6)));
    const float left = x(shown_.columns.safety) + m().px(2) + lane * static_cast<float>(h.lane);
    draw_hazard_band(kit_, paint_, {{left, top}, {left + lane - m().px(2), bottom}}, h, h.span.from >= from,
                     h.span.until <= until);
  }
}

void Backdrop::loop() const {
  const auto& loop = frame_.view.transport.loop;
  if (!loop) return;
  const auto footage = frame_.view.transport.footage;
  const float top = to_window(shown_.elastic.y(shown_.film.to_film(footage, loop->from)));
  const float bottom = to_window(shown_.elastic.y(shown_.film.to_film(footage, loop->until)));
  const float right = x(shown_.columns.scale) + shown_.columns.scale.width;
  paint_.fill({{right - m().px(4), std::max(top, at_.min.y)}, {right, std::min(bottom, at_.max.y)}},
              t().accent.faded(0.7F));
}

void Backdrop::playhead() const {
  const float y = std::round(to_window(shown_.elastic.y(frame_.now)));
  if (y < at_.min.y - m().px(20) || y > at_.max.y + m().px(20)) return;
  const SheetColumns::Column& c = shown_.columns.scale;
  paint_.hline(y, x(c) + c.width, content_right(), t().accent, std::max(1.0F, m().px(1.5F)));
  const float half = std::round(m().small * 0.75F);
  const std::string words = clock_text(frame_.now);
  const float wide = std::max(c.width - m().px(2), text_size(kit_.fonts().small_digits, words).x + m().px(7));
  const Rect flag{{x(c) + m().px(1), y - half}, {x(c) + m().px(1) + wide, y + half}};
  paint_.fill(flag, t().accent, m().px(3));
  paint_.text_in({flag.min, {flag.max.x + 1, flag.max.y}}, kit_.fonts().small_digits, t().on_accent, words,
                 Align::centre);
}

}  // namespace sash::desk
