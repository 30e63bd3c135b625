// SPDX-License-Identifier: MIT
#include "reason/tune_around.hpp"

#include "base/expects.hpp"
#include "harp/expected_pitch.hpp"
#include "reason/position_offsets.hpp"
#include "units/interval.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace harpkeep {

namespace {

/// A used position with what it takes to optimise: where it sounds when the open string is at equal
/// temperament, less where the temperament wants it.
struct Choice {
    UsedPosition used;
    std::size_t semitones = 0;
    std::optional<double> error_cents;
};

/// Share of each position's error in the offset that is chosen.
using Shares = std::array<double, 3>;

double deviation_of(const std::array<double, 12>& deviations, StringPlace place, int alteration)
{
    const int key = key_number(place, alteration);
    return deviations[static_cast<std::size_t>(((key % 12) + 12) % 12)];
}

std::map<int, double> weights_by_alteration(StringPlace place, std::span<const UsedSetting> settings)
{
    std::map<int, double> weights;
    for (const auto& used : settings) weights[used.setting.alteration(place.letter)] += used.weight;
    return weights;
}

/// The offset is minus the middle of the extremes, or minus the weighted mean.
Shares shares_of(const std::vector<Choice>& choices, TuneGoal goal)
{
    Shares shares{};
    std::vector<const Choice*> known;
    for (const auto& choice : choices)
        if (choice.error_cents) known.push_back(&choice);
    if (known.empty()) return shares;
    if (goal == TuneGoal::least_mean_square) {
        double sum = 0.0;
        for (const auto* choice : known) sum += choice->used.weight;
        for (const auto* choice : known) shares[choice->semitones] = choice->used.weight / sum;
        return shares;
    }
    const auto [least, most] =
        std::minmax_element(known.begin(), known.end(), [](const Choice* a, const Choice* b) {
            return *a->error_cents < *b->error_cents;
        });
    shares[(*least)->semitones] += 0.5;
    shares[(*most)->semitones] += 0.5;
    return shares;
}

/// Standard uncertainty of a sum of position offsets with these factors.
double uncertainty_of(const Shares& factors, const PositionOffsets& offsets)
{
    double variance = 0.0;
    for (std::size_t i = 0; i < 3; ++i)
        for (std::size_t j = 0; j < 3; ++j) variance += factors[i] * factors[j] * offsets.covariance[i][j];
    return std::sqrt(std::max(0.0, variance));
}

TunedString tuned_string(const HarpString& string, HarpKind kind, const PositionOffsets& offsets,
                         const TuneAroundRequest& request, std::vector<ImpossibleNote>& impossible)
{
    const auto deviations = deviations_cents(request.temperament);
    std::vector<Choice> choices;
    for (const auto& [alteration, weight] : weights_by_alteration(string.place, request.settings)) {
        const auto position = position_for(kind, string, alteration);
        if (!position) {
            impossible.push_back({string.place, alteration});
            continue;
        }
        Choice choice{.used = {.position = *position, .alteration = alteration, .weight = weight},
                      .semitones = static_cast<std::size_t>(semitones_above_open(*position))};
        if (offsets.cents[choice.semitones])
            choice.error_cents =
                *offsets.cents[choice.semitones] - deviation_of(deviations, string.place, alteration);
        choices.push_back(choice);
    }
    const Shares shares = shares_of(choices, request.goal);
    const double plain_cents = deviation_of(deviations, string.place, string.open_alteration);
    double offset_cents = 0.0;
    bool chosen = false;
    for (const auto& choice : choices) {
        if (!choice.error_cents) continue;
        offset_cents -= shares[choice.semitones] * *choice.error_cents;
        chosen = true;
    }
    if (!chosen) offset_cents = plain_cents; // nothing measured or used: leave it where it belongs

    TunedString tuned{.place = string.place,
                      .position = positions_of(kind, string).front(),
                      .alteration = string.open_alteration,
                      .offset_cents = offset_cents,
                      .moved_cents = offset_cents - plain_cents,
                      .moved_uncertainty_cents = uncertainty_of(shares, offsets)};
    tuned.target_hz =
        raised(equal_temperament(key_number(string.place, string.open_alteration), Hertz{request.a4_hz}),
               Cents{offset_cents})
            .value();
    for (auto& choice : choices) {
        if (choice.error_cents) {
            Shares factors{};
            for (std::size_t i = 0; i < 3; ++i) factors[i] = -shares[i];
            factors[choice.semitones] += 1.0;
            choice.used.before_cents = *choice.error_cents + plain_cents;
            choice.used.before_uncertainty_cents = offsets.uncertainty_cents(choice.semitones);
            choice.used.after_cents = *choice.error_cents + offset_cents;
            choice.used.after_uncertainty_cents = uncertainty_of(factors, offsets);
        }
        tuned.used.push_back(choice.used);
    }
    return tuned;
}

/// A string without discs is tuned to the note that counts most, right where the temperament wants it.
TunedString string_tuned_by_hand(const HarpString& string, HarpKind kind, const TuneAroundRequest& request,
                                 std::vector<ImpossibleNote>& impossible)
{
    const auto weights = weights_by_alteration(string.place, request.settings);
    const auto most = std::max_element(weights.begin(), weights.end(),
                                       [](const auto& a, const auto& b) { return a.second < b.second; });
    for (const auto& [alteration, weight] : weights)
        if (alteration != most->first) impossible.push_back({string.place, alteration});
    const int alteration = most->first;
    const double offset_cents = deviation_of(deviations_cents(request.temperament), string.place, alteration);
    const auto nominal = equal_temperament(key_number(string.place, alteration), Hertz{request.a4_hz});
    return {.place = string.place,
            .position = positions_of(kind, string).front(),
            .alteration = alteration,
            .target_hz = raised(nominal, Cents{offset_cents}).value(),
            .offset_cents = offset_cents,
            .by_hand = alteration != string.open_alteration,
            .has_discs = false,
            .used = {{.position = positions_of(kind, string).front(),
                      .alteration = alteration,
                      .weight = most->second,
                      .before_cents = 0.0,
                      .after_cents = 0.0}}};
}

void take_greater(TuningFigure& greatest, std::optional<StringPlace>& worst, StringPlace place, double cents,
                  double uncertainty_cents)
{
    if (worst && std::abs(cents) <= greatest.cents) return;
    greatest = {std::abs(cents), uncertainty_cents};
    worst = place;
}

void sum_up(TuneAroundResult& result)
{
    double weights = 0.0;
    double squares_before = 0.0, squares_after = 0.0;
    double variance_before = 0.0, variance_after = 0.0; // of the sums of squares, by first order
    for (const auto& string : result.strings) {
        if (!string.has_discs) continue; // tuned to the note by hand: nothing to measure
        for (const auto& used : string.used) {
            ++result.used_positions;
            if (!used.before_cents) {
                ++result.unknown_positions;
                continue;
            }
            take_greater(result.greatest_before, result.worst_before, string.place, *used.before_cents,
                         used.before_uncertainty_cents);
            take_greater(result.greatest_after, result.worst_after, string.place, *used.after_cents,
                         used.after_uncertainty_cents);
            weights += used.weight;
            squares_before += used.weight * *used.before_cents * *used.before_cents;
            squares_after += used.weight * *used.after_cents * *used.after_cents;
            variance_before += std::pow(used.weight * *used.before_cents * used.before_uncertainty_cents, 2);
            variance_after += std::pow(used.weight * *used.after_cents * used.after_uncertainty_cents, 2);
        }
    }
    const auto typical = [weights](double squares, double variance) {
        if (!(weights > 0.0)) return TuningFigure{};
        const double root = std::sqrt(squares / weights);
        return TuningFigure{root, root > 0.0 ? std::sqrt(variance) / (weights * root) : 0.0};
    };
    result.typical_before = typical(squares_before, variance_before);
    result.typical_after = typical(squares_after, variance_after);
}

} // namespace

TuneAroundResult tune_around(const HarpLayout& layout, std::span<const StepError> steps,
                             std::span<const WholeStepError> whole_steps, const TuneAroundRequest& request)
{
    HARPKEEP_EXPECTS(!request.settings.empty());
    for (const auto& used : request.settings) HARPKEEP_EXPECTS(used.weight > 0.0);
    const auto offsets = position_offsets(layout, steps, whole_steps);
    TuneAroundResult result;
    for (const auto& string : layout.strings)
        result.strings.push_back(
            string.has_natural_disc
                ? tuned_string(string, layout.kind, offsets.at(string.place), request, result.impossible)
                : string_tuned_by_hand(string, layout.kind, request, result.impossible));
    sum_up(result);
    return result;
}

} // namespace harpkeep
