// SPDX-License-Identifier: MIT
#pragma once

#include "harp/position.hpp"
#include "harp/string_place.hpp"
#include "reason/conformity.hpp"

#include <map>
#include <optional>

namespace harpkeep {

/// What a harp's steps are judged against, in cents from 100 (or 200 for flat to sharp).
///
/// Notes  No open source states a tolerance for harps: every figure here is this project's own choice and is
///        shown as such until the user changes it. Octaves 0 and 1 lean to the wide side, as technicians may
///        set them a little wide for strong players ("Rules and regulations", a page title).
struct ToleranceSettings {
    ToleranceBand standard{-5.0, 5.0};
    std::map<int, ToleranceBand> by_harp_octave{{0, {-3.0, 8.0}}, {1, {-3.0, 8.0}}};
    double whole_step_factor = 1.5; ///< flat to sharp may be off by so much more than one step
    double watch_share = 0.5;       ///< beyond this share of the tolerance a step is watched
    DecisionRule rule;

    bool operator==(const ToleranceSettings&) const = default;
    /// Whether nobody has changed the project's own choice.
    [[nodiscard]] bool is_project_default() const { return *this == ToleranceSettings{}; }
};

/// Band of one step of a string; of flat to sharp when `step` is nothing.
[[nodiscard]] ToleranceBand tolerance_of(const ToleranceSettings& settings, StringPlace place,
                                         std::optional<Step> step);

/// Inner band, outside of which a step is watched.
[[nodiscard]] ToleranceBand watch_band_of(const ToleranceSettings& settings, StringPlace place,
                                          std::optional<Step> step);

} // namespace harpkeep
