#pragma once
// Hazards and callouts as the record keeps them. Whether a callout covers its hazard is safety's business. Pure values.
// Source of the message levels: ANSI Z535.6 (signal words of safety messages); not the GHS signal words of a label.

#include <string>
#include <vector>

#include "model/place.h"

namespace sash::model {

/// How harm reaches somebody.
enum class Route {
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

/// The signal word of a safety message: what follows if it is not avoided.
enum class Level { danger, warning, caution, notice };

/// A span in which somebody or something can be harmed.
struct Hazard {
  HazardId id;
  Place place;            ///< a span; `until` missing means "from here on, end not yet known"
  std::string cause;      ///< e.g. "brown nitrogen dioxide from copper in nitric acid"
  std::string substance;  ///< normalised name where one substance is the cause; may be empty
  Route route = Route::other;
  Level level = Level::warning;
  std::string note;
  Origin origin;
  bool operator==(const Hazard&) const = default;
};

enum class Delivery { shown, spoken };

/// A safety message shown or spoken over a span.
struct Callout {
  CalloutId id;
  Place place;  ///< a span
  std::string text;
  Level level = Level::warning;
  Delivery delivery = Delivery::shown;
  std::vector<HazardId> hazards;  ///< the hazards it announces
  Origin origin;
  bool operator==(const Callout&) const = default;
};

struct Note {
  NoteId id;
  Place place;
  std::string text;
  bool operator==(const Note&) const = default;
};

struct Chapter {
  ChapterId id;
  Place place;
  std::string title;
  bool operator==(const Chapter&) const = default;
};

}  // namespace sash::model
