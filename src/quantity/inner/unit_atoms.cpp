#include "quantity/inner/unit_atoms.h"

#include <numbers>

namespace sash::quantity::inner {
namespace {

using namespace dimension;  // NOLINT(google-build-using-namespace): a table of dimensions reads better without the
                            // prefix

constexpr bool metric = true;
constexpr bool plain_only = false;
constexpr bool alone = true;

constexpr Dimension frequency = time.to_the(-1);
constexpr Dimension resistance = voltage / current;
constexpr Dimension flux = voltage * time;

// US measures are cubic inches: gallon 231 in³, and the inch is 0.0254 m exactly, so in³ is 16387064/10¹² m³.
constexpr double cubic_inch = 16387064;

constexpr Atom table[] = {
    // SI base units; the gram and not the kilogram takes the prefixes.
    {"g", "g", metric, mass, Scale(1, 1000)},
    {"m", "m", metric, length, Scale()},
    {"s", "s", metric, time, Scale()},
    {"K", "K", metric, temperature, Scale()},
    {"mol", "mol", metric, amount, Scale()},
    {"A", "A", metric, current, Scale()},
    {"cd", "cd", metric, luminosity, Scale()},
    // SI derived units.
    {"N", "N", metric, force, Scale()},
    {"Pa", "Pa", metric, pressure, Scale()},
    {"J", "J", metric, energy, Scale()},
    {"W", "W", metric, power, Scale()},
    {"C", "C", metric, charge, Scale()},
    {"V", "V", metric, voltage, Scale()},
    {"Ohm", "Ω", metric, resistance, Scale()},
    {"S", "S", metric, current / voltage, Scale()},
    {"F", "F", metric, charge / voltage, Scale()},
    {"Wb", "Wb", metric, flux, Scale()},
    {"T", "T", metric, flux / area, Scale()},
    {"H", "H", metric, flux / current, Scale()},
    {"Hz", "Hz", metric, frequency, Scale()},
    {"lm", "lm", metric, luminosity, Scale()},
    {"lx", "lx", metric, luminosity / area, Scale()},
    {"rad", "rad", metric, plain, Scale()},
    {"deg", "°", plain_only, plain, Scale(std::numbers::pi, 180)},
    // Units accepted with the SI.
    {"L", "L", metric, volume, Scale(1, 1000)},
    {"l", "L", metric, volume, Scale(1, 1000)},
    {"t", "t", metric, mass, Scale(1000)},
    {"u", "u", metric, mass, Scale(1.66053906660e-27)},  // CODATA 2018
    {"min", "min", plain_only, time, Scale(60)},
    {"h", "h", plain_only, time, Scale(3600)},
    {"d", "d", plain_only, time, Scale(86400)},
    {"wk", "wk", plain_only, time, Scale(604800)},
    {"mo", "mo", plain_only, time, Scale(2629800)},  // a twelfth of a Julian year
    {"a", "a", plain_only, time, Scale(31557600)},   // Julian year, 365.25 d
    {"bar", "bar", metric, pressure, Scale(100000)},
    {"atm", "atm", plain_only, pressure, Scale(101325)},
    {"m[Hg]", "mHg", metric, pressure, Scale(133322)},  // UCUM's 133.322 kPa; the torr, 101325/760 Pa, is 2.8e-6 larger
    {"m[H2O]", "mH₂O", metric, pressure, Scale(980665, 100)},
    {"Cel", "°C", metric, temperature, Scale(), 273.15, Law::linear, alone},
    {"[degF]", "°F", plain_only, temperature, Scale(5, 9), 459.67 * 5 / 9, Law::linear, alone},
    {"eV", "eV", metric, energy, Scale(1.602176634e-19)},
    {"cal", "cal", metric, energy, Scale(4184, 1000)},  // thermochemical
    {"[Cal]", "Cal", plain_only, energy, Scale(4184)},
    // Amounts and shares.
    {"eq", "eq", metric, amount, Scale()},
    {"%", "%", plain_only, plain, Scale(1, 100)},
    {"[ppth]", "‰", plain_only, plain, Scale(1, 1000)},
    {"[ppm]", "ppm", plain_only, plain, Scale(1, 1e6)},
    {"[ppb]", "ppb", plain_only, plain, Scale(1, 1e9)},
    {"[pptr]", "ppt", plain_only, plain, Scale(1, 1e12)},
    {"10*", "10", plain_only, plain, Scale(10)},
    {"10^", "10", plain_only, plain, Scale(10)},
    {"[pH]", "pH", plain_only, plain, Scale(), 0, Law::linear, alone},  // kept as the number on the pH scale
    // Strength of acids by hydrometer; private codes.
    {"[degBe]", "°Bé", plain_only, density, Scale(999.016), 0, Law::baume_heavy, alone},
    {"[degBe_l]", "°Bé (light)", plain_only, density, Scale(999.016), 0, Law::baume_light, alone},
    {"[SG]", "sp. gr.", plain_only, density, Scale(999.97495), 0, Law::linear, alone},
    // Hydrogen peroxide by the oxygen it gives: mL at 0 °C and 101.325 kPa, of 22.41396954 L/mol (CODATA 2018), from
    // 1 mL, each from two molecules; a private code.
    {"[vol]", "vol", plain_only, molar_concentration, Scale(2e3, 22.41396954), 0, Law::linear, alone},
    // Avoirdupois and US customary.
    {"[gr]", "gr", plain_only, mass, Scale(6479891, 1e11)},
    {"[oz_av]", "oz", plain_only, mass, Scale(45359237, 16e8)},
    {"[lb_av]", "lb", plain_only, mass, Scale(45359237, 1e8)},
    {"[gal_us]", "gal (US)", plain_only, volume, Scale(231 * cubic_inch, 1e12)},
    {"[qt_us]", "qt (US)", plain_only, volume, Scale(231 * cubic_inch, 4e12)},
    {"[pt_us]", "pt (US)", plain_only, volume, Scale(231 * cubic_inch, 8e12)},
    {"[cup_us]", "cup (US)", plain_only, volume, Scale(231 * cubic_inch, 16e12)},
    {"[foz_us]", "fl oz (US)", plain_only, volume, Scale(231 * cubic_inch, 128e12)},
    {"[tbs_us]", "tbsp (US)", plain_only, volume, Scale(231 * cubic_inch, 256e12)},
    {"[tsp_us]", "tsp (US)", plain_only, volume, Scale(231 * cubic_inch, 768e12)},
    {"[drp]", "drop", metric, volume, Scale(1, 20e6)},  // 20 drops a millilitre, by convention
    {"[in_i]", "in", plain_only, length, Scale(254, 10000)},
    {"[ft_i]", "ft", plain_only, length, Scale(3048, 10000)},
    {"[psi]", "psi", plain_only, pressure, Scale(45359237.0 * 980665, 64516e5)},
};

constexpr Prefix prefix_table[] = {
    {"Y", "Y", Scale(1e24)},    {"Z", "Z", Scale(1e21)},    {"E", "E", Scale(1e18)},    {"P", "P", Scale(1e15)},
    {"T", "T", Scale(1e12)},    {"G", "G", Scale(1e9)},     {"M", "M", Scale(1e6)},     {"k", "k", Scale(1000)},
    {"h", "h", Scale(100)},     {"da", "da", Scale(10)},    {"d", "d", Scale(1, 10)},   {"c", "c", Scale(1, 100)},
    {"m", "m", Scale(1, 1000)}, {"u", "µ", Scale(1, 1e6)},  {"n", "n", Scale(1, 1e9)},  {"p", "p", Scale(1, 1e12)},
    {"f", "f", Scale(1, 1e15)}, {"a", "a", Scale(1, 1e18)}, {"z", "z", Scale(1, 1e21)}, {"y", "y", Scale(1, 1e24)},
};

}  // namespace

std::span<const Atom> atoms() { return table; }
std::span<const Prefix> prefixes() { return prefix_table; }

}  // namespace sash::quantity::inner
