// SPDX-License-Identifier: MIT
#include "ui/support/demo_checks.hpp"

#include "measure/check_assembly.hpp"
#include "synth/random_source.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace harpkeep::ui {

namespace {

// All figures are invented; they are of the sizes that make each page of the window worth looking at.
constexpr double first_level_sd_cents = 2.2;
constexpr double level_after_visit_sd_cents = 0.7;
constexpr double trend_cents_per_year = -0.3;
constexpr double trend_sd_cents_per_year = 0.5;
constexpr double season_sd_cents = 0.5;
constexpr double doubtful_share = 0.012;
constexpr double forgotten_share = 0.006;
constexpr double days_a_year = 365.25;
constexpr double unknown_start_years = 2.0; ///< since the visit before the ledger began

} // namespace

DemoRegulation::DemoRegulation(HarpLayout layout, DemoWear wear)
    : layout_(std::move(layout)), wear_(std::move(wear))
{
    RandomSource random{wear_.seed};
    for (const auto& string : layout_.strings)
        for (const Step step : steps_of(layout_.kind, string)) {
            StepCourse course;
            course.level_cents.push_back(first_level_sd_cents * random.normal());
            for (std::size_t i = 0; i < wear_.visit_days.size(); ++i)
                course.level_cents.push_back(level_after_visit_sd_cents * random.normal());
            course.trend_cents_per_year = trend_cents_per_year + trend_sd_cents_per_year * random.normal();
            course.season_cents = season_sd_cents * random.normal();
            courses_[{string.place, step}] = std::move(course);
        }
}

double DemoRegulation::step_error_cents(std::size_t string_index, Step step, int day) const
{
    const StringPlace place = layout_.strings[string_index].place;
    const auto& course = courses_.at({place, step});
    const auto visit = std::upper_bound(wear_.visit_days.begin(), wear_.visit_days.end(), day);
    const auto visits = static_cast<std::size_t>(visit - wear_.visit_days.begin());
    const int since_day = visits > 0 ? wear_.visit_days[visits - 1] : day;
    const double years = visits > 0 ? (day - since_day) / days_a_year : unknown_start_years;
    double trend = course.trend_cents_per_year;
    if (place.letter == wear_.worn_pedal && step == Step::lower) trend += wear_.worn_pedal_cents_per_year;
    double cents = course.level_cents[visits] + trend * years +
                   course.season_cents * std::sin(2.0 * std::numbers::pi * day / days_a_year);
    const auto fault = wear_.faults.find({place, step});
    if (fault != wear_.faults.end() && day >= fault->second.since_day) cents += fault->second.cents;
    return cents;
}

PluckMeasurement DemoRegulation::pluck(const SyntheticHarp& harp, std::size_t string_index, Position position,
                                       std::uint64_t seed) const
{
    RandomSource random{seed};
    const SyntheticString string = string_in_position(harp, string_index, position);
    const bool top = layout_.strings[string_index].place.harp_octave() <= 1;
    const double noise_cents = top ? 0.30 : 0.12;
    PluckMeasurement pluck;
    const double first_hz = partial_frequency_hz(string, 1);
    const int partials = std::clamp(static_cast<int>(9000.0 / first_hz), 2, 12);
    for (int number = 1; number <= partials; ++number) {
        const double uncertainty_cents = noise_cents * (1.0 + 0.1 * number);
        pluck.partials.push_back(
            {.number = number,
             .frequency_hz = partial_frequency_hz(string, number) *
                             std::exp2(uncertainty_cents * random.normal() / 1200.0),
             .uncertainty_cents = uncertainty_cents,
             .noise_cents = uncertainty_cents,
             .level_db = -24.0 - 4.0 * number + random.normal(),
             .decay_s = string.decay_t60_s / 6.91 * std::pow(number, -string.decay_exponent)}); // ln 1000
    }
    pluck.frequency_hz = first_hz * std::exp2(noise_cents * random.normal() / 1200.0);
    pluck.uncertainty_cents = noise_cents;
    pluck.degrees_of_freedom = 20.0;
    pluck.inharmonicity = string.inharmonicity;
    pluck.glide_cents = 1.0 + 0.3 * random.uniform();
    pluck.decay_s = string.decay_t60_s / 6.91 * (1.0 + 0.05 * random.normal());
    pluck.snr_db = 36.0 + 3.0 * random.uniform();
    if (random.uniform() < doubtful_share) pluck.doubts = {Doubt::too_noisy};
    return pluck;
}

SyntheticHarp DemoRegulation::harp_on(int day) const
{
    SyntheticHarp harp = make_synthetic_harp(
        layout_, {.open_offset_sd_cents = 2.0, .step_error_sd_cents = 0.0, .seed = wear_.seed});
    for (std::size_t i = 0; i < layout_.strings.size(); ++i)
        for (const Step step : steps_of(layout_.kind, layout_.strings[i]))
            (step == Step::lower ? harp.strings[i].lower_error_cents : harp.strings[i].upper_error_cents) =
                step_error_cents(i, step, day);
    return harp;
}

CheckResult DemoRegulation::check_on(int day) const
{
    const auto day_seed = wear_.seed * 1'000'003 + static_cast<std::uint64_t>(day);
    const SyntheticHarp harp = harp_on(day);
    RandomSource random{day_seed};
    CheckResult check;
    double start_s = 2.0;
    for (int pass = 0; pass < 3; ++pass)
        for (std::size_t i = 0; i < layout_.strings.size(); ++i) {
            const auto& string = layout_.strings[i];
            const auto positions = positions_of(layout_.kind, string);
            if (pass >= static_cast<int>(positions.size())) continue;
            const Position position = positions[static_cast<std::size_t>(pass)];
            if (random.uniform() < forgotten_share) {
                check.missing.push_back({string.place, position});
                continue;
            }
            Reading reading{.place = string.place, .position = position};
            reading.pluck =
                pluck(harp, i, position, day_seed * 1024 + i * 3 + static_cast<std::uint64_t>(pass));
            reading.pluck.start_s = start_s;
            start_s += random.uniform(2.6, 3.4);
            check.readings.push_back(std::move(reading));
        }
    measure_steps(layout_, check);
    return check;
}

} // namespace harpkeep::ui
