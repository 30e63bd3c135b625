// SPDX-License-Identifier: MIT
#include "measure/pluck_judgement.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep {

namespace {

constexpr double least_score = 0.06;    // of a candidate: under this the peaks form no series
constexpr double least_periods = 12.0;  // a string rings longer than that, a knock does not
constexpr double least_decay_s = 0.012; // the shortest strings ring on for 20 ms
constexpr double unsteady_cents = 12.0; // no plucked string is as unsure as that
constexpr double rival_score = 0.45;    // of the best: others are measured too, for the placement to choose

} // namespace

tl::expected<PluckMeasurement, std::string> judge_pluck(const OctavePyramid& sound, const ToneSpan& span,
                                                        std::span<const PitchCandidate> candidates)
{
    if (candidates.empty()) return tl::unexpected<std::string>("nothing new sounds");
    if (candidates.front().score < least_score) return tl::unexpected<std::string>("knock");
    auto measured = measure_tone(sound, span, candidates.front());
    if (!measured) return tl::unexpected<std::string>("knock");
    if (measured->decay_s < least_decay_s || measured->decay_s * measured->frequency_hz < least_periods)
        return tl::unexpected<std::string>("knock");
    if (measured->uncertainty_cents > unsteady_cents)
        return tl::unexpected<std::string>("talk or another unsteady sound");
    for (const auto& other : candidates.subspan(1)) {
        if (other.score < rival_score * candidates.front().score) continue;
        if (auto rival = measure_tone(sound, span, other)) measured->rivals.push_back(std::move(*rival));
    }
    return std::move(*measured);
}

} // namespace harpkeep
