// SPDX-License-Identifier: MIT
#pragma once

#include "measure/reading.hpp"

#include <cstdint>
#include <span>

namespace harpkeep::db {

/// Reads partials in encoding 1, in which checks were kept up to schema 5.
///
/// Notes     For each reading: the count of partials; for each partial its number less that of the one
/// before;
///           its frequency as thousandths of a cent from the stiff series (stiff_partial_hz()); then a byte
///           each for uncertainty, level and decay. Counts and cents are base-128 numbers, signed ones
///           folded. What the noise leaves and the glide were not kept and stay 0.
/// Accuracy  frequency 0.0005 cent; uncertainty 4 %; level 0.25 dB from -127 to 0 dB; decay 2.5 % from 1 ms
/// to
///           200 s (tests/db/records/packed_partials_test.cpp)
void unpack_first_packing(std::span<const std::uint8_t> packed, std::span<Reading> readings);

} // namespace harpkeep::db
