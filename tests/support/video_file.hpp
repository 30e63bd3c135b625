// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <string>

namespace harpkeep::tests {

/// Writes half a minute of grey pictures as a phone would, with or without a mono sound track.
///
/// Given  path   ends in .mp4 or .mov
///        sound  48 kHz samples; empty for none
void write_video(const std::string& path, std::span<const float> sound);

} // namespace harpkeep::tests
