// Files of earlier versions, with steps made up for the purpose.

#include "store/inner/schema.h"

#include <gtest/gtest.h>

#include <array>

#include "made.h"
#include "store/store.h"

namespace sash::store {
namespace {

using test::TestFolder;

constexpr std::array<const char*, 3> steps{
    "CREATE TABLE jar (id INTEGER PRIMARY KEY, label TEXT); INSERT INTO jar VALUES (1, 'copper')",
    "ALTER TABLE jar ADD COLUMN grams REAL NOT NULL DEFAULT 0; UPDATE jar SET grams = 5",
    "ALTER TABLE jar RENAME COLUMN label TO name",
};

TEST(Schema, BringsAFileOfAnyEarlierVersionUpToDate) {
  const TestFolder folder;
  for (std::size_t version = 0; version <= steps.size(); ++version) {
    const std::string path = folder.file(std::to_string(version));
    {
      Connection db(path, Connection::Mode::fresh);
      migrate(db, Steps(steps).first(version));
      ASSERT_EQ(db.trouble(), std::nullopt);
    }
    Connection db(path, Connection::Mode::write);
    migrate(db, steps);
    ASSERT_FALSE(db.trouble().has_value());
    EXPECT_EQ(db.integer("PRAGMA user_version"), 3);
    EXPECT_EQ(db.text("SELECT name || ' ' || grams FROM jar"), "copper 5.0");
  }
}

TEST(Schema, AStepThatFailsChangesNothing) {
  const TestFolder folder;
  const std::array<const char*, 3> broken{steps[0], steps[1], "ALTER TABLE bottle ADD COLUMN x"};
  Connection db(folder.file("a"), Connection::Mode::fresh);
  migrate(db, Steps(broken).first(1));
  migrate(db, broken);
  ASSERT_TRUE(db.trouble().has_value());
  EXPECT_EQ(db.take_trouble()->message, "no such table: bottle");
  EXPECT_EQ(db.integer("PRAGMA user_version"), 1);
  EXPECT_EQ(db.text("SELECT label FROM jar"), "copper");
  EXPECT_EQ(db.integer("SELECT count(*) FROM pragma_table_info('jar')"), 2);
}

// A file as version 1 wrote it: made from the first step alone, as that step must never change.
TEST(Schema, ARecordOfVersionOneOpensAndCanBeEdited) {
  const TestFolder folder;
  const std::string path = folder.file("old.sash");
  {
    Connection db(path, Connection::Mode::fresh);
    db.run("PRAGMA application_id = " + std::to_string(application_id));
    migrate(db, schema_steps().first(1));
    db.run(
        "INSERT INTO bench VALUES (1, 'Old bench', 19, 100, 0.4, ''); "
        "INSERT INTO footage VALUES (1, 'old.mp4', '', 'Old', 5644800000, 0); "
        "INSERT INTO note (id, place_footage, place_from, place_until, text) VALUES (4, 1, 0, NULL, 'kept'); "
        "INSERT INTO last_id VALUES ('note', 6)");
    ASSERT_FALSE(db.trouble().has_value()) << db.trouble()->message;
  }
  auto store = Store::open(path);
  ASSERT_TRUE(store.ok()) << store.fault().sentence;
  ASSERT_EQ(store->read_only(), nullptr);
  EXPECT_EQ(store->record().bench.title, "Old bench");
  ASSERT_EQ(store->record().notes.size(), 1U);
  EXPECT_EQ(store->record().notes[0].text, "kept");
  EXPECT_EQ(store->next_id<model::Note>().number, 7);
  EXPECT_TRUE(store->commit(test::pin_figure(1, "new")).ok());
}

TEST(Schema, PlacesTheProgramsMarkInTheHeader) {
  const TestFolder folder;
  const std::string path = folder.file("a.sash");
  ASSERT_TRUE(Store::create(path).ok());
  // Source: the SQLite file format, "The Database Header": application id at byte 68, user version at byte 60.
  const std::string bytes = test::bytes_of(path);
  EXPECT_EQ(bytes.substr(68, 4), "Sash");
  EXPECT_EQ(bytes[63], static_cast<char>(schema_steps().size()));
}

}  // namespace
}  // namespace sash::store
