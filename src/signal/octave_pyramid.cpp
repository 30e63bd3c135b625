// SPDX-License-Identifier: MIT
#include "signal/octave_pyramid.hpp"

#include "base/expects.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep {

namespace {

constexpr double lowest_level_rate_hz = 700.0; // 0.35 of it still holds several partials of the lowest string
constexpr double usable_share_of_full_rate = 0.45;

} // namespace

OctavePyramid::OctavePyramid(double rate_hz, double keep_s) : rate_hz_(rate_hz)
{
    HARPKEEP_EXPECTS(rate_hz >= 4000.0 && rate_hz <= 768000.0 && keep_s > 0.0);
    for (double rate = rate_hz; levels_.empty() || rate >= lowest_level_rate_hz; rate /= 2.0)
        levels_.emplace_back(static_cast<std::size_t>(std::ceil(keep_s * rate)));
    filters_.resize(levels_.size() - 1);
}

void OctavePyramid::push(std::span<const float> samples)
{
    levels_.front().append(samples);
    from_.assign(samples.begin(), samples.end());
    for (std::size_t i = 0; i < filters_.size(); ++i) {
        to_.clear();
        filters_[i].push(from_, to_);
        levels_[i + 1].append(to_);
        from_.swap(to_);
    }
}

void OctavePyramid::finish()
{
    std::vector<float> tail;
    for (std::size_t i = 0; i < filters_.size(); ++i) {
        to_.clear();
        if (!tail.empty()) filters_[i].push(tail, to_);
        filters_[i].finish(to_);
        levels_[i + 1].append(to_);
        tail = to_;
    }
}

int OctavePyramid::level_for(double frequency_hz) const
{
    int level = level_count() - 1;
    while (level > 0 && frequency_hz > HalfBand::usable_share * rate_hz(level)) --level;
    return level;
}

int OctavePyramid::level_with_rate(double wanted_hz) const
{
    int level = level_count() - 1;
    while (level > 0 && rate_hz(level) < wanted_hz) --level;
    return level;
}

double OctavePyramid::highest_frequency_hz() const
{
    return usable_share_of_full_rate * rate_hz_;
}

double OctavePyramid::complete_until_s() const
{
    double until = static_cast<double>(levels_.front().end()) / rate_hz_;
    for (int i = 1; i < level_count(); ++i)
        until = std::min(until, static_cast<double>(level(i).end()) / rate_hz(i));
    return until;
}

} // namespace harpkeep
