#include "narration/propose.h"

#include <algorithm>
#include <map>
#include <set>

#include "narration/inner/dangers.h"
#include "narration/inner/encoding.h"
#include "narration/inner/relating.h"
#include "narration/inner/samples.h"
#include "support/check.h"

namespace sash::narration {

namespace {

using model::Standing;

model::Origin proposed(std::string rule, double confidence) {
  return {Standing::proposed, std::move(rule), confidence};
}

/// Lines of one footage in order of time.
std::vector<model::NarrationLine> lines_of(const model::Record& record, model::FootageId footage) {
  std::vector<model::NarrationLine> lines;
  for (const model::NarrationLine& line : record.lines) {
    if (line.footage == footage) lines.push_back(line);
  }
  std::stable_sort(lines.begin(), lines.end(), [](const auto& a, const auto& b) { return a.when.from < b.when.from; });
  return lines;
}

class Proposer {
 public:
  Proposer(const model::Record& record, const NewNumber& new_number, const ReadLines& read)
      : record_(record), new_number_(new_number), read_lines_(read) {
    for (const model::Relation& r : record.relations) taken_.insert(signature(r));
    for (const model::Figure& f : record.figures) {
      if (f.words) on_line_[f.words->line].push_back(&f);
    }
  }

  Proposals run() {
    std::set<model::FootageId> footages;
    for (const model::NarrationLine& line : record_.lines) footages.insert(line.footage);
    for (const model::FootageId footage : footages) {
      lines_ = lines_of(record_, footage);
      footage_ = footage;
      read();
    }
    find_unsaid();
    return std::move(out_);
  }

 private:
  using Signature = std::pair<model::RelationType, std::vector<std::pair<std::string, std::int64_t>>>;

  static Signature signature(const model::Relation& r) {
    Signature s{r.type, {}};
    for (const model::Term& t : r.terms) s.second.emplace_back(t.slot, t.figure.number);
    if (const auto equation = r.given.find("equation"); equation != r.given.end())
      s.second.emplace_back(equation->second, 0);
    std::sort(s.second.begin(), s.second.end());
    return s;
  }

  template <class T>
  decltype(T::id) fresh() {
    return {new_number_(model::Thing(T{}))};
  }

  void read() {
    const Reading reading = read_lines_(std::span(std::as_const(lines_)));
    ids_.assign(reading.figures.size(), std::nullopt);
    made_.clear();
    for (std::size_t i = 0; i < reading.figures.size(); ++i) take_figure(reading.figures[i], i);
    for (std::size_t i = 0; i < reading.figures.size(); ++i) {
      const auto by = reading.figures[i].corrected_by;
      if (by && made_.count(i) != 0 && ids_[*by]) made(i).corrected_by = ids_[*by];
    }
    take_portions(reading);
    for (const SpokenRelation& r : relate(reading, lines_)) take_relation(r);
    take_dangers();
  }

  model::Figure& made(std::size_t i) { return out_.figures[made_.at(i)]; }

  /// The figure of the record that already stands for these words: on the same words, or the same value in the line
  /// when the line was edited around it.
  const model::Figure* known(const SpokenFigure& f) {
    const SpokenPiece& piece = f.pieces.front();
    const auto on = on_line_.find(lines_[piece.line].id);
    if (on == on_line_.end()) return nullptr;
    const model::Figure* alike = nullptr;
    for (const model::Figure* k : on->second) {
      if (said_again_.count(k->id) != 0) continue;
      const bool overlaps =
          k->words->begin < piece.begin + piece.length && piece.begin < k->words->begin + k->words->length;
      const bool same = k->reading && k->kind == f.kind && k->reading->value == f.reading.value &&
                        k->reading->upper == f.reading.upper && k->reading->unit == f.reading.unit;
      if (overlaps && (same || k->origin.standing != Standing::proposed)) return k;
      if (same && alike == nullptr) alike = k;
    }
    return alike;
  }

  void take_figure(const SpokenFigure& f, std::size_t i) {
    if (const model::Figure* k = known(f)) {
      said_again_.insert(k->id);
      if (k->origin.standing != Standing::refused) ids_[i] = k->id;
      return;
    }
    const SpokenPiece& piece = f.pieces.front();
    const model::NarrationLine& line = lines_[piece.line];
    model::Figure figure;
    figure.id = fresh<model::Figure>();
    figure.place = {footage_, heard_at(line, piece.begin), std::nullopt};
    figure.words = model::Words{line.id, piece.begin, piece.length};
    figure.kind = f.kind;
    figure.reading = f.reading;
    if (f.half_width) figure.doubt = {model::Doubt::From::stated, *f.half_width, ""};
    figure.subject = f.subject;
    figure.label = f.text;
    std::replace(figure.label.begin(), figure.label.end(), '\n', ' ');
    figure.role = f.role;
    figure.source = model::Source::said;
    figure.origin = proposed(f.rule, f.confidence);
    ids_[i] = figure.id;
    made_[i] = out_.figures.size();
    out_.figures.push_back(std::move(figure));
  }

  /// A portion for each sample that is a definite amount of some material.
  void take_portions(const Reading& reading) {
    using quantity::Kind;
    for (const Sample& sample : samples_of(reading)) {
      const SpokenFigure& first = reading.figures[sample.members.front()];
      const bool material = first.kind == Kind::mass || first.kind == Kind::volume || first.kind == Kind::amount ||
                            first.kind == Kind::gas_volume;
      if (!material || first.subject.empty()) continue;
      std::vector<std::size_t> all = sample.members;
      all.insert(all.end(), sample.strengths.begin(), sample.strengths.end());
      all.insert(all.end(), sample.densities.begin(), sample.densities.end());
      std::optional<model::PortionId> portion;
      bool any_new = false;
      for (const std::size_t i : all) {
        any_new = any_new || made_.count(i) != 0;
        const model::Figure* old = ids_[i] && made_.count(i) == 0 ? model::find(record_, *ids_[i]) : nullptr;
        if (old != nullptr && old->portion) portion = old->portion;
      }
      if (!any_new) continue;
      if (!portion) {
        portion = fresh<model::Portion>();
        out_.portions.push_back({*portion, first.subject, substance_of(first.subject), ""});
      }
      for (const std::size_t i : all) {
        if (made_.count(i) != 0) made(i).portion = portion;
      }
    }
  }

  void take_relation(const SpokenRelation& spoken) {
    model::Relation r;
    r.type = spoken.type;
    for (const SpokenTerm& t : spoken.terms) {
      if (!ids_[t.figure]) return;  // refused as a figure: nothing is tied to it
      r.terms.push_back({t.slot, *ids_[t.figure], t.about});
    }
    r.given = spoken.given;
    r.label = spoken.label;
    r.origin = proposed(spoken.rule, spoken.confidence);
    if (r.terms.size() < 2 || !taken_.insert(signature(r)).second) return;
    r.id = fresh<model::Relation>();
    out_.relations.push_back(std::move(r));
  }

  model::Place place_of(const SpokenSpan& span) const {
    const model::NarrationLine& last = lines_[span.last_line];
    return {footage_, heard_at(lines_[span.line], span.begin), heard_at(last, span.end)};
  }

  /// Whether the record has a hazard of that sort there, in any standing.
  const model::Hazard* known_hazard(const model::Place& place, const SpokenDanger& d) const {
    constexpr Moment near = Moment::seconds(20);
    for (const model::Hazard& h : record_.hazards) {
      const bool there =
          h.place.footage == place.footage && h.place.from - near < place.from && place.from < h.place.from + near;
      if (there && h.route == d.route && (h.substance == d.substance || h.cause == d.cause)) return &h;
    }
    return nullptr;
  }

  bool known_callout(const model::Place& place, const std::string& text) const {
    return std::any_of(record_.callouts.begin(), record_.callouts.end(), [&](const model::Callout& c) {
      return c.delivery == model::Delivery::spoken && c.place.footage == place.footage &&
             (c.text == text || c.place.from == place.from);
    });
  }

  void take_dangers() {
    const Dangers found = find_dangers(std::span(std::as_const(lines_)));
    struct Standing_ {
      model::HazardId id;
      Moment from;
      model::Route route;
    };
    std::vector<Standing_> standing;
    for (const SpokenDanger& d : found.dangers) {
      const model::Place place = place_of(d.words);
      if (const model::Hazard* h = known_hazard(place, d)) {
        if (h->origin.standing != Standing::refused) standing.push_back({h->id, h->place.from, h->route});
        continue;
      }
      model::Hazard h;
      h.id = fresh<model::Hazard>();
      h.place = place;
      h.cause = d.cause;
      h.substance = d.substance;
      h.route = d.route;
      h.level = d.level;
      h.origin = proposed(d.rule, d.confidence);
      standing.push_back({h.id, place.from, d.route});
      out_.hazards.push_back(std::move(h));
    }
    constexpr Moment early = Moment::seconds(120);
    constexpr Moment late = Moment::seconds(30);
    for (const SpokenWarning& w : found.warnings) {
      const model::Place place = place_of(w.words);
      if (known_callout(place, w.text)) continue;
      model::Callout c;
      c.id = fresh<model::Callout>();
      c.place = place;
      c.text = w.text;
      c.delivery = model::Delivery::spoken;
      for (const Standing_& h : standing) {
        const bool near = place.from < h.from + late && h.from < place.from + early;
        if (near && std::find(w.routes.begin(), w.routes.end(), h.route) != w.routes.end()) c.hazards.push_back(h.id);
      }
      c.origin = proposed("a warning that is spoken", 0.6);
      out_.callouts.push_back(std::move(c));
    }
  }

  void find_unsaid() {
    for (const auto& [line, figures] : on_line_) {
      for (const model::Figure* f : figures) {
        const bool ours = f->origin.standing == Standing::proposed && !f->origin.rule.empty();
        if (ours && said_again_.count(f->id) == 0) out_.no_longer_said.push_back(f->id);
      }
    }
    std::sort(out_.no_longer_said.begin(), out_.no_longer_said.end());
  }

  const model::Record& record_;
  const NewNumber& new_number_;
  const ReadLines& read_lines_;
  std::map<model::LineId, std::vector<const model::Figure*>> on_line_;
  std::set<Signature> taken_;
  std::set<model::FigureId> said_again_;
  model::FootageId footage_;
  std::vector<model::NarrationLine> lines_;
  std::vector<std::optional<model::FigureId>> ids_;  ///< of the reading's figures; nothing for refused ones
  std::map<std::size_t, std::size_t> made_;          ///< reading's figure -> place in out_.figures
  Proposals out_;
};

}  // namespace

Proposals propose(const model::Record& record, const NewNumber& new_number) {
  return propose(record, new_number, [](std::span<const model::NarrationLine> lines) { return read_figures(lines); });
}

Proposals propose(const model::Record& record, const NewNumber& new_number, const ReadLines& read) {
  return Proposer(record, new_number, read).run();
}

bool sure_enough(const model::Origin& origin) {
  // The lowest at which, read with weights fitted to others, there is about one false conflict in five narrations
  // (tests/narration/README.md).
  constexpr double enough = 0.5;
  return origin.confidence >= enough;
}

model::Edit edit_of(const Proposals& proposals) {
  model::Edit edit;
  edit.name = "Read narration";
  const auto add = [&](const auto& things) {
    for (const auto& thing : things) edit.changes.push_back({std::nullopt, model::Thing(thing)});
  };
  add(proposals.portions);
  add(proposals.figures);
  add(proposals.relations);
  add(proposals.hazards);
  add(proposals.callouts);
  return edit;
}

Moment heard_at(const model::NarrationLine& line, std::size_t begin) {
  const auto behind = std::upper_bound(line.words.begin(), line.words.end(), begin,
                                       [](std::size_t at, const model::Word& w) { return at < w.begin; });
  if (behind != line.words.begin()) return (behind - 1)->from;
  const std::uint32_t all = characters(line.text);
  if (all == 0) return line.when.from;
  const std::uint32_t before = characters(std::string_view(line.text).substr(0, begin));
  return line.when.from + Moment::rational(before * (line.when.length().count() / all), 1, Moment::per_second);
}

}  // namespace sash::narration
