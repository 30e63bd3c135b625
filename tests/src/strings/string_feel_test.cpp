// SPDX-License-Identifier: MIT
#include "strings/string_feel.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace harpkeep;

namespace {

/// The same statics by modes: w = sum (2 F / L) sin^2(n pi p) / (T k^2 + E I k^4) with k = n pi / L and
/// E I = B T L^2 / pi^2.
double modal_stiffness(double pull_n, double length_mm, double place, double b)
{
    const double pi = std::acos(-1.0);
    double compliance = 0.0;
    for (int n = 2'000'000; n >= 1; --n) {
        const double k = n * pi / length_mm;
        const double s = std::sin(n * pi * place);
        compliance += 2.0 / length_mm * s * s / (pull_n * k * k * (1.0 + b * n * n));
    }
    return 1.0 / compliance;
}

} // namespace

TEST_CASE("feel: 4 T / L in the middle of a supple string", "[strings]")
{
    CHECK(lateral_stiffness(Newtons{200.0}, 640.0_mm).value() ==
          Approx(4.0 * 200.0 / 640.0).epsilon(1e-14)); // rounding
    CHECK(lateral_stiffness(Newtons{200.0}, 640.0_mm, 0.25).value() ==
          Approx(200.0 / (640.0 * 0.25 * 0.75)).epsilon(1e-14));
}

TEST_CASE("feel: agrees with the sum over the modes of the beam", "[strings][twin]")
{
    const double place = GENERATE(0.5, 0.3, 0.1);
    const double b = GENERATE(1e-4, 2e-3, 0.0);
    CAPTURE(place, b);
    CHECK(lateral_stiffness(Newtons{200.0}, 640.0_mm, place, b).value() ==
          Approx(modal_stiffness(200.0, 640.0, place, b))
              .epsilon(2e-6)); // tail of the sum, 1 / (pi^2 p(1-p) N)
}

TEST_CASE("feel: grows with tension and towards the ends, and with bending stiffness", "[strings][property]")
{
    const auto push = [](double pull_n, double place, double b) {
        return lateral_stiffness(Newtons{pull_n}, 640.0_mm, place, b).value();
    };
    CHECK(push(210, 0.4, 1e-4) > push(200, 0.4, 1e-4));
    CHECK(push(200, 0.2, 1e-4) > push(200, 0.4, 1e-4));
    CHECK(push(200, 0.4, 1e-3) > push(200, 0.4, 1e-4));
    CHECK(push(200, 0.4, 1e-4) == Approx(push(200, 0.6, 1e-4)).epsilon(1e-12));     // symmetry, rounding
    CHECK(push(400, 0.4, 1e-4) == Approx(2 * push(200, 0.4, 1e-4)).epsilon(1e-12)); // linear in T at fixed B
    CHECK(push(200, 0.4, 1e-14) == Approx(push(200, 0.4, 0.0)).epsilon(1e-6)); // continuous in B: sqrt(B)/pi
}
