#pragma once
// Gallery: one page with every widget and sign of the kit, for looking at.

#include <array>
#include <optional>
#include <string>

#include "desk/draw/kit/kit.h"
#include "desk/draw/kit/notices.h"

namespace sash::testing {

class Gallery {
 public:
  void draw(desk::Kit& kit);
  desk::Notices notices;

 private:
  void controls(desk::Kit& kit);
  void typeset(desk::Kit& kit);
  void signs(desk::Kit& kit);
  void rows(desk::Kit& kit);
  void bands(desk::Kit& kit, const desk::Rect& in);

  std::string pin_ = "20 mL 6 M nitric acid";
  std::string empty_;
  std::string faulty_ = "20 mk";
  std::string note_ = "Brown fume rises.\nSash down to the mark.";
  std::size_t kind_ = 1;
  std::size_t segment_ = 0;
  bool loop_ = true;
  bool follow_ = false;
  double volume_ = 0.7;
  std::optional<std::size_t> row_ = 2;
};

}  // namespace sash::testing
