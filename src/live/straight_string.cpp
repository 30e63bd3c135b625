// SPDX-License-Identifier: MIT
#include "live/straight_string.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace harpkeep {

namespace {

constexpr double even_up_to_cents = 2.0;
constexpr double full_reach_cents = 50.0;

} // namespace

double string_bow(Cents deviation)
{
    const double reach =
        std::asinh(deviation.value() / even_up_to_cents) / std::asinh(full_reach_cents / even_up_to_cents);
    return std::clamp(reach, -1.0, 1.0);
}

double bow_shape(double along)
{
    return std::sin(std::numbers::pi * std::clamp(along, 0.0, 1.0));
}

StraightString straight_string(const SteadyPitch& pitch, Cents tolerance)
{
    const Cents twice = 2.0 * pitch.uncertainty;
    const double low = string_bow(pitch.deviation - twice);
    const double high = string_bow(pitch.deviation + twice);
    return {.bow = string_bow(pitch.deviation),
            .blur = 0.5 * (high - low),
            .straight = std::abs(pitch.deviation.value()) <= tolerance.value()};
}

} // namespace harpkeep
