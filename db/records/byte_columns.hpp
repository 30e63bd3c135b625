// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace harpkeep::db {

using Bytes = std::vector<std::uint8_t>;

/// Whole numbers, little-endian in base 128: seven bits a byte, the eighth says that more follow.
void put_number(Bytes& out, std::uint64_t value);
/// Signed ones folded: 0, -1, 1, -2, ... become 0, 1, 2, 3, ...
[[nodiscard]] std::uint64_t folded(std::int64_t value);
[[nodiscard]] std::int64_t unfolded(std::uint64_t value);
void put_signed(Bytes& out, std::int64_t value);

/// Reads what the above wrote; throws LedgerFailure when the bytes end too early.
struct ByteReader {
    std::span<const std::uint8_t> rest;

    std::uint8_t byte();
    std::uint64_t number();
    std::int64_t signed_number();
    std::span<const std::uint8_t> bytes(std::uint64_t count);
};

/// Columns of bytes, each deflated by itself (RFC 1951) where that is shorter: values of one kind compress
/// best among themselves.
///
/// Notes   For each column: its length; the length of what follows, 0 when it follows as it is; the bytes.
[[nodiscard]] Bytes deflated_columns(std::span<const Bytes> columns);
/// Throws LedgerFailure when these are not `count` such columns and nothing else.
[[nodiscard]] std::vector<Bytes> inflated_columns(std::span<const std::uint8_t> packed, std::size_t count);

} // namespace harpkeep::db
