// SPDX-License-Identifier: MIT
#include "tests/support/step_battery.hpp"

#include "measure/pluck_stream.hpp"
#include "measure/step_measurement.hpp"
#include "stats/quantiles.hpp"
#include "synth/random_source.hpp"
#include "synth/synthetic_noise.hpp"
#include "synth/synthetic_string.hpp"
#include "units/interval.hpp"

#include <algorithm>
#include <cmath>
#include <ctime>

namespace harpkeep::tests {

namespace {

SyntheticPluck draw_pluck(const StepBatteryCase& settings, RandomSource& random)
{
    SyntheticPluck pluck;
    pluck.plucking_point = std::clamp(0.31 + 0.03 * random.normal(), 0.05, 0.5);
    pluck.glide_cents = random.uniform(0.4, 2.0);
    pluck.phase_seed = static_cast<std::uint64_t>(random.uniform(1.0, 1e9));
    if (!settings.twin) return pluck;
    pluck.second_polarisation = SecondPolarisation{};
    pluck.second_polarisation->split_cents *= random.uniform(0.7, 1.3);
    pluck.second_polarisation->level_db += 3.0 * random.normal();
    return pluck;
}

BatteryPluck sounded(const StepBatteryCase& settings, const SyntheticString& string, double first_hz,
                     RandomSource& random)
{
    const auto samples = static_cast<std::size_t>((battery_onset_s + settings.rings_s) * battery_rate_hz);
    std::vector<double> mix(samples);
    BatteryPluck result{.string = string, .pluck = draw_pluck(settings, random), .first_hz = first_hz};
    const double energy = add_pluck(mix, battery_rate_hz, battery_onset_s, string, result.pluck);
    result.noise_rms = std::sqrt(energy / (0.5 * battery_rate_hz)) * std::pow(10.0, -settings.snr_db / 20.0);
    add_pink_noise(mix, battery_rate_hz, result.noise_rms * std::sqrt(0.5), random);
    add_white_noise(mix, result.noise_rms * std::sqrt(0.5), random);
    result.sound.assign(mix.begin(), mix.end());
    return result;
}

std::optional<PluckMeasurement> measured(const BatteryPluck& pluck)
{
    PluckStream stream({.rate_hz = battery_rate_hz});
    auto events = stream.push(pluck.sound);
    for (auto& event : stream.finish()) events.push_back(std::move(event));
    for (auto& event : events)
        if (auto* ended = std::get_if<PluckEnded>(&event))
            if (std::abs(ended->measurement.start_s - battery_onset_s) < 0.1)
                return std::move(ended->measurement);
    return std::nullopt;
}

} // namespace

BatteryStep sound_battery_step(const StepBatteryCase& settings)
{
    RandomSource random(settings.seed);
    const double lower_hz = settings.lower_hz * std::exp2(random.uniform(-100.0, 100.0) / 1200.0);
    const double step_cents = 100.0 + 3.0 * random.normal(), ratio = std::exp2(step_cents / 1200.0);
    SyntheticString lower = generic_string(lower_hz);
    lower.inharmonicity *= std::exp(0.15 * random.normal());
    lower.decay_t60_s *= std::exp(0.15 * random.normal());
    for (int k = 0; settings.partial_deviation_sd_cents > 0.0 && k < lower.partial_count; ++k)
        lower.partial_deviations_cents.push_back(settings.partial_deviation_sd_cents * random.normal());
    SyntheticString upper = lower;
    upper.inharmonicity *= ratio * ratio; // B goes with 1 / L^2
    upper.decay_t60_s /= ratio;
    for (auto* string : {&lower, &upper}) {
        const double wanted_hz = string == &lower ? lower_hz : lower_hz * ratio;
        string->ideal_frequency_hz *= wanted_hz / partial_frequency_hz(*string, 1);
    }
    BatteryStep step{.size_cents = step_cents};
    step.lower = sounded(settings, lower, lower_hz, random);
    step.upper = sounded(settings, upper, lower_hz * ratio, random);
    return step;
}

void measure_battery_step(const BatteryStep& truth, StepBatteryResult& result)
{
    const std::clock_t begun = std::clock();
    const auto low = measured(truth.lower), high = measured(truth.upper);
    result.work_s += static_cast<double>(std::clock() - begun) / CLOCKS_PER_SEC;
    const auto note = [&](const std::optional<PluckMeasurement>& pluck, double true_hz) {
        if (!pluck || !pluck->trusted()) {
            ++result.lost;
            return;
        }
        result.pitch_errors_cents.push_back(cents_per_neper * std::log(pluck->frequency_hz / true_hz));
        result.pitch_uncertainties_cents.push_back(pluck->uncertainty_cents);
        result.pitch_freedoms.push_back(pluck->degrees_of_freedom);
    };
    note(low, truth.lower.first_hz);
    note(high, truth.upper.first_hz);
    if (!low || !high || !low->trusted() || !high->trusted()) return;
    const auto step = measure_step(*low, *high);
    if (!step) return;
    result.step_errors_cents.push_back(step->size_cents - truth.size_cents);
    result.step_uncertainties_cents.push_back(step->uncertainty_cents);
    result.step_freedoms.push_back(step->degrees_of_freedom);
}

void run_step_battery(const StepBatteryCase& settings, StepBatteryResult& result)
{
    measure_battery_step(sound_battery_step(settings), result);
}

double coverage_of(const std::vector<double>& errors_cents, const std::vector<double>& uncertainties_cents,
                   const std::vector<double>& freedoms)
{
    std::size_t within = 0;
    for (std::size_t i = 0; i < errors_cents.size(); ++i)
        within +=
            std::abs(errors_cents[i]) <= stats::coverage_factor(0.95, freedoms[i]) * uncertainties_cents[i];
    return static_cast<double>(within) / static_cast<double>(std::max<std::size_t>(1, errors_cents.size()));
}

double absolute_quantile(std::vector<double> errors_cents, double share)
{
    if (errors_cents.empty()) return 0.0;
    for (double& error : errors_cents) error = std::abs(error);
    std::sort(errors_cents.begin(), errors_cents.end());
    return errors_cents[std::min(errors_cents.size() - 1,
                                 static_cast<std::size_t>(share * static_cast<double>(errors_cents.size())))];
}

double interval_ratio(const std::vector<double>& errors_cents, const std::vector<double>& uncertainties_cents,
                      const std::vector<double>& freedoms)
{
    if (errors_cents.empty()) return 0.0;
    double width = 0.0;
    for (std::size_t i = 0; i < errors_cents.size(); ++i)
        width += stats::coverage_factor(0.95, freedoms[i]) * uncertainties_cents[i];
    return width / static_cast<double>(errors_cents.size()) / absolute_quantile(errors_cents, 0.95);
}

} // namespace harpkeep::tests
