#pragma once
// Looking around a phrase: which materials are named behind it, before it and near it, and what kind of moment it
// stands in (a vessel is weighed, a gas is caught, a titration is worked out). Finds; decides nothing. Pure.

#include <optional>
#include <string>

#include "narration/inner/scene.h"

namespace sash::narration {

/// What the mixture in the pot is called.
inline constexpr std::string_view pot = "reaction mixture";

/// A material found: its name, and the mention when a table knows it.
struct Found {
  std::string name;
  const Mention* mention = nullptr;
};

/// What a figure is about: empty for nothing; which rule found it.
struct About {
  std::string name;
  const Mention* mention = nullptr;
  const char* rule = "";
};

/// Whether figures of that kind are about a material.
bool is_material(quantity::Kind k);

/// Borrows a scene whose drafts up to the phrase in hand are named.
class Surroundings {
 protected:
  explicit Surroundings(Scene& s) : s_(s) {}

  const Mention* mention_at(std::size_t token) const;
  static About of(const Mention* m, const char* rule) { return m == nullptr ? About{} : About{m->name, m, rule}; }
  /// "(10 grams) of the crude", "(8.3 grams) of yellow needles": a noun for what came out, or may have, without a name.
  enum class Noun : std::uint8_t { outcome, look };
  std::optional<Noun> product_noun(std::size_t i) const;
  /// "(20 mL) of that", "(82 grams) of the stuff".
  bool points_back(std::size_t i) const;
  /// The material behind a phrase: "of hot water", "68% nitric acid", "6 M nitric acid".
  std::optional<Found> behind(std::size_t i) const;
  /// A name that no table knows, as it was said.
  std::optional<Found> unknown_name(std::size_t i) const;
  /// The nearest material named before in the same sentence. `dry`: not water or another solvent.
  const Mention* before_in_sentence(std::size_t token, bool dry) const;
  /// Whether the material only stands by: "(so there's a bit) of oil (to spare)", "(goes) into the acid".
  bool stands_by(const Mention& m) const;
  const Draft* last_draft(std::size_t token, std::size_t reach) const;
  /// "the dish with the copper is 48.31 grams": the vessel is weighed, no portion of a material.
  bool weighs_a_vessel(const Phrase& p) const;
  /// About as heavy as a vessel weighed before: it is that vessel again, with something in it.
  bool is_weighed_again(const Phrase& p) const;
  /// "Weigh the crucible first. Mine is 30.142 grams."
  bool weighs_named_vessel(const Phrase& p) const;
  /// Mentions before `token`, as a place behind the last of them.
  std::size_t mentions_before(std::size_t token) const;
  const Mention* last_water(std::size_t token) const;
  const Mention* last_gas(std::size_t token) const;
  /// "dissolve it in 200 mL", "wash it three times with 150 mL each time".
  bool water_unsaid(const Phrase& p) const;
  bool speaks_of_gas(const Phrase& p) const;
  /// A weight behind those of vessel with contents and vessel alone is what is in it.
  bool nets(std::size_t phrase) const;
  /// The solvent that the words right before are about: "water's great for this, so I need 74 mL".
  const Mention* solvent_spoken_of(std::size_t token) const;
  bool about_product(const Phrase& p) const;
  /// "How much of it is actual nitric acid? 44.4 grams.": the question right before names it.
  const Mention* asked_for(std::size_t token) const;

  Scene& s_;
};

}  // namespace sash::narration
