#include "desk/shown/top_page.h"

#include <cmath>

#include "desk/shown/keys.h"

namespace sash::desk {

TopShown show_top(const session::SessionView& view) {
  TopShown shown;
  shown.name = view.record.bench.title.empty() ? view.name : view.record.bench.title;
  if (!view.undo_name.empty()) shown.undo_tip = "Undo: " + view.undo_name;
  if (!view.redo_name.empty()) shown.redo_tip = "Redo: " + view.redo_name;
  if (view.read_only) shown.read_only = *view.read_only;
  return shown;
}

FootShown show_foot(const session::SessionView& view, bool fresh) {
  FootShown shown;
  if (fresh && !view.notices.empty() && view.read_only != view.notices.back().sentence) {
    shown.news = view.notices.back().sentence;
    shown.fault = view.notices.back().fault;
  }
  if (shown.news.empty() && view.has_record) {
    const auto hint = [&](Action action, std::string_view words) {
      shown.news += (shown.news.empty() ? "" : "     ") + chord_text(action) + "  " + std::string(words);
    };
    hint(Action::toggle_play, "play");
    hint(Action::pin_figure, "pin a figure");
    hint(Action::pin_hazard, "pin a hazard");
    hint(Action::wire, "tie figures");
    hint(Action::next_finding, "next finding");
    hint(Action::show_keys, "every key");
  }
  if (!view.jobs.empty()) {
    const auto& job = view.jobs.front();
    shown.share = job.share;
    if (job.can_stop) shown.stoppable = job.what;
    shown.work = job.what + ", " + std::to_string(static_cast<int>(std::floor(job.share * 100))) + " %";
    if (view.jobs.size() > 1) shown.work += "  and " + std::to_string(view.jobs.size() - 1) + " more";
  }
  return shown;
}

}  // namespace sash::desk
