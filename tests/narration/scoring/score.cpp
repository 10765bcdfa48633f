#include "scoring/score.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "narration/read.h"
#include "quantity/unit.h"
#include "scoring/checked.h"
#include "scoring/predictions.h"
#include "support/text.h"

namespace sash::test {

namespace {

using nlohmann::json;
using Pairs = std::set<std::pair<int, int>>;

/// Value in coherent units of its dimension; temperatures in °C.
std::optional<double> base(double value, const std::string& unit, const std::string& kind) {
  if (unit == "Cel") return value;
  if (unit == "[degF]") return kind == "temperature_change" ? value * 5 / 9 : (value - 32) * 5 / 9;
  if (unit == "[pH]" || unit == "1" || unit == "%") return value;
  const auto known = quantity::Unit::parse(unit);
  return known ? std::optional(known->to_si(value)) : std::nullopt;
}

std::vector<double> values(const json& f) {
  if (f["value"].is_array()) return f["value"].get<std::vector<double>>();
  return {f["value"].get<double>()};
}

bool same_value(const json& a, const json& b) {
  const auto va = values(a);
  const auto vb = values(b);
  if (va.size() != vb.size()) return false;
  for (std::size_t i = 0; i < va.size(); ++i) {
    const auto x = base(va[i], a["unit"], a["kind"]);
    const auto y = base(vb[i], b["unit"], b["kind"]);
    if (!x || !y || std::abs(*x - *y) > std::max(0.005 * std::abs(*y), 1e-12)) return false;
  }
  return true;
}

struct Span {
  double t0;
  std::size_t begin;
  std::size_t end;
};

std::size_t characters(const std::string& s) {
  return static_cast<std::size_t>(
      std::count_if(s.begin(), s.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

std::vector<Span> spans(const json& f) {
  std::vector<Span> out;
  const auto add = [&](const json& p) {
    const std::size_t at = p["at"];
    out.push_back({p["t0"], at, at + characters(p["text"])});
  };
  if (f.contains("parts") && !f["parts"].empty()) {
    for (const json& p : f["parts"]) add(p);
  } else {
    add(f);
  }
  return out;
}

bool overlap(const json& a, const json& b) {
  for (const Span& x : spans(a)) {
    for (const Span& y : spans(b)) {
      if (std::abs(x.t0 - y.t0) < 0.02 && x.begin < y.end && y.begin < x.end) return true;
    }
  }
  return false;
}

/// Without case, "solution" and words for water of crystallisation.
std::string normal_subject(const json& subject) {
  if (!subject.is_string()) return {};
  std::string s = to_lower(subject.get<std::string>());
  s = replace_all(replace_all(std::move(s), "sulph", "sulf"), "aluminum", "aluminium");
  std::vector<std::string> kept;
  for (const std::string_view word : split(s, ' ')) {
    if (word.empty() || word == "solution" || word == "aqueous" || word == "anhydrous" || word.ends_with("hydrate"))
      continue;
    kept.emplace_back(word);
  }
  return join(kept, " ");
}

std::optional<int> index_of(const json& f, const char* key) {
  if (!f.contains(key) || !f[key].is_number_integer()) return std::nullopt;
  return f[key].get<int>();
}

int first_of(const json& figures, int i) {
  std::set<int> seen;
  while (seen.insert(i).second) {
    const auto same = index_of(figures[static_cast<std::size_t>(i)], "same_sample_as");
    if (!same || *same < 0 || *same >= static_cast<int>(figures.size())) break;
    i = *same;
  }
  return i;
}

/// Pairs of one sample; `keep` maps an index to that of the label.
Pairs sample_pairs(const json& figures, const std::map<int, int>& keep) {
  std::map<int, std::vector<int>> groups;
  for (int i = 0; i < static_cast<int>(figures.size()); ++i) {
    if (const auto k = keep.find(i); k != keep.end()) groups[first_of(figures, i)].push_back(k->second);
  }
  Pairs pairs;
  for (auto& [root, members] : groups) {
    std::sort(members.begin(), members.end());
    for (std::size_t a = 0; a < members.size(); ++a) {
      for (std::size_t b = a + 1; b < members.size(); ++b) pairs.emplace(members[a], members[b]);
    }
  }
  return pairs;
}

Pairs directed(const json& figures, const char* key, const std::map<int, int>& keep) {
  Pairs pairs;
  for (int i = 0; i < static_cast<int>(figures.size()); ++i) {
    const json& f = figures[static_cast<std::size_t>(i)];
    if (!f.contains(key) || keep.count(i) == 0) continue;
    for (const json& to : f[key].is_array() ? f[key] : json::array({f[key]})) {
      if (to.is_number_integer() && keep.count(to.get<int>()) != 0) pairs.emplace(keep.at(i), keep.at(to.get<int>()));
    }
  }
  return pairs;
}

void add_pairs(const Pairs& labels, const Pairs& predicted, LinkScore& to) {
  to.labels += static_cast<int>(labels.size());
  to.predicted += static_cast<int>(predicted.size());
  to.right += static_cast<int>(
      std::count_if(labels.begin(), labels.end(), [&](const auto& p) { return predicted.count(p) != 0; }));
}

void add_conflicts(const json& labels, const json& predicted, const std::map<int, int>& keep, Scores& to) {
  const json& figures = labels["figures"];
  std::set<std::size_t> hit;
  for (const json& conflict : predicted.value("conflicts", json::array())) {
    bool planted = false;
    for (std::size_t e = 0; e < labels["planted_errors"].size(); ++e) {
      const int wrong = first_of(figures, labels["planted_errors"][e]["figures"].back());
      for (const json& f : conflict["figures"]) {
        const auto k = keep.find(f.get<int>());
        if (k != keep.end() && first_of(figures, k->second) == wrong) {
          planted = true;
          hit.insert(e);
        }
      }
    }
    to.false_conflicts += planted ? 0 : 1;
  }
  for (std::size_t e = 0; e < labels["planted_errors"].size(); ++e) {
    if (labels["planted_errors"][e].contains("follows_from")) continue;
    ++to.planted;
    to.planted_found += hit.count(e) != 0 ? 1 : 0;
  }
}

}  // namespace

std::string Scores::line() const {
  return fmt::format(
      "{} narrations, {} labels: recall {:.1f} %, precision {:.1f} %, approx {:.1f} %, subject {:.1f} %, role {:.1f} "
      "%, "
      "same sample {:.1f} % / {:.1f} %, other links {:.1f} % / {:.1f} %, planted errors {} of {}, false conflicts {}",
      narrations, labels, recall() * 100, precision() * 100, approx() * 100, subject() * 100, role() * 100,
      same.recall() * 100, same.precision() * 100, other.recall() * 100, other.precision() * 100, planted_found,
      planted, false_conflicts);
}

void add_score(const json& labels, const json& predicted, Scores& to) {
  const json& gold = labels["figures"];
  const json& read = predicted["figures"];
  std::set<int> used;
  std::map<int, int> keep;
  for (int i = 0; i < static_cast<int>(read.size()); ++i) {
    for (int j = 0; j < static_cast<int>(gold.size()); ++j) {
      const json& p = read[static_cast<std::size_t>(i)];
      const json& g = gold[static_cast<std::size_t>(j)];
      if (used.count(j) != 0 || p["kind"] != g["kind"] || !overlap(p, g) || !same_value(p, g)) continue;
      used.insert(j);
      keep[i] = j;
      break;
    }
  }
  ++to.narrations;
  to.labels += static_cast<int>(gold.size());
  to.found += static_cast<int>(keep.size());
  for (int i = 0; i < static_cast<int>(read.size()); ++i) {
    const json& p = read[static_cast<std::size_t>(i)];
    const auto unscored = [&](const json& u) { return overlap(p, u); };
    if (keep.count(i) == 0 && std::none_of(labels["unscored"].begin(), labels["unscored"].end(), unscored))
      ++to.false_alarms;
  }
  std::map<int, int> all;
  for (int j = 0; j < static_cast<int>(gold.size()); ++j) all[j] = j;
  for (const auto& [i, j] : keep) {
    const json& p = read[static_cast<std::size_t>(i)];
    const json& g = gold[static_cast<std::size_t>(j)];
    to.approx_right += p["approx"] == g["approx"] ? 1 : 0;
    to.role_right += p["role"] == g["role"] ? 1 : 0;
    if (g["subject"].is_null()) continue;
    ++to.with_subject;
    to.subject_right += normal_subject(p["subject"]) == normal_subject(g["subject"]) ? 1 : 0;
  }
  add_pairs(sample_pairs(gold, all), sample_pairs(read, keep), to.same);
  for (const char* key : {"corrected_by", "attached_to", "fraction_of", "sum_of"}) {
    add_pairs(directed(gold, key, all), directed(read, key, keep), to.other);
  }
  add_conflicts(labels, predicted, keep, to);
}

Scores score_folder(const std::string& folder) {
  const std::filesystem::path path = std::filesystem::path(SASH_TESTS_DIR) / "known" / "narration" / folder;
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(path)) {
    if (entry.path().extension() == ".json") files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  const auto bytes_of = [](const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    return std::string((std::istreambuf_iterator<char>(in)), {});
  };
  Scores scores;
  for (const auto& file : files) {
    const json labels = json::parse(bytes_of(file));
    const std::string name = labels["file"];
    const auto text = narration::read_narration(bytes_of(path / name), name);
    EXPECT_TRUE(text.ok()) << name;
    if (!text) continue;
    json predicted = predictions(*text, narration::read_figures(*text));
    for (const Conflict& c : conflicts_of(*text)) predicted["conflicts"].push_back({{"figures", c.figures}});
    add_score(labels, predicted, scores);
  }
  return scores;
}

}  // namespace sash::test
