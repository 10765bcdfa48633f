// Shows the JSON form to the schema check (schema_check.py):
//   json_probe make SEED COUNT   writes random records, each followed by a NUL byte
//   json_probe judge             reads texts, each followed by a NUL byte; answers "ok" or the fault, one line a text

#include <cstdlib>
#include <iostream>
#include <iterator>
#include <string_view>

#include "made.h"
#include "store/json_form.h"
#include "support/text.h"

int main(int argc, char** argv) {
  using namespace sash;
  const std::string_view mode = argc > 1 ? argv[1] : "";
  if (mode == "make" && argc == 4) {
    std::mt19937_64 random(std::strtoull(argv[2], nullptr, 10));
    for (int i = std::atoi(argv[3]); i > 0; --i)
      std::cout << store::to_json(store::test::random_record(random)) << '\0';
    return 0;
  }
  if (mode == "judge") {
    const std::string all{std::istreambuf_iterator<char>(std::cin), {}};
    auto texts = split(all, '\0');
    texts.pop_back();
    for (const auto text : texts) {
      const auto record = store::from_json(text);
      std::cout << (record ? "ok" : replace_all(record.fault().sentence, "\n", " ")) << "\n";
    }
    return 0;
  }
  std::cerr << "usage: json_probe make SEED COUNT | judge\n";
  return 2;
}
