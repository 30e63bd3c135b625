// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/models/common.hpp"
#include "ui/dashboard/widgets/marks.hpp"
#include "ui/dashboard/widgets/picture.hpp"

#include <vector>

namespace harpkeep::dashboard {

/// A string as drawn: its step marks sit where the discs sit, the upper disc for flat to natural.
struct DrawnString {
    StringPlace place;
    std::string label;
    State lower = State::none;
    State upper = State::none;
    Lean lower_lean = Lean::level;
    Lean upper_lean = Lean::level;
    bool faint = false; ///< not reached yet, or no string on the place
    bool strong = false;
};

/// What the drawing needs to know about a step to show it in the strip under the harp.
struct DrawnStep {
    State state = State::none;
    std::optional<Figure> error_cents;
    double low_cents = -5.0;
    double high_cents = 5.0;
};

/// A strip of one step under the strings: each error with twice its uncertainty, against the band.
struct DrawnStrip {
    std::string title;            ///< "flat to natural, cents from 100"
    std::vector<DrawnStep> steps; ///< one for each string
};

struct HarpDrawing {
    std::vector<DrawnString> strings; ///< lowest first
    std::vector<DrawnStrip> strips;   ///< none, one or two
    int chosen = -1;                  ///< index into strings
    bool dark_f = false;
    double strip_reach_cents = 12.0; ///< half the height of a strip; larger errors are drawn at its edge
};

/// Where string `index` of `count` stands, in units of design from the drawing's left edge.
[[nodiscard]] float string_x(int index, int count, float width);

/// The strings of a harp hung between neck and soundboard as seen by the audience, the long ones left, each
/// in its own colour, with the strips standing in line under them.
///
/// Given  width, height  units of design, clamped to at least 240 by 120
/// Notes  lengths are drawn, not measured: the top string is 1/21 of the lowest of 47, and the doubling for
///        each octave flattens towards the bass as on real harps
[[nodiscard]] Picture harp_picture(const HarpDrawing& drawing, float width, float height,
                                   const Palette& palette, const TextMeasure& measure);

/// Tint of a string by its letter: red C, blue or black F.
[[nodiscard]] Tint string_tint(Letter letter, bool dark_f);
/// Colour of a string by its letter.
[[nodiscard]] Colour string_colour(Letter letter, const Palette& palette, bool dark_f);

} // namespace harpkeep::dashboard
