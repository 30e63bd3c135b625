// SPDX-License-Identifier: MIT
// Prints, for the strings and noise levels of uncertainty_benchmark, the errors that an efficient estimator
// would make beside those that harpkeep makes in the very same cases.
#include "synth/random_source.hpp"
#include "tests/benchmarks/dense_pitch.hpp"
#include "tests/support/step_battery.hpp"
#include "tests/support/two_tone_bound.hpp"
#include "units/interval.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

using namespace harpkeep;
using namespace harpkeep::tests;

namespace {

constexpr double two_pi = 2.0 * std::numbers::pi;
constexpr double log_b_ratio_sd = 0.2; // as src/measure/step_measurement.cpp expects

/// Power of the battery's pink noise near a frequency against the same power as white noise, by the response
/// of its filter: poles at 10 Hz, 40 Hz, 160 Hz and so on, a zero an octave above each (src/synth).
double pink_density(double frequency_hz)
{
    const auto response = [](double hz) {
        double power = 1.0;
        for (double pole_hz = 10.0; 2.0 * pole_hz < 0.5 * battery_rate_hz; pole_hz *= 4.0) {
            const auto turn = std::polar(1.0, -two_pi * hz / battery_rate_hz);
            const double pole = std::exp(-two_pi * pole_hz / battery_rate_hz),
                         zero = std::exp(-two_pi * 2.0 * pole_hz / battery_rate_hz);
            power *= std::norm(1.0 - zero * turn) / std::norm(1.0 - pole * turn);
        }
        return power;
    };
    static const double mean = [&] {
        constexpr int bands = 48000; // half a hertz each: the lowest pole is twenty wide
        double sum = 0.0;
        for (int i = 0; i < bands; ++i) sum += response((i + 0.5) * 0.5 * battery_rate_hz / bands);
        return sum / bands;
    }();
    return response(frequency_hz) / mean;
}

TwoTonePluck true_pluck(const BatteryPluck& p, double from_s, double length_s, std::size_t most_partials)
{
    const auto components = components_of(p.string, p.pluck, battery_rate_hz);
    const bool twins = p.pluck.second_polarisation.has_value();
    const std::size_t count = twins ? components.size() / 2 : components.size();
    TwoTonePluck pluck{.first_hz = p.first_hz,
                       .inharmonicity = p.string.inharmonicity,
                       .glide = {.amount = p.pluck.glide_cents / cents_per_neper,
                                 .time_s = 0.5 / components[0].decay_per_s,
                                 .start_s = 0.0},
                       .sample_rate_hz = battery_rate_hz,
                       .from_s = from_s,
                       .length_s = length_s};
    if (twins) {
        pluck.split = p.pluck.second_polarisation->split_cents / cents_per_neper;
        pluck.decay_ratio = p.pluck.second_polarisation->decay_ratio;
    }
    for (std::size_t i = 0; i < std::min(count, most_partials); ++i) {
        const SyntheticComponent& main = components[i];
        const double noise_rms = p.noise_rms * std::sqrt(0.5 + 0.5 * pink_density(main.frequency_hz));
        TwoTonePartial partial{.number = static_cast<int>(i) + 1,
                               .amplitude = main.amplitude,
                               .decay_rate = main.decay_per_s,
                               .noise_rms = noise_rms};
        if (twins) {
            const SyntheticComponent& twin = components[count + i];
            partial.twin = std::polar(twin.amplitude / main.amplitude, twin.phase_rad - main.phase_rad);
        }
        pluck.partials.push_back(partial);
    }
    return pluck;
}

/// Steps of an efficient estimator: normal errors of these standard deviations, many for each.
std::vector<double> efficient_errors(const std::vector<double>& sds_cents)
{
    constexpr int draws = 200;
    RandomSource random(1);
    std::vector<double> errors;
    for (const double sd : sds_cents)
        for (int i = 0; i < draws; ++i) errors.push_back(sd * random.normal());
    return errors;
}

std::string quantiles(const std::vector<double>& errors_cents, std::size_t undetermined)
{
    std::string text = errors_cents.empty()
                           ? "-"
                           : fmt::format("{:.3f} | {:.3f}", absolute_quantile(errors_cents, 0.5),
                                         absolute_quantile(errors_cents, 0.95));
    if (undetermined > 0) text += fmt::format(" ({} not)", undetermined);
    return text;
}

/// What the bound says of the cases of one row.
struct Bounds {
    ToneKnowledge knowledge;
    std::vector<double> sds_cents;
    std::size_t undetermined = 0;

    void add(const TwoTonePluck& lower, const TwoTonePluck& upper)
    {
        const auto sd = step_bound_cents(shared_information(lower, knowledge),
                                         shared_information(upper, knowledge), log_b_ratio_sd);
        if (sd)
            sds_cents.push_back(*sd);
        else
            ++undetermined;
    }
    [[nodiscard]] std::string row() const { return quantiles(efficient_errors(sds_cents), undetermined); }
};

} // namespace

int main(int argc, char** argv)
{
    CLI::App app{"Step errors of an efficient estimator, and of harpkeep"};
    int count = 12;
    std::vector<double> levels_db{40.0, 30.0, 20.0, 10.0};
    std::vector<double> strings_hz{33, 65, 131, 262, 523, 1047, 2093, 3136};
    double rings_s = 1.7;
    bool only_bound = false, dense = false;
    std::size_t most_partials = 60;
    double deviation_cents = 0.0, from_s = 0.0;
    app.add_option("--count", count, "steps in each cell");
    app.add_option("--snr-db", levels_db);
    app.add_option("--strings-hz", strings_hz);
    app.add_option("--rings-s", rings_s);
    app.add_option("--most-partials", most_partials, "that the estimator looks at");
    app.add_option("--deviation-cents", deviation_cents,
                   "of each partial from the series, as the estimator thinks possible");
    app.add_option("--from-s", from_s, "the estimator listens from then on, seconds after the pluck");
    app.add_flag("--dense", dense,
                 "also the errors of a dense fit of the same model that begins at the truth: slow");
    app.add_flag("--only-bound", only_bound, "do not measure");
    CLI11_PARSE(app, argc, argv);

    fmt::print(
        "median | 95 % of the step error in cents; (n not): what is known does not determine n steps\n");
    for (const double snr_db : levels_db) {
        fmt::print("{:<14}{:<20}{:<20}{:<26}{:<20}\n", fmt::format("{:.0f} dB", snr_db), "measured",
                   "bound as expected", "bound, nothing known", "one plain tone");
        for (const double hz : strings_hz) {
            StepBatteryResult measured;
            std::vector<double> dense_errors;
            Bounds expected{.knowledge = knowledge_of_fit()}, nothing{.knowledge = {}},
                plain{.knowledge = knowledge_of_plain_tone()};
            for (Bounds* bounds : {&expected, &nothing, &plain})
                bounds->knowledge.deviation_sd = deviation_cents / cents_per_neper;
            for (int i = 0; i < count; ++i) {
                const BatteryStep step =
                    sound_battery_step({.lower_hz = hz,
                                        .snr_db = snr_db,
                                        .rings_s = rings_s,
                                        .seed = static_cast<std::uint64_t>(1000 * hz + i)});
                if (!only_bound) measure_battery_step(step, measured);
                const TwoTonePluck lower = true_pluck(step.lower, from_s, rings_s, most_partials),
                                   upper = true_pluck(step.upper, from_s, rings_s, most_partials);
                for (Bounds* bounds : {&expected, &nothing, &plain}) bounds->add(lower, upper);
                if (dense)
                    dense_errors.push_back(benchmarks::dense_pitch_error_cents(step.upper, upper) -
                                           benchmarks::dense_pitch_error_cents(step.lower, lower));
            }
            fmt::print("{:<14}{:<20}{:<20}{:<26}{:<20}\n", fmt::format("{:.0f} Hz", hz),
                       quantiles(measured.step_errors_cents, 0), expected.row(), nothing.row(), plain.row());
            if (dense) fmt::print("{:<14}{:<20}\n", "  dense", quantiles(dense_errors, 0));
            std::fflush(stdout);
        }
    }
}
