#include "session/reading.h"

#include <filesystem>
#include <span>
#include <utility>

#include "narration/propose.h"
#include "narration/read.h"
#include "session/importing.h"
#include "session/proposing.h"
#include "support/check.h"

namespace sash::session {
namespace {

constexpr double text_read = 0.2;  // shares of the work, roughly
constexpr double lines_there = 0.3;
constexpr double figures_found = 0.7;

Fault stopped() { return Fault::of(Code::cancelled, "Reading the narration was stopped; nothing of it was taken in."); }

// A text without times begins where it was pasted, and somebody will slide its lines.
Outcome<narration::NarrationText> text_of(const PastedNarration& pasted, std::vector<std::string>& to_say) {
  auto text = narration::read_narration(pasted.text, "The text");
  if (!text || text->form != narration::Form::plain_text) return text;
  move_lines(*text, pasted.begins);
  if (text->lines.size() > 1) {
    to_say.emplace_back(
        "The text has no times, so its lines are spread by their length. Play, and press T as each is to be heard; or "
        "drag a line by its left edge.");
  }
  return text;
}

// Finding the figures is most of the work, and the one part that can be left out when nobody waits for it any more.
Outcome<Planned> propose(const model::Record& record, const NewNumber& ids, Progress& progress) {
  const auto read = [&](std::span<const model::NarrationLine> lines) {
    if (progress.cancelled()) return narration::Reading{};
    auto reading = narration::read_figures(lines);
    progress.at(figures_found);
    return progress.cancelled() ? narration::Reading{} : reading;
  };
  return propose_from_narration(record, ids, read);
}

}  // namespace

std::size_t bytes_to_read(const model::Record& record, const NarrationFrom& from) {
  std::size_t bytes = 0;
  if (const auto* pasted = std::get_if<PastedNarration>(&from)) bytes = pasted->text.size();
  if (const auto* file = std::get_if<NarrationFile>(&from)) {
    std::error_code unknown;
    const auto size = std::filesystem::file_size(file->path, unknown);
    if (!unknown) bytes = size;
  }
  for (const auto& line : record.lines) bytes += line.text.size();
  return bytes;
}

Outcome<NarrationPlan> plan_narration(const model::Record& record, const NewNumber& ids, const NarrationFrom& from,
                                      model::FootageId current, Progress& progress) {
  NarrationPlan plan;
  if (std::holds_alternative<SameNarration>(from)) {
    auto proposals = propose(record, ids, progress);
    if (!proposals) return proposals.fault();
    if (progress.cancelled()) return stopped();
    plan.proposals = *std::move(proposals);
    return plan;
  }
  const auto* file = std::get_if<NarrationFile>(&from);
  const std::string name = file != nullptr ? file->path : "Pasted narration";
  const auto text =
      file != nullptr ? read_narration_file(file->path) : text_of(std::get<PastedNarration>(from), plan.to_say);
  if (!text) return text.fault();
  plan.to_say.insert(plan.to_say.begin(), text->warnings.begin(), text->warnings.end());
  progress.at(text_read);
  if (progress.cancelled()) return stopped();
  plan.lines = add_narration(record, ids, footage_for_narration(record, name, current), name, *text);
  model::Record with_lines = record;
  const Done applied = model::apply(plan.lines.edit, with_lines);
  promise(applied.ok(), "lines that were made for this record fit it");
  progress.at(lines_there);
  auto proposals = propose(with_lines, ids, progress);
  if (!proposals) return proposals.fault();
  if (progress.cancelled()) return stopped();
  plan.proposals = *std::move(proposals);
  return plan;
}

}  // namespace sash::session
