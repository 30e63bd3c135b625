// SPDX-License-Identifier: MIT
#include "strings/tension.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace harpkeep;

namespace {

constexpr double kgf_n = 9.80665; // exact by definition

constexpr KilogramsPerCubicMetre nylon{1150.0};
constexpr KilogramsPerCubicMetre sterling{8750.0}; // the page's 8.75 g/cm3

} // namespace

// ScientificGems, "Mathematics of the Harp": nylon, d 1 mm, mu 0.0009 kg/m, L 0.448 m, T 140 N gives 440 Hz.
TEST_CASE("tension: the worked nylon string of 'Mathematics of the Harp'", "[strings][reference]")
{
    // The page rounds to whole hertz; its rounded mass gives 440.18.
    CHECK(frequency_at(KilogramsPerMetre{0.0009}, 448.0_mm, Newtons{140.0}).value() ==
          Approx(440.0).margin(0.5));
    // With the mass from diameter and density (the page rounds it to one digit): own arithmetic, four
    // decimals.
    CHECK(mass_per_metre(1.0_mm, nylon).value() == Approx(9.0321e-4).margin(5e-9));
    CHECK(frequency_at(mass_per_metre(1.0_mm, nylon), 448.0_mm, Newtons{140.0}).value() ==
          Approx(439.40).margin(0.005));
}

// ScientificGems, "Harp strings and design": A 440 of nylon is at most 560 mm long at 90 % of breaking and at
// least 350 mm at 35 %. Both lengths must imply the same breaking stress.
TEST_CASE("tension: two published lengths imply one breaking stress", "[strings][reference]")
{
    const double longest = plain_stress(nylon, 560.0_mm, 440.0_Hz).value();
    const double shortest = plain_stress(nylon, 350.0_mm, 440.0_Hz).value();
    CHECK(longest == Approx(279.28).margin(0.005)); // own arithmetic, two decimals
    CHECK(shortest == Approx(109.09).margin(0.005));
    // Lengths are rounded to 10 mm, so stress to 2 * 5/350 = 3 %; they agree far better.
    CHECK(longest / 0.90 == Approx(shortest / 0.35).epsilon(0.01));
    CHECK(length_for_stress(nylon, Megapascals{0.90 * 311.0}, 440.0_Hz).value() == Approx(560.0).margin(5.0));
    CHECK(length_for_stress(nylon, Megapascals{0.35 * 311.0}, 440.0_Hz).value() == Approx(350.0).margin(5.0));
}

// wirestrungharp.com, "Possible applications": l 0.068 m, f 1760 Hz, 8.75 g/cm3, d 0.40 mm gives mu 1.1 g/m,
// mass 0.075 g, tension 6.44 kgf (from the rounded mu); sterling silver of 490 MPa holds at most 6.28 kgf.
TEST_CASE("tension: the published wire-strung case", "[strings][reference]")
{
    const auto mu = mass_per_metre(0.40_mm, sterling);
    CHECK(1e3 * mu.value() == Approx(1.1).margin(0.05));                     // page: one decimal
    CHECK(string_mass(mu, 68.0_mm).value() == Approx(0.075).margin(0.0005)); // page: three decimals
    const auto pull = tension(mu, 68.0_mm, 1760.0_Hz);
    CHECK(pull.value() / kgf_n == Approx(6.44).epsilon(0.003)); // the page's rounded mu is 0.04 % off, its
                                                                // tension 0.25 %
    CHECK(pull.value() == Approx(62.997).margin(5e-4));         // own arithmetic, three decimals
    const double most_kgf = 490.0 * 0.25 * std::acos(-1.0) * 0.40 * 0.40 / kgf_n;
    CHECK(most_kgf == Approx(6.28).margin(0.005)); // page: two decimals
    CHECK(stress(Newtons{most_kgf * kgf_n}, 0.40_mm).value() == Approx(490.0).epsilon(1e-12)); // rounding
    CHECK(stress(pull, 0.40_mm).value() > 490.0); // the page's verdict: this string breaks
}

// jaymaron.com, string table: k = pi L^2 F^2, printed to four digits; T = k rho d^2 for a plain string.
TEST_CASE("tension: the published constants of four bowed and plucked strings", "[strings][reference]")
{
    struct Row {
        const char* name;
        double frequency_hz, length_mm, constant;
    };
    const auto row = GENERATE(Row{"violin G", 195.6, 320.0, 1.231e4}, Row{"viola C", 130.4, 388.0, 0.804e4},
                              Row{"cello C", 65.2, 690.0, 0.636e4}, Row{"guitar E", 82.5, 650.0, 0.903e4});
    CAPTURE(row.name);
    const KilogramsPerCubicMetre density{1000.0};
    const auto pull = tension(mass_per_metre(1.0_mm, density), Millimetres{row.length_mm},
                              Hertz{row.frequency_hz});             // k = T / (rho d^2) = T / 1e-3
    CHECK(pull.value() / 1e-3 == Approx(row.constant).margin(5.0)); // half of the last digit
}

// Synthetic cases from the definitions, computed once with other tools (SciPy 1.10).
TEST_CASE("tension: synthetic steel, nylon and gut strings", "[strings][reference]")
{
    struct Row {
        double density, length_mm, frequency_hz, tension_n, stress_mpa;
    };
    const auto row =
        GENERATE(Row{7850, 620, 261.6256, 648.878, 826.18}, Row{1150, 448, 440.0, 140.381, 178.74},
                 Row{1300, 560, 261.6256, 87.666, 111.62});
    const KilogramsPerCubicMetre density{row.density};
    const Millimetres length{row.length_mm};
    const Hertz frequency{row.frequency_hz};
    const auto pull = tension(mass_per_metre(1.0_mm, density), length, frequency);
    CHECK(pull.value() == Approx(row.tension_n).margin(5e-4)); // last digit
    CHECK(plain_stress(density, length, frequency).value() ==
          Approx(row.stress_mpa).margin(5e-3)); // last digit
    CHECK(stress(pull, 1.0_mm).value() ==
          Approx(plain_stress(density, length, frequency).value()).epsilon(1e-12)); // two formulas, rounding
}

// Page "What is the FL product or breaking index" (its writer sells strings, so orientation only): gut breaks
// at about f * L = 260 Hz m. With rho = 1300 kg/m3 that is 351.5 MPa, inside the remembered range of gut.
TEST_CASE("tension: the published breaking index of gut", "[strings][reference]")
{
    CHECK(plain_stress(KilogramsPerCubicMetre{1300.0}, 1000.0_mm, 260.0_Hz).value() ==
          Approx(351.5).margin(0.05)); // last digit
}

TEST_CASE("wound string: mass equals core plus turns counted one by one", "[strings][twin]")
{
    const double core_mm = 0.8, wire_mm = 0.45, core_density = 7850, wrap_density = 8960;
    const auto mu = wound_mass_per_metre({.core_diameter = Millimetres{core_mm},
                                          .outer_diameter = Millimetres{core_mm + 2 * wire_mm},
                                          .core_density = KilogramsPerCubicMetre{core_density},
                                          .wrap_density = KilogramsPerCubicMetre{wrap_density}});
    // One metre holds 1000 / wire_mm turns, each as long as the circle through the wire's middle.
    const double pi = std::acos(-1.0);
    const double turns = 1000.0 / wire_mm;
    const double wire_m = turns * pi * (core_mm + wire_mm) * 1e-3;
    const double expected = core_density * pi / 4 * core_mm * core_mm * 1e-6 +
                            wrap_density * pi / 4 * wire_mm * wire_mm * 1e-6 * wire_m;
    CHECK(mu.value() == Approx(expected).epsilon(1e-12)); // rounding: the same ring in two ways
}

TEST_CASE("wound string: no wrap leaves the core, solid wrap a tube", "[strings][property]")
{
    const KilogramsPerCubicMetre steel{7850};
    const auto bare = wound_mass_per_metre({0.8_mm, 0.8_mm, steel, steel});
    CHECK(bare.value() == Approx(mass_per_metre(0.8_mm, steel).value()).epsilon(1e-14)); // rounding
    const auto solid = wound_mass_per_metre({0.8_mm, 1.6_mm, steel, steel, 1.0});
    CHECK(solid.value() == Approx(mass_per_metre(1.6_mm, steel).value()).epsilon(1e-14)); // rounding
}

TEST_CASE("tension: inverses undo each other", "[strings][property]")
{
    const auto length_mm = GENERATE(60.0, 640.0, 1480.0);
    const auto frequency_hz = GENERATE(30.8677, 440.0, 3135.96);
    const KilogramsPerMetre mu{0.0013};
    const auto pull = tension(mu, Millimetres{length_mm}, Hertz{frequency_hz});
    CHECK(frequency_at(mu, Millimetres{length_mm}, pull).value() == Approx(frequency_hz).epsilon(1e-14));
    const KilogramsPerCubicMetre density{1310.0};
    const auto load = plain_stress(density, Millimetres{length_mm}, Hertz{frequency_hz});
    CHECK(length_for_stress(density, load, Hertz{frequency_hz}).value() ==
          Approx(length_mm).epsilon(1e-14)); // rounding
}

TEST_CASE("tension: a disc that only shortens the string leaves it alone", "[strings][property]")
{
    const KilogramsPerMetre mu{0.0013};
    const double semitone = std::exp2(1.0 / 12.0);
    CHECK(tension(mu, Millimetres{640.0 / semitone}, Hertz{246.94 * semitone}).value() ==
          Approx(tension(mu, 640.0_mm, 246.94_Hz).value()).epsilon(1e-14)); // rounding
}

TEST_CASE("weighed string: grams over millimetres are kilograms over metres", "[strings]")
{
    CHECK(weighed_mass_per_metre(Grams{12.5}, 250.0_mm).value() == Approx(0.05).epsilon(1e-15)); // rounding
    CHECK(string_mass(KilogramsPerMetre{0.05}, 250.0_mm).value() == Approx(12.5).epsilon(1e-15));
}
