// SPDX-License-Identifier: MIT
#include "reason/ring_contrast.hpp"

#include "stats/robust_scale.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

namespace harpkeep {

namespace {

/// Logarithm of the decay time of each partial in one position, with the number of plucks behind it.
struct Ring {
    std::map<int, std::vector<double>> log_decays;
    int plucks = 0;
};

using StringRings = std::map<Position, Ring>;

bool tells_decay(const PluckMeasurement& pluck)
{
    return std::none_of(pluck.doubts.begin(), pluck.doubts.end(), [](Doubt doubt) {
        return doubt == Doubt::clipped || doubt == Doubt::too_noisy || doubt == Doubt::disturbed ||
               doubt == Doubt::too_short || doubt == Doubt::ambiguous_place || doubt == Doubt::wrong_pitch;
    });
}

std::map<StringPlace, StringRings> rings_of(std::span<const Reading> readings)
{
    std::map<StringPlace, StringRings> rings;
    for (const auto& reading : readings) {
        if (!tells_decay(reading.pluck)) continue;
        auto& ring = rings[reading.place][reading.position];
        ++ring.plucks;
        for (const auto& partial : reading.pluck.partials)
            if (partial.decay_s > 0.0) ring.log_decays[partial.number].push_back(std::log(partial.decay_s));
    }
    return rings;
}

/// Median over shared partials of the log decay in `position` less the mean of the other positions.
std::optional<double> contrast_within(const StringRings& rings, Position position)
{
    std::vector<double> differences;
    for (const auto& [number, decays] : rings.at(position).log_decays) {
        double others = 0.0;
        int count = 0;
        for (const auto& [other, ring] : rings) {
            const auto same = ring.log_decays.find(number);
            if (other == position || same == ring.log_decays.end()) continue;
            others += stats::median(same->second);
            ++count;
        }
        if (count > 0) differences.push_back(stats::median(decays) - others / count);
    }
    if (differences.empty()) return std::nullopt;
    return stats::median(differences);
}

struct Contrast {
    StringPlace place;
    Position position = Position::flat;
    double log_share = 0.0;
    int rests_on = 0;
};

std::vector<Contrast> contrasts_within(const std::map<StringPlace, StringRings>& rings)
{
    std::vector<Contrast> contrasts;
    for (const auto& [place, positions] : rings) {
        int plucks = 0;
        for (const auto& [position, ring] : positions) plucks += ring.plucks;
        for (const auto& [position, ring] : positions)
            if (const auto log_share = contrast_within(positions, position))
                contrasts.push_back({place, position, *log_share, plucks});
    }
    return contrasts;
}

/// Takes out of each contrast the median of the nearest strings in the same position.
std::vector<Contrast> against_neighbours(const std::vector<Contrast>& contrasts)
{
    constexpr std::size_t nearest = 12; // own choice: three or four bad ones among them do no harm
    constexpr std::size_t fewest = 8;
    std::vector<Contrast> result;
    for (const auto& one : contrasts) {
        std::vector<std::pair<int, double>> others; // distance along the harp, contrast
        for (const auto& other : contrasts)
            if (other.position == one.position && other.place != one.place)
                others.emplace_back(std::abs(other.place.diatonic_index() - one.place.diatonic_index()),
                                    other.log_share);
        if (others.size() < fewest) continue;
        std::sort(others.begin(), others.end());
        std::vector<double> near;
        for (std::size_t i = 0; i < std::min(nearest, others.size()); ++i) near.push_back(others[i].second);
        result.push_back({one.place, one.position, one.log_share - stats::median(near), one.rests_on});
    }
    return result;
}

} // namespace

std::vector<RingContrast> ring_contrasts(std::span<const Reading> readings)
{
    const auto contrasts = against_neighbours(contrasts_within(rings_of(readings)));
    std::vector<double> all;
    for (const auto& contrast : contrasts) all.push_back(contrast.log_share);
    if (all.empty()) return {};
    // Plucks of one string differ by a tenth in decay; a smaller scatter is luck.
    const double scale = std::max(0.1, stats::robust_scale(all));

    std::map<StringPlace, RingContrast> shortest;
    for (const auto& contrast : contrasts) {
        const double deviations = contrast.log_share / scale;
        const auto [place, is_new] = shortest.try_emplace(contrast.place);
        if (!is_new && place->second.deviations <= deviations) continue;
        place->second = {.place = contrast.place,
                         .position = contrast.position,
                         .share = std::exp(contrast.log_share),
                         .lower_share = std::exp(contrast.log_share - 1.96 * scale),
                         .upper_share = std::exp(contrast.log_share + 1.96 * scale),
                         .deviations = deviations,
                         .rests_on = contrast.rests_on};
    }
    std::vector<RingContrast> result;
    for (const auto& [place, contrast] : shortest) result.push_back(contrast);
    return result;
}

} // namespace harpkeep
