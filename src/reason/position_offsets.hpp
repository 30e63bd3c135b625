// SPDX-License-Identifier: MIT
#pragma once

#include "harp/harp_layout.hpp"
#include "measure/reading.hpp"

#include <array>
#include <map>
#include <optional>
#include <span>

namespace harpkeep {

/// How far each position of one string sounds from equal semitones above its open string: 0 for the open
/// string, the lower step's error for the next, both steps' for the last. By semitones above the open string.
struct PositionOffsets {
    std::array<std::optional<double>, 3> cents{0.0, std::nullopt, std::nullopt};
    /// Covariance of measuring, cents^2; row and column 0 are the open string and zero.
    std::array<std::array<double, 3>, 3> covariance{};

    [[nodiscard]] double uncertainty_cents(std::size_t semitones) const;
};

/// Offsets of every string of the harp from its step errors.
///
/// Notes  Flat to sharp takes the whole step where it was measured, as the natural's error is not in it.
[[nodiscard]] std::map<StringPlace, PositionOffsets>
position_offsets(const HarpLayout& layout, std::span<const StepError> steps,
                 std::span<const WholeStepError> whole_steps);

} // namespace harpkeep
