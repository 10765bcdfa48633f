#include "desk/draw/editor_form.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "desk/draw/font_measure.h"
#include "desk/draw/kit/controls.h"
#include "desk/draw/kit/field.h"
#include "desk/draw/kit/text_block.h"
#include "desk/shown/words.h"
#include "quantity/kind.h"

namespace sash::desk {
namespace {

template <class E, std::size_t N>
std::array<std::string_view, N> words_list() {
  std::array<std::string_view, N> out;
  for (std::size_t i = 0; i < N; ++i) out[i] = words_of(static_cast<E>(i));
  return out;
}

std::string_view id_of(PinField field) {
  static constexpr std::array<std::string_view, 14> ids{
      "pin.typed", "pin.value",     "pin.upper", "pin.unit", "pin.half_width", "pin.subject", "pin.label",
      "pin.cause", "pin.substance", "pin.note",  "pin.text", "pin.title",      "pin.from",    "pin.until"};
  return ids[static_cast<std::size_t>(field)];
}

class Form {
 public:
  Form(Kit& kit, const EditorShown& shown, EditorState& state, Asks& asks)
      : kit_(kit), shown_(shown), state_(state), asks_(asks), want_first_(std::exchange(state.to_first_field, false)) {
    whole_ = ImGui::GetContentRegionAvail().x;
    label_ = std::round(kit.m().small * 5.2F);
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, {kit.m().px(4), kit.m().px(3)});
  }
  ~Form() { ImGui::PopStyleVar(); }
  Form(const Form&) = delete;
  Form& operator=(const Form&) = delete;

  void figure(const model::Figure& f) {
    quick(f);
    row("Value");
    const bool range = f.reading && f.reading->upper;
    text(PinField::value, range ? 0.26F : 0.34F, "number", true);
    if (range || (f.reading && f.reading->hedge == model::Hedge::range)) text(PinField::upper, 0.22F, "to", true);
    text(PinField::unit, range ? 0.24F : 0.28F, "unit");
    const model::Hedge hedge = f.reading ? f.reading->hedge : model::Hedge::exact;
    pick_and_put("pin.hedge", words_list<model::Hedge, 5>(), hedge, f, [](model::Figure& n, model::Hedge chosen) {
      if (!n.reading) n.reading = model::Reading{};
      n.reading->hedge = chosen;
      if (chosen != model::Hedge::range) n.reading->upper.reset();
    });
    row("Kind");
    std::vector<std::string_view> kinds;
    for (const auto k : quantity::all_kinds()) kinds.push_back(kind_words(k));
    pick_and_put("pin.kind", kinds, f.kind, f, [](model::Figure& n, quantity::Kind chosen) { n.kind = chosen; });
    row("About");
    text(PinField::subject, 0.58F, "substance");
    text(PinField::label, 0, "your name for it");
    row("Doubt");
    using From = model::Doubt::From;
    const bool more = f.doubt.from == From::stated || f.doubt.from == From::instrument;
    pick_and_put(
        "pin.doubt", words_list<From, 4>(), f.doubt.from, f,
        [](model::Figure& n, From chosen) { n.doubt.from = chosen; }, more ? 0.45F : 0);
    if (f.doubt.from == From::stated) text(PinField::half_width, 0, "± in its unit", true);
    if (f.doubt.from == From::instrument) instrument(f);
    row("Portion");
    portion(f);
    row("Part");
    pick_word<9>("pin.role", f, &model::Figure::role, 0.56F);
    pick_word<4>("pin.source", f, &model::Figure::source);
    when();
  }

  void hazard(const model::Hazard& h) {
    row("Cause");
    prose(PinField::cause, "what harms, and from what");
    row("Level");
    pick_word<4>("pin.level", h, &model::Hazard::level);
    row("Route");
    pick_word<14>("pin.route", h, &model::Hazard::route);
    row("Substance");
    text(PinField::substance, 0, "where one is the cause");
    row("Note");
    prose(PinField::note, "for yourself");
    when();
    if (!shown_.read_only && button(kit_, "pin.callout", "Write a callout",
                                    {.icon = Icon::callout,
                                     .tip = binding(Action::write_callout).words,
                                     .chord = binding(Action::write_callout).chord})) {
      asks_.want(Action::write_callout);
    }
  }

  void callout(const model::Callout& c) {
    row("Text");
    prose(PinField::text, "what the viewer should do", 2);
    row("Level");
    pick_word<4>("pin.level", c, &model::Callout::level);
    row("Given");
    const auto deliveries = words_list<model::Delivery, 2>();
    auto delivery = static_cast<std::size_t>(c.delivery);
    if (segments(kit_, "pin.delivery", deliveries, delivery)) {
      model::Callout n = c;
      n.delivery = static_cast<model::Delivery>(delivery);
      put(n);
    }
    when();
    mends();
    row("Announces");
    if (shown_.hazards.empty()) {
      paragraph(kit_.fonts().small, kit_.theme().muted, "No hazard within a minute of it.");
    }
    bool first = true;
    for (const HazardChoice& h : shown_.hazards) {
      if (!std::exchange(first, false)) row("");
      bool tied = h.tied;
      const FontMeasure measure(*kit_.fonts().body);
      const std::string words =
          fitted(h.words, ImGui::GetContentRegionAvail().x - kit_.m().icon - kit_.m().gap * 2, measure);
      if (tick_box(kit_, "pin.ties." + std::to_string(h.hazard.number), words, tied, !shown_.read_only)) {
        model::Callout n = c;
        if (tied) {
          n.hazards.push_back(h.hazard);
        } else {
          std::erase(n.hazards, h.hazard);
        }
        put(n);
      }
    }
    remarks();
  }

  void note() {
    row("Note");
    prose(PinField::text, "what to remember here", 3);
    when();
  }

  void chapter() {
    row("Title");
    text(PinField::title, 0, "what begins here");
    when();
  }

 private:
  /// Begins a row: its label, then the cursor where controls go.
  void row(std::string_view label) {
    const Metrics& m = kit_.m();
    const ImVec2 at = ImGui::GetCursorScreenPos();
    Painter().text_in({at, {at.x + label_ - m.px(6), at.y + m.row}}, kit_.fonts().small, kit_.theme().muted, label);
    ImGui::SetCursorScreenPos({at.x + label_, at.y});
    first_in_row_ = true;
  }

  /// Width for a control that takes `share` of the row, or the rest of it (0).
  float next_width(float share) {
    if (!std::exchange(first_in_row_, false)) ImGui::SameLine();
    if (share == 0) return ImGui::GetContentRegionAvail().x;
    return std::floor(std::max(1.0F, whole_ - label_) * share);
  }

  template <class List>
  bool pick(std::string_view id, const List& options, std::size_t& chosen, float share = 0) {
    const float width = next_width(share);
    const bool changed = choice(kit_, id, options, chosen, width);
    return changed && !shown_.read_only;
  }

  /// What is chosen from `words`, one for each value of E in its order, becomes a change of `thing`.
  template <class E, class List, class T, class Change>
  void pick_and_put(std::string_view id, const List& words, E now, const T& thing, Change change, float share = 0) {
    auto chosen = static_cast<std::size_t>(now);
    if (!pick(id, words, chosen, share)) return;
    T changed = thing;
    change(changed, static_cast<E>(chosen));
    put(changed);
  }

  /// The same for a member that has `count` values.
  template <std::size_t count, class T, class E>
  void pick_word(std::string_view id, const T& thing, E T::*member, float share = 0) {
    pick_and_put(
        id, words_list<E, count>(), thing.*member, thing, [&](T& changed, E chosen) { changed.*member = chosen; },
        share);
  }

  void text(PinField which, float share, std::string_view hint, bool digits = false) {
    FieldLook look = look_of(which, hint);
    look.width = next_width(share);
    look.digits = digits;
    look.select_all = true;
    answer(which, field(kit_, id_of(which), state_.texts[which], look));
  }

  /// Sentences: over the rest of the row, as high as they need.
  void prose(PinField which, std::string_view hint, std::size_t least_rows = 1) {
    FieldLook look = look_of(which, hint);
    look.width = next_width(0);
    look.select_all = state_.fresh;
    answer(which, wrapped_field(kit_, id_of(which), state_.texts[which], {look, least_rows}));
  }

  FieldLook look_of(PinField which, std::string_view hint) {
    if (std::exchange(want_first_, false)) kit_.focus().move_to(id_of(which), false);
    const auto fault = state_.faults.find(which);
    return {.hint = hint,
            .fault = fault == state_.faults.end() ? std::string_view() : std::string_view(fault->second),
            .enabled = !shown_.read_only};
  }

  void answer(PinField which, const FieldEdit& e) {
    if (e.changed) state_.faults.erase(which);
    if (e.escaped) {
      state_.texts[which] = field_text(*shown_.thing, which);
      state_.faults.erase(which);
    } else if (e.committed || e.left) {
      commit(which, state_.texts[which]);
    }
  }

  void commit(PinField which, const std::string& typed) {
    if (typed == field_text(*shown_.thing, which)) return;
    const auto changed = with_field(*shown_.thing, which, typed);
    if (!changed) {
      state_.faults[which] = changed.fault().sentence;
      return;
    }
    state_.faults.erase(which);
    if (*changed == *shown_.thing) return;
    asks_.want(session::PutThing{*changed, edit_name(*changed)});
  }

  void put(const model::Thing& thing) {
    if (!shown_.read_only) asks_.want(session::PutThing{thing, edit_name(thing)});
  }

  void quick(const model::Figure& f) {
    if (shown_.read_only) return;
    if (std::exchange(want_first_, false)) kit_.focus().move_to("pin.typed", false);
    const FieldEdit e =
        field(kit_, "pin.typed", state_.typed, {.hint = "20 mL 6 M nitric acid, then Enter", .icon = Icon::pencil});
    if (e.committed && !state_.typed.empty()) {
      asks_.want(session::TypeFigure{f.id, state_.typed});
      state_.typed.clear();
      kit_.focus().let_go();
    }
    if (e.escaped) state_.typed.clear();
  }

  void instrument(const model::Figure& f) {
    std::vector<std::string_view> names;
    if (f.doubt.instrument.empty()) names.emplace_back("which?");
    names.insert(names.end(), shown_.instruments.begin(), shown_.instruments.end());
    std::size_t chosen = 0;
    if (!pick("pin.instrument", names, chosen)) return;
    model::Figure n = f;
    n.doubt.instrument = std::string(names[chosen]);
    put(n);
  }

  void portion(const model::Figure& f) {
    const Metrics& m = kit_.m();
    if (state_.naming_portion) {
      const float width = next_width(0);
      const FieldEdit e = field(kit_, "pin.portion.name", state_.portion_name,
                                {.hint = "name of the new portion, then Enter", .width = width});
      if (e.committed && !state_.portion_name.empty()) {
        model::Portion p;
        p.name = state_.portion_name;
        p.subject = f.subject;
        state_.portion_for = f.id;
        asks_.want(session::PutThing{p, "New portion"});
      }
      if (e.committed || e.escaped || e.left) {
        state_.naming_portion = false;
        state_.portion_name.clear();
      }
      return;
    }
    std::vector<std::string_view> names(shown_.portion_names.begin(), shown_.portion_names.end());
    std::size_t chosen = shown_.portion;
    const float width = next_width(0) - m.row - m.px(4);
    if (choice(kit_, "pin.portion", names, chosen, width) && !shown_.read_only) {
      model::Figure n = f;
      n.portion = shown_.portions[chosen];
      put(n);
    }
    ImGui::SameLine();
    if (button(kit_, "pin.portion.new", "",
               {.icon = Icon::plus, .enabled = !shown_.read_only, .tip = "A new portion"})) {
      state_.naming_portion = true;
      kit_.focus().move_to("pin.portion.name", false);
    }
  }

  void when() {
    row("When");
    text(PinField::from, 0.34F, "start", true);
    text(PinField::until, 0.34F, "end", true);
    if (shown_.read_only) return;
    ImGui::SameLine();
    if (button(kit_, "pin.move", "",
               {.icon = Icon::pin,
                .tip = binding(Action::move_pin_here).words,
                .chord = binding(Action::move_pin_here).chord})) {
      asks_.want(Action::move_pin_here);
    }
    ImGui::SameLine();
    if (button(
            kit_, "pin.end", "",
            {.icon = Icon::clock, .tip = binding(Action::end_span).words, .chord = binding(Action::end_span).chord})) {
      asks_.want(Action::end_span);
    }
  }

  void mends() {
    if (shown_.read_only) return;
    for (std::size_t i = 0; i < shown_.mends.size(); ++i) {
      row("");
      if (button(kit_, "pin.mend." + std::to_string(i), shown_.mends[i].words, {.icon = Icon::clock}))
        put(shown_.mends[i].callout);
    }
  }

  void remarks() {
    for (const std::string& remark : shown_.remarks) paragraph(kit_.fonts().small, kit_.theme().bad, remark);
  }

 private:
  Kit& kit_;
  const EditorShown& shown_;
  EditorState& state_;
  Asks& asks_;
  float label_ = 0;
  float whole_ = 0;
  bool first_in_row_ = true;
  bool want_first_;
};

}  // namespace

void draw_form(Kit& kit, const EditorShown& shown, EditorState& state, Asks& asks) {
  Form form(kit, shown, state, asks);
  const model::Thing& thing = *shown.thing;
  if (const auto* f = std::get_if<model::Figure>(&thing)) form.figure(*f);
  if (const auto* h = std::get_if<model::Hazard>(&thing)) form.hazard(*h);
  if (const auto* c = std::get_if<model::Callout>(&thing)) form.callout(*c);
  if (std::holds_alternative<model::Note>(thing)) form.note();
  if (std::holds_alternative<model::Chapter>(thing)) form.chapter();
}

}  // namespace sash::desk
