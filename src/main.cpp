// sashline: a thin main. Commands run and end; without one the desk opens.

#include <iostream>
#include <string>
#include <vector>

#include "cli/cli.h"
#include "demo/demo.h"
#include "desk/desk.h"

int main(int count, char** words) {
  const sash::cli::Console console{std::cout, std::cerr};
  const auto ran = sash::cli::run(std::vector<std::string>(words + 1, words + count), console);
  if (const int* code = std::get_if<int>(&ran)) return *code;
  const auto& wish = std::get<sash::cli::OpenDesk>(ran);
  const sash::Done done = sash::desk::open_desk({wish.record, sash::demo::make_demo});
  if (done) return sash::cli::fine;
  const int code = console.fail(done.fault());
  console.err << "Commands work without a display; 'sashline --help' lists them.\n";
  return code;
}
