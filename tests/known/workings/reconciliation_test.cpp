// Published reconciliation networks, row by row (tests/known/workings/reconciliation.csv).
#include <gtest/gtest.h>

#include <cmath>
#include <sstream>

#include "support/text.h"
#include "tools/table.h"
#include "workings/reconcile.h"
#include "workings/statistics.h"

namespace sash::workings {
namespace {

using test::Row;

std::vector<double> numbers(std::string_view list) {
  std::vector<double> result;
  for (const auto piece : split(list.substr(1, list.size() - 2), ',')) {
    const auto number = read_number(trim(piece));
    EXPECT_TRUE(number) << piece;
    result.push_back(number.value_or(NAN));
  }
  return result;
}

std::vector<std::vector<double>> matrix(std::string_view text) {
  std::vector<std::vector<double>> rows;
  for (const auto row : split(text.substr(1, text.size() - 2), ';')) rows.push_back(numbers(trim(row)));
  return rows;
}

// The text after `key=` up to the next "; " outside brackets.
std::string value_of(const std::string& inputs, const std::string& key) {
  const std::size_t from = inputs.find(key + "=");
  EXPECT_NE(from, std::string::npos) << key;
  std::size_t end = from + key.size() + 1;
  const std::size_t begin = end;
  for (int depth = 0; end < inputs.size() && (depth > 0 || inputs[end] != ';'); ++end) {
    if (inputs[end] == '[') ++depth;
    if (inputs[end] == ']') --depth;
  }
  return inputs.substr(begin, end - begin);
}

System linear_network(const Row& row) {
  const std::string& inputs = row.at("inputs");
  const auto y = numbers(value_of(inputs, "y"));
  const auto variance = numbers(value_of(inputs, "variance"));
  System system;
  for (std::size_t i = 0; i < y.size(); ++i) {
    system.add(Variable::measured("x" + std::to_string(i + 1), y[i], std::sqrt(variance[i])));
  }
  for (const auto& coefficients : matrix(value_of(inputs, "A"))) {
    Constraint c;
    c.name = "balance";
    std::vector<double> used;
    for (std::size_t i = 0; i < coefficients.size(); ++i) {
      if (coefficients[i] == 0) continue;
      c.variables.push_back(i);
      used.push_back(coefficients[i]);
    }
    c.law = linear_law(used);
    system.add(c);
  }
  return system;
}

// The steam network of the VDI 2048 type rows; its three balances are written out in the row.
System steam_network(const Row& row) {
  const std::string& inputs = row.at("inputs");
  const auto y = numbers(value_of(inputs, "y"));
  const auto half_width = numbers(value_of(inputs, "half_width95"));
  std::map<std::string, VariableIndex> index;
  System system;
  std::size_t i = 0;
  const std::string names = value_of(inputs, "names");
  for (const auto name : split(std::string_view(names).substr(1, names.size() - 2), ',')) {
    index[std::string(name.substr(1))] = system.add(Variable::measured(std::string(name), y[i], half_width[i] / 1.96));
    ++i;
  }
  const auto balance = [&](const std::vector<std::pair<std::string, double>>& terms) {
    Constraint c;
    std::vector<double> coefficients;
    for (const auto& [name, coefficient] : terms) {
      c.variables.push_back(index.at(name));
      coefficients.push_back(coefficient);
    }
    c.law = linear_law(coefficients);
    system.add(c);
  };
  balance({{"FDKEL", 1}, {"FDKELL", 1}, {"V", 0.4}, {"SPL", -1}, {"SPLL", -1}});
  balance({{"SPL", 1}, {"SPLL", 1}, {"A5", -1}, {"A6", -1}, {"A7", -1}, {"HK", -1}, {"V", -1}});
  balance({{"A5", 1}, {"A6", 1}, {"A7", 1}, {"HDNK", -1}});
  if (inputs.find("r(FDKEL,FDKELL)") != std::string::npos) {
    const auto r = [&](const std::string& pair) {
      return *read_number(inputs.substr(
          inputs.find(pair) + pair.size() + 1,
          inputs.find_first_of(",;", inputs.find(pair) + pair.size()) - inputs.find(pair) - pair.size() - 1));
    };
    system.correlate(index.at("FDKEL"), index.at("FDKELL"), r("r(FDKEL,FDKELL)"));
    system.correlate(index.at("SPL"), index.at("SPLL"), r("r(SPL,SPLL)"));
  }
  return system;
}

// Pai & Fisher's bilinear example: eight variables, six laws, as written out in the row.
System bilinear_network(const Row& row) {
  const std::string& inputs = row.at("inputs");
  const auto x = numbers(value_of(inputs, "measured x").substr(0, value_of(inputs, "measured x").find(']') + 1));
  const auto start = inputs.find("start [");
  const auto v = numbers(inputs.substr(start + 6, inputs.find(']', start) - start - 5));
  System system;
  for (const double value : x) system.add(Variable::measured("x", value, 1));
  for (const double value : v) system.add(Variable::wanted("v", value));
  const auto law = [&](auto f) {
    // Slopes by central differences: the example tests the search, not hand-made derivatives.
    system.add(
        Constraint{"f", {0, 1, 2, 3, 4, 5, 6, 7}, general_law([f](std::span<const double> at, std::span<double> slope) {
                     std::vector<double> p(at.begin(), at.end());
                     for (std::size_t i = 0; i < p.size(); ++i) {
                       const double h = 1e-6 * std::max(1.0, std::fabs(at[i]));
                       p[i] = at[i] + h;
                       const double up = f(p);
                       p[i] = at[i] - h;
                       slope[i] = (up - f(p)) / (2 * h);
                       p[i] = at[i];
                     }
                     return f(p);
                   })});
  };
  using V = std::vector<double>;
  law([](const V& a) {
    return 0.5 * a[0] * a[0] - 0.7 * a[1] + a[2] * a[5] + a[1] * a[1] * a[5] * a[6] + 2 * a[2] * a[7] * a[7] - 255.8;
  });
  law([](const V& a) { return a[0] - 2 * a[1] + 3 * a[0] * a[2] - 2 * a[1] * a[5] - a[1] * a[6] * a[7] + 111.2; });
  law([](const V& a) { return a[2] * a[5] - a[0] + 3 * a[1] + a[0] * a[6] - a[2] * std::sqrt(a[7]) - 33.57; });
  law([](const V& a) { return a[3] - a[0] - a[2] * a[2] + a[6] + 3 * a[7]; });
  law([](const V& a) { return a[4] - 2 * a[2] * a[6] * a[7]; });
  law([](const V& a) { return 2 * a[0] + a[1] * a[2] * a[5] + a[6] - a[7] - 126.6; });
  return system;
}

System network(const Row& row) {
  const std::string& inputs = row.at("inputs");
  if (inputs.find("A=[[") != std::string::npos) return linear_network(row);
  if (inputs.find("half_width95") != std::string::npos) return steam_network(row);
  return bilinear_network(row);
}

double tolerance_for(const Row& row, double expected) {
  const std::string& text = row.at("tolerance");
  const auto relative = text.find(" relative");
  const auto number = read_number(text.substr(0, relative));
  EXPECT_TRUE(number) << text;
  return relative == std::string::npos ? *number : *number * std::fabs(expected);
}

void expect_global_test(const Row& row, const GlobalTest& test) {
  double statistic = 0;
  int freedom = 0;
  char verdict[8] = {};
  double limit = 0;
  ASSERT_EQ(std::sscanf(row.at("expected").c_str(), "chi2=%lf df=%d reject_at_5%%=%3[a-z] (limit %lf)", &statistic,
                        &freedom, verdict, &limit),
            4)
      << row.at("expected");
  EXPECT_NEAR(test.statistic, statistic, row.number("tolerance"));
  EXPECT_EQ(test.freedom, freedom);
  EXPECT_EQ(test.fails(0.05), std::string(verdict) == "yes");
  EXPECT_NEAR(chi_square_limit(0.05, freedom), limit, 0.0005 * limit);
}

TEST(PublishedNetworks, AreReproduced) {
  int rows = 0;
  for (const Row& row : test::read_table("known/workings/reconciliation.csv")) {
    SCOPED_TRACE(row.at("id") + " " + row.at("source"));
    const auto result = reconcile(network(row));
    ASSERT_TRUE(result) << result.fault().sentence;
    for (const Part& part : result->parts) EXPECT_FALSE(part.trouble) << part.trouble->sentence;
    const std::string& inputs = row.at("inputs");
    ++rows;
    if (row.at("expected").starts_with("chi2=")) {
      expect_global_test(row, result->test);
      continue;
    }
    if (inputs.find("wanted=objective") != std::string::npos) {
      EXPECT_NEAR(result->test.statistic, row.number("expected"), row.number("tolerance"));
      EXPECT_EQ(result->test.freedom, 3);
      continue;
    }
    const bool half_widths = inputs.find("wanted=reconciled half-widths") != std::string::npos;
    const auto expected = numbers(row.at("expected"));
    ASSERT_EQ(expected.size(), result->estimates.size());
    for (std::size_t i = 0; i < expected.size(); ++i) {
      const Estimate& e = result->estimates[i];
      EXPECT_NEAR(half_widths ? 1.96 * e.spread : e.value, expected[i], tolerance_for(row, expected[i]))
          << "entry " << i;
    }
  }
  EXPECT_EQ(rows, 24);
}

}  // namespace
}  // namespace sash::workings
