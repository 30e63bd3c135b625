// SPDX-License-Identifier: MIT
#pragma once

#include "harp/harp_layout.hpp"
#include "synth/synthetic_string.hpp"
#include "units/quantity.hpp"

#include <cstdint>
#include <optional>
#include <vector>

namespace harpkeep {

/// What is true of one string of an invented harp.
struct SyntheticHarpString {
    double open_offset_cents =
        0.0; ///< settled f1 of the open string against equal temperament at the harp's A4
    double lower_error_cents = 0.0; ///< size of the lower step minus 100 cents
    double upper_error_cents = 0.0; ///< size of the upper step minus 100 cents
    SyntheticString open;           ///< as it sounds open; ideal_frequency_hz already holds the offset
};

/// An invented harp whose every step is known.
struct SyntheticHarp {
    HarpLayout layout;
    Hertz a4{440.0};
    std::vector<SyntheticHarpString> strings; ///< in the order of layout.strings
};

/// How an invented harp departs from a perfect one. Standard deviations of normal numbers, drawn by `seed`.
struct SyntheticHarpSettings {
    Hertz a4{440.0};
    double all_strings_cents = 0.0;    ///< the whole harp sharp or flat
    double open_offset_sd_cents = 4.0; ///< from string to string
    double step_error_sd_cents = 3.0;
    double largest_step_error_cents = 12.0;
    double partial_deviation_sd_cents = 0.0; ///< of each partial from the series, the same in all positions
    double curve_sd = 0.15;                  ///< natural logarithm of B and decay against generic_string()
    std::uint64_t seed = 1;
};

[[nodiscard]] SyntheticHarp make_synthetic_harp(const HarpLayout& layout,
                                                const SyntheticHarpSettings& settings);

/// Sets the open pitch of one string; what follows from it follows.
void set_open_offset(SyntheticHarp& harp, std::size_t string_index, double open_offset_cents);

/// The true settled first partial, f1 = F sqrt(1 + B), of a string in a position.
[[nodiscard]] double true_frequency_hz(const SyntheticHarp& harp, std::size_t string_index,
                                       Position position);

/// The true error of a step; the sum of both is the error of the whole step of 200 cents.
[[nodiscard]] double true_step_error_cents(const SyntheticHarp& harp, std::size_t string_index, Step step);

/// The string as it sounds in a position.
///
/// Notes   B follows 1 / L^2: the pitch goes as 1 / L at the same tension, and B = pi^3 E d^4 / (64 T L^2),
/// so
///         B = B_open (f1 / f1_open)^2. Partial deviations stay, decays keep their number of periods.
[[nodiscard]] SyntheticString string_in_position(const SyntheticHarp& harp, std::size_t string_index,
                                                 Position position);

/// Index of a place in layout.strings, if the harp has it.
[[nodiscard]] std::optional<std::size_t> string_index_of(const HarpLayout& layout, StringPlace place);

} // namespace harpkeep
