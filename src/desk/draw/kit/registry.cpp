#include "desk/draw/kit/registry.h"

#include <algorithm>

namespace sash::desk {

Rect Rect::cut(const Rect& o) const {
  Rect out{{std::max(min.x, o.min.x), std::max(min.y, o.min.y)}, {std::min(max.x, o.max.x), std::min(max.y, o.max.y)}};
  if (out.max.x < out.min.x || out.max.y < out.min.y) out.max = out.min;
  return out;
}

const Registry::Item* Registry::find(std::string_view id) const {
  const auto at = last_.find(id);
  return at == last_.end() ? nullptr : &at->second;
}

}  // namespace sash::desk
