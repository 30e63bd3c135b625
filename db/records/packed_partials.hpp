// SPDX-License-Identifier: MIT
#pragma once

#include "measure/reading.hpp"

#include <cstdint>
#include <span>
#include <vector>

namespace harpkeep::db {

/// Version of the packing, stored beside each blob.
inline constexpr int partials_encoding = 1;

/// The partials of a check's readings, in the order of `readings`, in about six bytes a partial.
///
/// Notes     Encoding 1, for each reading: the count of partials; for each partial its number less that of
/// the
///           one before; its frequency as cents from n f1 sqrt((1 + B n^2) / (1 + B)), f1 and B as stored
///           with the reading; then a byte each for uncertainty, level and decay. Counts and cents are
///           little-endian base-128 numbers, signed ones folded (0, -1, 1, -2, ...).
/// Accuracy  frequency 0.0005 cent; uncertainty 4 %; level 0.25 dB from -127 to 0 dB; decay 2.5 % from 1 ms
/// to
///           200 s (tests/db/records/packed_partials_test.cpp)
[[nodiscard]] std::vector<std::uint8_t> pack_partials(std::span<const Reading> readings);

/// Puts the partials back into readings that have none yet; throws LedgerFailure when the bytes do not fit
/// them.
void unpack_partials(std::span<const std::uint8_t> packed, std::span<Reading> readings);

} // namespace harpkeep::db
