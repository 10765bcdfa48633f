#include "made.h"

#include <cmath>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <limits>
#include <sstream>

#include "support/check.h"

namespace sash::store::test {

TestFolder::TestFolder() {
  std::string name = (std::filesystem::temp_directory_path() / "sash-store-XXXXXX").string();
  promise(mkdtemp(name.data()) != nullptr, "a folder for the test can be made");
  path_ = name;
}

TestFolder::~TestFolder() {
  std::error_code ignored;
  std::filesystem::remove_all(path_, ignored);
}

std::string bytes_of(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  promise(in.good(), "the test's file can be read");
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

void write_bytes(const std::string& path, std::string_view bytes) {
  std::ofstream out(path, std::ios::binary | std::ios::trunc);
  out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  promise(out.good(), "the test's file can be written");
}

model::Record small_record() {
  using namespace model;
  Record r;
  r.bench = {"Copper cycle", 21.5, 100.8, 0.45, "school"};
  r.footages.push_back({{1}, "clips/copper.mp4", "f00d", "Copper into acid", Moment::rational(3003, 1001, 30000), 0});
  r.lines.push_back({{4},
                     {1},
                     {Moment::millis(500), Moment::millis(2500)},
                     "Now 20 mL of acid.",
                     "Teacher",
                     {{0, 3, Moment::millis(500)}, {4, 2, Moment::millis(900)}},
                     false});
  r.portions.push_back({{2}, "acid for the copper", "nitric acid", "250 mL beaker"});
  Figure said;
  said.id = {7};
  said.place = {{1}, Moment::millis(900), Moment::millis(1500)};
  said.words = Words{{4}, 4, 5};
  said.kind = quantity::Kind::volume;
  said.reading = Reading{20, 25.0, "20", "mL", Hedge::range};
  said.doubt = {Doubt::From::instrument, 0, "ISO 4788 cylinder 25 mL A"};
  said.subject = "nitric acid";
  said.label = "acid";
  said.portion = PortionId{2};
  said.role = Role::added;
  said.corrected_by = FigureId{9};
  said.origin = {Standing::proposed, "number-unit-substance", 0.75};
  Figure wanted;
  wanted.id = {9};
  wanted.place = {{1}, Moment::millis(1600), std::nullopt};
  wanted.source = Source::worked_out;
  r.figures = {said, wanted};
  r.hazards.push_back({{3},
                       {{1}, Moment::seconds(1), std::nullopt},
                       "brown fume",
                       "nitrogen dioxide",
                       Route::inhalation,
                       Level::danger,
                       "fume hood",
                       {}});
  r.callouts.push_back(
      {{5}, {{1}, Moment(), Moment::seconds(1)}, "Toxic gas", Level::danger, Delivery::spoken, {{3}}, {}});
  r.notes.push_back({{6}, {{1}, Moment::seconds(2), std::nullopt}, "retake?"});
  r.chapters.push_back({{8}, {{1}, Moment(), std::nullopt}, "Dissolving"});
  r.relations.push_back({{10},
                         RelationType::reaction,
                         {{"reactant", {7}, "HNO3"}, {"product", {9}, "NO2"}},
                         {{"equation", "Cu + 4 HNO3 -> Cu(NO3)2 + 2 NO2 + 2 H2O"}},
                         "dissolving",
                         {}});
  return r;
}

model::Edit pin_figure(std::int64_t id, const std::string& label) {
  model::Figure figure;
  figure.id = {id};
  figure.place = {{1}, Moment::millis(id), std::nullopt};
  figure.reading = model::Reading{static_cast<double>(id) / 3, std::nullopt, "", "mL", model::Hedge::exact};
  figure.label = label;
  return {"Pin " + label, {{std::nullopt, figure}}, std::nullopt};
}

namespace {

// Draws values of every type a field has.
class Draw {
 public:
  explicit Draw(std::mt19937_64& random) : random_(random) {}

  std::uint64_t below(std::uint64_t n) { return random_() % n; }
  bool chance() { return below(2) == 0; }
  template <class E>
  E of(E last) {
    return static_cast<E>(below(static_cast<std::uint64_t>(last) + 1));
  }
  std::string text() {
    static const std::vector<std::string> pieces{"",
                                                 "copper",
                                                 " ",
                                                 "\n",
                                                 "\"",
                                                 "\\",
                                                 "/",
                                                 "~",
                                                 "\t",
                                                 "\x01",
                                                 std::string(1, '\0'),
                                                 "\x7f",
                                                 "µ",
                                                 "·",
                                                 "–",
                                                 "e\u0301",
                                                 "\u202e",
                                                 "\u200d",
                                                 "\ufeff",
                                                 "\ufffd",
                                                 "\uffff",
                                                 "𝛥",
                                                 "🧪",
                                                 "水",
                                                 "</script>",
                                                 "'; DROP TABLE figure; --",
                                                 "%s",
                                                 "²⁺"};
    std::string out;
    for (std::uint64_t i = below(6); i > 0; --i) out += pieces[below(pieces.size())];
    return out;
  }
  double number() {
    using Limits = std::numeric_limits<double>;
    static const std::vector<double> odd{0.0,
                                         -0.0,
                                         1.0,
                                         0.1,
                                         -1e-300,
                                         Limits::max(),
                                         Limits::lowest(),
                                         Limits::min(),
                                         Limits::denorm_min(),
                                         1.0 / 3,
                                         1e15,
                                         123456789012345680.0,
                                         Limits::epsilon()};
    if (chance()) return odd[below(odd.size())];
    double out = 0;
    do {
      const std::uint64_t bits = random_();
      static_assert(sizeof bits == sizeof out);
      std::memcpy(&out, &bits, sizeof out);
    } while (!std::isfinite(out));
    return out;
  }
  Moment moment() {
    static const std::vector<std::int64_t> odd{0, 1, -1, (std::int64_t{1} << 53) - 1, -(std::int64_t{1} << 53) + 1};
    if (chance()) return Moment::ticks(odd[below(odd.size())]);
    return Moment::ticks(static_cast<std::int64_t>(below(std::uint64_t{1} << 45)));
  }
  std::uint32_t offset() { return chance() ? std::numeric_limits<std::uint32_t>::max() : std::uint32_t(below(100)); }
  template <class T>
  decltype(T::id) one_of(const std::vector<T>& list) {
    return list[below(list.size())].id;
  }
  model::Place place(const model::Record& r) {
    return {one_of(r.footages), moment(), chance() ? std::optional(moment()) : std::nullopt};
  }
  model::Origin origin() { return {of(model::Standing::refused), text(), number()}; }

  // Things of one type with rising ids, made by `make`.
  template <class T, class F>
  void fill(std::vector<T>& list, std::uint64_t least, F make) {
    std::int64_t id = 0;
    for (std::uint64_t i = least + below(5); i > 0; --i) {
      id += 1 + static_cast<std::int64_t>(below(1000));
      T thing = make();
      thing.id = {id};
      list.push_back(std::move(thing));
    }
    if (!list.empty() && below(8) == 0) list.back().id = {(std::int64_t{1} << 53) - 1};
  }

 private:
  std::mt19937_64& random_;
};

}  // namespace

model::Record random_record(std::mt19937_64& random) {
  using namespace model;
  Draw d(random);
  Record r;
  r.bench = {d.text(), d.number(), d.number(), d.number(), d.text()};
  d.fill(r.footages, 1, [&] {
    return Footage{{},       d.text(),   d.text(),
                   d.text(), d.moment(), d.chance() ? std::numeric_limits<int>::min() : int(d.below(9))};
  });
  d.fill(r.lines, 1, [&] {
    NarrationLine line{{}, d.one_of(r.footages), {d.moment(), d.moment()}, d.text(), d.text(), {}, d.chance()};
    for (auto n = d.below(4); n > 0; --n) line.words.push_back({d.offset(), d.offset(), d.moment()});
    return line;
  });
  d.fill(r.portions, 1, [&] { return Portion{{}, d.text(), d.text(), d.text()}; });
  d.fill(r.figures, 1, [&] {
    Figure f;
    f.place = d.place(r);
    if (d.chance()) f.words = Words{d.one_of(r.lines), d.offset(), d.offset()};
    f.kind = d.of(quantity::Kind::other);
    if (d.chance()) {
      f.reading = Reading{d.number(), std::nullopt, d.text(), d.text(), d.of(Hedge::range)};
      if (d.chance()) f.reading->upper = d.number();
    }
    f.doubt = {d.of(Doubt::From::assumed_exact), d.number(), d.text()};
    f.subject = d.text();
    f.label = d.text();
    if (d.chance()) f.portion = d.one_of(r.portions);
    f.role = d.of(Role::other);
    f.source = d.of(Source::worked_out);
    f.origin = d.origin();
    return f;
  });
  for (Figure& f : r.figures) {
    if (d.chance()) f.corrected_by = d.one_of(r.figures);
  }
  d.fill(r.hazards, 1, [&] {
    return Hazard{{}, d.place(r), d.text(), d.text(), d.of(Route::other), d.of(Level::notice), d.text(), d.origin()};
  });
  d.fill(r.callouts, 0, [&] {
    Callout c{{}, d.place(r), d.text(), d.of(Level::notice), d.of(Delivery::spoken), {}, d.origin()};
    for (auto n = d.below(4); n > 0; --n) c.hazards.push_back(d.one_of(r.hazards));
    return c;
  });
  d.fill(r.notes, 0, [&] { return Note{{}, d.place(r), d.text()}; });
  d.fill(r.chapters, 0, [&] { return Chapter{{}, d.place(r), d.text()}; });
  d.fill(r.relations, 0, [&] {
    Relation relation{{}, d.of(RelationType::equilibrium), {}, {}, d.text(), d.origin()};
    for (auto n = d.below(5); n > 0; --n) relation.terms.push_back({d.text(), d.one_of(r.figures), d.text()});
    for (auto n = d.below(4); n > 0; --n) relation.given[d.text()] = d.text();
    return relation;
  });
  return r;
}

}  // namespace sash::store::test
