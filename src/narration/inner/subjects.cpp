// What each figure is about: the material named behind it ("of 68% nitric acid"), before it ("acetic anhydride, 7 mL"),
// the one spoken of last, the product of the whole procedure, or the mixture in the pot.

#include "narration/inner/conditions.h"
#include "narration/inner/name_kind.h"
#include "narration/inner/subject_weigher.h"
#include "narration/inner/topics.h"

namespace sash::narration {

namespace {

using quantity::Kind;

class Namer : SubjectWeigher {
 public:
  Namer(Scene& s, const Reckoning& reckoning) : SubjectWeigher(s, reckoning), conditions_(s) {}

  void run() {
    for (std::size_t i = 0; i < s_.phrases.size(); ++i) {
      if (s_.phrases[i].fate != Fate::figure) continue;
      Draft d;
      d.phrase = i;
      name(d);
      weigh(d);
      follow_topic(d);
      make_gas(d);
      note_titrant(d);
      s_.figures.push_back(std::move(d));
    }
  }

 private:
  void name(Draft& d) {
    const Phrase& p = s_.phrase_of(d);
    switch (p.kind) {
      case Kind::mass:
      case Kind::volume:
      case Kind::gas_volume:
        return name_portion(d);
      case Kind::amount:
        return name_amount(d);
      case Kind::molar_concentration:
      case Kind::mass_percent:
      case Kind::volume_percent:
      case Kind::mass_concentration:
        return name_strength(d);
      case Kind::count:
      case Kind::fraction:
        return name_count(d);
      case Kind::density:
      case Kind::molar_mass:
      case Kind::equivalents:
        if (const auto named = behind(p.last)) return take_found(d, *named, "named behind");
        if (const Draft* last = last_draft(p.first, 60)) return copy(d, *last, "as the figure before");
        return take(d, spoken_of(p.first, 40), "spoken of last");
      case Kind::percent_yield:
      case Kind::percent_other:
        return name_share(d);
      case Kind::temperature:
      case Kind::temperature_change:
        return take(d, conditions_.temperature(p));
      case Kind::duration:
        return take(d, conditions_.duration(p));
      case Kind::pH:
        return take(d, conditions_.acidity(p));
      case Kind::length:
        if (const Mention* m = before_in_sentence(p.first, true)) return take(d, m, "named before");
        if (const auto named = behind(p.last)) return take_found(d, *named, "named behind");
        if (const Draft* last = last_draft(p.first, 24)) return copy(d, *last, "as the figure before");
        return;
      default:
        return;
    }
  }

  void name_amount(Draft& d) {
    const Phrase& p = s_.phrase_of(d);
    if (const auto named = behind(p.last)) return take_found(d, *named, "named behind");
    if (const Draft* before = puts_again(p); before != nullptr && p.first - s_.phrase_of(*before).last < 10)
      return copy(d, *before, "the figure before in other words");
    const Draft* last = last_draft(p.first, 50);
    // Moles are of what is dissolved, not of what it is dissolved in.
    if (last != nullptr && last->mention != nullptr && (last->mention->water || last->mention->solvent)) {
      for (std::size_t i = s_.figures.size(); i-- > 0 && p.first - s_.phrase_of(s_.figures[i]).first < 50;) {
        const Draft& d2 = s_.figures[i];
        if (d2.subject.empty() || !is_material(s_.phrase_of(d2).kind) ||
            (d2.mention != nullptr && (d2.mention->water || d2.mention->solvent)))
          continue;
        last = &d2;
        break;
      }
    }
    const std::size_t last_end = last != nullptr ? s_.phrase_of(*last).last : 0;
    const Mention* near = nullptr;
    for (std::size_t i = p.first; i-- > last_end && p.first - i < 22;) {
      const Mention* m = mention_at(i);
      if (m != nullptr && !m->water && !m->solvent && !is_vague(m->name) && m->first >= last_end) {
        // What directly follows its amount ("of copper wire") is what was measured anyway.
        near = stands_by(*m) && !m->gas && last != nullptr ? nullptr : m;
        break;
      }
    }
    if (near != nullptr && s_.same_sentence(near->first, p.first)) return take(d, near, "named before");
    // The same amount said again is of the same matter.
    for (std::size_t i = s_.figures.size(); i-- > 0 && p.first - s_.phrase_of(s_.figures[i]).first < 900;) {
      const Phrase& q = s_.phrase_of(s_.figures[i]);
      if (q.kind == Kind::amount && q.value == p.value && q.unit == p.unit)
        return copy(d, s_.figures[i], "the amount said before");
    }
    if (near != nullptr) return take(d, near, "named before");
    if (last != nullptr && last->subject != pot) return copy(d, *last, "as the figure before");
    take(d, spoken_of(p.first, 60), "spoken of last");
  }

  void name_strength(Draft& d) {
    const Phrase& p = s_.phrase_of(d);
    if (const auto named = behind(p.last)) {
      if (named->mention == nullptr || !named->mention->water) return take_found(d, *named, "named behind");
    }
    if (!s_.figures.empty()) {
      const Draft& before = s_.figures.back();
      const Phrase& q = s_.phrase_of(before);
      const std::size_t gap = p.first - q.last;
      if (q.kind == Kind::volume && gap <= 2 && s_.word(q.last) == "of" && !before.subject.empty())
        return copy(d, before, "of the volume before");
      if (q.kind == Kind::amount && gap < 20 && !before.subject.empty() &&
          before_in_sentence(p.first, true) == nullptr && p.kind == Kind::molar_concentration)
        return copy(d, before, "of the amount before");
    }
    if (!s_.figures.empty() && std::string_view(s_.figures.back().subject_rule) == "what is made up to a volume" &&
        p.first - s_.phrase_of(s_.figures.back()).last < 30)
      return copy(d, s_.figures.back(), "what was made up");
    if (titrated() && before_in_sentence(p.first, true) == nullptr) return copy(d, *analyte(), "what was titrated");
    // Another strength of the same material as the last strength.
    const bool unnamed = p.kind == Kind::mass_percent && before_in_sentence(p.first, true) == nullptr;
    for (std::size_t i = s_.figures.size(), seen = 0; unnamed && i-- > 0 && seen < 60; ++seen) {
      if (s_.phrase_of(s_.figures[i]).kind == Kind::mass_percent)
        return copy(d, s_.figures[i], "as the strength before");
    }
    if (const Mention* m = before_in_sentence(p.first, true);
        m != nullptr && !(stands_by(*m) && p.first - m->last > 6)) {
      return take(d, m, "named before");
    }
    if (p.kind == Kind::volume_percent) {
      if (const Mention* m = before_in_sentence(p.first, false)) return take(d, m, "named before");
    }
    take(d, spoken_of(p.first, 80), "spoken of last");
    if (!d.subject.empty() && d.mention != nullptr && !d.mention->acid && !d.mention->mixture &&
        d.subject == d.mention->name && p.kind != Kind::volume_percent) {
      d.subject += " solution";
    }
  }

  void name_count(Draft& d) {
    const Phrase& p = s_.phrase_of(d);
    if (const auto named = behind(p.last)) return take_found(d, *named, "named behind");
    if (p.kind == Kind::count && d.phrase + 1 < s_.phrases.size()) {
      const Phrase& each = s_.phrases[d.phrase + 1];
      const bool unnamed = each.fate == Fate::figure && each.kind == Kind::volume && !behind(each.last);
      const bool washing =
          s_.find_before(p.first, WordSet{"wash", "rinse", "washed", "rinsed", "washing"}, 8).has_value();
      if (unnamed && !washing && each.first - p.last < 10 && before_in_sentence(p.first, false) == nullptr) {
        if (const Mention* m = liquid_in_hand(p)) return take(d, m, "the solvent in hand");
      }
    }
    if (p.kind == Kind::count && s_.find_in_sentence(p.first, WordSet{"add", "adding", "added", "in"})) {
      if (const Mention* m = before_in_sentence(p.first, true)) return take(d, m, "named before");
    }
    // "wash three times, with 150 mL": filled in from what each of them is
    for (std::size_t i = d.phrase + 1; i < s_.phrases.size() && s_.phrases[i].first < p.last + 10; ++i) {
      if (s_.phrases[i].fate != Fate::figure) continue;
      if (const auto named = behind(s_.phrases[i].last)) return take_found(d, *named, "as what each of them is");
      if (p.kind == Kind::count &&
          s_.find_before(p.first, WordSet{"wash", "rinse", "washed", "rinsed", "washing"}, 8)) {
        for (std::size_t k = mentions_before(p.first); k-- > 0;) {
          const Mention& m = s_.mentions[k];
          if (p.first - m.first >= 40) break;
          if (m.water || m.solvent) return take(d, &m, "what is washed with");
        }
      }
    }
    if (p.kind == Kind::count) {
      constexpr WordSet pieces{"bars", "tablets", "candles", "bars", "pieces", "crystals", "pills", "coins"};
      if (product(p) != nullptr && pieces.has(s_.word(p.last - 1)) && before_in_sentence(p.first, true) == nullptr) {
        return take(d, product(p), "the product of the procedure");
      }
      if (const Draft* last = last_draft(p.first, 40)) return copy(d, *last, "as the figure before");
    }
    if (const Draft* last = last_draft(p.first, 60)) return copy(d, *last, "as the figure before");
    take(d, product(p) != nullptr ? product(p) : spoken_of(p.first, 60), "spoken of last");
  }

  void name_share(Draft& d) {
    const Phrase& p = s_.phrase_of(d);
    if (const auto named = behind(p.last); named && named->mention != nullptr && !named->mention->water) {
      return take_found(d, *named, "named behind");
    }
    if (const Draft* last = last_draft(p.first, 90)) return copy(d, *last, "as the figure before");
    if (product(p) != nullptr) return take(d, product(p), "the product of the procedure");
    take(d, spoken_of(p.first, 60), "spoken of last");
  }

  void make_gas(Draft& d) {
    Phrase& p = s_.phrase_of(d);
    const bool gas = d.mention != nullptr ? d.mention->gas || names_gas(d.mention->name) : d.subject == "gas";
    const bool filled = p.state == State::gas || (gas && p.state == State::unknown);
    if (p.kind == Kind::volume && filled && p.unit != "[drp]") p.kind = Kind::gas_volume;
  }

  Conditions conditions_;
};

}  // namespace

void name_subjects(Scene& scene, const Reckoning& reckoning) { Namer(scene, reckoning).run(); }

}  // namespace sash::narration
