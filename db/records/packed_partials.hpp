// SPDX-License-Identifier: MIT
#pragma once

#include "measure/reading.hpp"

#include <cstdint>
#include <span>
#include <vector>

namespace harpkeep::db {

/// Version of the packing, stored beside each blob; unpack_partials() reads all earlier ones too.
inline constexpr int partials_encoding = 2;

/// The partials of a check's readings, in the order of `readings`, in about three bytes a partial, with what
/// a step needs of them, so that a stored reading can be joined with another as a fresh one can.
///
/// Given     readings  by place; frequency_hz, inharmonicity and glide_cents as their rows keep them
/// Notes     Encoding 2: the columns of PartialColumns (packed_partials.cpp), each deflated by itself.
///           Frequencies are kept as deviations from the stiff series, less the glide, in thirds of what the
///           noise leaves in each partial (the more is known, the finer); decays and glides as differences
///           from what the partials before make likely.
/// Accuracy  of what the noise leaves: frequency a fifth, glide 0.3, both at most 0.125 cent; noise and the
///           rest of the uncertainty 16 %; decay 6 % from 1 ms; level 0.63 dB; the reading's glide
///           uncertainty 2.5 %. Steps that are measured anew from stored readings differ by less than a
///           quarter of their uncertainty rms, single ones by up to the whole of it, and their uncertainty by
///           up to 40 %, where plucks are neither alike nor different
///           (tests/db/records/packed_partials_test.cpp)
[[nodiscard]] std::vector<std::uint8_t> pack_partials(std::span<const Reading> readings);

/// Puts the partials, and what encoding 2 keeps beside them, back into readings that have none yet; throws
/// LedgerFailure when the bytes do not fit them or the encoding is of a later version.
void unpack_partials(std::int64_t encoding, std::span<const std::uint8_t> packed,
                     std::span<Reading> readings);

/// Where partial `number` of a stiff string lies: n f1 sqrt((1 + B n^2) / (1 + B)), f1 and B as stored.
[[nodiscard]] double stiff_partial_hz(const PluckMeasurement& pluck, int number);

} // namespace harpkeep::db
