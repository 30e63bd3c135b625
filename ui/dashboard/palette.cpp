// SPDX-License-Identifier: MIT
#include "ui/dashboard/palette.hpp"

namespace harpkeep::dashboard {

namespace {

constexpr Palette light{{
    rgb(0xF4F0E8), // paper
    rgb(0xFFFDF9), // panel
    rgb(0xEAE3D6), // raised
    rgb(0xDDD3C0), // pressed
    rgb(0xCFC5B2), // line
    rgb(0x231F1A), // ink
    rgb(0x5B5346), // quiet_ink
    rgb(0x6B4423), // wood
    rgb(0xFFF9EE), // on_wood
    rgb(0x8A7F6B), // string_plain
    rgb(0xB3261E), // string_c
    rgb(0x1D4FA3), // string_f
    rgb(0x2F6E62), // fine
    rgb(0x9C5003), // watch
    rgb(0x5E0F77), // out
    rgb(0x55606B), // unsure
    rgb(0xFFFFFF), // on_state
    rgb(0xDCEAE4), // band
}};

constexpr Palette dark{{
    rgb(0x191714), // paper
    rgb(0x23201C), // panel
    rgb(0x322E28), // raised
    rgb(0x453F36), // pressed
    rgb(0x4C463C), // line
    rgb(0xF2ECDF), // ink
    rgb(0xBDB4A3), // quiet_ink
    rgb(0xE0B27E), // wood
    rgb(0x24170A), // on_wood
    rgb(0xA79C87), // string_plain
    rgb(0xFF7B6E), // string_c
    rgb(0x8DB7FF), // string_f
    rgb(0x55C4A2), // fine
    rgb(0xF5CE4A), // watch
    rgb(0xF27BF5), // out
    rgb(0xA9B6C4), // unsure
    rgb(0x14110E), // on_state
    rgb(0x2C3C37), // band
}};

} // namespace

const Palette& palette_of(ThemeKind theme)
{
    return theme == ThemeKind::light ? light : dark;
}

std::vector<InkOnGround> text_pairs()
{
    std::vector<InkOnGround> pairs;
    for (const Tint ground : {Tint::paper, Tint::panel, Tint::raised, Tint::pressed, Tint::band})
        pairs.push_back({Tint::ink, ground});
    for (const Tint ground : {Tint::paper, Tint::panel, Tint::raised})
        pairs.push_back({Tint::quiet_ink, ground});
    for (const Tint ink :
         {Tint::wood, Tint::string_c, Tint::string_f, Tint::fine, Tint::watch, Tint::out, Tint::unsure})
        for (const Tint ground : {Tint::paper, Tint::panel}) pairs.push_back({ink, ground});
    pairs.push_back({Tint::on_wood, Tint::wood});
    for (const Tint ground : {Tint::fine, Tint::watch, Tint::out, Tint::unsure})
        pairs.push_back({Tint::on_state, ground});
    return pairs;
}

} // namespace harpkeep::dashboard
