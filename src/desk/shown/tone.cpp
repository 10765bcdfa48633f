#include "desk/shown/tone.h"

namespace sash::desk {

std::string_view word_of(Safety s) {
  switch (s) {
    case Safety::danger:
      return "DANGER";
    case Safety::warning:
      return "WARNING";
    case Safety::caution:
      return "CAUTION";
    case Safety::notice:
      return "NOTICE";
    case Safety::safe:
      return "SAFE";
  }
  return {};
}

std::string_view word_of(Verdict v) {
  switch (v) {
    case Verdict::agrees:
      return "agrees";
    case Verdict::agrees_rounded:
      return "agrees as rounded";
    case Verdict::conflict:
      return "conflict";
    case Verdict::unsettled:
      return "unsettled";
  }
  return {};
}

}  // namespace sash::desk
