// SPDX-License-Identifier: MIT
#include "live/pitch_filter.hpp"

#include "base/expects.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep {

namespace {

constexpr double wander_variance_per_second =
    1.0; // cents squared: the pitch of a string at rest, its glide included
constexpr double outside_sigmas = 3.0;
constexpr double stray_weight = 0.1; // what a single reading outside may move the filter

} // namespace

void PitchFilter::reset()
{
    state_.reset();
    outside_ = 0;
}

SteadyPitch PitchFilter::operator()(const PitchReading& reading)
{
    HARPKEEP_EXPECTS(reading.uncertainty.value() > 0.0);
    const double measured = reading.deviation.value();
    const double variance = reading.uncertainty.value() * reading.uncertainty.value();
    if (!state_) {
        state_ = State{reading.time.value(), measured, variance};
        return {reading.deviation, reading.uncertainty, false};
    }
    const double elapsed_s = std::max(0.0, reading.time.value() - state_->time_s);
    state_->time_s = reading.time.value();
    const double predicted_variance = state_->variance + wander_variance_per_second * elapsed_s;
    const double innovation = measured - state_->cents;
    double gain = predicted_variance / (predicted_variance + variance);

    const bool is_outside = std::abs(innovation) > outside_sigmas * std::sqrt(predicted_variance + variance);
    const int side = innovation > 0.0 ? 1 : -1;
    outside_ = !is_outside ? 0 : (outside_ * side > 0 ? outside_ + side : side);
    if (is_outside) gain = std::abs(outside_) > 1 ? 1.0 : gain * stray_weight;

    state_->cents += gain * innovation;
    state_->variance = gain == 1.0 ? variance : (1.0 - gain) * predicted_variance;
    return {Cents{state_->cents}, Cents{std::sqrt(state_->variance)}, std::abs(outside_) > 1};
}

} // namespace harpkeep
