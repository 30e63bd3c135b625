// SPDX-License-Identifier: MIT
#include "live/string_locator.hpp"

#include "base/expects.hpp"
#include "harp/expected_pitch.hpp"
#include "units/interval.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep {

namespace {

constexpr double widest_deviation_cents = 70.0; // beyond it the next semitone is nearer for sure

constexpr double rival_cost = 3.5; // the engine's second choice of pitch is right in 3 of 100
constexpr double unmeasured_cost = 4.0;
constexpr Hertz octaves_are_missed_below{131.0}; // 5C: the fundamentals of the bass are weak
constexpr Cents same_pitch{35.0};
constexpr double most_for_a_retake = 5.5; // out of turn or 15 cents off, but not both
constexpr double cost_for_each_string_away = 0.25;
constexpr double cost_for_each_beginning_left_out = 1.0;
constexpr int farthest_counted = 8; // an octave

/// Where a string should sound, as a narrow and a wide bell around one pitch.
struct Prediction {
    Hertz frequency;
    double narrow_cents;
    double wide_cents;
    double wide_share;
};

bool contains(const std::vector<CheckTarget>& targets, const CheckTarget& target)
{
    return std::find(targets.begin(), targets.end(), target) != targets.end();
}

Prediction predict(const HarpString& string, Position position, const LocatorKnowledge& knowledge,
                   Cents offset)
{
    // Last reading first: a string sinks while it is played.
    for (auto known = knowledge.known.rbegin(); known != knowledge.known.rend(); ++known)
        if (known->target == CheckTarget{string.place, position}) return {known->frequency, 2.0, 10.0, 0.2};
    for (auto known = knowledge.known.rbegin(); known != knowledge.known.rend(); ++known) {
        if (known->target.place != string.place) continue;
        const int semitones = semitones_above_open(position) - semitones_above_open(known->target.position);
        return {raised(known->frequency, Cents{100.0 * semitones}), 6.0, 20.0, 0.2};
    }
    return {raised(expected_pitch(string, position, knowledge.a4), offset), 12.0, 35.0, 0.2};
}

double deviation_cost(const Prediction& prediction, double deviation_cents)
{
    const auto bell = [&](double width) {
        const double z = deviation_cents / width;
        return std::exp(-0.5 * z * z) / width;
    };
    const double density = (1.0 - prediction.wide_share) * bell(prediction.narrow_cents) +
                           prediction.wide_share * bell(prediction.wide_cents);
    // in units of the widest prediction's width, so that a usual deviation costs about nothing
    return -std::log(density * 12.0);
}

/// Minus log odds of each Fit, from how players behave: most go on in order, some skip a string, few pluck
/// one twice, and a pedal is left behind about as often.
double fit_cost(Fit fit)
{
    switch (fit) {
    case Fit::awaited:
        return 0.0;
    case Fit::pending:
        return 2.0;
    case Fit::again:
        return 2.5;
    case Fit::other_position:
        return 3.0;
    case Fit::earlier:
        return 3.5;
    case Fit::next_part: // the player has gone on although strings are missing
        return 1.5;
    case Fit::not_asked:
        return 6.0;
    case Fit::far_position:
        return 5.0;
    }
    return 0.0;
}

bool is_awaited_place(const LocatorKnowledge& knowledge, StringPlace place)
{
    return std::any_of(knowledge.awaited.begin(), knowledge.awaited.end(),
                       [&](const CheckTarget& target) { return target.place == place; });
}

Fit fit_of(const CheckTarget& target, const LocatorKnowledge& knowledge)
{
    if (contains(knowledge.awaited, target)) return Fit::awaited;
    if (contains(knowledge.pending, target)) return Fit::pending;
    if (knowledge.last && *knowledge.last == target) return Fit::again;
    if (contains(knowledge.done, target)) return Fit::earlier;
    if (contains(knowledge.next_part, target) && !is_awaited_place(knowledge, target.place))
        return Fit::next_part;
    const auto set = knowledge.setting[static_cast<std::size_t>(target.place.letter)];
    if (!set || *set == target.position) return Fit::not_asked;
    return is_awaited_place(knowledge, target.place) ? Fit::other_position : Fit::far_position;
}

/// What is known of the pedal that would have to stand in a forbidden position.
double pedal_cost(Fit fit, const CheckTarget& target, const LocatorKnowledge& knowledge)
{
    if (fit != Fit::other_position && fit != Fit::far_position) return 0.0;
    const auto index = static_cast<std::size_t>(target.place.letter);
    const int notches_off =
        std::abs(semitones_above_open(target.position) - semitones_above_open(*knowledge.setting[index]));
    double cost = notches_off > 1 ? 2.0 : 0.0;
    // One pedal works all its strings; a lever says nothing about the others.
    if (knowledge.layout->kind == HarpKind::lever) return cost;
    if (knowledge.suspected[index]) cost -= 2.0;
    if (knowledge.setting_in_doubt) return cost - 1.5;
    // A pedal that was right can slip: so this never speaks against the string that is awaited.
    return cost + (knowledge.confirmed[index] && fit == Fit::far_position ? 3.0 : 0.0);
}

/// What it costs to lie far from what comes next.
double distance_cost(const LocatorKnowledge& knowledge, const CheckTarget& candidate, Fit fit)
{
    if (fit == Fit::next_part) { // in the order in which they are begun with
        const auto found = std::find(knowledge.next_part.begin(), knowledge.next_part.end(), candidate);
        return cost_for_each_beginning_left_out * static_cast<double>(found - knowledge.next_part.begin());
    }
    int nearest = farthest_counted;
    for (const CheckTarget& target : knowledge.awaited)
        nearest =
            std::min(nearest, std::abs(target.place.diatonic_index() - candidate.place.diatonic_index()));
    return cost_for_each_string_away * nearest;
}

/// One pitch that the sound may have.
struct PossiblePitch {
    Hertz frequency;
    bool measured = true;
    std::size_t rival = 0;
    double cost = 0.0;
};

std::vector<PossiblePitch> possible_pitches(const PluckMeasurement& pluck)
{
    std::vector<PossiblePitch> pitches;
    if (pluck.frequency_hz > 0.0) pitches.push_back({.frequency = Hertz{pluck.frequency_hz}});
    for (std::size_t k = 0; k < pluck.rivals.size(); ++k)
        if (pluck.rivals[k].frequency_hz > 0.0)
            pitches.push_back(
                {.frequency = Hertz{pluck.rivals[k].frequency_hz}, .rival = k + 1, .cost = rival_cost});
    if (pitches.empty()) return pitches;
    const Hertz octave_below = pitches.front().frequency * 0.5;
    const bool known = std::any_of(pitches.begin(), pitches.end(), [&](const PossiblePitch& pitch) {
        return std::abs(interval(pitch.frequency, octave_below).value()) < same_pitch.value();
    });
    if (!known && octave_below < octaves_are_missed_below)
        pitches.push_back({.frequency = octave_below, .measured = false, .cost = unmeasured_cost});
    return pitches;
}

void add_candidates(const PossiblePitch& pitch, Cents offset, const LocatorKnowledge& knowledge,
                    std::vector<StringCandidate>& candidates)
{
    for (const HarpString& string : knowledge.layout->strings)
        for (const Position position : positions_of(knowledge.layout->kind, string)) {
            const Prediction prediction = predict(string, position, knowledge, offset);
            const Cents deviation = interval(prediction.frequency, pitch.frequency);
            if (std::abs(deviation.value()) > widest_deviation_cents) continue;
            const CheckTarget target{string.place, position};
            const Fit fit = fit_of(target, knowledge);
            const double pitch_cost = deviation_cost(prediction, deviation.value());
            const double cost = pitch_cost + fit_cost(fit) + pedal_cost(fit, target, knowledge) + pitch.cost +
                                distance_cost(knowledge, target, fit);
            candidates.push_back({target, fit, pitch.measured, pitch.rival, deviation, pitch_cost, cost});
        }
}

} // namespace

std::vector<StringCandidate> locate_string(const PluckMeasurement& pluck, const LocatorKnowledge& knowledge)
{
    HARPKEEP_EXPECTS(knowledge.layout);
    const Cents offset = whole_harp_offset(*knowledge.layout, knowledge.known, knowledge.a4);
    std::vector<StringCandidate> candidates;
    for (const PossiblePitch& pitch : possible_pitches(pluck))
        add_candidates(pitch, offset, knowledge, candidates);
    std::stable_sort(candidates.begin(), candidates.end(),
                     [](const StringCandidate& a, const StringCandidate& b) { return a.cost < b.cost; });
    return candidates;
}

PluckMeasurement at_pitch_of(const PluckMeasurement& pluck, const StringCandidate& candidate)
{
    HARPKEEP_EXPECTS(candidate.measured);
    PluckMeasurement chosen = candidate.rival == 0 ? pluck : pluck.rivals[candidate.rival - 1];
    chosen.rivals.clear();
    return chosen;
}

bool is_clear(const std::vector<StringCandidate>& candidates, bool in_doubt, int asked_before)
{
    if (candidates.empty() || !candidates[0].measured) return false;
    const Fit best = candidates[0].fit;
    const bool kept_before = best == Fit::again || best == Fit::earlier;
    if (kept_before && candidates[0].cost > most_for_a_retake) return false;
    if (candidates.size() < 2) return true;
    const Fit second = candidates[1].fit;
    const bool second_forbidden = second == Fit::other_position || second == Fit::far_position;
    double margin = 1.5; // odds of 4.5 to 1
    if (best == Fit::awaited && asked_before >= 2)
        margin = 0.2;
    else if (second == Fit::next_part)
        margin = 2.0; // 7 to 1: it is the one part or the other that would get a wrong reading
    else if (in_doubt && second_forbidden)
        margin = 4.0; // 55 to 1
    else if (kept_before)
        margin = 2.5; // 12 to 1
    return candidates[1].cost - candidates[0].cost >= margin;
}

Cents whole_harp_offset(const HarpLayout& layout, const std::vector<KnownPitch>& known, Hertz a4)
{
    std::vector<double> deviations_cents;
    for (const KnownPitch& pitch : known)
        if (const HarpString* string = find_string(layout, pitch.target.place))
            deviations_cents.push_back(
                interval(expected_pitch(*string, pitch.target.position, a4), pitch.frequency).value());
    if (deviations_cents.size() < 3) return Cents{0.0};
    const auto middle = deviations_cents.begin() + static_cast<std::ptrdiff_t>(deviations_cents.size() / 2);
    std::nth_element(deviations_cents.begin(), middle, deviations_cents.end());
    return Cents{*middle};
}

} // namespace harpkeep
