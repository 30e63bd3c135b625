// SPDX-License-Identifier: MIT
#include "db/records/byte_columns.hpp"

#include "db/sqlite/ledger_failure.hpp"

#include <zlib.h>

namespace harpkeep::db {

namespace {

constexpr int raw_deflate = -15; // window of 32 KB, no header and no checksum
constexpr int most_memory = 9;
constexpr std::uint64_t longest_column = 64ULL * 1024 * 1024; // no check has as many partials

[[noreturn]] void fail_packed(const char* what)
{
    fail(ErrorCode::corrupt, what);
}

/// Empty when it gets no shorter.
Bytes deflated(const Bytes& column)
{
    z_stream stream{};
    if (deflateInit2(&stream, Z_BEST_COMPRESSION, Z_DEFLATED, raw_deflate, most_memory, Z_DEFAULT_STRATEGY) !=
        Z_OK)
        fail(ErrorCode::unavailable,
             "no memory is left to pack the partials of a check; close other programs");
    Bytes out(column.size());
    stream.next_in = const_cast<Bytef*>(column.data()); // zlib reads only
    stream.avail_in = static_cast<uInt>(column.size());
    stream.next_out = out.data();
    stream.avail_out = static_cast<uInt>(out.size());
    const bool shorter = deflate(&stream, Z_FINISH) == Z_STREAM_END && stream.avail_out > 0;
    out.resize(shorter ? out.size() - stream.avail_out : 0);
    deflateEnd(&stream);
    return out;
}

Bytes inflated(std::span<const std::uint8_t> packed, std::uint64_t size)
{
    z_stream stream{};
    if (inflateInit2(&stream, raw_deflate) != Z_OK)
        fail(ErrorCode::unavailable,
             "no memory is left to unpack the partials of a check; close other programs");
    Bytes out(size);
    stream.next_in = const_cast<Bytef*>(packed.data()); // zlib reads only
    stream.avail_in = static_cast<uInt>(packed.size());
    stream.next_out = out.data();
    stream.avail_out = static_cast<uInt>(out.size());
    const bool whole =
        inflate(&stream, Z_FINISH) == Z_STREAM_END && stream.avail_in == 0 && stream.avail_out == 0;
    inflateEnd(&stream);
    if (!whole) fail_packed("the stored partials of a check cannot be unpacked");
    return out;
}

} // namespace

void put_number(Bytes& out, std::uint64_t value)
{
    while (value >= 0x80U) {
        out.push_back(static_cast<std::uint8_t>(value | 0x80U));
        value >>= 7U;
    }
    out.push_back(static_cast<std::uint8_t>(value));
}

std::uint64_t folded(std::int64_t value)
{
    return value < 0 ? (static_cast<std::uint64_t>(-(value + 1)) << 1U) | 1U
                     : static_cast<std::uint64_t>(value) << 1U;
}

std::int64_t unfolded(std::uint64_t value)
{
    const auto half = static_cast<std::int64_t>(value >> 1U);
    return (value & 1U) != 0 ? -half - 1 : half;
}

void put_signed(Bytes& out, std::int64_t value)
{
    put_number(out, folded(value));
}

std::uint8_t ByteReader::byte()
{
    return bytes(1).front();
}

std::uint64_t ByteReader::number()
{
    std::uint64_t value = 0;
    for (unsigned shift = 0; shift < 63; shift += 7) {
        const auto next = byte();
        value |= static_cast<std::uint64_t>(next & 0x7FU) << shift;
        if ((next & 0x80U) == 0) return value;
    }
    fail_packed("the stored partials of a check hold a number that is too large");
}

std::int64_t ByteReader::signed_number()
{
    return unfolded(number());
}

std::span<const std::uint8_t> ByteReader::bytes(std::uint64_t count)
{
    if (count > rest.size()) fail_packed("the stored partials of a check end too early");
    const auto taken = rest.first(static_cast<std::size_t>(count));
    rest = rest.subspan(static_cast<std::size_t>(count));
    return taken;
}

Bytes deflated_columns(std::span<const Bytes> columns)
{
    Bytes out;
    for (const Bytes& column : columns) {
        const Bytes shorter = deflated(column);
        const Bytes& kept = shorter.empty() ? column : shorter;
        put_number(out, column.size());
        put_number(out, shorter.size());
        out.insert(out.end(), kept.begin(), kept.end());
    }
    return out;
}

std::vector<Bytes> inflated_columns(std::span<const std::uint8_t> packed, std::size_t count)
{
    ByteReader reader{packed};
    std::vector<Bytes> columns;
    for (std::size_t i = 0; i < count; ++i) {
        const auto size = reader.number();
        if (size > longest_column) fail_packed("the stored partials of a check are impossibly many");
        const auto packed_size = reader.number();
        const auto bytes = reader.bytes(packed_size == 0 ? size : packed_size);
        columns.push_back(packed_size == 0 ? Bytes(bytes.begin(), bytes.end()) : inflated(bytes, size));
    }
    if (!reader.rest.empty()) fail_packed("a check stores more partials than it has readings");
    return columns;
}

} // namespace harpkeep::db
