// SPDX-License-Identifier: MIT
#include "stats/life_observation.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep::stats {

LifeEvidence evidence_of(std::span<const LifeObservation> lives)
{
    LifeEvidence evidence;
    for (const auto& life : lives) {
        ++evidence.observations;
        evidence.failures += life.failed ? 1 : 0;
        evidence.exposure += life.exit - life.entry;
    }
    return evidence;
}

bool well_formed(std::span<const LifeObservation> lives)
{
    return std::all_of(lives.begin(), lives.end(), [](const LifeObservation& life) {
        return life.entry >= 0.0 && life.entry < life.exit && std::isfinite(life.exit);
    });
}

} // namespace harpkeep::stats
