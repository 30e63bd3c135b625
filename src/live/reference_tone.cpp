// SPDX-License-Identifier: MIT
#include "live/reference_tone.hpp"

#include "signal/spectrum_peaks.hpp"
#include "units/interval.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace harpkeep {

namespace {

constexpr Seconds looked_at{1.0};
constexpr Seconds look_every{0.125};
constexpr Hertz lowest{90.0};
constexpr Hertz highest{2000.0};
constexpr double least_above_floor_db = 25.0;
constexpr double faintest_fundamental_db = -40.0; // beside the strongest partial
constexpr int highest_multiple = 8;
constexpr Cents is_multiple{5.0}; // of wind and bowed strings exactly
constexpr std::size_t looks_needed = 4;
constexpr Cents steady{0.5};
constexpr Cents least_uncertainty{0.02}; // what the parabola through three levels leaves

/// Lowest partial of which the strongest one is a multiple.
double fundamental_of(const SpectralPeak& strongest, const std::vector<SpectralPeak>& peaks)
{
    for (int multiple = highest_multiple; multiple > 1; --multiple) {
        const Hertz wanted{strongest.frequency_hz / multiple};
        for (const SpectralPeak& peak : peaks)
            if (peak.level_db > strongest.level_db + faintest_fundamental_db &&
                std::abs(interval(wanted, Hertz{peak.frequency_hz}).value()) < is_multiple.value())
                return wanted.value();
    }
    return strongest.frequency_hz;
}

} // namespace

ReferenceTone::ReferenceTone(Hertz rate)
    : rate_hz_(rate.value()),
      span_(static_cast<std::size_t>(std::lround(looked_at.value() * rate_hz_))),
      fft_(fast_transform_length(2 * span_))
{
}

void ReferenceTone::reset()
{
    samples_.clear();
    looks_hz_.clear();
    since_look_ = 0;
}

std::optional<SteadyTone> ReferenceTone::push(std::span<const float> samples)
{
    samples_.insert(samples_.end(), samples.begin(), samples.end());
    if (samples_.size() > span_)
        samples_.erase(samples_.begin(), samples_.end() - static_cast<std::ptrdiff_t>(span_));
    since_look_ += samples.size();
    const bool due = static_cast<double>(since_look_) >= look_every.value() * rate_hz_;
    if (samples_.size() < span_ || !due) return std::nullopt;
    since_look_ = 0;
    const auto seen_hz = look();
    if (!seen_hz) {
        looks_hz_.clear();
        return std::nullopt;
    }
    looks_hz_.push_back(*seen_hz);
    if (looks_hz_.size() > looks_needed) looks_hz_.erase(looks_hz_.begin());
    return tone_of_looks();
}

std::optional<double> ReferenceTone::look()
{
    const auto spectrum = level_spectrum(samples_, rate_hz_, fft_);
    const auto peaks = spectral_peaks(spectrum, lowest.value(), highest.value(), least_above_floor_db);
    const auto strongest =
        std::max_element(peaks.begin(), peaks.end(), [](const SpectralPeak& a, const SpectralPeak& b) {
            return a.level_db < b.level_db;
        });
    if (strongest == peaks.end()) return std::nullopt;
    return fundamental_of(*strongest, peaks);
}

std::optional<SteadyTone> ReferenceTone::tone_of_looks() const
{
    if (looks_hz_.size() < looks_needed) return std::nullopt;
    const auto [low, high] = std::minmax_element(looks_hz_.begin(), looks_hz_.end());
    const double spread_cents = interval(Hertz{*low}, Hertz{*high}).value();
    if (spread_cents > steady.value()) return std::nullopt;
    const double mean_hz =
        std::accumulate(looks_hz_.begin(), looks_hz_.end(), 0.0) / static_cast<double>(looks_hz_.size());
    return SteadyTone{Hertz{mean_hz}, Cents{std::max(least_uncertainty.value(), spread_cents / 2.0)}};
}

} // namespace harpkeep
