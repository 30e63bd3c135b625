// SPDX-License-Identifier: MIT
#include "reason/pedal_drift.hpp"

#include "reason/words.hpp"
#include "units/format.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace harpkeep {

std::optional<PedalDrift> pedal_drift(const DriftFit& fit, Letter letter, Step step)
{
    PedalDrift out{.letter = letter, .step = step};
    for (std::size_t i = 0; i < fit.steps.size(); ++i) {
        const auto& drift = fit.steps[i];
        if (drift.place.letter != letter || drift.step != step) continue;
        out.first_day = out.steps.empty() ? drift.first_day : std::min(out.first_day, drift.first_day);
        out.last_day = out.steps.empty() ? drift.last_day : std::max(out.last_day, drift.last_day);
        out.checks = std::max(out.checks, drift.checks);
        out.trend_cents_per_year.value += drift.trend_cents_per_year.value;
        out.trend_cents_per_year.uncertainty += drift.trend_cents_per_year.uncertainty;
        out.steps.push_back(i);
    }
    if (out.steps.empty()) return std::nullopt;
    const auto count = static_cast<double>(out.steps.size());
    out.trend_cents_per_year.value /= count;
    out.trend_cents_per_year.uncertainty /= count;
    return out;
}

std::vector<DriftPoint> pedal_curve(const DriftFit& fit, const PedalDrift& drift, std::span<const int> days)
{
    std::vector<DriftPoint> mean;
    for (const int day : days) mean.push_back({.day = day});
    const double share = 1.0 / static_cast<double>(drift.steps.size());
    for (const std::size_t step : drift.steps) {
        const auto points = drift_curve(fit, step, days);
        for (std::size_t i = 0; i < mean.size(); ++i) {
            mean[i].cents += share * points[i].cents;
            mean[i].uncertainty_cents += share * points[i].uncertainty_cents;
        }
    }
    return mean;
}

std::string pedal_drift_sentence(const PedalDrift& drift, HarpKind kind)
{
    return fmt::format(
        "{} pedal, {}: on average of {} {} cents a year.", letter_name(drift.letter),
        step_words(kind, drift.step), how_many(static_cast<int>(drift.steps.size()), "string", "strings"),
        format_cents(Cents{drift.trend_cents_per_year.value},
                     Cents{1.959963984540054 * drift.trend_cents_per_year.uncertainty}, 1)); // 95 %
}

} // namespace harpkeep
