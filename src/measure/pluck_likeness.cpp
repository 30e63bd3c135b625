// SPDX-License-Identifier: MIT
#include "measure/pluck_likeness.hpp"

#include "measure/partial_pairs.hpp"
#include "measure/tone_measurement.hpp"
#include "units/interval.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace harpkeep {

namespace {

// The level difference from which on plucks count as different; a pluck and itself in noise, or resampled,
// mostly stay under 0.4.
constexpr double different_db = 0.6;
constexpr double least_level_sd_db = 0.1;
constexpr double blur_db = 1.2;          // of a partial that falls by 1/e in a window; seen on real plucks
constexpr double onset_unsure_s = 0.002; // onsets are found to a millisecond or two
constexpr double few_levels = 2.0, unlikeness_of_few = 0.11;
constexpr double db_per_neper = 8.685889638065035;

double square(double x)
{
    return x * x;
}

/// What noise and the fit's window leave unsure in a partial's level: in one damped tone amplitude and phase
/// are equally noisy.
double level_sd_db(const Partial& partial, double window_s)
{
    const double turn_rad = 2.0 * std::numbers::pi * partial.frequency_hz * partial.decay_s;
    const double noise_db = db_per_neper * turn_rad * partial.noise_cents / cents_per_neper;
    return std::hypot(least_level_sd_db, noise_db,
                      blur_db * square(window_s / std::max(partial.decay_s, shortest_decay_s)));
}

/// How far the levels of the partials that both share are apart.
struct LevelsApart {
    double count = 0.0;
    double square_db2 = 0.0; ///< mean, less what noise and an unsure start do
};

LevelsApart levels_apart(const PluckMeasurement& lower, const PluckMeasurement& upper)
{
    const double lower_window_s = likely_extent(lower).window_s;
    const double upper_window_s = likely_extent(upper).window_s;
    double weights = 0.0, squares = 0.0, falls = 0.0, both = 0.0;
    LevelsApart levels;
    for (const auto& [a, b] : partial_pairs(lower, upper)) {
        const double sd_db = std::hypot(level_sd_db(a, lower_window_s), level_sd_db(b, upper_window_s));
        const double apart = (b.level_db - a.level_db) / sd_db;
        const double fall = db_per_neper / std::max(std::sqrt(a.decay_s * b.decay_s), shortest_decay_s) /
                            sd_db; // for one second
        weights += 1.0 / (sd_db * sd_db);
        squares += apart * apart, falls += fall * fall, both += apart * fall;
        levels.count += 1.0;
    }
    if (levels.count == 0.0) return levels;
    const double later_s = std::clamp(both / falls, -onset_unsure_s, onset_unsure_s);
    squares += later_s * (later_s * falls - 2.0 * both);
    levels.square_db2 = std::max(0.0, squares - levels.count) / weights;
    return levels;
}

} // namespace

double levels_unlikeness(const PluckMeasurement& lower, const PluckMeasurement& upper)
{
    const LevelsApart levels = levels_apart(lower, upper);
    const double fourth = square(levels.square_db2 / square(different_db));
    const double unlikeness = fourth / (1.0 + fourth);
    return levels.count > few_levels ? unlikeness : std::max(unlikeness, unlikeness_of_few);
}

} // namespace harpkeep
