// SPDX-License-Identifier: MIT
#pragma once

#include "audio/sound_writer.hpp"
#include "base/result.hpp"
#include "units/quantity.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <string>

namespace harpkeep::ui {

/// The sound of a live session as it is kept, on wish.
///
/// Notes  Lost samples are filled with silence, so that times in the file are times of the session.
class LiveRecording {
  public:
    /// Given    path  where to keep it; empty: nothing is kept
    [[nodiscard]] static Result<LiveRecording> open(const std::string& path, Hertz rate);

    [[nodiscard]] Result<void> write(std::span<const float> samples, std::uint64_t first_frame);
    [[nodiscard]] Result<void> finish();

  private:
    std::optional<SoundWriter> writer_;
    std::uint64_t next_frame_ = 0;
};

} // namespace harpkeep::ui
