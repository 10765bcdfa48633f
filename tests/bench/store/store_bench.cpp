// How long opening a large record and one edit take, beside the floor of the same run: raw SQLite stepping through the
// same tables, and one raw INSERT committed with the same safeties. "ratio" is ours over the floor.

#include <benchmark/benchmark.h>
#include <sqlite3.h>

#include <algorithm>
#include <chrono>
#include <vector>

#include "made.h"
#include "store/json_form.h"
#include "store/store.h"
#include "support/check.h"

namespace sash::store {
namespace {

using Clock = std::chrono::steady_clock;

double seconds_of(auto&& work) {
  const auto start = Clock::now();
  work();
  return std::chrono::duration<double>(Clock::now() - start).count();
}

double median(std::vector<double> values) {
  std::nth_element(values.begin(), values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2), values.end());
  return values[values.size() / 2];
}

// 10,000 pins and three hours of narration: a line every 3.6 s, eight timed words each.
model::Record large_record() {
  model::Record r;
  r.footages.push_back({{1}, "clips/long.mp4", "f00d", "Three hours", Moment::seconds(10800), 0});
  for (std::int64_t id = 1; id <= 3000; ++id) {
    const Moment from = Moment::millis(id * 3600);
    model::NarrationLine line{{id}, {1}, {from, from + Moment::millis(3000)}, "", "Teacher", {}, false};
    for (std::uint32_t w = 0; w < 8; ++w) {
      line.words.push_back({w * 7, 6, from + Moment::millis(300 * w)});
      line.text += "copper ";
    }
    r.lines.push_back(std::move(line));
  }
  for (std::int64_t id = 1; id <= 7000; ++id) {
    auto figure = std::get<model::Figure>(*test::pin_figure(id, "20 mL 6 M nitric acid").changes[0].after);
    figure.subject = "nitric acid";
    figure.words = model::Words{{1 + id % 3000}, 0, 6};
    r.figures.push_back(std::move(figure));
  }
  for (std::int64_t id = 1; id <= 1000; ++id) {
    const model::Place place{{1}, Moment::millis(id * 10000), Moment::millis(id * 10000 + 5000)};
    r.hazards.push_back({{id}, place, "brown fume", "nitrogen dioxide", {}, {}, "", {}});
    r.callouts.push_back({{id}, place, "Toxic gas: fume hood", {}, {}, {{id}}, {}});
    r.notes.push_back({{id}, place, "look again"});
    r.relations.push_back({{id},
                           model::RelationType::same_portion,
                           {{"mass", {id}, ""}, {"volume", {id + 1}, ""}},
                           {{"density", "1.2 g/mL"}},
                           "",
                           {}});
  }
  return r;
}

// Reads every row of every table of things, columns unconverted.
void step_through(const std::string& path) {
  sqlite3* db = nullptr;
  promise(sqlite3_open(path.c_str(), &db) == SQLITE_OK, "the record opens");
  for (const char* table : {"bench", "footage", "line", "line_words", "portion", "figure", "hazard", "callout",
                            "callout_hazards", "note", "chapter", "relation", "relation_terms", "relation_given"}) {
    sqlite3_stmt* rows = nullptr;
    const std::string sql = std::string("SELECT * FROM ") + table;
    promise(sqlite3_prepare_v2(db, sql.c_str(), -1, &rows, nullptr) == SQLITE_OK, "its tables are there");
    while (sqlite3_step(rows) == SQLITE_ROW) {
      for (int i = 0; i < sqlite3_column_count(rows); ++i) {
        benchmark::DoNotOptimize(sqlite3_column_type(rows, i) == SQLITE_TEXT
                                     ? sqlite3_column_bytes(rows, i)
                                     : static_cast<int>(sqlite3_column_int64(rows, i)));
      }
    }
    sqlite3_finalize(rows);
  }
  sqlite3_close(db);
}

// A journal table with one raw INSERT at a time, WAL and synchronous FULL.
class RawJournal {
 public:
  explicit RawJournal(const std::string& path) {
    promise(sqlite3_open(path.c_str(), &db_) == SQLITE_OK, "a database can be made");
    sqlite3_exec(db_,
                 "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; CREATE TABLE t (id INTEGER PRIMARY KEY, x)",
                 nullptr, nullptr, nullptr);
    sqlite3_prepare_v2(db_, "INSERT INTO t (x) VALUES (?1)", -1, &insert_, nullptr);
  }
  ~RawJournal() {
    sqlite3_finalize(insert_);
    sqlite3_close(db_);
  }
  RawJournal(const RawJournal&) = delete;
  RawJournal& operator=(const RawJournal&) = delete;

  void insert() {
    sqlite3_bind_text(insert_, 1, std::string(400, 'x').c_str(), 400, SQLITE_TRANSIENT);
    promise(sqlite3_step(insert_) == SQLITE_DONE, "a row goes in");
    sqlite3_reset(insert_);
  }

 private:
  sqlite3* db_ = nullptr;
  sqlite3_stmt* insert_ = nullptr;
};

void report(benchmark::State& state, const std::vector<double>& ours, const std::vector<double>& floor) {
  state.counters["p50_ms"] = median(ours) * 1e3;
  state.counters["floor_p50_ms"] = median(floor) * 1e3;
  state.counters["ratio"] = median(ours) / median(floor);
}

void open_large_record(benchmark::State& state) {
  const test::TestFolder folder;
  const std::string path = folder.file("large.sash");
  promise(Store::create(path, large_record()).ok(), "the record can be made");
  std::vector<double> ours;
  std::vector<double> floor;
  for (auto _ : state) {
    floor.push_back(seconds_of([&] { step_through(path); }));
    ours.push_back(seconds_of([&] { promise(Store::open(path)->read_only() == nullptr, "it opens to write"); }));
    state.SetIterationTime(ours.back());
  }
  report(state, ours, floor);
}
BENCHMARK(open_large_record)->UseManualTime()->Unit(benchmark::kMillisecond)->MinTime(2);

template <class F>
void edit_record(benchmark::State& state, const model::Record& contents, F edit) {
  const test::TestFolder folder;
  auto store = Store::create(folder.file("a.sash"), contents);
  promise(store.ok(), "the record can be made");
  RawJournal raw(folder.file("raw.db"));
  std::vector<double> ours;
  std::vector<double> floor;
  for (auto _ : state) {
    floor.push_back(seconds_of([&] { raw.insert(); }));
    ours.push_back(seconds_of([&] { edit(*store); }));
    state.SetIterationTime(ours.back());
  }
  report(state, ours, floor);
}

void pin(Store& store) {
  const auto id = store.next_id<model::Figure>();
  promise(store.commit(test::pin_figure(id.number, "20 mL")).ok(), "a pin is kept");
}

void one_edit_in_a_large_record(benchmark::State& state) { edit_record(state, large_record(), pin); }
BENCHMARK(one_edit_in_a_large_record)->UseManualTime()->Unit(benchmark::kMillisecond)->MinTime(1);

void undo_and_redo_in_a_large_record(benchmark::State& state) {
  bool first = true;
  edit_record(state, large_record(), [&](Store& store) {
    if (first) pin(store);
    first = false;
    promise(store.undo().ok() && store.redo().ok(), "undo and redo work");
  });
}
BENCHMARK(undo_and_redo_in_a_large_record)->UseManualTime()->Unit(benchmark::kMillisecond)->MinTime(1);

void json_of_a_large_record(benchmark::State& state) {
  const model::Record record = large_record();
  std::size_t bytes = 0;
  for (auto _ : state) {
    const std::string text = to_json(record);
    bytes = text.size();
    promise(from_json(text).ok(), "it reads back");
  }
  state.counters["MB"] = static_cast<double>(bytes) / 1e6;
}
BENCHMARK(json_of_a_large_record)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace sash::store
