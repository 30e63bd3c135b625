// SPDX-License-Identifier: MIT
#pragma once

#include "audio/channel_choice.hpp"
#include "audio/signal_condition.hpp"
#include "audio/sound_file.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace harpkeep {

/// A recording as one signal, at its own rate, read from front to back.
///
/// Notes   Of several channels the best is chosen from the beginning: after ten seconds in which something
/// sounds, at
///         latest after a minute (or 32 MB). These seconds are kept and handed out, so the file is decoded
///         once.
class MonoStream {
  public:
    [[nodiscard]] static Result<MonoStream> open(const std::string& path);

    [[nodiscard]] const SoundFileInfo& info() const { return file_.info(); }
    [[nodiscard]] double sample_rate_hz() const { return file_.info().sample_rate_hz; }
    [[nodiscard]] const ChannelChoice& choice() const { return choice_; }

    /// Returns  samples read; 0 at the end
    [[nodiscard]] Result<std::size_t> read(std::span<float> mono);

    /// Share of the recording handed out, 0 to 1; nothing when the file does not say how long it is.
    [[nodiscard]] std::optional<double> progress() const;

    /// Of what was read so far; complete once read() has returned 0.
    [[nodiscard]] SignalCondition condition() const;

    /// Damage to the file and advice about the sound, for the player; complete once read() has returned 0.
    [[nodiscard]] std::vector<std::string> remarks() const;

  private:
    explicit MonoStream(SoundFile file);
    [[nodiscard]] Result<void> choose();

    SoundFile file_;
    ChannelSurvey survey_;
    ChannelChoice choice_;
    std::vector<float> ahead_; ///< interleaved, read for the choice
    std::size_t ahead_used_ = 0;
    std::vector<float> piece_;
    std::uint64_t handed_out_ = 0;
};

} // namespace harpkeep
