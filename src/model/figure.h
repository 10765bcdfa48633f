#pragma once
// Figure: a quantity that was said, shown, read off an instrument or worked out, as it was given.
// Numbers stay in the unit they were said in; converting is quantity's business. Pure values.

#include <optional>
#include <string>

#include "model/place.h"
#include "quantity/kind.h"

namespace sash::model {

enum class Hedge { exact, about, under, over, range };
enum class Source { said, shown, read_off, worked_out };

/// What part the figure plays in the procedure.
enum class Role {
  measured_out,
  added,
  solvent,
  product,
  recovered,
  condition,
  stated_result,
  remainder,
  other,
};

/// The number as given.
struct Reading {
  double value = 0;             ///< in `unit`; the lower end when `upper` is there
  std::optional<double> upper;  ///< upper end of a range
  std::string digits;      ///< the digits it was given with ("4.00"), from which its precision follows; may be empty
  std::string unit = "1";  ///< UCUM code
  Hedge hedge = Hedge::exact;
  bool operator==(const Reading&) const = default;
};

/// Why a figure is uncertain, as the person chose it.
struct Doubt {
  enum class From {
    as_said,     ///< digits and hedge
    stated,      ///< plus-minus `half_width`, in the figure's unit
    instrument,  ///< tolerance of `instrument`, an entry of the glassware table
    assumed_exact,
  };
  From from = From::as_said;
  double half_width = 0;   ///< for `stated`
  std::string instrument;  ///< for `instrument`, e.g. "ISO 4788 cylinder 25 mL A"; for `stated`, how it was come by:
                           ///< "mean of 5 readings" makes it a 95 % interval with 4 degrees of freedom; may be empty
  bool operator==(const Doubt&) const = default;
};

struct Figure {
  FigureId id;
  Place place;
  std::optional<Words> words;  ///< the words of the narration that state it
  quantity::Kind kind = quantity::Kind::other;
  std::optional<Reading> reading;  ///< nothing: wanted, to be worked out
  Doubt doubt;
  std::string subject;  ///< normalised chemical English, e.g. "nitric acid"; empty when it is about no substance
  std::string label;    ///< what the person calls it, or the text it was typed or said as
  std::optional<PortionId> portion;
  Role role = Role::other;
  Source source = Source::said;
  std::optional<FigureId> corrected_by;  ///< said again better; this one no longer counts
  Origin origin;
  bool operator==(const Figure&) const = default;
};

/// A definite amount of some material in some vessel; figures are about portions.
struct Portion {
  PortionId id;
  std::string name;     ///< e.g. "acid for the copper"
  std::string subject;  ///< substance, normalised; may be empty
  std::string vessel;   ///< e.g. "250 mL beaker"; may be empty
  bool operator==(const Portion&) const = default;
};

}  // namespace sash::model
