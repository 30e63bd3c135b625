// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"

#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace harpkeep {

namespace ffmpeg {
struct Decoder;
}

struct SoundFileInfo {
    std::string container;       ///< "wav", "mov,mp4,m4a,..." as FFmpeg names it
    std::string codec;           ///< "flac", "aac", ...
    double sample_rate_hz = 0.0; ///< as recorded; nothing is resampled, which would move the pitch
    int channels = 0;
    int bits_per_sample = 0; ///< 0 for lossy codecs
    std::optional<double>
        duration_s; ///< what the file promises; nothing when it does not say or only estimates
};

/// A recording read from front to back, whatever the container and codec, without ever holding more than one
/// packet of it.
///
/// Notes     Reads wav, w64, RF64, flac, ogg, opus, mp3, m4a/AAC, aiff, caf, au, amr, and the best audio
/// track of
///           mp4, mov, 3gp, mkv, webm, avi, asf and mpegts. Names never reach another protocol than the file
///           itself. Delays that an encoder puts in front are removed as the file says. Damaged or missing
///           pieces become silence of their length, so that time stays true, and are told in remarks().
class SoundFile {
  public:
    /// Returns  the opened file, or why it cannot be read and what can: missing, a folder, empty, no sound in
    /// it,
    ///          copy-protected
    [[nodiscard]] static Result<SoundFile> open(const std::string& path);

    SoundFile(SoundFile&&) noexcept;
    SoundFile& operator=(SoundFile&&) noexcept;
    ~SoundFile();

    [[nodiscard]] const SoundFileInfo& info() const;

    /// Reads the next samples, channel by channel within each frame.
    ///
    /// Given    interleaved  room for a whole number of frames, at least one
    /// Returns  frames read, 0 at the end, or what the system said when it could not read on. Integers of up
    /// to 24 bits arrive exactly; values may lie beyond +-1 in
    ///          float files and lossy codecs.
    [[nodiscard]] Result<std::size_t> read(std::span<float> interleaved);

    /// Frames read so far.
    [[nodiscard]] std::uint64_t position() const;

    /// What a player should know: damaged pieces, missing sound, a file that ends before it promised.
    /// Complete once read() has returned 0.
    [[nodiscard]] std::vector<std::string> remarks() const;

  private:
    explicit SoundFile(std::unique_ptr<ffmpeg::Decoder> decoder);
    std::unique_ptr<ffmpeg::Decoder> decoder_;
};

/// The kinds of file that open() reads, for messages and help.
[[nodiscard]] std::string readable_kinds();

} // namespace harpkeep
