// SPDX-License-Identifier: MIT
#include "measure/partial_rise.hpp"

#include "signal/baseband.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep {

namespace {

constexpr int partials = 4;
constexpr double attack_s = 0.012, before_gap_s = 0.012; // the detector may name the onset a little late
constexpr double longest_look_s = 0.3;
constexpr double periods_per_window = 8.0; // the next partial then lies in the window's null
constexpr double floor_power = 1e-14;      // what 16-bit silence holds in a narrow band

struct Moment {
    double from_s, to_s;
};

std::optional<double> power_of(const OctavePyramid& sound, const Moment& moment, double frequency_hz,
                               double window_s)
{
    if (frequency_hz > sound.highest_frequency_hz()) return std::nullopt;
    const int level = sound.level_for(frequency_hz);
    const auto band = extract_baseband(sound.level(level), sound.rate_hz(level),
                                       {.reference_hz = frequency_hz,
                                        .from_s = moment.from_s,
                                        .to_s = moment.to_s,
                                        .window_s = window_s,
                                        .values_per_window = 2});
    if (!band) return std::nullopt;
    double sum = 0.0;
    for (const auto& value : band->values) sum += std::norm(value);
    return sum / static_cast<double>(band->values.size());
}

/// Rise in the sum of bands at (k + shift) first_hz, k = 1, 2, ...
std::optional<double> rise_db(const OctavePyramid& sound, const Moment& before, const Moment& after,
                              double first_hz, double shift)
{
    const double window_s = std::min(periods_per_window / first_hz, 0.45 * (after.to_s - after.from_s));
    double power_before = 0.0, power_after = 0.0;
    for (int k = 1; k <= partials; ++k) {
        const double frequency_hz = (k + shift) * first_hz;
        const auto past = power_of(sound, before, frequency_hz, window_s);
        const auto now = power_of(sound, after, frequency_hz, window_s);
        if (!past || !now) break;
        power_before += *past;
        power_after += *now;
    }
    if (power_after == 0.0) return std::nullopt;
    return 10.0 * std::log10((power_after + floor_power) / (power_before + floor_power));
}

} // namespace

std::optional<PartialRise> partial_rise(const OctavePyramid& sound, const ToneSpan& span, double first_hz)
{
    const double look_s =
        std::min({longest_look_s, span.until_s - span.onset_s - attack_s, span.onset_s - before_gap_s});
    if (look_s < 0.05) return std::nullopt;
    const Moment before{span.onset_s - before_gap_s - look_s, span.onset_s - before_gap_s};
    const Moment after{span.onset_s + attack_s, span.onset_s + attack_s + look_s};
    const auto at = rise_db(sound, before, after, first_hz, 0.0);
    const auto between = rise_db(sound, before, after, first_hz, -0.5);
    if (!at || !between) return std::nullopt;
    return PartialRise{*at, *between};
}

} // namespace harpkeep
