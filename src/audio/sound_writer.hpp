// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"

#include <cstdint>
#include <memory>
#include <span>
#include <string>

namespace harpkeep {

struct SoundWriterSettings {
    int sample_rate_hz = 48000;
    int channels = 1;
    int bits_per_sample = 24; ///< 16, 24 or (wav only) 32; lossy codecs have none
};

/// Writes a recording while it grows. What was written so far can be read even when the program ends early.
///
/// Notes    The ending of the name chooses the kind: .flac to keep recordings; .wav, .aiff, .caf, .m4a, .mov,
/// .mp4,
///          .ogg, .opus, .mp3 as well, where this computer's FFmpeg has the encoder.
class SoundWriter {
  public:
    /// Returns  the open file, or why it cannot be: unknown ending, no leave to write, rate or channels that
    /// the
    ///          kind of file does not hold
    [[nodiscard]] static Result<SoundWriter> create(const std::string& path,
                                                    const SoundWriterSettings& settings);

    SoundWriter(SoundWriter&&) noexcept;
    SoundWriter& operator=(SoundWriter&&) noexcept;
    /// Finishes the file if finish() was not called; only finish() can tell whether that went well.
    ~SoundWriter();

    /// Appends whole frames, channel by channel within each; values beyond +-1 are held there.
    [[nodiscard]] Result<void> write(std::span<const float> interleaved);

    /// Writes what is still held and closes the file.
    [[nodiscard]] Result<void> finish();

    /// Frames written so far.
    [[nodiscard]] std::uint64_t position() const;

  private:
    struct Encoder;
    explicit SoundWriter(std::unique_ptr<Encoder> encoder);
    std::unique_ptr<Encoder> encoder_;
};

} // namespace harpkeep
