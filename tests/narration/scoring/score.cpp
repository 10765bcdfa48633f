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
#include "scoring/labelled.h"
#include "scoring/predictions.h"
#include "support/text.h"

namespace sash::test {

using nlohmann::json;

namespace {

std::optional<int> index_of(const json& f, const char* key) {
  if (!f.contains(key) || !f[key].is_number_integer()) return std::nullopt;
  return f[key].get<int>();
}

}  // namespace

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

int first_of(const json& figures, int i) {
  std::set<int> seen;
  while (seen.insert(i).second) {
    const auto same = index_of(figures[static_cast<std::size_t>(i)], "same_sample_as");
    if (!same || *same < 0 || *same >= static_cast<int>(figures.size())) break;
    i = *same;
  }
  return i;
}

namespace {

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

}  // namespace

bool overlap(const json& a, const json& b) {
  for (const Span& x : spans(a)) {
    for (const Span& y : spans(b)) {
      if (std::abs(x.t0 - y.t0) < 0.02 && x.begin < y.end && y.begin < x.end) return true;
    }
  }
  return false;
}

namespace {

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

std::string bytes_of(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  return std::string((std::istreambuf_iterator<char>(in)), {});
}

}  // namespace

std::string MistakeScore::line() const {
  return fmt::format("planted mistakes {} of {}, false conflicts {} in {} narrations", found, planted, false_conflicts,
                     narrations);
}

std::map<int, int> every_label(const json& labels) {
  std::map<int, int> all;
  for (int j = 0; j < static_cast<int>(labels["figures"].size()); ++j) all[j] = j;
  return all;
}

std::string Scores::line() const {
  return fmt::format(
      "{} narrations, {} labels: recall {:.1f} %, precision {:.1f} %, approx {:.1f} %, subject {:.1f} %, role {:.1f} "
      "%, "
      "same sample {:.1f} % / {:.1f} %, other links {:.1f} % / {:.1f} %; read: {}; labels: {}",
      narrations, labels, recall() * 100, precision() * 100, approx() * 100, subject() * 100, role() * 100,
      same.recall() * 100, same.precision() * 100, other.recall() * 100, other.precision() * 100, read.line(),
      labelled.line());
}

std::map<int, int> matched(const json& labels, const json& predicted) {
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
  return keep;
}

void add_mistakes(const json& labels, const std::vector<Conflict>& conflicts, const std::map<int, int>& keep,
                  MistakeScore& to) {
  const json& figures = labels["figures"];
  const auto is_of = [&](int wrong, const std::vector<std::size_t>& some) {
    return std::any_of(some.begin(), some.end(), [&](std::size_t f) {
      const auto k = keep.find(static_cast<int>(f));
      return k != keep.end() && first_of(figures, k->second) == wrong;
    });
  };
  std::vector<bool> involved(conflicts.size(), false);
  ++to.narrations;
  for (const json& mistake : labels["planted_errors"]) {
    const int wrong = first_of(figures, mistake["figures"].back());
    bool named = false;
    for (std::size_t c = 0; c < conflicts.size(); ++c) {
      if (is_of(wrong, conflicts[c].figures)) involved[c] = true;
      if (is_of(wrong, conflicts[c].named)) named = true;
    }
    if (mistake.contains("follows_from")) continue;
    ++to.planted;
    to.found += named ? 1 : 0;
  }
  to.false_conflicts += static_cast<int>(std::count(involved.begin(), involved.end(), false));
}

void add_score(const json& labels, const json& predicted, Scores& to) {
  const json& gold = labels["figures"];
  const json& read = predicted["figures"];
  const std::map<int, int> keep = matched(labels, predicted);
  ++to.narrations;
  to.labels += static_cast<int>(gold.size());
  to.found += static_cast<int>(keep.size());
  for (int i = 0; i < static_cast<int>(read.size()); ++i) {
    const json& p = read[static_cast<std::size_t>(i)];
    const auto unscored = [&](const json& u) { return overlap(p, u); };
    if (keep.count(i) == 0 && std::none_of(labels["unscored"].begin(), labels["unscored"].end(), unscored))
      ++to.false_alarms;
  }
  const std::map<int, int> all = every_label(labels);
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
}

std::vector<std::filesystem::path> label_files(const std::filesystem::path& path) {
  if (!std::filesystem::is_directory(path)) return {path};
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(path)) {
    if (entry.path().extension() == ".json") files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  return files;
}

json labels_of(const std::filesystem::path& file) { return json::parse(bytes_of(file)); }

narration::NarrationText narration_of(const std::filesystem::path& file, const json& labels) {
  const std::string name = labels["file"];
  auto text = narration::read_narration(bytes_of(file.parent_path() / name), name);
  EXPECT_TRUE(text.ok()) << name;
  return text ? std::move(*text) : narration::NarrationText{};
}

Scores score_folder(const std::string& folder, bool checked) {
  Scores scores;
  for (const auto& file : label_files(std::filesystem::path(SASH_TESTS_DIR) / "known" / "narration" / folder)) {
    const json labels = labels_of(file);
    const narration::NarrationText text = narration_of(file, labels);
    const json predicted = predictions(text, narration::read_figures(text));
    add_score(labels, predicted, scores);
    if (!checked) continue;
    add_mistakes(labels, conflicts_of(text), matched(labels, predicted), scores.read);
    add_mistakes(labels, conflicts_of(text, labelled(labels, text)), every_label(labels), scores.labelled);
  }
  return scores;
}

}  // namespace sash::test
