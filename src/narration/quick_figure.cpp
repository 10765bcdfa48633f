#include "narration/quick_figure.h"

#include <fmt/format.h>

#include "narration/figures.h"

namespace sash::narration {

namespace {

model::Doubt doubt_of(const std::optional<double>& half_width) {
  model::Doubt doubt;
  if (half_width) {
    doubt.from = model::Doubt::From::stated;
    doubt.half_width = *half_width;
  }
  return doubt;
}

}  // namespace

Outcome<std::vector<QuickFigure>> read_quick_figure(std::string_view typed) {
  model::NarrationLine line;
  line.text = typed;
  const Reading reading = read_figures(std::span(&line, 1));
  std::vector<QuickFigure> out;
  for (const SpokenFigure& f : reading.figures) {
    // What nobody named is the pot in a narration; in a field it is nothing.
    const std::string subject = f.subject == "reaction mixture" ? "" : f.subject;
    out.push_back({f.kind, f.reading, doubt_of(f.half_width), subject, f.attached_to});
  }
  if (out.empty()) {
    // "250 mL beaker": typed into a field of figures it is one.
    for (const SpokenCapacity& c : reading.capacities) out.push_back({c.kind, c.reading, {}, {}, std::nullopt});
  }
  if (out.empty()) {
    return Fault::of(Code::malformed,
                     fmt::format("\"{}\" holds no quantity; type a number with its unit, such as \"20 mL\" or "
                                 "\"4.0 g copper\".",
                                 typed),
                     std::string(typed));
  }
  return out;
}

}  // namespace sash::narration
