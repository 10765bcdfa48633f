#include "narration/inner/chains.h"

#include <algorithm>
#include <optional>

#include "narration/inner/wiring.h"

namespace sash::narration {

namespace {

using model::RelationType;
using model::Role;
using quantity::Kind;

class Chains {
 public:
  Chains(const std::vector<SpokenFigure>& figures, const std::vector<SpokenRelation>& found)
      : figures_(figures), found_(found) {}

  std::vector<SpokenRelation> run() {
    chain();
    return std::move(out_);
  }

 private:
  Kind kind(std::size_t i) const { return figures_[i].kind; }
  bool stands(std::size_t i) const { return !figures_[i].corrected_by && !figures_[i].reading.upper; }

  /// Two reactions of which the second starts with what the first made, with what was isolated of each.
  void chain() {
    for (const SpokenRelation& first : found_) {
      if (first.type != RelationType::reaction || first.terms.empty()) continue;
      for (const SpokenRelation& second : found_) {
        if (second.type != RelationType::reaction || &first == &second || second.terms.empty()) continue;
        link(first, second);
      }
    }
  }

  static const SpokenTerm* product_of(const SpokenRelation& r) {
    const auto it =
        std::find_if(r.terms.begin(), r.terms.end(), [](const SpokenTerm& t) { return t.slot == "product"; });
    return it == r.terms.end() ? nullptr : &*it;
  }

  void link(const SpokenRelation& first, const SpokenRelation& second) {
    const SpokenTerm* middle = product_of(first);
    const SpokenTerm* last = product_of(second);
    if (middle == nullptr || last == nullptr || middle->about == last->about || last->figure < middle->figure) return;
    const bool goes_on = std::any_of(second.terms.begin(), second.terms.end(), [&](const SpokenTerm& t) {
      return t.slot == "reactant" && t.about == middle->about;
    });
    const auto one = isolated(middle->figure);
    const auto two = isolated(last->figure);
    if (!goes_on || !one || !two) return;
    SpokenRelation r;
    r.type = RelationType::chain;
    r.terms = {{"start", first.terms.front().figure, ""}, {"product", *one, "1"}, {"product", *two, "2"}};
    r.given = {{"equation:1", first.given.at("equation")},
               {"equation:2", second.given.at("equation")},
               {"from:1", first.terms.front().about},
               {"to:1", middle->about},
               {"from:2", middle->about},
               {"to:2", last->about}};
    const auto share = carried(second, middle->about, *one);
    if (!share) return;
    r.given["carried:2"] = *share;
    r.label = figures_[*two].subject;
    r.rule = "what the first reaction made goes into the second";
    r.confidence = ground::weak;
    out_.push_back(std::move(r));
  }

  /// What was weighed of the substance of an expected amount.
  std::optional<std::size_t> isolated(std::size_t expected) const {
    const std::string substance = substance_of(figures_[expected].subject);
    for (std::size_t k = 0; k < figures_.size(); ++k) {
      const SpokenFigure& f = figures_[k];
      if (f.role == Role::product && f.kind == Kind::mass && stands(k) && substance_of(f.subject) == substance)
        return k;
    }
    return std::nullopt;
  }

  /// The share of the first product that was weighed into the second reaction: "10/14.6".
  std::optional<std::string> carried(const SpokenRelation& second, const std::string& species,
                                     std::size_t whole) const {
    for (const SpokenTerm& t : second.terms) {
      if (t.slot != "reactant" || t.about != species) continue;
      const model::Reading& part = figures_[t.figure].reading;
      const model::Reading& all = figures_[whole].reading;
      if (kind(t.figure) != Kind::mass || part.unit != all.unit || part.digits.empty() || all.digits.empty())
        return std::nullopt;
      return part.value >= all.value ? "1" : part.digits + "/" + all.digits;
    }
    return std::nullopt;
  }

  const std::vector<SpokenFigure>& figures_;
  const std::vector<SpokenRelation>& found_;
  std::vector<SpokenRelation> out_;
};

}  // namespace

std::vector<SpokenRelation> chains(const std::vector<SpokenFigure>& figures, const std::vector<SpokenRelation>& found) {
  return Chains(figures, found).run();
}

}  // namespace sash::narration
