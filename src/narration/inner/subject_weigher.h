#pragma once
// What a figure is about, weighed: all materials spoken of around it, the product of the procedure, what the figures
// before it were about, the pot and nothing at all stand on the scales; what the plain rules said (PortionNamer and its
// kin) is one cue among the others. Private to the naming of subjects.

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "narration/inner/evidence.h"
#include "narration/inner/molar_masses.h"
#include "narration/inner/portion_subjects.h"
#include "narration/inner/reckoning.h"
#include "narration/inner/titration.h"

namespace sash::narration {

class SubjectWeigher : protected PortionNamer {
 protected:
  SubjectWeigher(Scene& s, const Reckoning& reckoning);

  /// Lets the heaviest candidate be the subject of `d`, which the rules have named and which is not yet among the
  /// figures of the scene.
  void weigh(Draft& d);

 private:
  struct Candidate {
    std::string name;                   ///< as a subject is written; empty for nothing
    std::string bare;                   ///< without solution and water of crystallisation
    const Mention* mention = nullptr;   ///< the one the subject would be taken from
    const Mention* before = nullptr;    ///< the nearest in front of the figure
    const Mention* behind = nullptr;    ///< the first behind it in its sentence
    std::size_t nearer = 0;             ///< how many others are named nearer in front of it
    std::optional<std::size_t> figure;  ///< the last one about it
    std::size_t later = 0;              ///< how many others later figures are about
    bool titrant = false;               ///< spoken of as what is in the burette
    bool opening = false;               ///< named in the first words of the narration
    std::optional<std::size_t> weighs;  ///< the figure that makes a mass and an amount of it with this one
    bool chosen = false;                ///< by the rules
  };
  /// What all candidates of one figure share.
  struct Place {
    const Phrase* phrase = nullptr;
    std::string_view kind;
    std::string_view act;                ///< the nearest before it in its sentence
    std::vector<std::string_view> acts;  ///< all in its sentence
    std::string_view third;              ///< of the narration
    const Mention* product = nullptr;
    bool worked_up = false;
    bool titrating = false;                    ///< a titration is spoken of around it
    bool told_by_weight = false;               ///< a mass and an amount tell the molar mass of one of the candidates
    std::vector<std::string_view> in_the_pot;  ///< what was measured since something was last isolated, bare
  };

  std::vector<Candidate> candidates(const Draft& d) const;
  Place place_of(const Draft& d) const;
  void weigh_on(Scale& scale, const Candidate& c, const Draft& d, const Place& at) const;
  void by_names(Scale& scale, const Candidate& c, const Place& at) const;
  void by_figures(Scale& scale, const Candidate& c, const Place& at) const;
  void by_nature(Scale& scale, const Candidate& c, const Place& at) const;
  void by_words(Scale& scale, const Candidate& c, const Place& at, std::string_view standing) const;
  /// What the figures of the candidate make of each other: mass, amount, strength and volume.
  void by_chemistry(Scale& scale, const Candidate& c, const Place& at) const;
  /// While titrating, volumes are of what is in the burette, and what is worked out is of what it is run into.
  void by_titration(Scale& scale, const Candidate& c, const Place& at) const;
  /// Whose figures the number follows from, and whose molar mass it gives.
  void by_reckoning(Scale& scale, const Candidate& c, const Place& at) const;
  void by_numbers(Scale& scale, const Candidate& c, const Place& at) const;
  /// Where it stands to the figure: "behind", "here", "last", "product", "earlier", "before", "pot", "nothing".
  std::string_view standing(const Candidate& c, const Place& at) const;
  void settle(Draft& d, const Candidate& c);
  /// "19.7 grams of the heptahydrate; the most I could get is 24.6": a mass is of the form that was named last.
  void keep_water(Draft& d, const Candidate& c);

  /// Remembers which substances a strength was given of.
  void note_strengths();

  /// kg/mol of the substance itself, of the hydrate it was last named as.
  std::optional<double> molar_mass(const Mention& m) const;

  MolarMasses molar_masses_;
  const Reckoning& reckoning_;
  Titration titration_;
  std::vector<const Mention*> names_;                     ///< the first mention of each substance that has a molar mass
  std::set<std::string, std::less<>> of_known_strength_;  ///< bare
  std::size_t strengths_noted_ = 0;                       ///< figures looked at for them
};

}  // namespace sash::narration
