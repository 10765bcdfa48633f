#pragma once
// What a figure is called in sentences: what the person calls it, or its kind and what it is about, with the place it
// has in a relation where that tells two of one kind apart ("molarity of nitric acid before"). Pure.

#include <map>
#include <string>

#include "model/record.h"

namespace sash::workings::inner {

class FigureNames {
 public:
  /// Borrows the record.
  explicit FigureNames(const model::Record& record);

  std::string of(const model::Figure& figure) const;

 private:
  struct Place {
    const model::Relation* relation;
    const model::Term* term;
  };
  const model::Record& record_;
  std::map<model::FigureId, Place> places_;  // the first there is, by relation
};

}  // namespace sash::workings::inner
