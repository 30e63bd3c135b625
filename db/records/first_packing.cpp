// SPDX-License-Identifier: MIT
#include "db/records/first_packing.hpp"

#include "db/records/byte_columns.hpp"
#include "db/records/log_scale.hpp"
#include "db/records/packed_partials.hpp"
#include "db/sqlite/ledger_failure.hpp"
#include "units/interval.hpp"

#include <algorithm>

namespace harpkeep::db {

namespace {

constexpr double millicents_per_cent = 1000.0;
constexpr double lowest_level_db = -127.0;
constexpr double levels_per_db = 2.0;
constexpr LogScale uncertainty_scale{1e-5, 32.0}; // cents, up to 866
constexpr LogScale decay_scale{1e-3, 48.0};       // seconds, up to 195

Partial unpack_partial(ByteReader& reader, const PluckMeasurement& pluck, int number_before)
{
    Partial partial;
    partial.number =
        number_before + static_cast<int>(std::clamp<std::int64_t>(reader.signed_number(), -9999, 9999));
    const Cents deviation{static_cast<double>(reader.signed_number()) / millicents_per_cent};
    partial.frequency_hz = raised(Hertz{stiff_partial_hz(pluck, partial.number)}, deviation).value();
    partial.uncertainty_cents = uncertainty_scale.value(reader.byte());
    partial.level_db = lowest_level_db + reader.byte() / levels_per_db;
    partial.decay_s = decay_scale.value(reader.byte());
    return partial;
}

} // namespace

void unpack_first_packing(std::span<const std::uint8_t> packed, std::span<Reading> readings)
{
    ByteReader reader{packed};
    for (Reading& reading : readings) {
        const auto count = reader.number();
        int number_before = 0;
        for (std::uint64_t i = 0; i < count; ++i) {
            reading.pluck.partials.push_back(unpack_partial(reader, reading.pluck, number_before));
            number_before = reading.pluck.partials.back().number;
        }
    }
    if (!reader.rest.empty()) fail(ErrorCode::corrupt, "a check stores more partials than it has readings");
}

} // namespace harpkeep::db
