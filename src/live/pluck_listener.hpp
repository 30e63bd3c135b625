// SPDX-License-Identifier: MIT
#pragma once

#include "measure/pluck_event.hpp"

#include <cstdint>
#include <span>
#include <vector>

namespace harpkeep {

/// Turns a stream of samples into plucks. It stands between the live part and the engine that measures, so
/// that the one is tested without the other.
class PluckListener {
  public:
    virtual ~PluckListener() = default;

    /// Takes the samples that follow the last ones; `first_frame` is counted from the start of the stream.
    ///
    /// Returns  what they brought to light, in order of pluck and time
    [[nodiscard]] virtual std::vector<PluckEvent> push(std::span<const float> samples,
                                                       std::uint64_t first_frame) = 0;

    /// Samples are missing before `at_frame`: what sounds is ended, nothing is measured across the hole.
    [[nodiscard]] virtual std::vector<PluckEvent> skip_to(std::uint64_t at_frame) = 0;

    /// The stream has ended: what still sounds is ended.
    [[nodiscard]] virtual std::vector<PluckEvent> finish() = 0;
};

} // namespace harpkeep
