// Prints what is read from narrations, in the layout of the label files: print_figures FOLDER NARRATION...
// writes FOLDER/<stem>.json for each.

#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>

#include "narration/read.h"
#include "scoring/checked.h"
#include "scoring/predictions.h"

int main(int count, char** arguments) {
  for (int i = 2; i < count; ++i) {
    const std::filesystem::path path = arguments[i];
    std::ifstream in(path, std::ios::binary);
    const std::string bytes((std::istreambuf_iterator<char>(in)), {});
    const auto text = sash::narration::read_narration(bytes, path.filename().string());
    if (!text) {
      std::cerr << text.fault().sentence << '\n';
      return 2;
    }
    nlohmann::json all = sash::test::predictions(*text, sash::narration::read_figures(*text));
    for (const sash::test::Conflict& c : sash::test::conflicts_of(*text)) {
      all["conflicts"].push_back(
          {{"relation", c.relation}, {"sentence", c.sentence}, {"figures", c.figures}, {"named", c.named}});
    }
    std::ofstream out(std::filesystem::path(arguments[1]) / path.stem().concat(".json"));
    out << all.dump(1) << '\n';
  }
  return 0;
}
