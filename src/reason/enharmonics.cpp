// SPDX-License-Identifier: MIT
#include "reason/enharmonics.hpp"

#include "harp/expected_pitch.hpp"
#include "stats/summary.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

namespace harpkeep {

namespace {

struct MeanPitch {
    double frequency_hz = 0.0;
    double uncertainty_cents = 0.0;
    int count = 0;
};

using PitchKey = std::pair<StringPlace, Position>;

std::map<PitchKey, MeanPitch> mean_pitches(std::span<const Reading> readings)
{
    std::map<PitchKey, std::vector<const PluckMeasurement*>> groups;
    for (const auto& reading : readings)
        if (reading.pluck.trusted() && reading.pluck.uncertainty_cents > 0.0)
            groups[{reading.place, reading.position}].push_back(&reading.pluck);
    std::map<PitchKey, MeanPitch> means;
    for (const auto& [key, plucks] : groups) {
        std::vector<double> cents;
        std::vector<double> uncertainties;
        const double origin_hz = plucks.front()->frequency_hz;
        for (const auto* pluck : plucks) {
            cents.push_back(1200.0 * std::log2(pluck->frequency_hz / origin_hz));
            uncertainties.push_back(pluck->uncertainty_cents);
        }
        const auto mean = stats::weighted_mean(cents, uncertainties);
        // Plucks that disagree by more than they state raise the uncertainty (Birge).
        means[key] = {origin_hz * std::exp2(mean.value / 1200.0),
                      mean.uncertainty * std::max(1.0, mean.birge_ratio), static_cast<int>(plucks.size())};
    }
    return means;
}

} // namespace

std::vector<EnharmonicPair> compare_enharmonics(const HarpLayout& layout, std::span<const Reading> readings)
{
    const auto pitches = mean_pitches(readings);
    std::vector<EnharmonicPair> pairs;
    for (std::size_t i = 0; i + 1 < layout.strings.size(); ++i) {
        const auto& lower = layout.strings[i];
        const auto& upper = layout.strings[i + 1];
        for (const Position a : positions_of(layout.kind, lower)) {
            for (const Position b : positions_of(layout.kind, upper)) {
                if (key_number(lower.place, alteration_of(lower, a)) !=
                    key_number(upper.place, alteration_of(upper, b)))
                    continue;
                const auto x = pitches.find({lower.place, a});
                const auto y = pitches.find({upper.place, b});
                if (x == pitches.end() || y == pitches.end()) continue;
                pairs.push_back(
                    {.lower_place = lower.place,
                     .upper_place = upper.place,
                     .lower_position = a,
                     .upper_position = b,
                     .frequency_hz = x->second.frequency_hz,
                     .cents = 1200.0 * std::log2(y->second.frequency_hz / x->second.frequency_hz),
                     .uncertainty_cents =
                         std::hypot(x->second.uncertainty_cents, y->second.uncertainty_cents),
                     .beats_per_second = std::abs(y->second.frequency_hz - x->second.frequency_hz),
                     .rests_on = x->second.count + y->second.count});
            }
        }
    }
    return pairs;
}

} // namespace harpkeep
