// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/colour.hpp"

#include <array>
#include <vector>

namespace harpkeep::dashboard {

enum class ThemeKind { light, dark };

/// Every colour of the window by its job. Wood and gut carry the surfaces, red C and blue F the strings; the
/// states keep away from red and blue, so that a red string never looks like a fault.
enum class Tint {
    paper,     ///< ground of the window
    panel,     ///< ground of a card
    raised,    ///< ground of a control, a table head, the rail
    pressed,   ///< ground of a control under the pointer
    line,      ///< hairlines
    ink,       ///< text
    quiet_ink, ///< secondary text
    wood,      ///< neck, column, chosen things
    on_wood,   ///< text on wood
    string_plain,
    string_c,
    string_f,
    fine,     ///< within tolerance
    watch,    ///< nearing it
    out,      ///< beyond it
    unsure,   ///< not proven, not measured
    on_state, ///< text on a filled state
    band,     ///< the tolerance band
    count
};

struct Palette {
    std::array<Colour, static_cast<std::size_t>(Tint::count)> colours;

    [[nodiscard]] constexpr Colour operator[](Tint tint) const
    {
        return colours[static_cast<std::size_t>(tint)];
    }
};

[[nodiscard]] const Palette& palette_of(ThemeKind theme);

/// An ink and a ground it is really drawn on.
struct InkOnGround {
    Tint ink;
    Tint ground;
};

/// Every pair in which text is drawn; the tests hold each to a contrast of 4.5.
[[nodiscard]] std::vector<InkOnGround> text_pairs();

} // namespace harpkeep::dashboard
