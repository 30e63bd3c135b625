// SPDX-License-Identifier: MIT
#include "signal/half_band.hpp"

#include "signal/window.hpp"

#include <Eigen/Core>

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
    if (pending_.size() < 2 * reach + 1) return;
    // Every other tap of a half-band filter is zero: what stands at odd places is taken by the middle tap
    // alone.
    const auto length = static_cast<Eigen::Index>(pending_.size()), side = static_cast<Eigen::Index>(reach);
    const Eigen::Index count = (length - 2 * side + 1) / 2;
    using EveryOther = Eigen::Map<const Eigen::ArrayXf, Eigen::Unaligned, Eigen::InnerStride<2>>;
    const Eigen::ArrayXf middle = EveryOther(pending_.data() + reach, count);
    const Eigen::ArrayXf beside = EveryOther(pending_.data(), count + side);
    Eigen::ArrayXf sum = 0.5F * middle;
    for (Eigen::Index i = 0; i < static_cast<Eigen::Index>(taps_.size()); ++i)
        sum += static_cast<float>(taps_[static_cast<std::size_t>(i)]) *
               (beside.segment((side + 1) / 2 + i, count) + beside.segment((side - 1) / 2 - i, count));
    output.insert(output.end(), sum.begin(), sum.end());
    pending_.erase(pending_.begin(), pending_.begin() + 2 * count);
}

void HalfBand::finish(std::vector<float>& output)
{
    const std::vector<float> silence(reach, 0.0F);
    push(silence, output);
    reset();
}

} // namespace harpkeep
