#pragma once
// Draft: one relation as mathematics: its quantities, the equations between them, what it lacks and what it assumes.
// Made by the relation's class, read by the network and by whoever writes out the workings. A value; pure.

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "model/place.h"
#include "quantity/kind.h"
#include "quantity/unit.h"
#include "workings/law.h"
#include "workings/writing.h"

namespace sash::workings {

/// One quantity of a relation.
struct Quantity {
  enum class From {
    figure,
    constant,  ///< known from a table, or given with the relation
    hidden,    ///< neither, but needed on the way
  };
  From from = From::hidden;
  model::FigureId figure;
  std::string key;   ///< of a constant: relations that use the same key share it, and its uncertainty
  std::string name;  ///< for sentences: "molar mass of Cu"
  Piece symbol;      ///< as it stands in the workings
  quantity::Kind kind = quantity::Kind::other;
  quantity::Unit unit;           ///< in which to show it
  double value = 0;              ///< of a constant, SI
  double spread = 0;             ///< of a constant, SI
  std::string source;            ///< of a constant
  std::string digits;            ///< of a constant that a person typed, as typed
  std::optional<double> most;    ///< SI; it cannot be more than this: a yield of 100 %
  std::string past_most;         ///< what more than that cannot be: "cannot be pure, dry product"
  std::optional<double> enough;  ///< SI; it must not be less than this: a quench of 100 %
  bool askable = false;          ///< hidden, and a person could state it: named when it is missing
  std::string given_as;  ///< askable: the key it can be given under, and an example: "density, such as 1.05 g/mL"
  bool silent = false;   ///< hidden, and left out of the workings where it is only a step between two lines
};

/// Whether quantities of a kind can be zero or less: differences, energies, pH. All others are positive.
bool can_be_negative(quantity::Kind kind);

/// What a special equation gives for one member from the others, SI, and how that is written out.
struct Step {
  double value;
  Line line;
};
using Writer = std::function<std::optional<Step>(std::size_t wanted, const std::vector<double>& numbers)>;

struct Equation {
  enum class Shape {
    product,  ///< constant * product of member ^ weight = 1
    sum,      ///< constant + sum of weight * member = 0
    ratio,    ///< the first member is constant * product of the others, which may be negative
    least,    ///< the first member is the least of the others, each over its weight: the limiting reactant
    special,  ///< `law`, solved and written out by `writer`
  };
  std::string name;  ///< for sentences: "mass, density and volume of the acid"
  Shape shape = Shape::sum;
  std::vector<std::size_t> members;  ///< indices in Draft::quantities, each once
  std::vector<double> weights;       ///< of a product or sum
  double constant = 0;
  LawPtr law;
  Writer writer;
  bool slow = false;  ///< takes long to evaluate
};

/// A note that depends on what a quantity comes to: SI in, a sentence out, or nothing where there is nothing to say.
struct Afterthought {
  std::size_t quantity;
  std::function<std::string(double si)> note;
};

struct Draft {
  std::vector<Quantity> quantities;
  std::vector<Equation> equations;
  std::vector<std::size_t> aims;     ///< what the relation naturally gives (not what goes in), best first
  std::vector<std::size_t> besides;  ///< hidden, but worth telling where they follow
  std::vector<std::string> missing;  ///< without these there is nothing to compute
  std::vector<std::string> notes;
  std::vector<Afterthought> afterthoughts;
};

}  // namespace sash::workings
