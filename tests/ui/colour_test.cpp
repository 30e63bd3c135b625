// SPDX-License-Identifier: MIT
#include "ui/dashboard/palette.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace harpkeep::dashboard;

TEST_CASE("contrast: black on white is 21, a colour on itself is 1", "[ui][reference]")
{
    // W3C, Web Content Accessibility Guidelines 2.1 (from memory): the range of the ratio is 1 to 21.
    CHECK(contrast_ratio(rgb(0x000000), rgb(0xFFFFFF)) == Approx(21.0).margin(1e-9)); // rounding
    CHECK(contrast_ratio(rgb(0x336699), rgb(0x336699)) == Approx(1.0).margin(1e-9));  // rounding
    // #767676 is known as the lightest grey that passes 4.5 on white (from memory).
    CHECK(contrast_ratio(rgb(0x767676), rgb(0xFFFFFF)) >= 4.5);
    CHECK(contrast_ratio(rgb(0x777777), rgb(0xFFFFFF)) < 4.5);
}

TEST_CASE("palette: every ink reads on every ground it is drawn on", "[ui]")
{
    const auto theme = GENERATE(ThemeKind::light, ThemeKind::dark);
    const auto& palette = palette_of(theme);
    for (const auto& [ink, ground] : text_pairs()) {
        CAPTURE(static_cast<int>(theme), static_cast<int>(ink), static_cast<int>(ground), hex(palette[ink]),
                hex(palette[ground]));
        CHECK(contrast_ratio(palette[ink], palette[ground]) >= 4.5); // WCAG 2.1 success criterion 1.4.3
    }
}

TEST_CASE("palette: strings, marks and rings stand out of the ground", "[ui]")
{
    const auto theme = GENERATE(ThemeKind::light, ThemeKind::dark);
    const auto& palette = palette_of(theme);
    for (const Tint shape : {Tint::string_plain, Tint::string_c, Tint::string_f, Tint::fine, Tint::watch,
                             Tint::out, Tint::unsure, Tint::wood, Tint::ink})
        for (const Tint ground : {Tint::paper, Tint::panel}) {
            CAPTURE(static_cast<int>(theme), static_cast<int>(shape), static_cast<int>(ground));
            CHECK(contrast_ratio(palette[shape], palette[ground]) >=
                  3.0); // WCAG 2.1 success criterion 1.4.11
        }
    for (const Tint mark : {Tint::fine, Tint::watch, Tint::out})
        CHECK(contrast_ratio(palette[mark], palette[Tint::band]) >= 3.0);
}

TEST_CASE("sight: greys stay grey when a cone is missing", "[ui][property]")
{
    const auto sight = GENERATE(Sight::no_long_cones, Sight::no_middle_cones, Sight::no_short_cones);
    for (int grey = 0; grey <= 255; grey += 15) {
        const auto level = static_cast<std::uint8_t>(grey);
        const Colour seen = as_seen({level, level, level}, sight);
        // The rows of the matrices add up to 1 to six decimals; one step of 8 bits is left for rounding.
        CHECK(std::abs(seen.red - grey) <= 1);
        CHECK(std::abs(seen.green - grey) <= 1);
        CHECK(std::abs(seen.blue - grey) <= 1);
    }
}

TEST_CASE("palette: the states that ask for action differ for every kind of eyes", "[ui]")
{
    const auto theme = GENERATE(ThemeKind::light, ThemeKind::dark);
    const auto sight =
        GENERATE(Sight::full, Sight::no_long_cones, Sight::no_middle_cones, Sight::no_short_cones);
    const auto& palette = palette_of(theme);
    const std::array<Tint, 3> states{Tint::fine, Tint::watch, Tint::out};
    for (std::size_t i = 0; i < states.size(); ++i)
        for (std::size_t k = i + 1; k < states.size(); ++k) {
            CAPTURE(static_cast<int>(theme), static_cast<int>(sight), static_cast<int>(states[i]),
                    static_cast<int>(states[k]));
            // Ten just noticeable differences of 2.3; the shapes carry the meaning, colour only helps.
            CHECK(difference(as_seen(palette[states[i]], sight), as_seen(palette[states[k]], sight)) >= 23.0);
        }
}

TEST_CASE("difference: white and black are 100 apart in lightness", "[ui][reference]")
{
    CHECK(difference(rgb(0xFFFFFF), rgb(0x000000)) ==
          Approx(100.0).margin(0.05)); // four decimals of the matrix
    CHECK(difference(rgb(0x123456), rgb(0x123456)) == 0.0);
}
