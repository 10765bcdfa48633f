#include "workings/relations/draft.h"

namespace sash::workings {

bool can_be_negative(quantity::Kind kind) {
  using quantity::Kind;
  switch (kind) {
    case Kind::temperature_change:
    case Kind::pH:
    case Kind::voltage:
    case Kind::current:
    case Kind::charge:
    case Kind::power:
    case Kind::energy:
    case Kind::other:
      return true;
    default:
      return false;
  }
}

}  // namespace sash::workings
