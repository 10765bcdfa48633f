#include "desk/shown/editor.h"

#include <algorithm>
#include <cmath>

#include "desk/shown/words.h"
#include "quantity/glassware.h"
#include "quantity/trade_unit.h"
#include "safety/callout_text.h"
#include "safety/reading.h"
#include "support/text.h"

namespace sash::desk {
namespace {

std::string plain_number(double value) { return replace_all(number_text(value), "−", "-"); }

Outcome<double> number_in(std::string_view text) {
  std::string plain = replace_all(std::string(trim(text)), "−", "-");
  // "1,250" has a thousands mark; "12,5" a decimal comma.
  if (const auto comma = plain.find(','); comma != std::string::npos && plain.find('.') == std::string::npos) {
    if (plain.size() - comma == 4 && plain.find(',', comma + 1) == std::string::npos) {
      plain.erase(comma, 1);
    } else {
      plain[comma] = '.';
    }
  }
  const auto value = read_number(plain);
  if (!value) return Fault::of(Code::malformed, "Not a number.", std::string(text));
  return *value;
}

model::Place* place_in(model::Thing& thing) {
  return std::visit(
      [](auto& t) -> model::Place* {
        if constexpr (requires { t.place; }) return &t.place;
        return nullptr;
      },
      thing);
}

const model::Place* place_in(const model::Thing& thing) { return place_in(const_cast<model::Thing&>(thing)); }

std::string clock_with_hundredths(Moment m) {
  const std::int64_t hundredths = m.count() / (Moment::per_second / 100) % 100;
  return short_clock_text(m) +
         (hundredths == 0 ? "" : "." + std::string(hundredths < 10 ? "0" : "") + std::to_string(hundredths));
}

std::string figure_field(const model::Figure& f, PinField field) {
  switch (field) {
    case PinField::value:
      if (!f.reading) return {};
      return f.reading->digits.empty() || f.reading->upper ? plain_number(f.reading->value) : f.reading->digits;
    case PinField::upper:
      return f.reading && f.reading->upper ? plain_number(*f.reading->upper) : "";
    case PinField::unit:
      return f.reading ? unit_text(f.kind, f.reading->unit) : "";
    case PinField::half_width:
      return f.doubt.half_width > 0 ? plain_number(f.doubt.half_width) : "";
    case PinField::subject:
      return f.subject;
    case PinField::label:
      return f.label;
    default:
      return {};
  }
}

Outcome<model::Thing> with_figure_field(model::Figure f, PinField field, std::string_view text) {
  const std::string_view typed = trim(text);
  const auto reading = [&]() -> model::Reading& {
    if (!f.reading) f.reading = model::Reading{};
    return *f.reading;
  };
  switch (field) {
    case PinField::value: {
      if (typed.empty()) {
        f.reading.reset();
        return model::Thing(f);
      }
      const auto value = number_in(typed);
      if (!value) return value.fault();
      reading().value = *value;
      reading().digits = std::string(typed);
      return model::Thing(f);
    }
    case PinField::upper: {
      if (typed.empty()) {
        reading().upper.reset();
        if (reading().hedge == model::Hedge::range) reading().hedge = model::Hedge::exact;
        return model::Thing(f);
      }
      const auto upper = number_in(typed);
      if (!upper) return upper.fault();
      if (*upper <= reading().value)
        return Fault::of(Code::out_of_range, "The upper end is not above the lower.", std::string(typed));
      reading().upper = *upper;
      reading().hedge = model::Hedge::range;
      return model::Thing(f);
    }
    case PinField::unit: {
      if (typed.empty()) {
        reading().unit = "1";
        return model::Thing(f);
      }
      const auto unit = quantity::read_trade_unit(typed);
      if (!unit) return unit.fault();
      reading().unit = unit->unit.code();
      if (const auto implied = unit->kind ? unit->kind : quantity::kind_implied_by(unit->unit);
          implied && !quantity::unit_for(f.kind, unit->unit.code()).ok()) {
        f.kind = *implied;
      } else if (implied && f.kind == quantity::Kind::other) {
        f.kind = *implied;
      }
      return model::Thing(f);
    }
    case PinField::half_width: {
      const auto half = number_in(typed);
      if (!half) return half.fault();
      if (*half <= 0) return Fault::of(Code::out_of_range, "A plus-minus is above zero.", std::string(typed));
      f.doubt = {model::Doubt::From::stated, *half, {}};
      return model::Thing(f);
    }
    case PinField::subject:
      f.subject = std::string(typed);
      return model::Thing(f);
    case PinField::label:
      f.label = std::string(typed);
      return model::Thing(f);
    default:
      return Fault::of(Code::wrong_use, "A figure has no such field.");
  }
}

// Instruments that measure in the figure's dimension, the one that was chosen first.
std::vector<std::string> instruments_for(const model::Figure& f) {
  std::vector<std::string> names;
  if (!f.doubt.instrument.empty()) names.push_back(f.doubt.instrument);
  const auto unit =
      f.reading ? quantity::unit_for(f.kind, f.reading->unit) : Outcome<quantity::Unit>(quantity::default_unit(f.kind));
  if (!unit) return names;
  for (const auto& instrument : quantity::instruments()) {
    std::string name = instrument.name();
    if (instrument.unit.dimension() == unit->dimension() && name != f.doubt.instrument)
      names.push_back(std::move(name));
  }
  return names;
}

// A callout that comes too late begins earlier, its end stays; one too brief to read stays longer.
std::vector<Mend> mends_of(const model::Record& record, const safety::Cover& cover, const model::Callout& callout) {
  std::vector<Mend> mends;
  const auto& limits = safety::reading_profile(record.bench.reading_profile);
  for (const auto& finding : cover.findings) {
    const auto* hazard = model::find(record, finding.hazard);
    if (finding.callout != callout.id || hazard == nullptr) continue;
    if (finding.gap == safety::Gap::late || finding.gap == safety::Gap::short_notice) {
      const Moment lead = Moment::seconds(limits.lead_seconds);
      model::Callout earlier = callout;
      earlier.place.until = callout.place.stretch().until;
      earlier.place.from = hazard->place.from > lead ? hazard->place.from - lead : Moment();
      mends.push_back({"Begin it at " + clock_with_hundredths(earlier.place.from), earlier});
    } else if (finding.gap == safety::Gap::unreadable) {
      const double needed = safety::seconds_to_read(safety::measure(safety::read_text(callout)), limits);
      model::Callout longer = callout;
      const double tenths = std::ceil(needed * 10) / 10;
      longer.place.until = callout.place.from + Moment::seconds(tenths);
      mends.push_back({"Show it for " + plain_number(tenths) + " s", longer});
    }
  }
  return mends;
}

}  // namespace

Outcome<Moment> read_clock(std::string_view text) {
  const auto parts = split(trim(text), ':');
  if (parts.size() > 3) return Fault::of(Code::malformed, "Write a time as 1:23.5.", std::string(text));
  double seconds = 0;
  for (const std::string_view part : parts) {
    const auto n = read_number(part);
    if (!n || *n < 0) return Fault::of(Code::malformed, "Write a time as 1:23.5.", std::string(text));
    seconds = seconds * 60 + *n;
  }
  if (seconds > 1e6) return Fault::of(Code::out_of_range, "That is later than any footage.", std::string(text));
  return Moment::seconds(seconds);
}

std::string field_text(const model::Thing& thing, PinField field) {
  if (field == PinField::from || field == PinField::until) {
    const model::Place* place = place_in(thing);
    if (place == nullptr || (field == PinField::until && !place->until)) return {};
    return clock_with_hundredths(field == PinField::from ? place->from : *place->until);
  }
  if (const auto* f = std::get_if<model::Figure>(&thing)) return figure_field(*f, field);
  if (const auto* h = std::get_if<model::Hazard>(&thing)) {
    if (field == PinField::cause) return h->cause;
    if (field == PinField::substance) return h->substance;
    if (field == PinField::note) return h->note;
  }
  if (const auto* c = std::get_if<model::Callout>(&thing); c != nullptr && field == PinField::text) return c->text;
  if (const auto* n = std::get_if<model::Note>(&thing); n != nullptr && field == PinField::text) return n->text;
  if (const auto* c = std::get_if<model::Chapter>(&thing); c != nullptr && field == PinField::title) return c->title;
  return {};
}

Outcome<model::Thing> with_field(const model::Thing& thing, PinField field, std::string_view text) {
  model::Thing out = thing;
  if (field == PinField::from || field == PinField::until) {
    model::Place* place = place_in(out);
    if (place == nullptr) return Fault::of(Code::wrong_use, "This has no place in the footage.");
    if (field == PinField::until && trim(text).empty()) {
      place->until.reset();
      return out;
    }
    const auto at = read_clock(text);
    if (!at) return at.fault();
    if (field == PinField::from) {
      if (place->until) place->until = *place->until + (*at - place->from);  // a span moves whole
      place->from = *at;
    } else {
      if (*at <= place->from)
        return Fault::of(Code::out_of_range, "The end is not after the start.", std::string(text));
      place->until = *at;
    }
    return out;
  }
  if (const auto* f = std::get_if<model::Figure>(&thing)) return with_figure_field(*f, field, text);
  const std::string typed(trim(text));
  if (auto* h = std::get_if<model::Hazard>(&out)) {
    if (field == PinField::cause) return h->cause = typed, Outcome<model::Thing>(out);
    if (field == PinField::substance) return h->substance = typed, Outcome<model::Thing>(out);
    if (field == PinField::note) return h->note = typed, Outcome<model::Thing>(out);
  }
  if (auto* c = std::get_if<model::Callout>(&out); c != nullptr && field == PinField::text)
    return c->text = typed, Outcome<model::Thing>(out);
  if (auto* n = std::get_if<model::Note>(&out); n != nullptr && field == PinField::text)
    return n->text = typed, Outcome<model::Thing>(out);
  if (auto* c = std::get_if<model::Chapter>(&out); c != nullptr && field == PinField::title)
    return c->title = typed, Outcome<model::Thing>(out);
  return Fault::of(Code::wrong_use, "There is no such field.");
}

std::string edit_name(const model::Thing& thing) {
  static constexpr std::string_view names[] = {"Edit footage", "Edit narration", "Edit portion",
                                               "Edit figure",  "Edit hazard",    "Edit callout",
                                               "Edit note",    "Edit chapter",   "Edit relation"};
  return std::string(names[thing.index()]);
}

EditorShown show_editor(const model::Record& record, const safety::Cover& cover, const Selection& selection,
                        bool read_only) {
  EditorShown shown;
  shown.read_only = read_only;
  if (!selection.thing) return shown;
  shown.thing = thing_of(record, *selection.thing);
  if (!shown.thing) return shown;
  const auto origin = [&](const model::Origin& o) {
    shown.proposed = o.standing == model::Standing::proposed;
    if (o.rule.empty()) return;
    shown.origin = (shown.proposed ? "proposed: " : "found by: ") + origin_text(o);
  };
  if (const auto* f = std::get_if<model::Figure>(&*shown.thing)) {
    shown.title = "Figure";
    shown.icon = Icon::figure;
    origin(f->origin);
    shown.portion_names.emplace_back("no portion");
    shown.portions.emplace_back(std::nullopt);
    for (const auto& p : record.portions) {
      if (f->portion == p.id) shown.portion = shown.portions.size();
      shown.portion_names.push_back(p.name + (p.vessel.empty() ? "" : " (" + p.vessel + ")"));
      shown.portions.emplace_back(p.id);
    }
    shown.instruments = instruments_for(*f);
  } else if (const auto* h = std::get_if<model::Hazard>(&*shown.thing)) {
    shown.title = "Hazard";
    shown.icon = Icon::hazard;
    origin(h->origin);
    for (const auto& finding : cover.findings) {
      if (finding.hazard == h->id && finding.gap != safety::Gap::none) shown.remarks.push_back(finding.sentence);
    }
  } else if (const auto* c = std::get_if<model::Callout>(&*shown.thing)) {
    shown.title = "Callout";
    shown.icon = Icon::callout;
    shown.mends = mends_of(record, cover, *c);
    origin(c->origin);
    for (const auto& finding : cover.findings) {
      if (finding.callout == c->id && finding.gap != safety::Gap::none) shown.remarks.push_back(finding.sentence);
    }
    for (const auto& hazard : record.hazards) {
      if (hazard.origin.standing == model::Standing::refused || hazard.place.footage != c->place.footage) continue;
      const bool tied = std::find(c->hazards.begin(), c->hazards.end(), hazard.id) != c->hazards.end();
      const Moment near = Moment::seconds(60);
      const bool close =
          hazard.place.from < c->place.stretch().until + near && c->place.from < hazard.place.stretch().until + near;
      if (tied || close)
        shown.hazards.push_back({hazard.id, short_clock_text(hazard.place.from) + "  " + hazard.cause, tied});
    }
  } else if (std::holds_alternative<model::Note>(*shown.thing)) {
    shown.title = "Note";
    shown.icon = Icon::note;
  } else if (std::holds_alternative<model::Chapter>(*shown.thing)) {
    shown.title = "Chapter";
    shown.icon = Icon::chapter;
  } else {
    shown.thing.reset();  // lines, relations and portions are edited elsewhere
  }
  return shown;
}

model::Callout callout_for(const model::Hazard& hazard) {
  const Moment lead = Moment::seconds(3);
  model::Callout c;
  c.place.footage = hazard.place.footage;
  c.place.from = hazard.place.from > lead ? hazard.place.from - lead : Moment();
  c.place.until = std::max(hazard.place.from, c.place.from) + Moment::seconds(4);
  c.level = hazard.level;
  c.text = hazard.cause;
  if (!c.text.empty() && c.text.front() >= 'a' && c.text.front() <= 'z')
    c.text.front() = static_cast<char>(c.text.front() - 'a' + 'A');
  c.hazards = {hazard.id};
  return c;
}

}  // namespace sash::desk
