#include <locale>

#include "cli/said.h"

namespace sash::cli {
namespace {

const std::vector<std::string> commands{"demo",     "begin", "footage", "still",  "formula",
                                        "equation", "check", "script",  "record", "figures"};

TEST(CommandLine, OpensTheDeskWithoutACommand) {
  std::ostringstream out;
  std::ostringstream err;
  Console console{out, err};
  const Ran bare = run({}, console);
  ASSERT_TRUE(std::holds_alternative<OpenDesk>(bare));
  EXPECT_EQ(std::get<OpenDesk>(bare).record, std::nullopt);
  for (const char* record : {"film.sash", "films/copper"}) {
    const Ran named = run({record}, console);
    ASSERT_TRUE(std::holds_alternative<OpenDesk>(named)) << record;
    EXPECT_EQ(std::get<OpenDesk>(named).record, record);
  }
  EXPECT_EQ(out.str() + err.str(), "");
}

TEST(CommandLine, HelpListsEveryCommandAndTheExitCodes) {
  const Said help = said({"--help"});
  EXPECT_EQ(help.code, fine);
  EXPECT_EQ(help.err, "");
  for (const auto& name : commands) EXPECT_NE(help.out.find("\n  " + name + " "), std::string::npos) << name;
  EXPECT_NE(help.out.find("Exit codes: 0 fine, 1 conflicts found, 2 wrong use or fault."), std::string::npos);
  EXPECT_NE(help.out.find("local codes, the safety officer and licensed practice decide"), std::string::npos);
}

TEST(CommandLine, EveryCommandHasHelpOfItsOwn) {
  for (const auto& name : commands) {
    const Said help = said({name, "--help"});
    EXPECT_EQ(help.code, fine) << name;
    EXPECT_EQ(help.err, "") << name;
    EXPECT_NE(help.out.find("Usage: sashline " + name), std::string::npos) << help.out;
  }
  for (const char* name : {"footage", "formula", "equation", "check", "figures"})
    EXPECT_NE(said({name, "--help"}).out.find("--json"), std::string::npos) << name;
}

TEST(CommandLine, NamesTheNearestCommand) {
  EXPECT_EQ(said({"chekc"}), fault("There is no command 'chekc'; did you mean 'check'?"));
  EXPECT_EQ(said({"equations", "H2 = H2"}), fault("There is no command 'equations'; did you mean 'equation'?"));
  EXPECT_EQ(said({"scrip", "a.sash", "--to", "b"}), fault("There is no command 'scrip'; did you mean 'script'?"));
  EXPECT_EQ(said({"frobnicate"}), fault("There is no command 'frobnicate'; 'sashline --help' lists them."));
}

TEST(CommandLine, SaysWhatIsMissingOrTooMuch) {
  EXPECT_EQ(said({"check"}), fault("RECORD is required. See 'sashline --help'."));
  EXPECT_EQ(said({"check", "a.sash", "b.sash"}),
            fault("The following argument was not expected: b.sash. See 'sashline --help'."));
  EXPECT_EQ(said({"script", "a.sash"}), fault("--to is required. See 'sashline --help'."));
  EXPECT_EQ(said({"record", "a.sash"}), fault("--to JSON or --from JSON is required. See 'sashline --help'."));
  EXPECT_EQ(said({"record", "a.sash", "--to", "a", "--from", "b"}),
            fault("--to excludes --from. See 'sashline --help'."));
  EXPECT_EQ(said({"formula", "H2O", "--jsn"}),
            fault("The following argument was not expected: --jsn. See 'sashline --help'."));
}

// A locale with a decimal comma and grouped thousands, as in much of Europe.
class Comma : public std::numpunct<char> {
  char do_decimal_point() const override { return ','; }
  char do_thousands_sep() const override { return '.'; }
  std::string do_grouping() const override { return "\3"; }
};

class LocaleFor {
 public:
  explicit LocaleFor(const std::locale& locale) : before_(std::locale::global(locale)) {}
  ~LocaleFor() { std::locale::global(before_); }
  LocaleFor(const LocaleFor&) = delete;
  LocaleFor& operator=(const LocaleFor&) = delete;

 private:
  std::locale before_;
};

TEST(CommandLine, PrintsTheSameInEveryLocaleAndNoColours) {
  const std::vector<std::vector<std::string>> asked{{"formula", "C2952H4664N812O832S8Fe4"},
                                                    {"formula", "CuSO4*5H2O", "--json"},
                                                    {"equation", "C8H18 + O2 = CO2 + H2O"},
                                                    {"equation", "C8H18 + O2 = CO2 + H2O", "--json"},
                                                    {"formula", "Cq"},
                                                    {"--help"}};
  std::vector<Said> plain;
  for (const auto& words : asked) plain.push_back(said(words));
  const LocaleFor other(std::locale(std::locale::classic(), new Comma));
  for (std::size_t i = 0; i < asked.size(); ++i) {
    EXPECT_EQ(said(asked[i]), plain[i]);
    EXPECT_EQ((plain[i].out + plain[i].err).find('\x1b'), std::string::npos) << asked[i][0];
  }
}

}  // namespace
}  // namespace sash::cli
