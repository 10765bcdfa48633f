#include "draw/pages/lesson.h"

#include <algorithm>
#include <array>
#include <random>

namespace sash::testing {
namespace {

using namespace model;
using quantity::Kind;

constexpr FootageId bench{1};
constexpr FootageId balance{2};

class Maker {
 public:
  Record record;

  LineId line(FootageId f, double from, double until, std::string text) {
    NarrationLine l;
    l.id = {++lines_};
    l.footage = f;
    l.when = {Moment::seconds(from), Moment::seconds(until)};
    l.text = std::move(text);
    record.lines.push_back(l);
    return l.id;
  }

  /// A figure stated by words of a line, or at a moment where `words` is empty.
  FigureId figure(LineId line, std::string_view words, Kind kind, double value, std::string digits, std::string unit,
                  std::string subject, Role role = Role::measured_out, Hedge hedge = Hedge::exact) {
    const NarrationLine& l = *find(record, line);
    Figure f;
    f.id = {++figures_};
    f.place.footage = l.footage;
    const auto at = l.text.find(words);
    f.words = Words{line, static_cast<std::uint32_t>(at), static_cast<std::uint32_t>(words.size())};
    const double share = static_cast<double>(at) / static_cast<double>(l.text.size());
    f.place.from = l.when.from + Moment::seconds(l.when.length().in_seconds() * share);
    f.kind = kind;
    f.reading = Reading{value, std::nullopt, std::move(digits), std::move(unit), hedge};
    f.subject = std::move(subject);
    f.role = role;
    record.figures.push_back(f);
    return f.id;
  }

  Figure& last() { return record.figures.back(); }

  HazardId hazard(FootageId f, double from, std::optional<double> until, std::string cause, std::string substance,
                  Route route, Level level) {
    Hazard h;
    h.id = {++hazards_};
    h.place = {f, Moment::seconds(from), until ? std::optional(Moment::seconds(*until)) : std::nullopt};
    h.cause = std::move(cause);
    h.substance = std::move(substance);
    h.route = route;
    h.level = level;
    record.hazards.push_back(h);
    return h.id;
  }

  void callout(FootageId f, double from, double until, std::string text, Level level, HazardId hazard) {
    Callout c;
    c.id = {++callouts_};
    c.place = {f, Moment::seconds(from), Moment::seconds(until)};
    c.text = std::move(text);
    c.level = level;
    c.hazards = {hazard};
    record.callouts.push_back(c);
  }

  void chapter(FootageId f, double at, std::string title) {
    record.chapters.push_back({{++chapters_}, {f, Moment::seconds(at), std::nullopt}, std::move(title)});
  }

  void note(FootageId f, double at, std::string text) {
    record.notes.push_back({{++notes_}, {f, Moment::seconds(at), std::nullopt}, std::move(text)});
  }

  Relation& relation(RelationType type, std::vector<Term> terms, std::map<std::string, std::string> given,
                     std::string label) {
    Relation r;
    r.id = {++relations_};
    r.type = type;
    r.terms = std::move(terms);
    r.given = std::move(given);
    r.label = std::move(label);
    record.relations.push_back(r);
    return record.relations.back();
  }

 private:
  std::int64_t lines_ = 0;
  std::int64_t figures_ = 0;
  std::int64_t hazards_ = 0;
  std::int64_t callouts_ = 0;
  std::int64_t chapters_ = 0;
  std::int64_t notes_ = 0;
  std::int64_t relations_ = 0;
};

Footage footage(FootageId id, std::string path, std::string title, double seconds, int order) {
  Footage f;
  f.id = id;
  f.path = std::move(path);
  f.title = std::move(title);
  f.duration = Moment::seconds(seconds);
  f.order = order;
  return f;
}

}  // namespace

Record lesson() {
  Maker m;
  m.record.bench.title = "Copper and back again";
  m.record.footages = {footage(bench, "bench.mp4", "Bench, wide", 168, 1),
                       footage(balance, "balance.mp4", "Balance, close", 74, 2)};

  m.chapter(bench, 0, "Copper into nitric acid");
  const auto l1 =
      m.line(bench, 1.2, 6.0,
             "Good morning. Today a piece of copper goes all the way round and, with luck, comes back as copper.");
  static_cast<void>(l1);
  const auto l2 =
      m.line(bench, 7.5, 12.5, "I start with two grams of copper turnings, weighed to the milligram: 2.004 g.");
  const auto two = m.figure(l2, "two grams", Kind::mass, 2, "2", "g", "copper", Role::measured_out, Hedge::about);
  const auto copper = m.figure(l2, "2.004 g", Kind::mass, 2.004, "2.004", "g", "copper");
  m.last().source = Source::read_off;
  m.last().doubt = {Doubt::From::instrument, 0, "balance 0.001 g"};
  const auto l3 = m.line(
      bench, 14.0, 20.5,
      "Onto it, in the hood, go twenty millilitres of concentrated nitric acid, sixteen molar, and I step back.");
  const auto acid = m.figure(l3, "twenty millilitres", Kind::volume, 20, "20", "mL", "nitric acid", Role::added);
  m.last().doubt = {Doubt::From::instrument, 0, "ISO 4788 cylinder 25 mL A"};
  const auto molar =
      m.figure(l3, "sixteen molar", Kind::molar_concentration, 16, "16", "mol/L", "nitric acid", Role::condition);
  m.line(bench, 22.0, 27.0, "It turns green, then blue, and look at the brown gas roll over the rim of the beaker.");
  const auto l5 =
      m.line(bench, 28.0, 34.0, "That is 0.23 moles of acid, so there is plenty: copper is what runs out first.");
  const auto moles = m.figure(l5, "0.23 moles", Kind::amount, 0.23, "0.23", "mol", "nitric acid", Role::stated_result);
  const auto l6 = m.line(bench, 36.0, 41.0, "Every bit of copper should give about 5.9 grams of copper nitrate.");
  const auto nitrate =
      m.figure(l6, "5.9 grams", Kind::mass, 5.9, "5.9", "g", "copper(II) nitrate", Role::stated_result, Hedge::about);

  m.chapter(bench, 62, "Hydroxide, then oxide");
  const auto l7 =
      m.line(bench, 64.0, 70.0,
             "Now sodium hydroxide, 12 grams of pellets in 100 millilitres of water: a three molar solution.");
  const auto naoh = m.figure(l7, "12 grams", Kind::mass, 12, "12", "g", "sodium hydroxide", Role::measured_out);
  const auto naoh_volume =
      m.figure(l7, "100 millilitres", Kind::volume, 100, "100", "mL", "sodium hydroxide solution", Role::solvent);
  const auto naoh_molar =
      m.figure(l7, "three molar", Kind::molar_concentration, 3, "3", "mol/L", "sodium hydroxide", Role::stated_result);
  m.line(bench, 71.5, 76.0, "Blue jelly. Copper hydroxide. Stir, and warm it gently to seventy degrees.");
  const auto warm = m.figure({8}, "seventy degrees", Kind::temperature, 70, "70", "Cel", "", Role::condition);
  m.last().origin = {Standing::proposed, "temperature after “to”", 0.91};
  m.line(bench, 78.0, 83.0, "It goes black in a minute or two as the water leaves: that is the oxide.");
  m.figure({9}, "a minute or two", Kind::duration, 1, "", "min", "", Role::condition, Hedge::range);
  m.last().reading->upper = 2;
  m.last().origin = {Standing::proposed, "duration as a range", 0.74};

  m.chapter(bench, 112, "Sulfate, and zinc");
  const auto l10 = m.line(bench, 114.0, 120.0,
                          "Filter, wash, and into the oxide go fifteen millilitres of six molar sulfuric acid.");
  m.figure(l10, "fifteen millilitres", Kind::volume, 15, "15", "mL", "sulfuric acid", Role::added);
  m.last().origin = {Standing::proposed, "volume of a substance", 0.97};
  m.figure(l10, "six molar", Kind::molar_concentration, 6, "6", "mol/L", "sulfuric acid", Role::condition);
  m.last().origin = {Standing::proposed, "strength before a substance", 0.96};
  m.line(bench, 124.0, 130.0,
         "A clear deep blue. Zinc powder next, a spatula at a time, and it fizzes: keep every flame away.");
  m.note(bench, 133, "Ask whether the hood light was on; colour looks off here.");

  m.chapter(balance, 0, "What comes back");
  const auto l12 =
      m.line(balance, 2.0, 8.0,
             "Dried on the filter, and on the balance: 2.173 grams of copper. That is a yield of 108 percent.");
  const auto back = m.figure(l12, "2.173 grams", Kind::mass, 2.173, "2.173", "g", "copper", Role::recovered);
  m.last().source = Source::shown;
  const auto yield = m.figure(l12, "108 percent", Kind::percent_yield, 108, "108", "%", "copper", Role::stated_result);
  m.line(balance, 10.0, 16.0, "More than we put in? It is still damp. Back into the oven it goes for half an hour.");
  m.figure({13}, "half an hour", Kind::duration, 30, "", "min", "", Role::condition);

  const auto fume = m.hazard(bench, 15, 44, "brown nitrogen dioxide over the beaker", "nitrogen dioxide",
                             Route::inhalation, Level::danger);
  const auto splash =
      m.hazard(bench, 14, 22, "concentrated nitric acid being poured", "nitric acid", Route::eyes, Level::danger);
  const auto caustic =
      m.hazard(bench, 64, 92, "hot caustic, may spit while stirred", "sodium hydroxide", Route::eyes, Level::warning);
  m.hazard(bench, 125, 158, "hydrogen from zinc in acid", "hydrogen", Route::fire, Level::warning);
  const auto glass = m.hazard(balance, 18, std::nullopt, "hot glass from the oven", "", Route::burn, Level::caution);
  m.callout(bench, 10.5, 16, "Hood on, sash down. Do not breathe the brown gas.", Level::danger, fume);
  m.callout(bench, 10, 15, "Goggles and gloves before the acid is opened.", Level::danger, splash);
  m.callout(bench, 67, 72, "Goggles: caustic spits when it is hot.", Level::warning, caustic);
  m.callout(balance, 14, 20, "Hot glass looks like cold glass.", Level::caution, glass);

  m.record.portions = {{{1}, "copper to start with", "copper", "150 mL beaker"},
                       {{2}, "acid for the copper", "nitric acid", "measuring cylinder"}};
  m.relation(RelationType::same_portion, {{"same", two, ""}, {"same", copper, ""}}, {}, "copper, said and weighed");
  m.relation(RelationType::in_solution,
             {{"strength", molar, ""}, {"solution_volume", acid, ""}, {"solute_amount", moles, ""}},
             {{"substance", "HNO3"}}, "acid for the copper");
  m.relation(RelationType::reaction, {{"reactant", copper, "Cu"}, {"product", nitrate, "Cu(NO3)2"}},
             {{"equation", "Cu + 4 HNO3 -> Cu(NO3)2 + 2 NO2 + 2 H2O"}}, "copper to nitrate");
  m.relation(RelationType::in_solution,
             {{"strength", naoh_molar, ""}, {"solution_volume", naoh_volume, ""}, {"solute_mass", naoh, ""}},
             {{"substance", "NaOH"}}, "sodium hydroxide solution");
  m.relation(RelationType::share, {{"fraction", yield, ""}, {"part", back, ""}, {"whole", copper, ""}}, {},
             "copper recovered");
  m.relation(RelationType::duration, {{"stated", {static_cast<std::int64_t>(m.record.figures.size())}, ""}}, {},
             "in the oven")
      .origin = {Standing::proposed, "a stated time", 0.6};
  static_cast<void>(warm);
  std::stable_sort(m.record.figures.begin(), m.record.figures.end(),
                   [](const Figure& a, const Figure& b) { return a.id < b.id; });
  return m.record;
}

Record lesson_with_diagrams() {
  Record record = lesson();
  const auto figure = [&record](std::int64_t id, Kind kind, double value, const char* digits, const char* unit) {
    Figure f;
    f.id = {id};
    f.place = {record.footages.front().id, Moment::seconds(2 + static_cast<double>(id - 100) / 2), std::nullopt};
    f.kind = kind;
    if (digits[0] != 0) f.reading = Reading{value, std::nullopt, digits, unit, Hedge::exact};
    record.figures.push_back(f);
    return f.id;
  };
  const auto mass = figure(101, Kind::mass, 100, "100.0", "g");
  const auto amount = figure(102, Kind::amount, 0.1, "0.100", "mol");
  const auto before = figure(103, Kind::temperature, 20, "20.0", "Cel");
  const auto after = figure(104, Kind::temperature, 33.3, "33.3", "Cel");
  Relation heat;
  heat.id = {51};
  heat.type = RelationType::heat;
  heat.terms = {
      {"mass", mass, ""}, {"amount", amount, ""}, {"temperature_before", before, ""}, {"temperature_after", after, ""}};
  heat.given = {{"enthalpy", "-55.8 kJ/mol"}};
  record.relations.push_back(heat);
  const auto gas = figure(105, Kind::amount, 0.01, "0.0100", "mol");
  const auto volume = figure(106, Kind::gas_volume, 245, "245", "mL");
  const auto room = figure(107, Kind::temperature, 25, "25.0", "Cel");
  Relation given_off;
  given_off.id = {52};
  given_off.type = RelationType::gas_given_off;
  given_off.terms = {{"amount", gas, ""}, {"volume", volume, ""}, {"temperature", room, ""}};
  given_off.given = {{"pressure", "101.325 kPa"}};
  record.relations.push_back(given_off);
  return record;
}

Record long_lesson(int hours, int pins) {
  static constexpr std::array<std::string_view, 8> said{
      "now the flask is swirled until the last of the solid has gone, and we wait for the colour",
      "twenty millilitres more, slowly, down the side of the glass",
      "you can see a little cloudiness forming here, which clears again when it is stirred",
      "that brings it to about four grams, give or take, and a temperature of thirty degrees",
      "keep the hood running for this part, please",
      "and while that filters, a word about why the wash water is cold",
      "the residue is bright blue and quite heavy",
      "so far so good; let me write that down before I forget it"};
  static constexpr std::array<std::string_view, 5> subjects{"copper(II) sulfate", "sulfuric acid", "water",
                                                            "sodium carbonate", "zinc"};
  static constexpr std::array<Kind, 5> kinds{Kind::mass, Kind::volume, Kind::temperature, Kind::molar_concentration,
                                             Kind::duration};
  static constexpr std::array<std::string_view, 5> units{"g", "mL", "Cel", "mol/L", "min"};
  std::mt19937 random(41);
  const double length = hours * 3600.0;
  Record r;
  r.footages = {footage(bench, "long.mp4", "A long afternoon", length, 1)};
  for (std::int64_t i = 0; i < static_cast<std::int64_t>(length / 3); ++i) {
    NarrationLine l;
    l.id = {i + 1};
    l.footage = bench;
    l.when = {Moment::seconds(3.0 * static_cast<double>(i)), Moment::seconds(3.0 * static_cast<double>(i) + 2.7)};
    l.text = said[random() % said.size()];
    r.lines.push_back(l);
  }
  for (std::int64_t i = 0; i < pins; ++i) {
    Figure f;
    f.id = {i + 1};
    f.place = {bench, Moment::millis(static_cast<std::int64_t>(random()) % static_cast<std::int64_t>(length * 1000)),
               std::nullopt};
    const std::size_t k = random() % kinds.size();
    f.kind = kinds[k];
    f.reading = Reading{static_cast<double>(1 + random() % 90), std::nullopt, "", std::string(units[k]), Hedge::exact};
    f.subject = subjects[random() % subjects.size()];
    r.figures.push_back(f);
    if (i % 20 != 0) continue;
    Hazard h;
    h.id = {i + 1};
    h.place = {bench, f.place.from, f.place.from + Moment::seconds(20)};
    h.cause = "splash of acid";
    h.route = Route::eyes;
    r.hazards.push_back(h);
  }
  return r;
}

}  // namespace sash::testing
