#pragma once
// The footage pane as it is shown: the position bar with what lies where, and what the transport says. The bar is made
// anew when the record or its width changes; the transport every frame, at constant cost. Pure.

#include <string>
#include <vector>

#include "desk/shown/film.h"
#include "desk/shown/sheet.h"
#include "desk/shown/tone.h"
#include "session/view.h"

namespace sash::desk {

/// Shares are of the whole film, 0 to 1.
struct BarShown {
  struct Band {
    float from = 0;
    float until = 0;
    std::uint32_t lane = 0;
    Safety tone = Safety::warning;
    bool covered = true;
    model::HazardId hazard;
  };
  /// One or several figures too close together to be told apart at this width.
  struct Tick {
    float at = 0;
    Family family = Family::other;
    bool conflict = false;
    bool proposed = false;
    std::uint32_t count = 1;
    model::FigureId figure;  ///< the first of them
  };
  struct Flag {
    float at = 0;
    std::string title;
    Moment film;
  };
  std::vector<Band> bands;
  std::vector<Tick> ticks;
  std::vector<Flag> chapters;
  std::vector<float> seams;  ///< where one footage ends and the next begins
  std::uint32_t lanes = 0;

  // What is heard and read at each moment, by film time.
  SpanIndex line_spans;
  std::vector<model::LineId> lines;
  SpanIndex message_spans;  ///< of callouts that are shown
  std::vector<model::CalloutId> messages;
};

/// `slots`: how many figures can stand side by side.
BarShown show_bar(const model::Record& record, const safety::Cover& cover, const FigureVerdicts& verdicts,
                  const Film& film, std::size_t slots);

struct TransportShown {
  bool ready = false;  ///< there is something to play
  float share = 0;     ///< of the playhead, along the film
  std::optional<std::pair<float, float>> loop;
  std::string time;       ///< "2:03.45" of the footage
  std::string length;     ///< of the footage, "12:30"
  std::string time_code;  ///< SMPTE
  std::string sureness;   ///< "exact frame", "near picture, refining"
  bool exact = true;
  bool playing = false;
  std::string speed;  ///< "1×"
  double volume = 1;
  std::string footage;               ///< title of what is shown, with "2 of 3" where there are several
  std::string facts;                 ///< "1280 × 720 · 29.97 fps · H.264 · AAC"
  std::vector<std::string> remarks;  ///< unusual but harmless; a location tag first
  std::string trouble;               ///< why there is no picture; empty when there is one
  bool missing = false;              ///< it can be found again
  bool wants_clip = false;           ///< there is none yet for what is in the record
  model::FootageId which;
  std::string spoken;  ///< narration at the playhead
  struct Message {
    Safety tone;
    std::string text;
  };
  std::vector<Message> messages;  ///< callouts shown at the playhead, as a viewer will read them
};

TransportShown show_transport(const session::SessionView& view, const Film& film, const BarShown& bar);

/// The playhead in film time.
Moment film_now(const session::SessionView& view, const Film& film);

}  // namespace sash::desk
