// SPDX-License-Identifier: MIT
#include "db/records/packed_partials.hpp"

#include "db/records/stored_codes.hpp"
#include "db/sqlite/ledger_failure.hpp"
#include "units/interval.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep::db {

namespace {

constexpr double millicents_per_cent = 1000.0;
constexpr double lowest_level_db = -127.0;
constexpr double levels_per_db = 2.0;

/// A positive number on 255 steps of equal ratio; 0 stays 0.
struct LogScale {
    double smallest;
    double steps_per_decade;

    [[nodiscard]] std::uint8_t code(double value) const
    {
        if (!(value > 0.0)) return 0;
        const double step = std::round(std::log10(value / smallest) * steps_per_decade);
        return static_cast<std::uint8_t>(1.0 + std::clamp(step, 0.0, 254.0));
    }
    [[nodiscard]] double value(std::uint8_t code) const
    {
        return code == 0 ? 0.0 : smallest * std::pow(10.0, (code - 1) / steps_per_decade);
    }
};

constexpr LogScale uncertainty_scale{1e-5, 32.0}; // cents, up to 866
constexpr LogScale decay_scale{1e-3, 48.0};       // seconds, up to 195

double model_frequency_hz(const PluckMeasurement& pluck, int number)
{
    // As the reading's row keeps it, so that reading back meets the same model.
    const double B = std::round(pluck.inharmonicity * 1e9) / 1e9;
    const double n = number;
    return n * pluck.frequency_hz * std::sqrt(std::max(1.0 + B * n * n, 1e-6) / std::max(1.0 + B, 1e-6));
}

void put_number(std::vector<std::uint8_t>& out, std::uint64_t value)
{
    while (value >= 0x80U) {
        out.push_back(static_cast<std::uint8_t>(value | 0x80U));
        value >>= 7U;
    }
    out.push_back(static_cast<std::uint8_t>(value));
}

void put_signed(std::vector<std::uint8_t>& out, std::int64_t value)
{
    put_number(out, value < 0 ? (static_cast<std::uint64_t>(-(value + 1)) << 1U) | 1U
                              : static_cast<std::uint64_t>(value) << 1U);
}

struct Reader {
    std::span<const std::uint8_t> rest;

    std::uint8_t byte()
    {
        if (rest.empty()) fail(ErrorCode::corrupt, "the stored partials of a check end too early");
        const auto value = rest.front();
        rest = rest.subspan(1);
        return value;
    }
    std::uint64_t number()
    {
        std::uint64_t value = 0;
        for (unsigned shift = 0; shift < 63; shift += 7) {
            const auto next = byte();
            value |= static_cast<std::uint64_t>(next & 0x7FU) << shift;
            if ((next & 0x80U) == 0) return value;
        }
        fail(ErrorCode::corrupt, "the stored partials of a check hold a number that is too large");
    }
    std::int64_t signed_number()
    {
        const auto folded = number();
        const auto half = static_cast<std::int64_t>(folded >> 1U);
        return (folded & 1U) != 0 ? -half - 1 : half;
    }
};

void pack_partial(std::vector<std::uint8_t>& out, const PluckMeasurement& pluck, const Partial& partial,
                  int number_before)
{
    const Cents deviation =
        interval(Hertz{model_frequency_hz(pluck, partial.number)}, Hertz{partial.frequency_hz});
    put_signed(out, partial.number - number_before);
    put_signed(out, scaled(deviation.value(), millicents_per_cent, "deviation of a partial"));
    out.push_back(uncertainty_scale.code(partial.uncertainty_cents));
    const double level = std::round((partial.level_db - lowest_level_db) * levels_per_db);
    out.push_back(static_cast<std::uint8_t>(std::clamp(level, 0.0, 255.0)));
    out.push_back(decay_scale.code(partial.decay_s));
}

Partial unpack_partial(Reader& reader, const PluckMeasurement& pluck, int number_before)
{
    Partial partial;
    partial.number =
        number_before + static_cast<int>(std::clamp<std::int64_t>(reader.signed_number(), -9999, 9999));
    const Cents deviation{static_cast<double>(reader.signed_number()) / millicents_per_cent};
    partial.frequency_hz = raised(Hertz{model_frequency_hz(pluck, partial.number)}, deviation).value();
    partial.uncertainty_cents = uncertainty_scale.value(reader.byte());
    partial.level_db = lowest_level_db + reader.byte() / levels_per_db;
    partial.decay_s = decay_scale.value(reader.byte());
    return partial;
}

} // namespace

std::vector<std::uint8_t> pack_partials(std::span<const Reading> readings)
{
    std::vector<std::uint8_t> out;
    for (const Reading& reading : readings) {
        put_number(out, reading.pluck.partials.size());
        int number_before = 0;
        for (const Partial& partial : reading.pluck.partials) {
            pack_partial(out, reading.pluck, partial, number_before);
            number_before = partial.number;
        }
    }
    return out;
}

void unpack_partials(std::span<const std::uint8_t> packed, std::span<Reading> readings)
{
    Reader reader{packed};
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
