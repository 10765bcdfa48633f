// Titration: the titrant used tells the analyte in the sample; a weighed sample tells the strength of the titrant.
#include <utility>

#include "workings/relations/species_amounts.h"
#include "workings/relations/strength.h"

namespace sash::workings {
namespace {

using quantity::Kind;
namespace dimension = quantity::dimension;

class TitrationDraft {
 public:
  explicit TitrationDraft(Drafting& d) : d_(d) {}

  void run() {
    const auto volume = d_.figure("titrant_volume", {dimension::volume}, "titrant");
    const auto strength = d_.figure("titrant_strength", {dimension::molar_concentration}, "titrant");
    if (!volume) d_.missing("the volume of titrant used");
    if (!strength) d_.missing("the strength of the titrant");
    read_sample();
    const auto ratio = analyte_per_titrant();
    if (!volume || !strength || !ratio) return;

    const std::size_t titrant = d_.hidden("amount of titrant", Piece::of_symbol("n", "titrant"), Kind::amount);
    d_.product("the titrant used", {{titrant, -1}, {strength->quantity, 1}, {used(volume->quantity), 1}});
    std::vector<Weighted> members{{amount_, -1}, {titrant, 1}};
    if (const auto aliquot = d_.given_quantity("aliquot", Kind::fraction, Piece::of_symbol("x", "aliquot"),
                                               "share of the sample that was titrated")) {
      members.push_back({*aliquot, -1});
    }
    d_.product("the titrant and the analyte", members, *ratio);
    if (strength_) {
      relate_strength();
    } else if (weighed_) {
      relate_pure();
    }
    d_.aim(volume->quantity);
    d_.aim(strength->quantity);
  }

 private:
  void read_sample() {
    strength_ = d_.figure("sample_strength", {}, "sample");
    const auto stated = d_.figure("sample_amount", {dimension::amount}, "sample");
    const auto volume = d_.figure("sample_volume", {dimension::volume}, "sample");
    const auto mass = d_.figure("sample_mass", {dimension::mass}, "sample");
    if (strength_) d_.aim(strength_->quantity);
    if (stated) d_.aim(stated->quantity);
    amount_ = stated ? stated->quantity
                     : d_.hidden("amount of analyte in the sample", Piece::of_symbol("n", "sample"), Kind::amount);
    side_ = {"sample", "sample", {}, {}, "density"};
    if (volume) side_.volume = volume->quantity;
    if (mass) side_.mass = mass->quantity;
    if (strength_ || stated) return;
    weighed_ = mass;
    if (!mass) d_.missing("the strength of the sample, the amount in it, or its mass where it is pure");
  }

  // What was used, less the blank.
  std::size_t used(std::size_t volume) {
    const auto blank = d_.figure("blank_volume", {dimension::volume}, "blank");
    if (!blank) return volume;
    const std::size_t net = d_.hidden("titrant used beyond the blank", Piece::of_symbol("V", "net"), Kind::volume);
    d_.sum("the titrant and the blank", {{net, -1}, {volume, 1}, {blank->quantity, -1}});
    return net;
  }

  void relate_strength() {
    const auto solute = solute_of(d_, side_, *strength_, SoluteIn::amount);
    if (solute) d_.equal("the analyte found and the strength of the sample", *solute, amount_);
  }

  // A titrant is standardised against what was weighed: nothing but analyte, as far as no purity is given.
  void relate_pure() {
    std::optional<std::size_t> found;
    if (equation_) {
      found = amount_behind(d_, *equation_, analyte_, *weighed_);
    } else {
      const std::size_t molar_mass = molar_mass_of(d_, d_.formula(), "the analyte");
      found = d_.hidden("amount weighed", Piece::of_symbol("n", "weighed"), Kind::amount);
      d_.product("the amount and mass of the sample", {{*found, -1}, {weighed_->quantity, 1}, {molar_mass, -1}});
    }
    if (!found) return;
    d_.equal("the analyte found and what was weighed", *found, amount_);
    d_.note("Nobody states how strong the sample is: it is taken as analyte, pure where no purity is given.");
    d_.aim(weighed_->quantity);
  }

  // Moles of analyte to one mole of titrant.
  std::optional<double> analyte_per_titrant() {
    if (const auto ratio = d_.given_quantity("ratio", Kind::fraction, Piece::of_symbol("r"), "analyte to titrant")) {
      return d_.at(*ratio).value;
    }
    const auto titrant_name = d_.given("titrant");
    const std::string analyte_name = d_.given("analyte").value_or(d_.substance());
    const bool paired = !d_.given("equation") && titrant_name && !analyte_name.empty();
    auto e = paired ? pairing_of(d_, analyte_name, *titrant_name, Ways::one) : equation_of(d_);
    if (!e) return std::nullopt;
    const auto titrant = species_of(d_, *e, d_.given("titrant").value_or(""), true);
    const auto analyte = species_of(d_, *e, d_.given("analyte").value_or(d_.substance()), true);
    if (!titrant || !analyte) return std::nullopt;
    analyte_ = *analyte;
    equation_ = std::move(e);
    return equation_->coefficient(*analyte) / equation_->coefficient(*titrant);
  }

  Drafting& d_;
  std::optional<Filled> strength_;
  std::optional<Filled> weighed_;  // where neither a strength nor an amount is asked for
  std::optional<BalancedEquation> equation_;
  std::size_t analyte_ = 0;  // among its species
  SolutionSide side_;
  std::size_t amount_ = 0;
};

class Titration final : public RelationKind {
 public:
  std::string_view label() const override { return "titration"; }
  std::span<const Slot> slots() const override {
    static const std::vector<Slot> slots{
        {"titrant_volume", "titrant used", {Kind::volume}},
        {"titrant_strength", "strength of the titrant", {Kind::molar_concentration}},
        {"sample_volume", "volume of sample", {Kind::volume}},
        {"sample_mass", "mass of sample", {Kind::mass}},
        {"sample_amount", "amount of analyte", {Kind::amount}},
        {"sample_strength",
         "strength of the sample",
         {Kind::molar_concentration, Kind::mass_concentration, Kind::mass_percent, Kind::mass_volume_percent}},
        {"blank_volume", "blank", {Kind::volume}},
    };
    return slots;
  }
  void draft(Drafting& d) const override { TitrationDraft(d).run(); }
};

}  // namespace

const RelationKind& titration() {
  static const Titration kind;
  return kind;
}

}  // namespace sash::workings
