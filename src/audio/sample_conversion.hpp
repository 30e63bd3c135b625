// SPDX-License-Identifier: MIT
#pragma once

extern "C" {
#include <libavutil/frame.h>
#include <libavutil/samplefmt.h>
}

#include <cstddef>

/// Between FFmpeg's sample formats and interleaved floats; for the source files of this folder only.
namespace harpkeep::ffmpeg {

/// Copies frames out of a decoded frame.
///
/// Given   first, count  frames of `frame` to copy
/// Notes   32-bit integers pass through double, so that only the last rounding to float (24 bits) loses
/// anything.
void copy_to_floats(const AVFrame& frame, int channels, std::size_t first, std::size_t count,
                    float* interleaved);

/// Fills a writable frame from floats; integers are rounded and held to their range.
///
/// Given   bits  resolution to round to: 16, 24 or 32; in wider formats the lower bits stay 0
void copy_from_floats(const float* interleaved, int channels, std::size_t count, int bits, AVFrame& frame);

/// Whether the two functions above know the format.
[[nodiscard]] bool is_convertible(AVSampleFormat format);

} // namespace harpkeep::ffmpeg
