#include "store/inner/schema.h"

#include <array>
#include <string>

namespace sash::store {
namespace {

// Times are in ticks (Moment::per_second to the second). References are checked when a transaction ends, so that the
// changes of one edit may come in any order. The index on each reference serves that check.
constexpr const char* version_1 = R"sql(
CREATE TABLE "bench" (
  "only" INTEGER PRIMARY KEY CHECK ("only" = 1),
  "title" TEXT NOT NULL,
  "room_celsius" REAL NOT NULL,
  "pressure_kpa" REAL NOT NULL,
  "relative_humidity" REAL NOT NULL,
  "reading_profile" TEXT NOT NULL
) STRICT;

CREATE TABLE "footage" (
  "id" INTEGER PRIMARY KEY,
  "path" TEXT NOT NULL,
  "fingerprint" TEXT NOT NULL,
  "title" TEXT NOT NULL,
  "duration" INTEGER NOT NULL,
  "order" INTEGER NOT NULL
) STRICT;

CREATE TABLE "line" (
  "id" INTEGER PRIMARY KEY,
  "footage" INTEGER NOT NULL REFERENCES "footage" DEFERRABLE INITIALLY DEFERRED,
  "when_from" INTEGER NOT NULL,
  "when_until" INTEGER NOT NULL,
  "text" TEXT NOT NULL,
  "speaker" TEXT NOT NULL,
  "noise" INTEGER NOT NULL
) STRICT;
CREATE INDEX "line_by_footage" ON "line" ("footage");

CREATE TABLE "line_words" (
  "owner" INTEGER NOT NULL REFERENCES "line" ON DELETE CASCADE DEFERRABLE INITIALLY DEFERRED,
  "position" INTEGER NOT NULL,
  "begin" INTEGER NOT NULL,
  "length" INTEGER NOT NULL,
  "from" INTEGER NOT NULL,
  PRIMARY KEY ("owner", "position")
) STRICT, WITHOUT ROWID;

CREATE TABLE "portion" (
  "id" INTEGER PRIMARY KEY,
  "name" TEXT NOT NULL,
  "subject" TEXT NOT NULL,
  "vessel" TEXT NOT NULL
) STRICT;

CREATE TABLE "figure" (
  "id" INTEGER PRIMARY KEY,
  "place_footage" INTEGER NOT NULL REFERENCES "footage" DEFERRABLE INITIALLY DEFERRED,
  "place_from" INTEGER NOT NULL,
  "place_until" INTEGER,
  "words_line" INTEGER REFERENCES "line" DEFERRABLE INITIALLY DEFERRED,
  "words_begin" INTEGER,
  "words_length" INTEGER,
  "kind" TEXT NOT NULL,
  "reading_value" REAL,
  "reading_upper" REAL,
  "reading_digits" TEXT,
  "reading_unit" TEXT,
  "reading_hedge" TEXT,
  "doubt_from" TEXT NOT NULL,
  "doubt_half_width" REAL NOT NULL,
  "doubt_instrument" TEXT NOT NULL,
  "subject" TEXT NOT NULL,
  "label" TEXT NOT NULL,
  "portion" INTEGER REFERENCES "portion" DEFERRABLE INITIALLY DEFERRED,
  "role" TEXT NOT NULL,
  "source" TEXT NOT NULL,
  "corrected_by" INTEGER REFERENCES "figure" DEFERRABLE INITIALLY DEFERRED,
  "origin_standing" TEXT NOT NULL,
  "origin_rule" TEXT NOT NULL,
  "origin_confidence" REAL NOT NULL
) STRICT;
CREATE INDEX "figure_by_footage" ON "figure" ("place_footage");
CREATE INDEX "figure_by_line" ON "figure" ("words_line") WHERE "words_line" IS NOT NULL;
CREATE INDEX "figure_by_portion" ON "figure" ("portion") WHERE "portion" IS NOT NULL;
CREATE INDEX "figure_by_correction" ON "figure" ("corrected_by") WHERE "corrected_by" IS NOT NULL;

CREATE TABLE "hazard" (
  "id" INTEGER PRIMARY KEY,
  "place_footage" INTEGER NOT NULL REFERENCES "footage" DEFERRABLE INITIALLY DEFERRED,
  "place_from" INTEGER NOT NULL,
  "place_until" INTEGER,
  "cause" TEXT NOT NULL,
  "substance" TEXT NOT NULL,
  "route" TEXT NOT NULL,
  "level" TEXT NOT NULL,
  "note" TEXT NOT NULL,
  "origin_standing" TEXT NOT NULL,
  "origin_rule" TEXT NOT NULL,
  "origin_confidence" REAL NOT NULL
) STRICT;
CREATE INDEX "hazard_by_footage" ON "hazard" ("place_footage");

CREATE TABLE "callout" (
  "id" INTEGER PRIMARY KEY,
  "place_footage" INTEGER NOT NULL REFERENCES "footage" DEFERRABLE INITIALLY DEFERRED,
  "place_from" INTEGER NOT NULL,
  "place_until" INTEGER,
  "text" TEXT NOT NULL,
  "level" TEXT NOT NULL,
  "delivery" TEXT NOT NULL,
  "origin_standing" TEXT NOT NULL,
  "origin_rule" TEXT NOT NULL,
  "origin_confidence" REAL NOT NULL
) STRICT;
CREATE INDEX "callout_by_footage" ON "callout" ("place_footage");

CREATE TABLE "callout_hazards" (
  "owner" INTEGER NOT NULL REFERENCES "callout" ON DELETE CASCADE DEFERRABLE INITIALLY DEFERRED,
  "position" INTEGER NOT NULL,
  "item" INTEGER NOT NULL REFERENCES "hazard" DEFERRABLE INITIALLY DEFERRED,
  PRIMARY KEY ("owner", "position")
) STRICT, WITHOUT ROWID;
CREATE INDEX "callout_by_hazard" ON "callout_hazards" ("item");

CREATE TABLE "note" (
  "id" INTEGER PRIMARY KEY,
  "place_footage" INTEGER NOT NULL REFERENCES "footage" DEFERRABLE INITIALLY DEFERRED,
  "place_from" INTEGER NOT NULL,
  "place_until" INTEGER,
  "text" TEXT NOT NULL
) STRICT;
CREATE INDEX "note_by_footage" ON "note" ("place_footage");

CREATE TABLE "chapter" (
  "id" INTEGER PRIMARY KEY,
  "place_footage" INTEGER NOT NULL REFERENCES "footage" DEFERRABLE INITIALLY DEFERRED,
  "place_from" INTEGER NOT NULL,
  "place_until" INTEGER,
  "title" TEXT NOT NULL
) STRICT;
CREATE INDEX "chapter_by_footage" ON "chapter" ("place_footage");

CREATE TABLE "relation" (
  "id" INTEGER PRIMARY KEY,
  "type" TEXT NOT NULL,
  "label" TEXT NOT NULL,
  "origin_standing" TEXT NOT NULL,
  "origin_rule" TEXT NOT NULL,
  "origin_confidence" REAL NOT NULL
) STRICT;

CREATE TABLE "relation_terms" (
  "owner" INTEGER NOT NULL REFERENCES "relation" ON DELETE CASCADE DEFERRABLE INITIALLY DEFERRED,
  "position" INTEGER NOT NULL,
  "slot" TEXT NOT NULL,
  "figure" INTEGER NOT NULL REFERENCES "figure" DEFERRABLE INITIALLY DEFERRED,
  "about" TEXT NOT NULL,
  PRIMARY KEY ("owner", "position")
) STRICT, WITHOUT ROWID;
CREATE INDEX "relation_by_figure" ON "relation_terms" ("figure");

CREATE TABLE "relation_given" (
  "owner" INTEGER NOT NULL REFERENCES "relation" ON DELETE CASCADE DEFERRABLE INITIALLY DEFERRED,
  "position" INTEGER NOT NULL,
  "name" TEXT NOT NULL,
  "item" TEXT NOT NULL,
  PRIMARY KEY ("owner", "position")
) STRICT, WITHOUT ROWID;

-- Every edit ever made, in order; those up to undo_cursor.position are in force, those beyond it have been undone.
CREATE TABLE "edit" (
  "position" INTEGER PRIMARY KEY,
  "name" TEXT NOT NULL
) STRICT;

-- What an edit changed. "thing" is a table's name; "before" and "after" are JSON, NULL where the thing was not there.
CREATE TABLE "edit_change" (
  "edit" INTEGER NOT NULL REFERENCES "edit" ON DELETE CASCADE,
  "position" INTEGER NOT NULL,
  "thing" TEXT NOT NULL,
  "before" TEXT,
  "after" TEXT,
  PRIMARY KEY ("edit", "position")
) STRICT, WITHOUT ROWID;

CREATE TABLE "undo_cursor" (
  "only" INTEGER PRIMARY KEY CHECK ("only" = 1),
  "position" INTEGER NOT NULL
) STRICT;
INSERT INTO "undo_cursor" VALUES (1, 0);

-- The largest id each type of thing ever had, so that none is given twice.
CREATE TABLE "last_id" (
  "thing" TEXT PRIMARY KEY,
  "number" INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
)sql";

constexpr std::array<const char*, 1> steps{version_1};

}  // namespace

Steps schema_steps() { return steps; }

void migrate(Connection& db, Steps steps_to_take) {
  const auto version = db.integer("PRAGMA user_version");
  if (!version || *version == static_cast<std::int64_t>(steps_to_take.size())) return;
  db.run("BEGIN IMMEDIATE");
  for (const char* step : steps_to_take.subspan(static_cast<std::size_t>(*version))) db.run(step);
  db.run("PRAGMA user_version = " + std::to_string(steps_to_take.size()));
  db.run("COMMIT");
  if (auto trouble = db.take_trouble()) {
    db.run("ROLLBACK");
    static_cast<void>(db.take_trouble());
    db.set_trouble(trouble->code, trouble->message);
  }
}

}  // namespace sash::store
