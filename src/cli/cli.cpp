#include "cli/cli.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <array>
#include <functional>
#include <ostream>

#include "cli/commands/commands.h"
#include "support/text.h"

namespace sash::cli {
namespace {

constexpr std::array<std::string_view, 10> names{"demo",     "begin", "footage", "still",  "formula",
                                                 "equation", "check", "script",  "record", "figures"};

// What the command line asked for; only the command that was named uses its share.
struct Asked {
  std::string record, folder, file, at, to, from, text;
  std::vector<std::string> footage, narration;
  EquationAsked equation;
  bool json = false;
  bool accept = false;
};

using Run = std::function<int(const Console&)>;

void declare(CLI::App& app, Asked& a, Run& run) {
  const auto command = [&](const char* name, const char* help, Run action) {
    CLI::App* sub = app.add_subcommand(name, help);
    sub->callback([&run, action = std::move(action)] { run = action; });
    return sub;
  };
  const auto json = [&](CLI::App* sub) { sub->add_flag("--json", a.json, "Print JSON for programs"); };

  auto* demo_ =
      command("demo", "Make the demo record with its footage", [&](const Console& c) { return demo(a.folder, c); });
  demo_->add_option("DIR", a.folder, "Folder to make it in")->required();

  auto* begin_ = command("begin", "Begin a record from footage and narration",
                         [&](const Console& c) { return begin(a.record, a.footage, a.narration, a.accept, c); });
  begin_->add_option("RECORD", a.record, "The record to make (.sash)")->required();
  begin_->add_option("--footage", a.footage, "Media files, in the order of the film");
  begin_->add_option("--narration", a.narration, "Caption files or transcripts");
  begin_->add_flag("--accept", a.accept, "Take in every figure and relation proposed from the narration");

  auto* footage_ =
      command("footage", "Say what a media file holds", [&](const Console& c) { return footage(a.file, a.json, c); });
  footage_->add_option("FILE", a.file, "Media file")->required();
  json(footage_);

  auto* still_ = command("still", "Write the frame on screen at a time as a PNG",
                         [&](const Console& c) { return still(a.file, a.at, a.to, c); });
  still_->add_option("FILE", a.file, "Media file")->required();
  still_->add_option("--at", a.at, "Time: seconds, m:ss or h:mm:ss, with decimals")->required();
  still_->add_option("--to", a.to, "PNG file to write")->required();

  auto* formula_ = command("formula", "Molar mass and composition of a formula",
                           [&](const Console& c) { return formula(a.text, a.json, c); });
  formula_->add_option("FORMULA", a.text, "For example CuSO4*5H2O")->required();
  json(formula_);

  auto* equation_ =
      command("equation", "Balance an equation, complete a redox equation, and reckon what forms from what was taken",
              [&](const Console& c) {
                a.equation.json = a.json;
                return equation(a.equation, c);
              });
  equation_
      ->add_option("EQUATION", a.equation.text,
                   "For example \"Cu + HNO3 -> Cu(NO3)2 + NO + H2O\"; two half-reactions with ; between them are added")
      ->required();
  equation_->add_option("--in", a.equation.medium, "acid or base: add water, H+ or OH- and electrons where they lack");
  equation_->add_option(
      "--take", a.equation.taken,
      "What was put in, once for each reactant: \"5.0 g Cu\", \"25 mL 2.0 M HCl\", \"10 g 30 % H2O2\"");
  equation_->add_option("--celsius", a.equation.room.celsius, "Temperature for gas volumes, 20 where not said")
      ->check(CLI::Range(-270.0, 3000.0));
  equation_->add_option("--kilopascal", a.equation.room.kilopascal, "Pressure for gas volumes, 101.325 where not said")
      ->check(CLI::Range(0.001, 1e6));
  json(equation_);

  auto* check_ = command("check", "Check the figures and the safety cover of a record",
                         [&](const Console& c) { return check(a.record, a.json, c); });
  check_->add_option("RECORD", a.record, "Record (.sash)")->required();
  json(check_);

  auto* script_ = command("script", "Write the safety script, captions, chapters and data",
                          [&](const Console& c) { return script(a.record, a.folder, c); });
  script_->add_option("RECORD", a.record, "Record (.sash)")->required();
  script_->add_option("--to", a.folder, "Folder to write into")->required();

  auto* record_ = command("record", "Write a record as JSON, or make one from JSON", [&](const Console& c) {
    return a.from.empty() ? record_to_json(a.record, a.to, c) : record_from_json(a.record, a.from, c);
  });
  record_->add_option("RECORD", a.record, "Record (.sash)")->required();
  auto* to = record_->add_option("--to", a.to, "JSON file to write; - prints it");
  auto* from = record_->add_option("--from", a.from, "JSON file to read; RECORD is made from it");
  to->excludes(from);
  record_->parse_complete_callback([to, from] {
    if (to->count() + from->count() == 0) throw CLI::RequiredError("--to JSON or --from JSON");
  });

  auto* figures_ = command("figures", "List the figures a narration states",
                           [&](const Console& c) { return figures(a.file, a.json, c); });
  figures_->add_option("NARRATION", a.file, "Caption file or transcript")->required();
  json(figures_);
}

// CLI11 says "The following argument was not expected: chekc"; a near spelling helps more.
std::string unknown_word(const std::string& word) {
  std::string sentence = "There is no command '" + word + "'";
  if (const auto near = nearest_spelling(word, names)) return sentence + "; did you mean '" + std::string(*near) + "'?";
  return sentence + "; 'sashline --help' lists them.";
}

std::string one_sentence(const CLI::ParseError& error) {
  std::string what = error.what();
  if (!what.empty() && what.back() != '.') what += '.';
  return what + " See 'sashline --help'.";
}

}  // namespace

Ran run(const std::vector<std::string>& words, const Console& console) {
  const bool names_command =
      !words.empty() && (words[0].starts_with('-') || std::find(names.begin(), names.end(), words[0]) != names.end());
  if (words.empty()) return OpenDesk{};
  if (!names_command) {
    // Anything else is a record to open at the desk; a bare word that is no file was meant as a command.
    const bool looks_like_file = words[0].find('.') != std::string::npos || words[0].find('/') != std::string::npos;
    if (words.size() == 1 && looks_like_file) return OpenDesk{words[0]};
    return console.fail(unknown_word(words[0]));
  }

  CLI::App app(
      "Sashline: the desk at which bench footage is made fit to publish.\n"
      "Without a command it opens the desk: sashline [RECORD]\n"
      "Screening estimates only: local codes, the safety officer and licensed practice decide.",
      "sashline");
  app.set_version_flag("--version", "sashline 0.1.0");
  app.require_subcommand(1);
  app.footer("Exit codes: 0 fine, 1 conflicts found, 2 wrong use or fault.");
  Asked asked;
  Run chosen;
  declare(app, asked, chosen);
  std::vector<std::string> reversed(words.rbegin(), words.rend());
  try {
    app.parse(reversed);
  } catch (const CLI::Success& wish) {
    app.exit(wish, console.out, console.err);
    return fine;
  } catch (const CLI::ParseError& error) {
    return console.fail(one_sentence(error));
  }
  return chosen(console);
}

}  // namespace sash::cli
