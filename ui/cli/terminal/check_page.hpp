// SPDX-License-Identifier: MIT
#pragma once

#include "harp/harp_layout.hpp"
#include "live/guided_check.hpp"
#include "ui/cli/terminal/canvas.hpp"

#include <string>

namespace harpkeep::cli {

/// What the page of a guided check says besides the check itself.
struct CheckPageFrame {
    std::string harp_name;
    std::string trouble; ///< of the microphone: lost, silent, being opened; empty when all is well
    std::string advice;  ///< on room, level and device; empty when all is good
    std::optional<Decibels> level;
};

/// Draws a guided check: setting to make, next string and what is heard in letters that read from two metres.
void draw_check(Canvas& canvas, const GuidedCheckView& view, const HarpLayout& layout,
                const CheckPageFrame& frame);

/// "4C" with the accidental that it sounds in this position: "4C\u266D".
[[nodiscard]] std::string sounding_name(const HarpLayout& layout, const CheckTarget& target);

/// Red for C, blue for F, as the strings are dyed (common practice); others plain.
[[nodiscard]] Ink string_ink(StringPlace place);

/// "D\u266D C\u266D B\u266D | E\u266D F\u266D G\u266D A\u266D", the pedals as the player sees them; a dot
/// where it does not matter.
[[nodiscard]] std::string setting_text(const LetterPositions& setting, HarpKind kind);

} // namespace harpkeep::cli
