// sashline: a thin main. Commands run and end; without one the desk opens.

#include <iostream>
#include <string>
#include <vector>

#include "cli/cli.h"

int main(int count, char** words) {
  sash::cli::Console console{std::cout, std::cerr};
  const auto ran = sash::cli::run(std::vector<std::string>(words + 1, words + count), console);
  if (const int* code = std::get_if<int>(&ran)) return *code;
  return console.fail("This build has no desk.");
}
