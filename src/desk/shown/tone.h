#pragma once
// Tones: the closed set of meanings a colour or a small sign can have on the desk. What a page shows names a tone;
// which colour and which shape that is belongs to the theme and the kit. Pure values. Sources: ANSI Z535.6 and ISO
// 3864-2 (signal words and their colours).

#include <string_view>

namespace sash::desk {

/// Safety messages and safe states. Each has its own colour and its own shape.
enum class Safety { danger, warning, caution, notice, safe };

/// How a finding turned out. Each has its own colour and its own mark.
enum class Verdict { agrees, agrees_rounded, conflict, unsettled };

/// What sort of quantity a figure is, coarse enough to be told apart at a glance. Each has a tint and a glyph.
enum class Family {
  mass,
  volume,
  amount,
  strength,
  temperature,
  time,
  pressure,
  share,
  gas,
  ratio,
  acidity,
  energy,
  other
};

/// The small drawings of the kit.
enum class Icon {
  none,
  play,
  pause,
  stop,
  step_back,
  step_forward,
  jump_back,
  jump_forward,
  loop,
  speed,
  sound,
  muted,
  undo,
  redo,
  search,
  filter,
  plus,
  minus,
  cross,
  tick,
  folder,
  film,
  lines,
  figure,
  hazard,
  callout,
  note,
  chapter,
  yield,
  relation,
  script,
  gear,
  keyboard,
  sun,
  moon,
  chevron_left,
  chevron_right,
  chevron_up,
  chevron_down,
  link,
  broken_link,
  pencil,
  bin,
  info,
  clock,
  pin,
  plot,
  count_,
};

/// How harm arrives, as a sign.
enum class Harm {
  inhalation,
  skin,
  eyes,
  ingestion,
  burn,
  cold,
  fire,
  blast,
  pressure,
  cut,
  electric,
  noise,
  environment,
  other
};

std::string_view word_of(Safety s);   ///< "DANGER" ... as the standards print it; "SAFE" for safe
std::string_view word_of(Verdict v);  ///< "agrees", "agrees as rounded", "conflict", "unsettled"

}  // namespace sash::desk
