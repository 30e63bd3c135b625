// SPDX-License-Identifier: MIT
#include "ui/dashboard/colour.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace harpkeep::dashboard {

namespace {

using Triple = std::array<double, 3>;

double linear(std::uint8_t channel)
{
    const double value = channel / 255.0;
    return value <= 0.04045 ? value / 12.92 : std::pow((value + 0.055) / 1.055, 2.4);
}

std::uint8_t encoded(double value)
{
    value = std::clamp(value, 0.0, 1.0);
    const double curved = value <= 0.0031308 ? 12.92 * value : 1.055 * std::pow(value, 1.0 / 2.4) - 0.055;
    return static_cast<std::uint8_t>(std::lround(255.0 * curved));
}

Triple linear(Colour colour)
{
    return {linear(colour.red), linear(colour.green), linear(colour.blue)};
}

// Machado, Oliveira and Fernandes (2009), severity 1.0.
constexpr std::array<std::array<Triple, 3>, 3> missing_cone{{
    {{{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}}},
    {{{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}}},
    {{{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}}},
}};

/// CIELAB from linear sRGB; IEC 61966-2-1 primaries, white D65.
Triple lab(Colour colour)
{
    const auto [r, g, b] = linear(colour);
    const Triple xyz{(0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.9505, 0.2126 * r + 0.7152 * g + 0.0722 * b,
                     (0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.089};
    Triple f{};
    for (std::size_t i = 0; i < 3; ++i)
        f[i] = xyz[i] > 216.0 / 24389.0 ? std::cbrt(xyz[i]) : (24389.0 / 27.0 * xyz[i] + 16.0) / 116.0;
    return {116.0 * f[1] - 16.0, 500.0 * (f[0] - f[1]), 200.0 * (f[1] - f[2])};
}

} // namespace

Colour mixed(Colour a, Colour b, double share)
{
    const auto channel = [share](std::uint8_t from, std::uint8_t to) {
        return static_cast<std::uint8_t>(std::lround(from + share * (to - from)));
    };
    return {channel(a.red, b.red), channel(a.green, b.green), channel(a.blue, b.blue),
            channel(a.alpha, b.alpha)};
}

std::string hex(Colour colour)
{
    return fmt::format("#{:02x}{:02x}{:02x}", colour.red, colour.green, colour.blue);
}

double relative_luminance(Colour colour)
{
    const auto [r, g, b] = linear(colour);
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

double contrast_ratio(Colour a, Colour b)
{
    const double first = relative_luminance(a);
    const double second = relative_luminance(b);
    return (std::max(first, second) + 0.05) / (std::min(first, second) + 0.05);
}

Colour as_seen(Colour colour, Sight sight)
{
    if (sight == Sight::full) return colour;
    const auto& matrix = missing_cone[static_cast<std::size_t>(sight) - 1];
    const auto in = linear(colour);
    Triple out{};
    for (std::size_t row = 0; row < 3; ++row)
        for (std::size_t column = 0; column < 3; ++column) out[row] += matrix[row][column] * in[column];
    return {encoded(out[0]), encoded(out[1]), encoded(out[2]), colour.alpha};
}

double difference(Colour a, Colour b)
{
    const auto first = lab(a);
    const auto second = lab(b);
    return std::hypot(first[0] - second[0], first[1] - second[1], first[2] - second[2]);
}

} // namespace harpkeep::dashboard
