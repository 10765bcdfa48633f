#include "store/store.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/resource.h>

#include <csignal>
#include <filesystem>
#include <limits>

#include "made.h"
#include "store/json_form.h"

namespace sash::store {
namespace {

using test::pin_figure;
using test::small_record;
using test::TestFolder;

TEST(Store, KeepsARecordAcrossClosing) {
  const TestFolder folder;
  const std::string path = folder.file("a.sash");
  ASSERT_TRUE(Store::create(path, small_record()).ok());
  const auto store = Store::open(path);
  ASSERT_TRUE(store.ok()) << store.fault().sentence;
  EXPECT_EQ(store->read_only(), nullptr);
  EXPECT_EQ(store->record(), small_record());
  EXPECT_EQ(store->path(), path);
}

TEST(Store, KeepsEveryFieldOfRandomRecordsAcrossClosing) {
  const TestFolder folder;
  std::mt19937_64 random(20240601);
  for (int i = 0; i < 40; ++i) {
    const model::Record made = test::random_record(random);
    const std::string path = folder.file(std::to_string(i) + ".sash");
    const auto store = Store::create(path, made);
    ASSERT_TRUE(store.ok()) << store.fault().sentence;
    ASSERT_EQ(store->record(), made) << i;
    ASSERT_EQ(to_json(store->record()), to_json(made)) << i;
  }
}

// Its constants are text with signs of their own, and what is put in has formulas in the keys.
TEST(Store, KeepsAnEquilibriumStateAsItWasGiven) {
  const TestFolder folder;
  model::Record made = small_record();
  model::Relation state = made.relations.front();
  state.id = {11};
  state.type = model::RelationType::equilibrium;
  state.terms = {{"total", {7}, "CuSO4·5H2O"}, {"precipitate", {9}, "Cu(OH)2"}};
  state.given = {{"constants", "Cu(OH)2(s) = Cu^2+ + 2 OH^-: 2.2e-20; Cu^2+ + 4 NH3 = [Cu(NH3)4]^2+: log 13.23"},
                 {"total:NH3", "1.0 mol/L"},
                 {"held_pH", "yes"},
                 {"temperature", "25 Cel"}};
  made.relations.push_back(state);
  const std::string path = folder.file("a.sash");
  ASSERT_TRUE(Store::create(path, made).ok());
  const auto store = Store::open(path);
  ASSERT_TRUE(store.ok()) << store.fault().sentence;
  EXPECT_EQ(store->record().relations.back(), state);
  const auto read = from_json(to_json(store->record()));
  ASSERT_TRUE(read.ok()) << read.fault().sentence;
  EXPECT_EQ(read->relations.back(), state);
}

TEST(Store, UndoesAndRedoesEverythingAlsoAfterReopening) {
  const TestFolder folder;
  const std::string path = folder.file("a.sash");
  std::vector<model::Record> states{small_record()};
  {
    auto store = Store::create(path, states[0]);
    ASSERT_TRUE(store.ok());
    for (std::int64_t id = 20; id < 40; ++id) {
      ASSERT_TRUE(store->commit(pin_figure(id, std::to_string(id))).ok());
      states.push_back(store->record());
    }
  }
  {
    auto store = Store::open(path);
    ASSERT_TRUE(store.ok());
    EXPECT_EQ(store->record(), states.back());
    for (std::size_t i = states.size() - 1; i > 0; --i) {
      EXPECT_EQ(store->undo_name(), "Pin " + std::to_string(19 + i));
      const auto undone = store->undo();
      ASSERT_TRUE(undone.ok()) << undone.fault().sentence;
      EXPECT_EQ(*undone, "Pin " + std::to_string(19 + i));
      ASSERT_EQ(store->record(), states[i - 1]);
    }
    EXPECT_EQ(store->undo_name(), std::nullopt);
    EXPECT_EQ(store->undo().fault().sentence, "There is nothing to undo.");
  }
  auto store = Store::open(path);
  ASSERT_TRUE(store.ok());
  EXPECT_EQ(store->record(), states[0]);
  for (std::size_t i = 1; i < states.size(); ++i) {
    ASSERT_EQ(store->redo_name(), "Pin " + std::to_string(19 + i));
    ASSERT_TRUE(store->redo().ok());
    ASSERT_EQ(store->record(), states[i]);
  }
  EXPECT_EQ(store->redo().fault().sentence, "There is nothing to redo.");
}

TEST(Store, TakesBackRandomEditsOfEveryTypeExactly) {
  const TestFolder folder;
  std::mt19937_64 random(7);
  for (int i = 0; i < 15; ++i) {
    const model::Record from = test::random_record(random);
    const model::Record to = test::random_record(random);
    model::Edit edit{"Replace everything", {}, model::BenchChange{from.bench, to.bench}};
    const auto replace = [&](const auto& before, const auto& after) {
      for (const auto& thing : before) {
        if (find(to, thing.id) == nullptr) edit.changes.push_back({thing, std::nullopt});
      }
      for (const auto& thing : after) {
        const auto* old = find(from, thing.id);
        edit.changes.push_back({old != nullptr ? std::optional<model::Thing>(*old) : std::nullopt, thing});
      }
    };
    replace(from.footages, to.footages);
    replace(from.lines, to.lines);
    replace(from.portions, to.portions);
    replace(from.figures, to.figures);
    replace(from.hazards, to.hazards);
    replace(from.callouts, to.callouts);
    replace(from.notes, to.notes);
    replace(from.chapters, to.chapters);
    replace(from.relations, to.relations);
    const std::string path = folder.file(std::to_string(i) + ".sash");
    {
      auto store = Store::create(path, from);
      ASSERT_TRUE(store.ok());
      const Done done = store->commit(edit);
      ASSERT_TRUE(done.ok()) << done.fault().sentence;
      ASSERT_EQ(store->record(), to);
    }
    auto store = Store::open(path);
    ASSERT_TRUE(store.ok());
    ASSERT_EQ(store->read_only(), nullptr);
    ASSERT_EQ(store->record(), to);
    ASSERT_TRUE(store->undo().ok());
    ASSERT_EQ(store->record(), from);
    ASSERT_TRUE(store->redo().ok());
    ASSERT_EQ(store->record(), to);
  }
}

TEST(Store, ForgetsWhatWasUndoneOnceSomethingElseIsDone) {
  const TestFolder folder;
  auto store = Store::create(folder.file("a.sash"), small_record());
  ASSERT_TRUE(store.ok());
  ASSERT_TRUE(store->commit(pin_figure(20, "first")).ok());
  ASSERT_TRUE(store->commit(pin_figure(21, "second")).ok());
  ASSERT_TRUE(store->undo().ok());
  EXPECT_EQ(store->redo_name(), "Pin second");
  ASSERT_TRUE(store->commit(pin_figure(22, "third")).ok());
  EXPECT_EQ(store->redo_name(), std::nullopt);
  EXPECT_EQ(store->undo_name(), "Pin third");
  ASSERT_TRUE(store->undo().ok());
  EXPECT_EQ(store->undo_name(), "Pin first");
}

TEST(Store, NeverGivesAnIdTwice) {
  const TestFolder folder;
  const std::string path = folder.file("a.sash");
  {
    auto store = Store::create(path, small_record());
    ASSERT_TRUE(store.ok());
    EXPECT_EQ(store->next_id<model::Note>().number, 7);
    const auto id = store->next_id<model::Figure>();
    EXPECT_EQ(id.number, 10);
    ASSERT_TRUE(store->commit(pin_figure(id.number, "x")).ok());
    ASSERT_TRUE(store->undo().ok());
    EXPECT_EQ(store->next_id<model::Figure>().number, 11);
  }
  auto store = Store::open(path);
  ASSERT_TRUE(store.ok());
  ASSERT_TRUE(store->commit(pin_figure(30, "y")).ok());  // forgets the undone figure 10
  ASSERT_TRUE(store->undo().ok());
  EXPECT_EQ(store->next_id<model::Figure>().number, 31);
}

TEST(Store, RefusedEditsLeaveRecordAndFileAsTheyWere) {
  const TestFolder folder;
  const std::string path = folder.file("a.sash");
  {
    auto store = Store::create(path, small_record());
    ASSERT_TRUE(store.ok());

    auto endless = pin_figure(20, "endless");
    std::get<model::Figure>(*endless.changes[0].after).reading->value = std::numeric_limits<double>::infinity();
    auto done = store->commit(endless);
    ASSERT_FALSE(done.ok());
    EXPECT_EQ(done.fault().code, Code::not_finite);
    EXPECT_EQ(done.fault().sentence,
              "The step 'Pin endless' cannot be kept: its field reading/value is no finite number.");

    auto garbled = pin_figure(20, "garbled");
    std::get<model::Figure>(*garbled.changes[0].after).subject = "caf\xe9";
    done = store->commit(garbled);
    ASSERT_FALSE(done.ok());
    EXPECT_EQ(done.fault().sentence, "The step 'Pin garbled' cannot be kept: its field subject is not UTF-8 text.");

    auto late = pin_figure(20, "late");
    std::get<model::Figure>(*late.changes[0].after).place.from = Moment::ticks(std::int64_t{1} << 53);
    done = store->commit(late);
    ASSERT_FALSE(done.ok());
    EXPECT_EQ(done.fault().sentence,
              "The step 'Pin late' cannot be kept: its field place/from is a time of more than 18 days.");

    done = store->commit(pin_figure(7, "taken"));
    ASSERT_FALSE(done.ok());
    EXPECT_EQ(done.fault().code, Code::impossible);

    EXPECT_EQ(store->record(), small_record());
    EXPECT_EQ(store->undo_name(), std::nullopt);
    EXPECT_TRUE(store->commit(model::Edit{"Nothing", {}, std::nullopt}).ok());
    EXPECT_EQ(store->undo_name(), std::nullopt);
  }
  EXPECT_EQ(Store::open(path)->record(), small_record());
}

TEST(Store, AFullDiskCostsOnlyTheEditThatDidNotFit) {
  const TestFolder folder;
  const std::string path = folder.file("a.sash");
  auto store = Store::create(path, small_record());
  ASSERT_TRUE(store.ok());
  ASSERT_TRUE(store->commit(pin_figure(20, "fits")).ok());
  const model::Record before = store->record();

  // No file may grow past this: what a full disk looks like to a program.
  rlimit old_limit{};
  ASSERT_EQ(getrlimit(RLIMIT_FSIZE, &old_limit), 0);
  const auto old_handler = std::signal(SIGXFSZ, SIG_IGN);
  const rlimit tight{300'000, old_limit.rlim_max};
  ASSERT_EQ(setrlimit(RLIMIT_FSIZE, &tight), 0);
  const Done refused = store->commit(pin_figure(21, std::string(1'000'000, 'x')));
  ASSERT_EQ(setrlimit(RLIMIT_FSIZE, &old_limit), 0);
  std::signal(SIGXFSZ, old_handler);

  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.fault().code, Code::unreadable);
  EXPECT_THAT(refused.fault().sentence,
              testing::StartsWith("The file '" + path + "' could not be written, and nothing was changed: "));
  EXPECT_EQ(store->record(), before);
  EXPECT_EQ(store->undo_name(), "Pin fits");
  const Done again_fits = store->commit(pin_figure(22, "fits again"));
  ASSERT_TRUE(again_fits.ok()) << again_fits.fault().sentence;
  const model::Record after = store->record();
  { const Store closing = std::move(store).value(); }
  const auto again = Store::open(path);
  ASSERT_TRUE(again.ok());
  EXPECT_EQ(again->read_only(), nullptr);
  EXPECT_EQ(again->record(), after);
}

TEST(Store, CreatingNeverOverwrites) {
  const TestFolder folder;
  const std::string path = folder.file("a.sash");
  test::write_bytes(path, "my notes");
  const auto made = Store::create(path);
  ASSERT_FALSE(made.ok());
  EXPECT_EQ(made.fault().sentence, "There is already something at '" + path + "'; choose another name.");
  EXPECT_EQ(test::bytes_of(path), "my notes");
  const auto nowhere = Store::create(folder.file("no/a.sash"));
  ASSERT_FALSE(nowhere.ok());
  EXPECT_EQ(nowhere.fault().sentence,
            "There is no folder '" + folder.file("no") + "'; make it first or choose another.");
}

// Somebody deletes a record that the program had open, and begins another of that name.
TEST(Store, WhatADeletedRecordLeftBehindIsNotTakenForTheNewOne) {
  const TestFolder folder;
  const std::string path = folder.file("a.sash");
  std::string left_over;
  {
    auto store = Store::create(path, small_record());
    ASSERT_TRUE(store.ok());
    model::Bench bench = store->record().bench;
    bench.title = "Gone";
    ASSERT_TRUE(store->commit({"Title", {}, model::BenchChange{store->record().bench, bench}}).ok());
    left_over = test::bytes_of(path + "-wal");
    ASSERT_FALSE(left_over.empty());
  }
  std::filesystem::remove(path);
  test::write_bytes(path + "-wal", left_over);
  const auto fresh = Store::create(path);
  ASSERT_TRUE(fresh.ok()) << fresh.fault().sentence;
  EXPECT_EQ(fresh->record(), model::Record{});
  EXPECT_FALSE(fresh->undo_name());
}

TEST(Store, RefusesContentsThatPointNowhere) {
  const TestFolder folder;
  model::Record broken = small_record();
  broken.portions.clear();
  const auto made = Store::create(folder.file("a.sash"), broken);
  ASSERT_FALSE(made.ok());
  EXPECT_EQ(made.fault().sentence, "The record to be written is not whole: figure 7 has lost its portion.");
}

TEST(Store, SavesAWholeCopyWithItsHistory) {
  const TestFolder folder;
  auto store = Store::create(folder.file("a.sash"), small_record());
  ASSERT_TRUE(store.ok());
  ASSERT_TRUE(store->commit(pin_figure(20, "copied")).ok());
  const std::string copy = folder.file("copy of ü.sash");
  const Done saved = store->save_copy(copy);
  ASSERT_TRUE(saved.ok()) << saved.fault().sentence;
  auto again = Store::open(copy);
  ASSERT_TRUE(again.ok());
  EXPECT_EQ(again->read_only(), nullptr);
  EXPECT_EQ(again->record(), store->record());
  ASSERT_TRUE(again->undo().ok());
  EXPECT_EQ(again->record(), small_record());
  EXPECT_EQ(store->save_copy(copy).fault().sentence,
            "There is already something at '" + copy + "'; choose another name.");
}

}  // namespace
}  // namespace sash::store
