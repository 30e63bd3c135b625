// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <string>

namespace harpkeep::dashboard {

/// An sRGB colour, 8 bits a channel.
struct Colour {
    std::uint8_t red = 0;
    std::uint8_t green = 0;
    std::uint8_t blue = 0;
    std::uint8_t alpha = 255;

    bool operator==(const Colour&) const = default;
};

/// The colour written 0xRRGGBB.
[[nodiscard]] constexpr Colour rgb(std::uint32_t code)
{
    return {static_cast<std::uint8_t>(code >> 16U), static_cast<std::uint8_t>(code >> 8U),
            static_cast<std::uint8_t>(code)};
}

[[nodiscard]] constexpr Colour with_alpha(Colour colour, std::uint8_t alpha)
{
    colour.alpha = alpha;
    return colour;
}

/// `share` of `b` over the rest of `a`, channel by channel in sRGB.
[[nodiscard]] Colour mixed(Colour a, Colour b, double share);

/// "#rrggbb", alpha left out.
[[nodiscard]] std::string hex(Colour colour);

/// Relative luminance of an opaque colour, 0 black to 1 white.
/// Reference  W3C, Web Content Accessibility Guidelines 2.1, "relative luminance" (from memory)
[[nodiscard]] double relative_luminance(Colour colour);

/// Contrast of two opaque colours, 1 to 21, in either order.
/// Reference  W3C, Web Content Accessibility Guidelines 2.1, "contrast ratio" (from memory)
[[nodiscard]] double contrast_ratio(Colour a, Colour b);

/// Ways of seeing colour: all cones, or one of the three kinds missing.
enum class Sight { full, no_long_cones, no_middle_cones, no_short_cones };

/// What `colour` looks like to eyes that miss one kind of cone.
///
/// Notes      the linear-RGB matrices of full severity
/// Reference  G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, IEEE TVCG 15(6), 2009 (matrices from memory;
///            tests/ui/colour_test.cpp checks that they keep greys grey)
[[nodiscard]] Colour as_seen(Colour colour, Sight sight);

/// Distance of two opaque colours in CIELAB (CIE 1976, D65); 2.3 is about a just noticeable difference.
[[nodiscard]] double difference(Colour a, Colour b);

} // namespace harpkeep::dashboard
