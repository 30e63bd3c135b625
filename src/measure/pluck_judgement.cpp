// SPDX-License-Identifier: MIT
#include "measure/pluck_judgement.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep {

namespace {

constexpr double least_score = 0.06;       // of a candidate: under this the peaks form no series
constexpr double least_periods = 30.0;     // of its longest partial: a string rings longer, a knock does not
constexpr double least_decay_s = 0.012;    // the shortest strings ring on for 20 ms
constexpr double lone_partial_hz = 1000.0; // a string lower than that has more than one partial
constexpr double unsteady_cents = 6.0;     // no plucked string is as unsure as that: coughs and voices are
constexpr double unsure_cents = 2.5;       // may be a string, but nothing to set a harp by
constexpr double rival_score = 0.45; // of the best: others are measured too, for the placement to choose

/// A knock dies within a few periods; low strings are judged by the partials that carry them.
bool is_knock(const PluckMeasurement& measured)
{
    double periods = 0.0;
    for (const auto& partial : measured.partials)
        periods = std::max(periods, partial.decay_s * partial.frequency_hz);
    return measured.decay_s < least_decay_s || periods < least_periods ||
           (measured.partials.size() == 1 && measured.frequency_hz < lone_partial_hz);
}

/// A pitch that the doubtful uncertainty of a reading leaves too open to be used.
void doubt_unsure(PluckMeasurement& measured)
{
    const bool known =
        std::find(measured.doubts.begin(), measured.doubts.end(), Doubt::too_noisy) != measured.doubts.end();
    if (measured.uncertainty_cents > unsure_cents && !known) measured.doubts.push_back(Doubt::too_noisy);
}

} // namespace

tl::expected<PluckMeasurement, std::string> judge_pluck(const OctavePyramid& sound, const ToneSpan& span,
                                                        std::span<const PitchCandidate> candidates)
{
    if (candidates.empty()) return tl::unexpected<std::string>("nothing new sounds");
    if (candidates.front().score < least_score) return tl::unexpected<std::string>("knock");
    auto measured = measure_tone(sound, span, candidates.front());
    if (!measured) return tl::unexpected<std::string>("knock");
    if (is_knock(*measured)) return tl::unexpected<std::string>("knock");
    if (measured->uncertainty_cents > unsteady_cents)
        return tl::unexpected<std::string>("talk or another unsteady sound");
    for (const auto& other : candidates.subspan(1)) {
        if (other.score < rival_score * candidates.front().score) continue;
        auto rival = measure_tone(sound, span, other);
        if (!rival) continue;
        doubt_unsure(*rival);
        measured->rivals.push_back(std::move(*rival));
    }
    doubt_unsure(*measured);
    return std::move(*measured);
}

} // namespace harpkeep
