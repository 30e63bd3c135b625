// SPDX-License-Identifier: MIT
#include "signal/half_band.hpp"

#include "signal/window.hpp"

#include <cmath>
#include <numbers>

namespace harpkeep {

namespace {

// Reach of 23 samples to each side with a Kaiser window of beta 10: measured, see the header.
constexpr std::size_t reach = 23;
constexpr double kaiser_beta = 10.0;

} // namespace

HalfBand::HalfBand()
{
    const auto window = kaiser_window(2 * reach + 1, kaiser_beta);
    double sum = 0.0;
    for (std::size_t odd = 1; odd <= reach; odd += 2) {
        const double x = static_cast<double>(odd) * std::numbers::pi / 2.0;
        taps_.push_back(0.5 * std::sin(x) / x * window[reach + odd]);
        sum += 2.0 * taps_.back();
    }
    for (double& tap : taps_) tap *= 0.5 / sum; // gain 1 at 0 Hz with the middle tap of 1/2
    reset();
}

void HalfBand::reset()
{
    pending_.assign(reach, 0.0F);
}

void HalfBand::push(std::span<const float> input, std::vector<float>& output)
{
    pending_.insert(pending_.end(), input.begin(), input.end());
    std::size_t middle = reach;
    for (; middle + reach < pending_.size(); middle += 2) {
        const float* at = pending_.data() + middle;
        double sum = 0.5 * at[0];
        for (std::size_t i = 0; i < taps_.size(); ++i) {
            const auto offset = static_cast<std::ptrdiff_t>(2 * i + 1);
            sum += taps_[i] * (static_cast<double>(at[offset]) + static_cast<double>(at[-offset]));
        }
        output.push_back(static_cast<float>(sum));
    }
    pending_.erase(pending_.begin(), pending_.begin() + static_cast<std::ptrdiff_t>(middle - reach));
}

void HalfBand::finish(std::vector<float>& output)
{
    const std::vector<float> silence(reach, 0.0F);
    push(silence, output);
    reset();
}

} // namespace harpkeep
