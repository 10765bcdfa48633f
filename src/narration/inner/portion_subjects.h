#pragma once
// What masses and volumes are of: named behind them, pointed back at, the same portion in other words, made up to a
// mark, or unnamed and told from what the sentence, the trail or the procedure speaks of. Private to the naming of
// subjects.

#include "narration/inner/trail.h"

namespace sash::narration {

class PortionNamer : protected Trail {
 protected:
  explicit PortionNamer(Scene& s) : Trail(s) {}

  void name_portion(Draft& d);
  /// "so that's 82.8 grams", "or 38 millimoles", "in moles it's 0.42": the portion said just before, put in another
  /// quantity.
  const Draft* puts_again(const Phrase& p) const;

 private:
  /// The figure of which the number was recognised as said again.
  const Draft* said_before(const Phrase& p) const;
  /// "top it up to the 250 line", "make it up to 250 with distilled water".
  bool is_made_up(const Phrase& p) const;
  /// Of the aliquot that is diluted in the same breath, else of the last solid that was weighed in, in solution.
  void name_made_up(Draft& d);
  /// Nothing behind the figure names its matter: what the sentence is about, what is expected, isolated, spoken of.
  void name_unnamed_portion(Draft& d);
  /// "0.386 of magnesium gives 0.640 grams": the figure is of what comes of the material named before.
  bool yields_from(const Mention& m, const Phrase& p) const;
  bool product_differs(const Mention& m, const Phrase& p) const;
  /// "20 mL of that": of what a strength was just given, or what is spoken of.
  void name_pointed_at(Draft& d);
  /// "(half a cup) of the three percent stuff": what that strength was said of before.
  const Draft* same_strength(const Phrase& p) const;
  bool boils_down(const Phrase& p) const;
  const Draft* counted_before(const Phrase& p) const;
};

}  // namespace sash::narration
