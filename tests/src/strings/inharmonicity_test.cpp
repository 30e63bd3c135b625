// SPDX-License-Identifier: MIT
#include "strings/inharmonicity.hpp"

#include "strings/tension.hpp"
#include "units/interval.hpp"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>

using namespace harpkeep;

namespace {

struct SyntheticString {
    const char* name;
    double density_kg_m3, young_mpa, length_mm, frequency_hz, coefficient;
    std::array<double, 5> stretch_cents; // partials 1, 2, 3, 4, 8
};

constexpr std::array<int, 5> partials{1, 2, 3, 4, 8};

} // namespace

// Synthetic strings of 1 mm, computed once from the definitions with SciPy 1.10.
TEST_CASE("inharmonicity: synthetic steel, nylon and gut strings", "[strings][reference]")
{
    const auto s = GENERATE(
        SyntheticString{
            "steel", 7850, 25.5 * 7850, 620, 261.6256, 3.88806e-4, {.3365, 1.3452, 3.0237, 5.3682, 21.2760}},
        SyntheticString{"nylon", 1150, 5000, 448, 440, 8.59755e-5, {.0744, .2976, .6695, 1.1899, 4.7499}},
        SyntheticString{"gut", 1300, 6000, 560, 261.6256, 1.05734e-4, {.0915, .3660, .8233, 1.4632, 5.8379}});
    CAPTURE(s.name);
    const Millimetres length{s.length_mm};
    const auto pull = tension(mass_per_metre(1.0_mm, KilogramsPerCubicMetre{s.density_kg_m3}), length,
                              Hertz{s.frequency_hz});
    const double b = inharmonicity(Megapascals{s.young_mpa}, 1.0_mm, pull, length);
    CHECK(b == Approx(s.coefficient).epsilon(2e-6)); // six digits given
    for (std::size_t i = 0; i < partials.size(); ++i)
        CHECK(partial_stretch(b, partials[i]).value() ==
              Approx(s.stretch_cents[i]).margin(6e-5)); // four decimals, and B to six digits
}

// R. W. Young, J. Acoust. Soc. Am. 24(3), May 1952, abstract: stretch = 3.4e13 n^2 d^2 / (f^2 l^4) cents with
// d and l in cm, for E / rho = 25.5e10 (cm/s)^2.
TEST_CASE("inharmonicity: the constant of Young 1952", "[strings][reference]")
{
    const auto unit = stretch_from_measures(25.5e6, 10.0_mm, 10.0_mm, 1.0_Hz, 1); // d = l = 1 cm, f = 1 Hz
    CHECK(unit.value() ==
          Approx(3.4e13).epsilon(0.0015)); // two digits printed, 0.12 % from the exact constant
    CHECK(unit.value() == Approx(3.40397e13).epsilon(2e-6)); // own arithmetic, six digits
}

// Same abstract: about 1.2 cents at mode 2 of middle C.
TEST_CASE("inharmonicity: 1.2 cents at the second partial of middle C", "[strings][reference]")
{
    CHECK(partial_stretch(3.4657e-4, 2).value() == Approx(1.2).margin(0.001)); // B from 1.2 c, five digits
}

TEST_CASE("inharmonicity: two formulas for a plain string agree", "[strings][twin]")
{
    const double young_mpa = 6000, density = 1310, d_mm = 1.44, l_mm = 640, f_hz = 246.9417;
    const auto pull = tension(mass_per_metre(Millimetres{d_mm}, KilogramsPerCubicMetre{density}),
                              Millimetres{l_mm}, Hertz{f_hz});
    const double b = inharmonicity(Megapascals{young_mpa}, Millimetres{d_mm}, pull, Millimetres{l_mm});
    const double pi = std::acos(-1.0);
    const double expected = pi * pi * young_mpa * 1e6 * std::pow(d_mm * 1e-3, 2) /
                            (64 * density * f_hz * f_hz * std::pow(l_mm * 1e-3, 4));
    CHECK(b == Approx(expected).epsilon(1e-12)); // rounding
    const auto stretch = stretch_from_measures(young_mpa * 1e6 / density, Millimetres{d_mm},
                                               Millimetres{l_mm}, Hertz{f_hz}, 3);
    CHECK(stretch.value() ==
          Approx(partial_stretch(b, 3).value()).epsilon(5.0 * b)); // first order: off by n^2 B / 2 = 4.5 B
}

// Posting on the auditory list, 2005: f_n = n f_1 [1 + (n^2 - 1) A], A = pi^3 r^4 E / (8 T L^2) = B / 2.
TEST_CASE("inharmonicity: the second convention", "[strings][reference]")
{
    const double radius_m = 0.5e-3, young_pa = 6e9, pull_n = 87.666, length_m = 0.56;
    const double pi = std::acos(-1.0);
    const double a = pi * pi * pi * std::pow(radius_m, 4) * young_pa / (8 * pull_n * length_m * length_m);
    const double b = inharmonicity(Megapascals{6000}, 1.0_mm, Newtons{pull_n}, 560.0_mm);
    CHECK(second_convention(b) == Approx(a).epsilon(1e-12)); // rounding
    CHECK(from_second_convention(a) == Approx(b).epsilon(1e-12));
    for (const int n : {2, 5, 10}) {
        const double by_a = n * (1.0 + (n * n - 1.0) * a);
        const double exact = partial_from_first(1.0_Hz, b, n).value();
        const double second_order = (n * n - 1.0) * (n * n + 3.0) * b * b / 8.0;
        CHECK(by_a / exact - 1.0 == Approx(second_order).epsilon(3.0 * n * n * b)); // the next order in B
    }
}

TEST_CASE("inharmonicity: the pitch without stiffness is not the first partial", "[strings][property]")
{
    const double b = 4e-4;
    const auto first = first_partial(100.0_Hz, b);
    CHECK(first.value() > 100.0);
    CHECK(interval(100.0_Hz, first).value() == Approx(866.0 * b).epsilon(1e-3)); // first order in B
    CHECK(stiffless_pitch(first, b).value() == Approx(100.0).epsilon(1e-15));    // rounding
    for (const int n : {1, 2, 7})
        CHECK(partial_from_first(first, b, n).value() ==
              Approx(partial_from_stiffless(100.0_Hz, b, n).value()).epsilon(1e-15)); // rounding
}
