#pragma once
// What sort of thing a number measures, as powers of the seven SI base quantities: the check that keeps a mass from
// being added to a volume. Not a unit (it has no size) and not a kind (density and mass concentration share one
// dimension). Pure values; safe from any thread. Sources: SI Brochure, 9th ed., 2.3.3 (base quantities and dimensions).

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>

namespace sash::quantity {

enum class Base : std::uint8_t { mass, length, time, temperature, amount, current, luminosity };

/// Powers of the base quantities; all zero is a plain number.
struct Dimension {
  std::array<std::int16_t, 7> powers{};

  static constexpr Dimension of(Base base, int power = 1) {
    Dimension out;
    out.powers[static_cast<std::size_t>(base)] = static_cast<std::int16_t>(power);
    return out;
  }

  constexpr int of_base(Base base) const { return powers[static_cast<std::size_t>(base)]; }
  constexpr bool is_plain() const { return *this == Dimension{}; }
  constexpr bool operator==(const Dimension&) const = default;

  constexpr Dimension to_the(int power) const {
    Dimension out;
    for (std::size_t i = 0; i < powers.size(); ++i) out.powers[i] = static_cast<std::int16_t>(powers[i] * power);
    return out;
  }
  friend constexpr Dimension operator*(Dimension a, const Dimension& b) {
    for (std::size_t i = 0; i < a.powers.size(); ++i)
      a.powers[i] = static_cast<std::int16_t>(a.powers[i] + b.powers[i]);
    return a;
  }
  friend constexpr Dimension operator/(const Dimension& a, const Dimension& b) { return a * b.to_the(-1); }
};

namespace dimension {
inline constexpr Dimension plain{};
inline constexpr Dimension mass = Dimension::of(Base::mass);
inline constexpr Dimension length = Dimension::of(Base::length);
inline constexpr Dimension time = Dimension::of(Base::time);
inline constexpr Dimension temperature = Dimension::of(Base::temperature);
inline constexpr Dimension amount = Dimension::of(Base::amount);
inline constexpr Dimension current = Dimension::of(Base::current);
inline constexpr Dimension luminosity = Dimension::of(Base::luminosity);
inline constexpr Dimension area = length.to_the(2);
inline constexpr Dimension volume = length.to_the(3);
inline constexpr Dimension density = mass / volume;
inline constexpr Dimension molar_concentration = amount / volume;
inline constexpr Dimension molality = amount / mass;
inline constexpr Dimension molar_mass = mass / amount;
inline constexpr Dimension molar_volume = volume / amount;
inline constexpr Dimension force = mass * length / time.to_the(2);
inline constexpr Dimension pressure = force / area;
inline constexpr Dimension energy = force * length;
inline constexpr Dimension power = energy / time;
inline constexpr Dimension charge = current * time;
inline constexpr Dimension voltage = power / current;
}  // namespace dimension

/// The word for it ("volume", "mass per volume", "plain number"), or the product of base units ("kg·m⁻¹") when it has
/// none.
std::string name_of(const Dimension& dimension);

}  // namespace sash::quantity
