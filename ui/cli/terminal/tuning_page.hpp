// SPDX-License-Identifier: MIT
#pragma once

#include "harp/harp_layout.hpp"
#include "live/tuning_aid.hpp"
#include "ui/cli/terminal/canvas.hpp"

#include <string>

namespace harpkeep::cli {

struct TuningPageFrame {
    std::string harp_name;
    std::string tuned_to; ///< "A4 440.0 Hz, equal temperament, all pedals up"
    std::string trouble;  ///< of the microphone; empty when all is well
    Cents tolerance{1.0};
};

/// Draws the tuning aid: the sounding string as a line that is straight in tune, its name and cents in large
/// letters, and all strings of the harp in a row (docs/decisions/pitch-as-a-straight-string.md).
void draw_tuning(Canvas& canvas, const TuningView& view, const HarpLayout& layout,
                 const TuningPageFrame& frame);

/// One sign for each string, lowest first: "|" in tune, "(" flat, ")" sharp, a dot where none was heard in
/// this pass; octaves apart by a space below each F.
[[nodiscard]] std::string string_row(const std::vector<StringTuning>& strings);

} // namespace harpkeep::cli
