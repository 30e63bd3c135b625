// SPDX-License-Identifier: MIT
#include "tests/benchmarks/dense_pitch.hpp"

#include "signal/baseband.hpp"
#include "tests/support/dense_tone.hpp"
#include "units/interval.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace harpkeep::benchmarks {

using namespace tests;

namespace {

// As src/measure/tone_measurement.cpp chooses them.
constexpr double attack_s = 0.008, periods_per_window = 8.0;
constexpr std::size_t most_partials = 36;
constexpr double least_over_noise = 0.7; // of a partial, one window after the pluck

/// Rms of white noise in a band of Blackman-Harris windows, which pass 2.004 bins.
double noise_in_band(double noise_rms, double window_s)
{
    return 2.0 * noise_rms * std::sqrt(2.0044 / (window_s * battery_rate_hz));
}

} // namespace

double dense_pitch_error_cents(const BatteryPluck& pluck, const TwoTonePluck& truth)
{
    SampleHistory history(pluck.sound.size());
    history.append(pluck.sound);
    const auto components = components_of(pluck.string, pluck.pluck, battery_rate_hz); // mains, then twins
    const double window_s = periods_per_window / pluck.first_hz;
    std::vector<DenseRecord> records;
    std::vector<DensePartial> partials;
    for (std::size_t i = 0; i < std::min(truth.partials.size(), most_partials); ++i) {
        const SyntheticComponent& main = components[i];
        const double noise = noise_in_band(truth.partials[i].noise_rms, window_s);
        if (main.amplitude * std::exp(-main.decay_per_s * window_s) < least_over_noise * noise) continue;
        const auto band = extract_baseband(history, battery_rate_hz,
                                           {.reference_hz = main.frequency_hz,
                                            .from_s = battery_onset_s + attack_s,
                                            .to_s = battery_onset_s + truth.length_s,
                                            .window_s = window_s});
        if (!band) break;
        const std::size_t every = band->values.size() >= 24 ? 2 : 1; // as the fit
        DenseRecord record{.reference_hz = band->reference_hz,
                           .noise_power = noise * noise,
                           .correlated = std::max(1.0, band->correlated_values / static_cast<double>(every)),
                           .partials = {partials.size()}};
        for (std::size_t n = 0; n < band->values.size(); n += every) {
            record.times_s.push_back(band->time_s(n) - battery_onset_s);
            record.values.push_back(band->values[n]);
        }
        records.push_back(std::move(record));
        // The components are sines.
        partials.push_back({.number = truth.partials[i].number,
                            .amplitude = std::polar(main.amplitude, main.phase_rad - 0.5 * std::numbers::pi),
                            .decay_rate = main.decay_per_s,
                            .frequency_hz = main.frequency_hz,
                            .twin = truth.partials[i].twin,
                            .expected_decay = main.decay_per_s});
    }
    DenseShared shared;
    shared << std::log(truth.first_hz), std::log(truth.inharmonicity), truth.glide.amount,
        std::log(truth.glide.time_s), truth.split, std::log(truth.decay_ratio);
    const auto fit =
        fit_dense_tone(records, partials, shared,
                       {.log_b = std::log(truth.inharmonicity), .log_time = std::log(truth.glide.time_s)});
    double error = 0.0, weights = 0.0;
    for (std::size_t i = 0; i < partials.size(); ++i) {
        const double weight = 1.0 / (fit.variance_cents2[i] + std::pow(cents_per_neper * fit.scatter, 2));
        error += weight * cents_per_neper * std::log(fit.frequency_hz[i] / partials[i].frequency_hz);
        weights += weight;
    }
    return error / weights;
}

} // namespace harpkeep::benchmarks
