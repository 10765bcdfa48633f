#include "desk/shown/sheet.h"

#include <algorithm>
#include <map>

#include "desk/shown/query.h"
#include "desk/shown/words.h"
#include "support/text.h"

namespace sash::desk {
namespace {

constexpr std::size_t most_cause_rows = 3;
constexpr std::size_t most_gap_rows = 2;
constexpr std::size_t most_callout_rows = 5;
constexpr std::uint32_t most_lanes = 3;

std::vector<TextRow> wrapped(std::string_view text, float width, const Measure& measure, std::size_t most) {
  auto rows = wrap(text, width, measure);
  if (rows.size() > most) {
    rows.resize(most);
    rows.back().end = static_cast<std::uint32_t>(text.size());  // drawn cut with an ellipsis
  }
  return rows;
}

// Builds the sheet column by column; blocks and items grow together.
class Builder {
 public:
  Builder(const SheetSource& source, const SheetStyle& style) : source_(source), style_(style), query_(source.search) {
    shown_.film = Film(source.record);
    shown_.columns = style.columns;
  }

  SheetShown build() {
    chapters();
    lines();
    notes();
    figures();
    hazards();
    callouts();
    proposed_relations();
    order_stops(shown_.stops);
    order_stops(shown_.proposals);
    shown_.elastic = Elastic({Moment(), shown_.film.length()}, blocks_, scale());
    shown_.marks = time_marks(shown_.elastic, static_cast<double>(style_.small.line_height()) * 2.6);
    return std::move(shown_);
  }

 private:
  ElasticScale scale() const {
    const double line = static_cast<double>(style_.body.line_height());
    return {.pixels_per_second = line * 0.45, .shrink_after = 8, .shrunk_per_second = line * 0.05};
  }

  std::uint32_t add(Moment at, float height, std::uint32_t column, SheetItem::Kind kind, std::size_t index) {
    blocks_.push_back({at, height + style_.gap, column});
    shown_.items.push_back({kind, static_cast<std::uint32_t>(index), height});
    return static_cast<std::uint32_t>(blocks_.size() - 1);
  }

  /// Whether a pin is shown: not refused (unless asked for by that word) and found by the search.
  bool wanted(model::Standing standing, const std::string& text) {
    ++shown_.pins;
    if (standing == model::Standing::refused &&
        (query_.empty() || to_lower(source_.search).find("refused") == std::string::npos)) {
      return false;
    }
    if (!query_.empty() && !query_.finds(text)) return false;
    ++shown_.hits;
    return true;
  }

  void stop(Moment at, session::ThingRef thing, bool proposed) {
    shown_.stops.push_back({at, thing});
    if (proposed) shown_.proposals.push_back({at, thing});
  }

  void chapters() {
    const float height = style_.body.line_height() + style_.gap;
    for (const auto& c : source_.record.chapters) {
      const Moment at = shown_.film.to_film(c.place);
      add(at, height, SheetShown::sound_column, SheetItem::Kind::chapter, shown_.chapters.size());
      add(at, height, SheetShown::figure_column, SheetItem::Kind::gap, 0);
      add(at, height, SheetShown::safety_column, SheetItem::Kind::gap, 0);
      shown_.chapters.push_back({c.id, at, c.title});
      if (wanted(model::Standing::confirmed, query_.empty() ? std::string() : search_text(c))) stop(at, c.id, false);
    }
  }

  void lines() {
    const auto& record = source_.record;
    std::unordered_map<std::int64_t, std::vector<WordMark>> marks;
    for (const auto& f : record.figures) {
      if (!f.words || f.origin.standing == model::Standing::refused) continue;
      marks[f.words->line.number].push_back({f.words->begin, f.words->begin + f.words->length, f.id, family_of(f.kind),
                                             f.origin.standing == model::Standing::proposed});
    }
    std::vector<std::uint32_t> order(record.lines.size());
    for (std::uint32_t i = 0; i < order.size(); ++i) order[i] = i;
    std::stable_sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) {
      return shown_.film.to_film(record.lines[a].footage, record.lines[a].when.from) <
             shown_.film.to_film(record.lines[b].footage, record.lines[b].when.from);
    });
    const float width = style_.columns.sound.width - style_.inset * 2;
    std::string_view speaker;
    shown_.lines.reserve(order.size());
    for (const std::uint32_t i : order) {
      const auto& line = record.lines[i];
      LineShown s{.id = line.id,
                  .when = {shown_.film.to_film(line.footage, line.when.from),
                           shown_.film.to_film(line.footage, line.when.until)},
                  .text = line.text,
                  .speaker = line.speaker == speaker ? std::string() : line.speaker,
                  .rows = wrap(line.text, width, style_.body),
                  .marks = {},
                  .noise = line.noise};
      speaker = line.speaker;
      if (const auto found = marks.find(line.id.number); found != marks.end()) {
        s.marks = std::move(found->second);
        std::sort(s.marks.begin(), s.marks.end(),
                  [](const WordMark& a, const WordMark& b) { return a.begin < b.begin; });
        const auto size = static_cast<std::uint32_t>(line.text.size());
        for (WordMark& m : s.marks) m.end = std::min(m.end, size);
      }
      if (!query_.empty()) {
        s.dimmed = !query_.finds(search_text(line));
        if (!s.dimmed) {
          ++shown_.hits;
          stop(s.when.from, line.id, false);
        }
      }
      const float height = static_cast<float>(s.rows.size()) * style_.body.line_height() +
                           (s.speaker.empty() ? 0 : style_.small.line_height());
      shown_.block_of_line[line.id.number] =
          add(s.when.from, height, SheetShown::sound_column, SheetItem::Kind::line, shown_.lines.size());
      shown_.lines.push_back(std::move(s));
    }
  }

  void notes() {
    const float width = style_.columns.sound.width - style_.inset * 4 - style_.sign;
    for (const auto& n : source_.record.notes) {
      if (!wanted(model::Standing::confirmed, query_.empty() ? std::string() : search_text(n))) continue;
      NoteShown s{n.id, shown_.film.to_film(n.place), n.text, wrap(n.text.empty() ? "…" : n.text, width, style_.small)};
      stop(s.at, n.id, false);
      const float height = static_cast<float>(s.rows.size()) * style_.small.line_height() + style_.gap;
      add(s.at, height, SheetShown::sound_column, SheetItem::Kind::note, shown_.notes.size());
      shown_.notes.push_back(std::move(s));
    }
  }

  /// What the relations of each figure are called, as one text to search; empty without a search.
  std::map<model::FigureId, std::string> names_of_ties() const {
    std::map<model::FigureId, std::string> texts;
    if (query_.empty()) return texts;
    for (const auto& relation : source_.record.relations) {
      if (relation.label.empty()) continue;
      for (const auto& term : relation.terms) texts[term.figure] += "\n" + search_key(relation.label);
    }
    return texts;
  }

  void figures() {
    const auto tied = names_of_ties();
    shown_.figures.reserve(source_.record.figures.size());
    for (const auto& f : source_.record.figures) {
      const auto found = source_.verdicts.find(f.id);
      const auto verdict = found == source_.verdicts.end() ? std::nullopt : std::optional(found->second);
      const auto ties = tied.find(f.id);
      const std::string text = query_.empty() ? std::string() : search_text(f, verdict);
      if (!wanted(f.origin.standing, ties == tied.end() ? text : text + ties->second)) continue;
      FigureShown s{.id = f.id,
                    .at = shown_.film.to_film(f.place),
                    .title = short_figure_text(f),
                    .subject = f.subject.empty() ? f.label : f.subject,
                    .family = family_of(f.kind),
                    .verdict = verdict,
                    .proposed = f.origin.standing == model::Standing::proposed,
                    .superseded = f.corrected_by.has_value()};
      stop(s.at, f.id, s.proposed);
      const float height =
          style_.body.line_height() + (s.subject.empty() ? 0 : style_.small.line_height()) + style_.gap;
      shown_.block_of_figure[f.id.number] =
          add(s.at, height, SheetShown::figure_column, SheetItem::Kind::figure, shown_.figures.size());
      shown_.figures.push_back(std::move(s));
    }
  }

  void hazards() {
    std::map<model::HazardId, safety::Gap> gaps;  // worst first in the cover, so the first stays
    for (const auto& finding : source_.cover.findings) gaps.try_emplace(finding.hazard, finding.gap);
    std::vector<Moment> lane_ends;
    std::vector<const model::Hazard*> order;
    for (const auto& h : source_.record.hazards) order.push_back(&h);
    std::stable_sort(order.begin(), order.end(), [&](const auto* a, const auto* b) {
      return shown_.film.to_film(a->place) < shown_.film.to_film(b->place);
    });
    std::vector<HazardShown> list;
    for (const model::Hazard* h : order) {
      const auto gap = gaps.find(h->id);
      const safety::Gap g = gap == gaps.end() ? safety::Gap::none : gap->second;
      if (!wanted(h->origin.standing, query_.empty() ? std::string() : search_text(*h, g))) continue;
      HazardShown s{.id = h->id,
                    .span = shown_.film.stretch(h->place, true),
                    .open_end = !h->place.until,
                    .lane = free_lane(lane_ends, shown_.film.stretch(h->place, true)),
                    .tone = tone_of(h->level),
                    .harm = harm_of(h->route),
                    .cause = h->cause.empty() ? (h->substance.empty() ? std::string(words_of(h->route)) : h->substance)
                                              : h->cause,
                    .rows = {},
                    .gap = g,
                    .gap_words = g == safety::Gap::none ? std::string() : std::string(safety::gap_label(g)),
                    .gap_rows = {},
                    .proposed = h->origin.standing == model::Standing::proposed};
      list.push_back(std::move(s));
    }
    shown_.lanes = static_cast<std::uint32_t>(lane_ends.size());
    std::vector<Stretch> spans;
    for (HazardShown& s : list) {
      s.rows = wrapped(s.cause, safety_text_width(), style_.small, most_cause_rows);
      spans.push_back(s.span);
      stop(s.span.from, s.id, s.proposed);
      if (!s.gap_words.empty())
        s.gap_rows = wrapped(s.gap_words, safety_text_width() - style_.sign, style_.small, most_gap_rows);
      const std::size_t rows = 1 + s.rows.size() + s.gap_rows.size();
      add(s.span.from, static_cast<float>(rows) * style_.small.line_height(), SheetShown::safety_column,
          SheetItem::Kind::hazard, shown_.hazards.size());
      shown_.hazards.push_back(std::move(s));
    }
    shown_.hazard_spans = SpanIndex(std::move(spans));
  }

  void callouts() {
    for (const auto& c : source_.record.callouts) {
      if (!wanted(c.origin.standing, query_.empty() ? std::string() : search_text(c))) continue;
      CalloutShown s{.id = c.id,
                     .span = shown_.film.stretch(c.place),
                     .tone = tone_of(c.level),
                     .delivery = words_of(c.delivery),
                     .text = c.text,
                     .rows = wrapped(c.text.empty() ? "…" : c.text, safety_text_width() - style_.inset, style_.small,
                                     most_callout_rows),
                     .proposed = c.origin.standing == model::Standing::proposed,
                     .tied = !c.hazards.empty()};
      stop(s.span.from, c.id, s.proposed);
      const float height = static_cast<float>(1 + s.rows.size()) * style_.small.line_height() + style_.gap * 1.5F;
      add(s.span.from, height, SheetShown::safety_column, SheetItem::Kind::callout, shown_.callouts.size());
      shown_.callouts.push_back(std::move(s));
    }
  }

  // A proposed relation is walked to where its first figure is.
  void proposed_relations() {
    for (const auto& r : source_.record.relations) {
      if (r.origin.standing != model::Standing::proposed || r.terms.empty()) continue;
      if (const auto* figure = model::find(source_.record, r.terms.front().figure)) {
        shown_.proposals.push_back({shown_.film.to_film(figure->place), r.id});
      }
    }
  }

  float safety_text_width() const {
    const auto lanes = static_cast<float>(std::max(1U, shown_.lanes));
    return style_.columns.safety.width - lanes * style_.lane - style_.inset * 2;
  }

  static std::uint32_t free_lane(std::vector<Moment>& ends, Stretch span) {
    for (std::uint32_t lane = 0; lane < ends.size(); ++lane) {
      if (ends[lane] <= span.from) {
        ends[lane] = span.until;
        return lane;
      }
    }
    if (ends.size() < most_lanes) {
      ends.push_back(span.until);
      return static_cast<std::uint32_t>(ends.size() - 1);
    }
    const auto first = std::min_element(ends.begin(), ends.end());  // the one that frees up first takes both
    *first = std::max(*first, span.until);
    return static_cast<std::uint32_t>(first - ends.begin());
  }

  static void order_stops(std::vector<PinStop>& stops) {
    std::stable_sort(stops.begin(), stops.end(), [](const PinStop& a, const PinStop& b) { return a.at < b.at; });
  }

  const SheetSource& source_;
  const SheetStyle& style_;
  Query query_;
  SheetShown shown_;
  std::vector<ElasticBlock> blocks_;
};

}  // namespace

SheetColumns share_columns(float width, float em, bool pictures) {
  const float room = std::max(width / em, 12.0F);
  const bool stills = pictures && room >= 34;
  const float scale = 3.1F;
  const float picture = stills ? std::clamp(room * 0.14F, 5.0F, 11.0F) : 0;
  const float wave = stills ? 1.5F : pictures ? 1.1F : 0.4F;
  const float rest = room - scale - picture - wave;
  const float figures = std::min(rest * 0.285F, 15.0F);
  const float safety = std::min(rest * 0.30F, 19.0F);
  const float sound = rest - figures - safety;
  SheetColumns c;
  float x = 0;
  const auto place = [&](SheetColumns::Column& column, float ems) {
    column = {x, ems * em};
    x += ems * em;
  };
  place(c.scale, scale);
  place(c.picture, picture);
  place(c.wave, wave);
  place(c.sound, sound);
  place(c.figures, figures);
  place(c.safety, safety);
  return c;
}

SheetShown show_sheet(const SheetSource& source, const SheetStyle& style) { return Builder(source, style).build(); }

std::optional<PinStop> step_stop(const std::vector<PinStop>& stops, const Selection& selection, Moment now, int by) {
  if (selection.thing) {
    const auto it =
        std::find_if(stops.begin(), stops.end(), [&](const PinStop& s) { return s.thing == *selection.thing; });
    if (it != stops.end()) {
      if (by > 0) return std::next(it) == stops.end() ? std::nullopt : std::optional(*std::next(it));
      return it == stops.begin() ? std::nullopt : std::optional(*std::prev(it));
    }
  }
  if (by > 0) {
    const auto it =
        std::upper_bound(stops.begin(), stops.end(), now, [](Moment m, const PinStop& s) { return m < s.at; });
    return it == stops.end() ? std::nullopt : std::optional(*it);
  }
  const auto it =
      std::lower_bound(stops.begin(), stops.end(), now, [](const PinStop& s, Moment m) { return s.at < m; });
  return it == stops.begin() ? std::nullopt : std::optional(*std::prev(it));
}

}  // namespace sash::desk
