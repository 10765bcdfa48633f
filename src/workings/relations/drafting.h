#pragma once
// Drafting: what a relation's class makes its draft with: its figures by slot, what was given with it, constants from
// the tables, and the equations. Keeps the units: everything that goes in is SI.

#include <algorithm>
#include <deque>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "chem/formula.h"
#include "model/relation.h"
#include "quantity/dimension.h"
#include "workings/inner/figures.h"
#include "workings/relations/draft.h"

namespace sash::workings {

/// A figure that fills a slot.
struct Filled {
  std::size_t quantity;  ///< in the draft
  const inner::FigureValue* value;
  std::string about;
};

/// A quantity and its weight in an equation.
using Weighted = std::pair<std::size_t, double>;

class Drafting {
 public:
  Drafting(const model::Relation& relation, const inner::FigureBook& book) : relation_(relation), book_(book) {}

  const model::Relation& relation() const { return relation_; }
  const model::Bench& bench() const { return book_.record().bench; }

  /// The figures of a slot, in the order of the terms. `below` is the subscript of their symbols; where empty, what the
  /// term is about. A figure whose dimension is not among `dimensions` (any, when empty) is left out and said so in
  /// Draft::missing, as is one that cannot be computed with.
  std::vector<Filled> figures(std::string_view slot, const std::vector<quantity::Dimension>& dimensions = {},
                              const std::string& below = {});
  /// The first of them.
  std::optional<Filled> figure(std::string_view slot, const std::vector<quantity::Dimension>& dimensions = {},
                               const std::string& below = {});

  /// The text given under `key`; nothing when absent or blank.
  std::optional<std::string> given(std::string_view key) const;
  /// A quantity given as text ("1.42 g/mL", "98 %", "3/8"), as a constant with the uncertainty of its digits.
  /// A text that cannot be read is said in Draft::missing.
  std::optional<std::size_t> given_quantity(std::string_view key, quantity::Kind kind, Piece symbol, std::string name);

  std::size_t constant(std::string key, std::string name, Piece symbol, quantity::Kind kind, const quantity::Unit& unit,
                       double si, double si_spread, std::string source);
  std::size_t hidden(std::string name, Piece symbol, quantity::Kind kind, bool askable = false);
  /// A hidden quantity that a person could state, or give with the relation as `given_as` tells.
  std::size_t asked(std::string name, Piece symbol, quantity::Kind kind, std::string given_as);
  /// The molar mass of a formula as a constant; what is wrong with it is said in Draft::missing.
  std::optional<std::size_t> molar_mass(const chem::Formula& formula);

  void product(std::string name, const std::vector<Weighted>& members, double factor = 1);
  void sum(std::string name, const std::vector<Weighted>& members, double constant = 0);
  void special(std::string name, std::vector<std::size_t> members, LawPtr law, Writer writer);
  /// The last equation takes long to evaluate: no thousands of draws through it.
  void slow() { draft_.equations.back().slow = true; }
  /// target = factor * product of `of`, any of which may be negative.
  void ratio(std::string name, std::size_t target, const std::vector<std::size_t>& of, double factor = 1);
  /// `least` is the least of the others, each over its weight.
  void least(std::string name, std::size_t least, const std::vector<Weighted>& of);
  void equal(std::string name, std::size_t a, std::size_t b);

  /// A slot's figures as one quantity: the first of them, to which the others are equal; nothing when the slot is
  /// empty.
  std::optional<std::size_t> one_of(const std::vector<Filled>& filled);

  void aim(std::size_t quantity) { draft_.aims.push_back(quantity); }
  void tell(std::size_t quantity) { draft_.besides.push_back(quantity); }
  void missing(std::string what) { draft_.missing.push_back(std::move(what)); }
  void note(std::string what) {  // once
    if (std::find(draft_.notes.begin(), draft_.notes.end(), what) == draft_.notes.end())
      draft_.notes.push_back(std::move(what));
  }
  void note_after(std::size_t quantity, std::function<std::string(double si)> note) {
    draft_.afterthoughts.push_back({quantity, std::move(note)});
  }

  /// The substance the relation is about: given, or the one its figures or their portions are about; empty when none.
  std::string substance() const;
  /// What the tables of solutions know it as: the solute, where a trade name means a solution ("concentrated nitric
  /// acid"); otherwise the same.
  std::string solute() const;
  /// The formula of the solute; nothing when there is none, or no such name is known.
  std::optional<chem::Formula> formula() const;

  /// A constant where otherwise a figure stands, as if somebody had stated it. It lives as long as this.
  Filled as_if_stated(std::size_t constant);

  /// The value of a figure, SI; nothing where nobody stated it, or it is none.
  std::optional<double> stated(std::size_t quantity) const;

  Quantity& at(std::size_t quantity) { return draft_.quantities[quantity]; }
  const Quantity& at(std::size_t quantity) const { return draft_.quantities[quantity]; }
  Draft take() { return std::move(draft_); }

 private:
  std::size_t add(Quantity quantity);

  const model::Relation& relation_;
  const inner::FigureBook& book_;
  Draft draft_;
  std::map<model::FigureId, std::size_t> placed_;
  std::map<std::string, std::size_t> constants_;
  std::deque<std::pair<model::Figure, inner::FigureValue>> stand_ins_;
};

/// "a mass", "an amount".
std::string with_article(std::string noun);

/// The letter chemists use for a kind: m, V, n, c ...
std::string letter_of(quantity::Kind kind);

}  // namespace sash::workings
