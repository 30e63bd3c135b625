// SPDX-License-Identifier: MIT
#include "reason/string_condition.hpp"

#include "reason/ring_contrast.hpp"
#include "stats/quantiles.hpp"
#include "stats/robust_scale.hpp"
#include "stats/summary.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace harpkeep {

namespace {

using ByPlace = std::map<StringPlace, std::vector<const Reading*>>;

/// Readings of each string in the order in which they sounded.
ByPlace by_place(const HarpLayout& layout, std::span<const Reading> readings)
{
    ByPlace groups;
    for (const auto& reading : readings)
        if (find_string(layout, reading.place) != nullptr) groups[reading.place].push_back(&reading);
    for (auto& [place, group] : groups)
        std::stable_sort(group.begin(), group.end(), [](const Reading* a, const Reading* b) {
            return std::pair(a->file_index, a->pluck.start_s) < std::pair(b->file_index, b->pluck.start_s);
        });
    return groups;
}

bool is_open(Position position)
{
    return semitones_above_open(position) == 0;
}

struct Return {
    StringPlace place;
    double cents = 0.0; ///< after less before
    double uncertainty_cents = 0.0;
    double degrees_of_freedom = 0.0;
    int rests_on = 0;
};

/// Mean of plucks of one position, in cents above `origin_hz`.
Measured mean_of(const std::vector<const PluckMeasurement*>& plucks, double origin_hz)
{
    std::vector<double> cents;
    std::vector<double> uncertainties;
    double degrees = 0.0;
    for (const auto* pluck : plucks) {
        cents.push_back(1200.0 * std::log2(pluck->frequency_hz / origin_hz));
        uncertainties.push_back(pluck->uncertainty_cents);
        degrees += std::max(1.0, pluck->degrees_of_freedom);
    }
    const auto mean = stats::weighted_mean(cents, uncertainties);
    return {mean.value, mean.uncertainty, degrees};
}

/// The open string before the pedal first moved against the open string at the end.
std::optional<Return> return_of(StringPlace place, const std::vector<const Reading*>& readings)
{
    std::vector<const PluckMeasurement*> before;
    std::vector<const PluckMeasurement*> after;
    bool moved = false;
    bool moved_since_open = false;
    for (const auto* reading : readings) {
        if (!is_open(reading->position)) {
            moved = moved_since_open = true;
        } else if (reading->pluck.trusted() && reading->pluck.uncertainty_cents > 0.0) {
            if (moved_since_open) after.clear();
            moved_since_open = false;
            (moved ? after : before).push_back(&reading->pluck);
        }
    }
    if (before.empty() || after.empty()) return std::nullopt;
    const double origin_hz = before.front()->frequency_hz;
    const auto a = mean_of(before, origin_hz);
    const auto b = mean_of(after, origin_hz);
    const double variance = a.uncertainty * a.uncertainty + b.uncertainty * b.uncertainty;
    // [JCGM100] (G.2b), Welch-Satterthwaite
    const double degrees = variance * variance /
                           (std::pow(a.uncertainty, 4) / a.degrees_of_freedom +
                            std::pow(b.uncertainty, 4) / b.degrees_of_freedom);
    return Return{place, b.value - a.value, std::sqrt(variance), degrees,
                  static_cast<int>(before.size() + after.size())};
}

std::vector<StringCondition> poor_returns(const ByPlace& groups, const ConditionSettings& settings)
{
    std::vector<Return> returns;
    std::vector<double> all_cents;
    for (const auto& [place, readings] : groups) {
        if (const auto found = return_of(place, readings)) {
            returns.push_back(*found);
            all_cents.push_back(found->cents);
        }
    }
    constexpr std::size_t enough_for_common_drift = 7; // own choice: a string or two cannot move the median
    const double common = all_cents.size() >= enough_for_common_drift ? stats::median(all_cents) : 0.0;
    std::vector<StringCondition> found;
    for (const auto& one : returns) {
        const auto& band =
            one.place.harp_octave() <= 1 ? settings.return_cents_in_treble : settings.return_cents;
        const Measured measured{one.cents - common, one.uncertainty_cents, one.degrees_of_freedom};
        const auto conformity = decide(measured, band, settings.rule);
        if (conformity == Conformity::within) continue;
        if (conformity == Conformity::not_proven && measured.value >= band.lower &&
            measured.value <= band.upper)
            continue; // most likely in order
        const double half = stats::coverage_factor(0.95, measured.degrees_of_freedom) * measured.uncertainty;
        found.push_back({.kind = ConditionKind::no_return,
                         .place = one.place,
                         .certainty = conformity,
                         .value = measured.value,
                         .lower = measured.value - half,
                         .upper = measured.value + half,
                         .rests_on = one.rests_on});
    }
    return found;
}

/// Signs of a false string in one reading.
bool has_false_sign(const PluckMeasurement& pluck, double irregular_limit_cents)
{
    for (const Doubt doubt : pluck.doubts)
        if (doubt == Doubt::beating || doubt == Doubt::irregular) return true;
    const auto irregular = partial_irregularity_cents(pluck);
    return irregular && *irregular > irregular_limit_cents;
}

/// Doubts that come from the recording and say nothing about the string.
bool is_fit_for_signs(const PluckMeasurement& pluck)
{
    return std::none_of(pluck.doubts.begin(), pluck.doubts.end(), [](Doubt doubt) {
        return doubt == Doubt::clipped || doubt == Doubt::disturbed || doubt == Doubt::too_noisy ||
               doubt == Doubt::too_short || doubt == Doubt::ambiguous_place || doubt == Doubt::wrong_pitch;
    });
}

double irregular_limit(const ByPlace& groups, const ConditionSettings& settings)
{
    std::vector<double> all;
    for (const auto& [place, readings] : groups)
        for (const auto* reading : readings)
            if (const auto cents = partial_irregularity_cents(reading->pluck)) all.push_back(*cents);
    // Four times the usual: partials of sound strings lie a few tenths of a cent off.
    return all.empty() ? settings.least_irregular_cents
                       : std::max(settings.least_irregular_cents, 4.0 * stats::median(all));
}

struct Signs {
    int fit = 0;
    int with_sign = 0;
    std::set<Position> positions;
    std::set<Position> positions_with_sign;
    std::optional<double> beat_rate_hz;
    double irregular_cents = 0.0;
};

Signs signs_of(const std::vector<const Reading*>& readings, double limit_cents)
{
    Signs signs;
    for (const auto* reading : readings) {
        if (!is_fit_for_signs(reading->pluck)) continue;
        ++signs.fit;
        signs.positions.insert(reading->position);
        if (!has_false_sign(reading->pluck, limit_cents)) continue;
        ++signs.with_sign;
        signs.positions_with_sign.insert(reading->position);
        if (reading->pluck.beat_rate_hz) signs.beat_rate_hz = reading->pluck.beat_rate_hz;
        signs.irregular_cents =
            std::max(signs.irregular_cents, partial_irregularity_cents(reading->pluck).value_or(0.0));
    }
    return signs;
}

std::vector<StringCondition> false_strings(const ByPlace& groups, const ConditionSettings& settings)
{
    const double limit_cents = irregular_limit(groups, settings);
    std::map<StringPlace, Signs> all;
    int fit = 0;
    int with_sign = 0;
    for (const auto& [place, readings] : groups) {
        const auto& signs = all[place] = signs_of(readings, limit_cents);
        fit += signs.fit;
        with_sign += signs.with_sign;
    }
    std::vector<StringCondition> found;
    for (const auto& [place, signs] : all) {
        if (signs.positions.size() < 2 || signs.positions_with_sign.size() < signs.positions.size()) continue;
        // Share of such readings on the other strings, Laplace's rule: never 0.
        const double usual = (with_sign - signs.with_sign + 1.0) / (fit - signs.fit + 2.0);
        const double accident =
            std::min(1.0, static_cast<double>(all.size()) * std::pow(usual, signs.positions.size()));
        if (accident > settings.most_accident) continue;
        StringCondition condition{.kind = ConditionKind::false_string,
                                  .place = place,
                                  .value = accident,
                                  .rests_on = signs.fit,
                                  .positions_affected = static_cast<int>(signs.positions.size()),
                                  .beat_rate_hz = signs.beat_rate_hz};
        if (signs.irregular_cents > limit_cents) condition.irregular_cents = signs.irregular_cents;
        found.push_back(condition);
    }
    return found;
}

std::vector<StringCondition> poor_rings(std::span<const Reading> readings, const ConditionSettings& settings)
{
    std::vector<StringCondition> found;
    for (const auto& contrast : ring_contrasts(readings)) {
        const bool short_enough = contrast.share < settings.ring_share;
        const bool sure_enough = contrast.deviations < -settings.ring_deviations;
        if (!short_enough || !sure_enough) continue;
        found.push_back({.kind = ConditionKind::poor_ring,
                         .place = contrast.place,
                         .position = contrast.position,
                         .value = contrast.share,
                         .lower = contrast.lower_share,
                         .upper = contrast.upper_share,
                         .rests_on = contrast.rests_on});
    }
    return found;
}

} // namespace

std::optional<double> partial_irregularity_cents(const PluckMeasurement& pluck)
{
    constexpr std::size_t fewest = 4; // two fix frequency and stiffness, two are left to disagree
    if (pluck.partials.size() < fewest) return std::nullopt;
    double weights = 0.0;
    double sum = 0.0;
    for (const auto& partial : pluck.partials) {
        const double n = partial.number;
        const double series_hz = n * pluck.frequency_hz *
                                 std::sqrt((1.0 + pluck.inharmonicity * n * n) / (1.0 + pluck.inharmonicity));
        const double cents = 1200.0 * std::log2(partial.frequency_hz / series_hz);
        // A partial known to 0.1 cent counts no more than ten known to 0.3: levels, not noise, decide here.
        const double weight = 1.0 / (0.01 + partial.uncertainty_cents * partial.uncertainty_cents);
        weights += weight;
        sum += weight * cents * cents;
    }
    return std::sqrt(sum / weights);
}

std::vector<StringCondition> find_string_conditions(const HarpLayout& layout,
                                                    std::span<const Reading> readings,
                                                    std::span<const StringAge> ages,
                                                    const ConditionSettings& settings)
{
    const auto groups = by_place(layout, readings);
    std::vector<StringCondition> all;
    for (const auto& age : ages)
        if (age.days >= 0 && age.days < settings.settling_days)
            all.push_back({.kind = ConditionKind::settling,
                           .place = age.place,
                           .value = static_cast<double>(age.days)});
    for (auto part :
         {poor_returns(groups, settings), false_strings(groups, settings), poor_rings(readings, settings)})
        all.insert(all.end(), part.begin(), part.end());
    std::stable_sort(all.begin(), all.end(),
                     [](const StringCondition& a, const StringCondition& b) { return a.place < b.place; });
    return all;
}

} // namespace harpkeep
