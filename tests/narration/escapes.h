#pragma once
// Cells of the caption tables hold bytes that a table cannot: \n \r \t \f \v \0 \\ and \xHH stand for them.

#include <string>
#include <string_view>

namespace sash::narration::test {

/// The bytes a cell stands for. Aborts at an escape nobody knows.
std::string unescaped(std::string_view cell);

}  // namespace sash::narration::test
