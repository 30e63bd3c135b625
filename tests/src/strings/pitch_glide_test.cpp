// SPDX-License-Identifier: MIT
#include "strings/pitch_glide.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace harpkeep;

namespace {

/// Relative rise of frequency of q'' = -q (1 + kappa q^2) from amplitude `a`, by stepping a quarter period
/// with the classical Runge-Kutta rule. Of a stretched string, kappa = (E / sigma) pi^2 / (4 L^2).
double duffing_rise(double kappa, double a)
{
    const auto pull = [kappa](double q) { return -q * (1.0 + kappa * q * q); };
    const double h = 1e-4;
    double q = a, v = 0.0, t = 0.0;
    while (true) {
        const double k1q = v, k1v = pull(q);
        const double k2q = v + 0.5 * h * k1v, k2v = pull(q + 0.5 * h * k1q);
        const double k3q = v + 0.5 * h * k2v, k3v = pull(q + 0.5 * h * k2q);
        const double k4q = v + h * k3v, k4v = pull(q + h * k3q);
        const double next = q + h / 6.0 * (k1q + 2 * k2q + 2 * k3q + k4q);
        if (next <= 0.0) {
            t += h * q / (q - next); // the crossing; curvature there is zero
            break;
        }
        v += h / 6.0 * (k1v + 2 * k2v + 2 * k3v + k4v);
        q = next;
        t += h;
    }
    return 0.5 * std::acos(-1.0) / t - 1.0;
}

} // namespace

// Own arithmetic: E / sigma = 28, a / L = 1 %.
TEST_CASE("glide: the worked example", "[strings][reference]")
{
    const auto glide = pitch_glide(10.0_mm, 1000.0_mm, 28.0);
    CHECK(glide.own_partial.value() == Approx(4.485).margin(5e-4)); // last digit
    CHECK(glide.other_partials.value() == Approx(2.990).margin(5e-4));
}

TEST_CASE("glide: agrees with stepping the mode through time", "[strings][twin]")
{
    const double slope = GENERATE(0.002, 0.004);
    const double young_over_stress = 28.0, pi = std::acos(-1.0);
    const double rise = duffing_rise(young_over_stress * pi * pi / 4.0, slope);
    const auto glide = pitch_glide(Millimetres{slope * 1000.0}, 1000.0_mm, young_over_stress);
    CHECK(
        1731.2340490667561 * rise ==
        Approx(glide.own_partial.value()).epsilon(1e-3)); // next order: 0.22 kappa a^2 = 2.4e-4, and stepping
}

TEST_CASE("glide: grows with the square of the pluck", "[strings][property]")
{
    const auto one = pitch_glide(3.0_mm, 640.0_mm, 40.0), two = pitch_glide(6.0_mm, 640.0_mm, 40.0);
    CHECK(two.own_partial.value() == Approx(4.0 * one.own_partial.value()).epsilon(1e-14)); // rounding
    CHECK(one.other_partials / one.own_partial == Approx(2.0 / 3.0).epsilon(1e-14));
}
