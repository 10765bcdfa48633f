#pragma once
// What the whole procedure makes, weighed: every material that is named stands on the scales, and so does that nothing
// is made. For and against it speak where and after which words it is named, whether it is measured out, whether its
// elements come from what is measured out, and whether masses and amounts late in the narration are those of its
// formula. Private to following the topic.

#include <bitset>
#include <string>
#include <string_view>
#include <vector>

#include "narration/inner/molar_masses.h"
#include "narration/inner/reckoning.h"

namespace sash::narration {

class ProductWeigher {
 public:
  ProductWeigher(Scene& scene, const Reckoning& reckoning);

  /// Where `by_rule` is what words alone say. Null: nothing is made.
  const Mention* weigh(const Mention* by_rule);

 private:
  using Elements = std::bitset<128>;  ///< by atomic number; hydrogen and oxygen left out, they are everywhere
  struct Candidate {
    const Mention* mention = nullptr;  ///< the first, or the first as a hydrate
    std::string_view bare;
    std::vector<const Mention*> places;
    Elements elements;
    double molar_mass = 0;           ///< kg/mol; 0 where there is no formula
    std::size_t measured = 0;        ///< how often it is measured out by name
    std::size_t first_measured = 0;  ///< token
    bool come_out = false;
  };

  void gather();
  void see_what_is_measured();
  void weigh_on(Scale& scale, const Candidate& c, const Mention* by_rule) const;
  void by_place(Scale& scale, const Candidate& c) const;
  void by_chemistry(Scale& scale, const Candidate& c) const;

  Scene& s_;
  const Reckoning& reckoning_;
  MolarMasses molar_masses_;
  std::vector<Candidate> all_;
};

}  // namespace sash::narration
