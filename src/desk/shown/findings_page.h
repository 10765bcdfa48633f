#pragma once
// The list of findings as it is shown: everything checked in the record, worst first, in one list: figures that do not
// agree, hazards nobody announces, what cannot be settled, and what is in order. Made anew when the record changes.
// Pure.

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "desk/shown/film.h"
#include "desk/shown/outlook.h"
#include "desk/shown/sheet.h"
#include "session/view.h"

namespace sash::desk {

/// What a finding is about, worst first; also the order of the list.
enum class FindingGroup { conflict, cover_gap, cannot_be, unsettled, worked_out, agrees };
inline constexpr std::size_t finding_groups = 6;
std::string group_text(FindingGroup group, std::size_t count);  ///< "1 conflict", "4 cover gaps", "6 in order"

struct FindingRow {
  FindingGroup group = FindingGroup::agrees;
  Verdict mark = Verdict::agrees;  ///< its mark and colour
  std::optional<Safety> safety;    ///< for a cover gap: the hazard's sign instead
  std::string verdict;             ///< "conflict", "not announced"
  std::string about;               ///< "same portion", "if accepted · same portion", "hazard"
  std::string sentence;
  std::optional<Moment> film;                ///< where to look
  std::optional<session::ThingRef> thing;    ///< the relation, figure or hazard to select
  std::optional<session::ThingRef> look_at;  ///< the pin at that moment
};

struct FindingsShown {
  std::vector<FindingRow> rows;
  std::array<std::size_t, finding_groups> counts{};
  std::string summary;  ///< "2 conflicts, 1 cover gap"; "Nothing is wrong." when so
};

FindingsShown show_findings(const Judged& judged, const Film& film);

/// For each figure the worst verdict of the findings it is in. Of a conflict only the likely culprits bear the mark, of
/// what cannot be only the figure that says so.
FigureVerdicts verdicts_of(const workings::Report& report);

Verdict tone_of(workings::Verdict verdict);
Verdict tone_of(const workings::Finding& finding);

/// The row that is chosen, kept by what it is about while the list around it changes.
struct ChosenFinding {
  std::optional<std::size_t> row;
  std::size_t place = 0;  ///< where the walk goes on when the chosen one is gone from the list

  void choose(const FindingsShown& shown, std::size_t which);
  void forget();
  /// Finds the row again in a list that may have been made anew; none when what it said is settled.
  void follow(const FindingsShown& shown);

 private:
  std::optional<session::ThingRef> thing_;
  std::string verdict_;
};

/// The row after (`by` 1) or before (-1) the chosen one, among those of `only` where it is given.
std::optional<std::size_t> step_finding(const FindingsShown& shown, const ChosenFinding& chosen, int by,
                                        std::optional<FindingGroup> only);

}  // namespace sash::desk
