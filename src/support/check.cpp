#include "support/check.h"

#include <cstdio>
#include <cstdlib>

namespace sash {

void promise_broken(const char* what, std::source_location where) noexcept {
  std::fprintf(stderr, "sashline: broken promise: %s (%s:%u)\n", what, where.file_name(),
               static_cast<unsigned>(where.line()));
  std::abort();
}

}  // namespace sash
