#include "demo/story.h"

#include <utility>

#include "demo/lines.h"
#include "demo/scene.h"
#include "narration/propose.h"
#include "support/check.h"

namespace sash::demo {
namespace {

using model::Delivery;
using model::Figure;
using model::FigureId;
using model::Hedge;
using model::Level;
using model::PortionId;
using model::RelationType;
using model::Role;
using model::Route;
using model::Term;
using quantity::Kind;

constexpr model::FootageId film{1};

// How a number was given: "4.0" in "mL".
struct Given {
  const char* digits;
  const char* unit;
  Hedge hedge = Hedge::exact;
};

class Story {
 public:
  model::Record tell(const std::string& film_name) {
    record_.bench.title = "The copper cycle";
    record_.bench.room_celsius = 21;
    record_.footages.push_back({film, film_name, "", "The copper cycle", Moment::seconds(film_seconds), 0});
    for (const auto& line : spoken_lines()) {
      model::NarrationLine l;
      l.id = {static_cast<std::int64_t>(record_.lines.size()) + 1};
      l.footage = film;
      l.when = line.when;
      l.text = line.text;
      record_.lines.push_back(std::move(l));
    }
    copper_to_nitrate();
    nitrate_to_oxide();
    oxide_to_copper();
    yields();
    hazards();
    chapters();
    return std::move(record_);
  }

 private:
  PortionId portion(const char* name, const char* subject, const char* vessel) {
    record_.portions.push_back({{static_cast<std::int64_t>(record_.portions.size()) + 1}, name, subject, vessel});
    return record_.portions.back().id;
  }

  Figure& add(Kind kind, Given given, const char* subject, Role role, PortionId portion) {
    Figure f;
    f.id = {static_cast<std::int64_t>(record_.figures.size()) + 1};
    f.kind = kind;
    f.reading = model::Reading{std::stod(given.digits), std::nullopt, given.digits, given.unit, given.hedge};
    f.subject = subject;
    f.role = role;
    if (portion.known()) f.portion = portion;
    f.place.footage = film;
    record_.figures.push_back(std::move(f));
    return record_.figures.back();
  }

  // A figure said in the narration: `phrase` stands in exactly one line, or in the one that also holds `beside`.
  FigureId said(const char* phrase, Kind kind, Given given, const char* subject, Role role, PortionId portion = {},
                const char* beside = "") {
    for (const auto& line : record_.lines) {
      const auto at = line.text.find(phrase);
      if (at == std::string::npos || line.text.find(beside) == std::string::npos) continue;
      Figure& f = add(kind, given, subject, role, portion);
      f.label = phrase;
      f.place.from = narration::heard_at(line, at);
      f.words = model::Words{line.id, static_cast<std::uint32_t>(at), static_cast<std::uint32_t>(f.label.size())};
      return f.id;
    }
    promise(false, "every phrase of the demo is in its narration");
    return {};
  }

  FigureId read_off(double seconds, Kind kind, Given given, const char* subject, Role role, PortionId portion,
                    const char* label) {
    Figure& f = add(kind, given, subject, role, portion);
    f.label = label;
    f.source = model::Source::read_off;
    f.place.from = Moment::seconds(seconds);
    return f.id;
  }

  void relate(RelationType type, const char* label, std::vector<Term> terms,
              std::map<std::string, std::string> given = {}) {
    model::Relation r;
    r.id = {static_cast<std::int64_t>(record_.relations.size()) + 1};
    r.type = type;
    r.label = label;
    r.terms = std::move(terms);
    r.given = std::move(given);
    record_.relations.push_back(std::move(r));
  }

  void copper_to_nitrate() {
    const auto wire = portion("copper wire", "copper", "250 mL beaker");
    const auto acid = portion("nitric acid", "nitric acid", "10 mL cylinder");
    const auto half = said("half a gram", Kind::mass, {"0.5", "g"}, "copper", Role::measured_out, wire);
    weighed_ = said("0.500 grams", Kind::mass, {"0.500", "g"}, "copper", Role::measured_out, wire);
    const auto shown =
        read_off(11.5, Kind::mass, {"0.500", "g"}, "copper", Role::measured_out, wire, "balance, copper wire");
    copper_ = said("7.87 millimoles", Kind::amount, {"7.87", "mmol"}, "copper", Role::stated_result, wire);
    const auto volume = said("4.0 millilitres", Kind::volume, {"4.0", "mL"}, "nitric acid", Role::added, acid);
    const auto strength =
        said("15.8 molar", Kind::molar_concentration, {"15.8", "mol/L"}, "nitric acid", Role::added, acid);
    const auto amount =
        said("63 millimoles", Kind::amount, {"63", "mmol", Hedge::about}, "nitric acid", Role::stated_result, acid);
    said("50 millilitres", Kind::volume, {"50", "mL"}, "water", Role::solvent);
    relate(RelationType::same_portion, "The copper wire",
           {{"mass", half, ""}, {"mass", weighed_, ""}, {"mass", shown, ""}, {"amount", copper_, ""}},
           {{"substance", "copper"}});
    relate(RelationType::in_solution, "The nitric acid",
           {{"strength", strength, ""}, {"solution_volume", volume, ""}, {"solute_amount", amount, ""}},
           {{"substance", "nitric acid"}});
    relate(RelationType::reaction, "Copper in nitric acid",
           {{"reactant", weighed_, "Cu"}, {"reactant", amount, "HNO3"}},
           {{"equation", "Cu + 4 HNO3 -> Cu(NO3)2 + 2 NO2 + 2 H2O"}});
  }

  void nitrate_to_oxide() {
    const auto lye = portion("sodium hydroxide solution", "sodium hydroxide", "25 mL cylinder");
    const auto volume =
        said("20 millilitres", Kind::volume, {"20", "mL"}, "sodium hydroxide solution", Role::added, lye);
    const auto strength = said("3.0 molar", Kind::molar_concentration, {"3.0", "mol/L"}, "sodium hydroxide solution",
                               Role::added, lye, "hydroxide");
    const auto amount =
        said("16 millimoles", Kind::amount, {"16", "mmol"}, "sodium hydroxide", Role::stated_result, lye);
    said("80 degrees", Kind::temperature, {"80", "Cel", Hedge::about}, "", Role::condition);
    said("five minutes", Kind::duration, {"5", "min"}, "", Role::condition);
    const auto oxide = said("0.626 grams", Kind::mass, {"0.626", "g"}, "copper(II) oxide", Role::stated_result,
                            portion("copper oxide, if nothing were lost", "copper(II) oxide", ""));
    relate(RelationType::in_solution, "The sodium hydroxide",
           {{"strength", strength, ""}, {"solution_volume", volume, ""}, {"solute_amount", amount, ""}},
           {{"substance", "sodium hydroxide"}});
    relate(RelationType::reaction, "Copper to oxide, if nothing were lost",
           {{"reactant", weighed_, "Cu"}, {"product", oxide, "CuO"}},
           {{"equation", "2 Cu + O2 -> 2 CuO"}, {"excess", "O2"}});
    relate(RelationType::chain, "From copper to its oxide", {{"start", weighed_, ""}, {"product", oxide, "3"}},
           {{"equation:1", "Cu + 4 HNO3 -> Cu(NO3)2 + 2 NO2 + 2 H2O"},
            {"equation:2", "Cu(NO3)2 + 2 NaOH -> Cu(OH)2 + 2 NaNO3"},
            {"equation:3", "Cu(OH)2 -> CuO + H2O"}});
  }

  void oxide_to_copper() {
    const auto acid = portion("sulfuric acid", "sulfuric acid", "25 mL cylinder");
    const auto volume = said("15 millilitres", Kind::volume, {"15", "mL"}, "sulfuric acid", Role::added, acid);
    const auto strength = said("3.0 molar", Kind::molar_concentration, {"3.0", "mol/L"}, "sulfuric acid", Role::added,
                               acid, "Sulfuric acid");
    const auto amount = said("45 millimoles", Kind::amount, {"45", "mmol"}, "sulfuric acid", Role::stated_result, acid);
    const auto zinc = said("1.50 grams", Kind::mass, {"1.50", "g"}, "zinc", Role::measured_out,
                           portion("zinc powder", "zinc", "weighing dish"));
    said("three times", Kind::count, {"3", "1"}, "water", Role::solvent);
    said("10 millilitres", Kind::volume, {"10", "mL"}, "water", Role::solvent);
    relate(RelationType::in_solution, "The sulfuric acid",
           {{"strength", strength, ""}, {"solution_volume", volume, ""}, {"solute_amount", amount, ""}},
           {{"substance", "sulfuric acid"}});
    relate(RelationType::reaction, "Zinc puts copper out of its sulfate",
           {{"reactant", zinc, "Zn"}, {"reactant", copper_, "CuSO4"}}, {{"equation", "Zn + CuSO4 -> ZnSO4 + Cu"}});
  }

  void yields() {
    const auto wet = portion("recovered copper, as filtered", "copper", "weighing dish");
    const auto dry = portion("recovered copper, dried", "copper", "weighing dish");
    const auto wet_mass = said("0.552 grams", Kind::mass, {"0.552", "g"}, "copper", Role::recovered, wet);
    read_off(128.5, Kind::mass, {"0.552", "g"}, "copper", Role::recovered, wet, "balance, before drying");
    const auto wet_yield = said("110 percent", Kind::percent_yield, {"110", "%"}, "copper", Role::stated_result, wet);
    said("ten minutes", Kind::duration, {"10", "min"}, "", Role::condition);
    said("105 degrees", Kind::temperature, {"105", "Cel"}, "", Role::condition);
    const auto dry_mass = said("0.481 grams", Kind::mass, {"0.481", "g"}, "copper", Role::recovered, dry);
    read_off(143.0, Kind::mass, {"0.481", "g"}, "copper", Role::recovered, dry, "balance, after drying");
    const auto dry_yield = said("96.2 percent", Kind::percent_yield, {"96.2", "%"}, "copper", Role::stated_result, dry);
    relate(RelationType::yield, "Copper back, before drying",
           {{"actual", wet_mass, ""}, {"theoretical", weighed_, ""}, {"percent", wet_yield, ""}}, {{"product", "Cu"}});
    relate(RelationType::yield, "Copper back, dried",
           {{"actual", dry_mass, ""}, {"theoretical", weighed_, ""}, {"percent", dry_yield, ""}}, {{"product", "Cu"}});
  }

  model::HazardId hazard(double from, double until, const char* cause, const char* substance, Route route,
                         Level level) {
    model::Hazard h;
    h.id = {static_cast<std::int64_t>(record_.hazards.size()) + 1};
    h.place = {film, Moment::seconds(from), Moment::seconds(until)};
    h.cause = cause;
    h.substance = substance;
    h.route = route;
    h.level = level;
    record_.hazards.push_back(std::move(h));
    return record_.hazards.back().id;
  }

  void callout(double from, double until, const char* text, Level level, Delivery delivery, model::HazardId of) {
    model::Callout c;
    c.id = {static_cast<std::int64_t>(record_.callouts.size()) + 1};
    c.place = {film, Moment::seconds(from), Moment::seconds(until)};
    c.text = text;
    c.level = level;
    c.delivery = delivery;
    c.hazards = {of};
    record_.callouts.push_back(std::move(c));
  }

  void hazards() {
    const auto nitric =
        hazard(26.5, 36, "concentrated nitric acid is poured", "nitric acid", Route::skin, Level::danger);
    callout(18, 27.5, "Nitric acid burns skin and eyes.\nGoggles, gloves, sash down.", Level::danger, Delivery::shown,
            nitric);
    callout(17.5, 25.6, "Concentrated nitric acid burns skin and eyes.", Level::danger, Delivery::spoken, nitric);
    const auto fume = hazard(fume_begins, fume_ends, "brown fume of nitrogen dioxide from copper in nitric acid",
                             "nitrogen dioxide", Route::inhalation, Level::danger);
    callout(44.5, 51, "Poisonous brown gas.\nHood on, do not breathe it.", Level::danger, Delivery::shown, fume);
    const auto plate = hazard(75, 91, "hot plate, hot beaker", "", Route::burn, Level::caution);
    callout(72, 82, "Plate and beaker are hot.\nUse tongs.", Level::caution, Delivery::shown, plate);
    const auto sulfuric = hazard(95.8, 101, "sulfuric acid is poured", "sulfuric acid", Route::eyes, Level::warning);
    callout(91.5, 95.5, "Sulfuric acid is corrosive, so goggles stay on.", Level::warning, Delivery::spoken, sulfuric);
    hazard(zinc_in, fizz_ends, "hydrogen from zinc in sulfuric acid", "hydrogen", Route::fire, Level::warning);
    const auto waste = hazard(150, 155, "zinc and copper salts must not reach the drain", "zinc sulfate",
                              Route::environment, Level::notice);
    callout(148, 154, "Metal waste: into the jar,\nnot into the sink.", Level::notice, Delivery::shown, waste);
  }

  void chapters() {
    constexpr std::pair<double, const char*> marks[] = {{0, "Round the cycle"},
                                                        {8.5, "Weighing the copper"},
                                                        {17, "Into solution"},
                                                        {60, "Hydroxide, then oxide"},
                                                        {91, "Back into solution"},
                                                        {107, "Copper again, and how much"},
                                                        {147.5, "Waste"}};
    for (const auto& [from, title] : marks) {
      record_.chapters.push_back({{static_cast<std::int64_t>(record_.chapters.size()) + 1},
                                  {film, Moment::seconds(from), std::nullopt},
                                  title});
    }
    record_.notes.push_back(
        {{1}, {film, Moment::seconds(46), std::nullopt}, "Brown fume is in the picture well before anybody says so."});
  }

  model::Record record_;
  FigureId weighed_;
  FigureId copper_;
};

}  // namespace

model::Record make_record(const std::string& film_name) { return Story().tell(film_name); }

}  // namespace sash::demo
