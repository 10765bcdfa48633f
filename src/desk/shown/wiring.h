#pragma once
// Wiring: how a relation is put together by hand. Which places (slots) each type has, in words, which kinds of figures
// go into which, and what else may be given; and the relation being put together. The names of slots and given values
// are those of workings (its README). Pure.

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "model/record.h"
#include "quantity/kind.h"
#include "session/intent.h"

namespace sash::desk {

struct SlotShape {
  std::string_view slot;
  std::string_view words;                 ///< on the screen
  bool many = false;                      ///< may be filled more than once
  bool about = false;                     ///< each filling says which species or part it is
  std::span<const quantity::Kind> kinds;  ///< that go there; empty: any
};

struct GivenShape {
  std::string_view key;
  std::string_view words;
  std::string_view hint;
};

struct RelationShape {
  model::RelationType type;
  std::string_view says;  ///< one line: "mass = density × volume"
  std::span<const SlotShape> slots;
  std::span<const GivenShape> given;
};

/// The types that can be wired by hand, in the order they are offered.
std::span<const RelationShape> relation_shapes();
const RelationShape* shape_of(model::RelationType type);  ///< null where there is none
const SlotShape* slot_of(const RelationShape& shape, std::string_view slot);

/// The slot a figure of that kind goes into next: the first that takes its kind and has room; else the first with room
/// that takes anything. Nothing when none does.
std::optional<std::string_view> next_slot(const RelationShape& shape, const model::Relation& relation,
                                          quantity::Kind kind);

/// Puts a figure in (into `slot`, or where next_slot says), or takes it out when it is in. A slot for one figure
/// changes hands. `about` is the figure's subject where the slot asks for one.
void toggle_figure(model::Relation& relation, const model::Figure& figure, std::optional<std::string_view> slot);

/// A relation being put together; `id` of the relation unknown while it is new.
struct WiringState {
  model::Relation relation = {};
  std::optional<std::string> slot = {};  ///< where the next figure goes; nothing: where its kind fits
  bool type_chosen = false;              ///< by the person; until then it follows the figures
};

/// Puts the figure in or takes it out; the type follows the kinds of figures until the person chose it.
void pick_figure(WiringState& wiring, const model::Record& record, model::FigureId figure);
/// Another type: the figures move over to its slots.
void retype(WiringState& wiring, const model::Record& record, model::RelationType type);

/// What still keeps the relation from being kept: a phrase; empty when it can be.
std::string lacking(const model::Relation& relation);

/// What the equation field offers for a typed equation: it balanced, or why that cannot be.
struct EquationOffer {
  enum class State { empty, balanced, balance_offered, cannot };
  State state = State::empty;
  std::string text;  ///< the balanced equation, or the sentence why not
};
EquationOffer offer_for(std::string_view equation);

/// Type that fits figures of these kinds best, to start with: mass and volume make one portion, a strength a solution.
model::RelationType likely_type(std::span<const quantity::Kind> kinds);

/// What keeping the relation asks for; nothing while it lacks something.
std::optional<session::PutThing> kept_relation(const WiringState& wiring);

}  // namespace sash::desk
