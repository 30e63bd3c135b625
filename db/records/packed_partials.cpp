// SPDX-License-Identifier: MIT
#include "db/records/packed_partials.hpp"

#include "db/records/byte_columns.hpp"
#include "db/records/first_packing.hpp"
#include "db/records/log_scale.hpp"
#include "db/records/stored_codes.hpp"
#include "db/sqlite/ledger_failure.hpp"
#include "units/interval.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <map>
#include <optional>

namespace harpkeep::db {

namespace {

constexpr LogScale uncertainty_scale{1e-5, 8.0};        // cents
constexpr LogScale glide_uncertainty_scale{1e-4, 48.0}; // cents, up to 20
constexpr LogScale decay_scale{1e-3, 20.0};             // seconds
constexpr double lowest_level_db = -200.0;
constexpr double level_step_db = 1.25;        // levels tell plucks that were plucked alike from others
constexpr int level_steps_per_noise_code = 2; // both change by 20 dB in a decade
constexpr double negligible_share = 0.1;      // of the noise: adds half a percent to the whole uncertainty
constexpr double deviation_steps_per_noise = 3.0, glide_steps_per_noise = 2.0;
constexpr double finest_cents = 1e-4, coarsest_cents = 0.25, usual_cents = 1e-3;
// Of a reading's glide: in its lowest partial, and how that changes from one code of the decay to the next;
// how many codes away still count, and how much the slope is held to the usual (tried on synthetic harps).
constexpr double likely_glide_share = 0.6, likely_glide_slope = -0.024;
constexpr double glide_reach_codes = 2.5, slope_weight = 3.0;
constexpr std::uint64_t escape = 255;

/// One column for each kind of number, in the order in which they are stored.
enum PartialColumns : std::size_t {
    counts,            ///< of partials, for each reading
    glide_uncertainty, ///< of each reading: glide_uncertainty_scale
    number_gaps,       ///< number less the one before, less 1: signed base-128
    noises,            ///< uncertainty_scale
    models,            ///< what the uncertainty holds beside the noise: uncertainty_scale
    levels, ///< steps of 1.25 dB above -200 dB, and two for the noise's code, modulo 256: what is faint is
            ///< noisy
    decays, ///< decay_scale, less the likely code, modulo 256
    deviations, ///< folded; 255: 255 and the rest from `excess`
    glides,     ///< the same
    excess,     ///< base-128
    column_count
};
using Columns = std::array<Bytes, column_count>;

/// The size of the steps in which a partial's deviation or glide is counted.
double step_cents(std::uint8_t noise_code, std::uint8_t model_code, double steps_per_noise)
{
    const double known = uncertainty_scale.value(noise_code != 0 ? noise_code : model_code);
    return known > 0.0 ? std::clamp(known / steps_per_noise, finest_cents, coarsest_cents) : usual_cents;
}

/// What the partials that came before make likely; packing and unpacking tell it the same.
class Expectation {
  public:
    void begin_reading(const Reading& reading)
    {
        if (!place_ || *place_ != reading.place) decay_by_number_.clear();
        place_ = reading.place;
        in_reading_.clear();
        glide_cents_ = std::round(reading.pluck.glide_cents * 1e3) / 1e3;
    }

    /// Between the same partial of the reading before, of this string, and the partial before.
    [[nodiscard]] int decay_code(int number) const
    {
        const auto same = decay_by_number_.find(number);
        if (same == decay_by_number_.end()) return in_reading_.empty() ? 0 : in_reading_.back().decay_code;
        return in_reading_.empty() ? same->second
                                   : (3 * same->second + 2 * in_reading_.back().decay_code + 2) / 5;
    }

    /// A glide lifts partials alike that ring alike: a line through those known, the nearest most.
    [[nodiscard]] double glide_cents(int decay_code) const
    {
        if (in_reading_.empty()) return likely_glide_share * glide_cents_;
        double sum = 0.0, sum_x = 0.0, sum_y = 0.0;
        for (const Known& known : in_reading_) {
            const double x = known.decay_code - decay_code;
            const double weight = std::exp(-std::abs(x) / glide_reach_codes);
            sum += weight, sum_x += weight * x, sum_y += weight * known.glide_cents;
        }
        const double mean_x = sum_x / sum, mean_y = sum_y / sum;
        double square = slope_weight, product = slope_weight * likely_glide_slope * glide_cents_;
        for (const Known& known : in_reading_) {
            const double x = known.decay_code - decay_code;
            const double weight = std::exp(-std::abs(x) / glide_reach_codes);
            square += weight * (x - mean_x) * (x - mean_x);
            product += weight * (x - mean_x) * (known.glide_cents - mean_y);
        }
        return mean_y - product / square * mean_x;
    }

    void learn(int number, int decay_code, double glide_cents)
    {
        decay_by_number_[number] = decay_code;
        in_reading_.push_back({decay_code, glide_cents});
    }

  private:
    struct Known {
        int decay_code;
        double glide_cents;
    };
    std::optional<StringPlace> place_;
    std::map<int, int> decay_by_number_;
    std::vector<Known> in_reading_;
    double glide_cents_ = 0.0; // as the reading's row keeps it
};

void put_escaped(Columns& columns, PartialColumns column, std::int64_t value)
{
    const auto number = folded(value);
    columns[column].push_back(static_cast<std::uint8_t>(std::min(number, escape)));
    if (number >= escape) put_number(columns[excess], number - escape);
}

void pack_partial(Columns& columns, Expectation& expected, const PluckMeasurement& pluck,
                  const Partial& partial, int number_before)
{
    put_signed(columns[number_gaps], partial.number - number_before - 1);
    const double model2 =
        partial.uncertainty_cents * partial.uncertainty_cents - partial.noise_cents * partial.noise_cents;
    const double model = std::sqrt(std::max(0.0, model2));
    const auto noise_code = uncertainty_scale.code(partial.noise_cents);
    const auto model_code =
        uncertainty_scale.code(model > negligible_share * partial.noise_cents ? model : 0.0);
    columns[noises].push_back(noise_code);
    columns[models].push_back(model_code);
    const double level = std::round((partial.level_db - lowest_level_db) / level_step_db);
    columns[levels].push_back(static_cast<std::uint8_t>(static_cast<int>(std::clamp(level, 0.0, 255.0)) +
                                                        level_steps_per_noise_code * noise_code));
    const int decay_code = decay_scale.code(partial.decay_s);
    columns[decays].push_back(static_cast<std::uint8_t>(decay_code - expected.decay_code(partial.number)));

    const double glide_step_cents = step_cents(noise_code, model_code, glide_steps_per_noise);
    const double likely_cents = expected.glide_cents(decay_code);
    const auto glide =
        scaled(partial.glide_cents - likely_cents, 1.0 / glide_step_cents, "glide of a partial");
    put_escaped(columns, glides, glide);
    const double glide_cents = likely_cents + static_cast<double>(glide) * glide_step_cents;
    const Cents above = interval(Hertz{stiff_partial_hz(pluck, partial.number)}, Hertz{partial.frequency_hz});
    put_escaped(columns, deviations,
                scaled(above.value() - glide_cents,
                       1.0 / step_cents(noise_code, model_code, deviation_steps_per_noise),
                       "deviation of a partial"));
    expected.learn(partial.number, decay_code, glide_cents);
}

/// The columns of a check, read from the front.
class ColumnReaders {
  public:
    explicit ColumnReaders(std::span<const std::uint8_t> packed)
        : bytes_(inflated_columns(packed, column_count))
    {
        for (std::size_t i = 0; i < column_count; ++i) readers_[i].rest = bytes_[i];
    }
    ByteReader& operator[](PartialColumns column) { return readers_[column]; }
    std::int64_t escaped(PartialColumns column)
    {
        const std::uint64_t number = readers_[column].byte();
        return unfolded(number < escape ? number : escape + readers_[excess].number());
    }
    [[nodiscard]] bool at_end() const
    {
        return std::all_of(readers_.begin(), readers_.end(),
                           [](const ByteReader& reader) { return reader.rest.empty(); });
    }

  private:
    std::vector<Bytes> bytes_;
    std::array<ByteReader, column_count> readers_;
};

Partial unpack_partial(ColumnReaders& columns, Expectation& expected, const PluckMeasurement& pluck,
                       int number_before)
{
    Partial partial;
    const auto gap = std::clamp<std::int64_t>(columns[number_gaps].signed_number(), -9999, 9999);
    partial.number = number_before + 1 + static_cast<int>(gap);
    const auto noise_code = columns[noises].byte();
    const auto model_code = columns[models].byte();
    partial.noise_cents = uncertainty_scale.value(noise_code);
    partial.uncertainty_cents = std::hypot(partial.noise_cents, uncertainty_scale.value(model_code));
    const auto level =
        static_cast<std::uint8_t>(columns[levels].byte() - level_steps_per_noise_code * noise_code);
    partial.level_db = lowest_level_db + level * level_step_db;
    const auto decay_code =
        static_cast<std::uint8_t>(columns[decays].byte() + expected.decay_code(partial.number));
    partial.decay_s = decay_scale.value(decay_code);

    partial.glide_cents =
        expected.glide_cents(decay_code) + static_cast<double>(columns.escaped(glides)) *
                                               step_cents(noise_code, model_code, glide_steps_per_noise);
    const Cents above{partial.glide_cents +
                      static_cast<double>(columns.escaped(deviations)) *
                          step_cents(noise_code, model_code, deviation_steps_per_noise)};
    partial.frequency_hz = raised(Hertz{stiff_partial_hz(pluck, partial.number)}, above).value();
    expected.learn(partial.number, decay_code, partial.glide_cents);
    return partial;
}

void unpack_columns(std::span<const std::uint8_t> packed, std::span<Reading> readings)
{
    ColumnReaders columns{packed};
    Expectation expected;
    for (Reading& reading : readings) {
        const auto count = columns[counts].number();
        reading.pluck.glide_uncertainty_cents =
            glide_uncertainty_scale.value(columns[glide_uncertainty].byte());
        expected.begin_reading(reading);
        int number_before = 0;
        for (std::uint64_t i = 0; i < count; ++i) {
            reading.pluck.partials.push_back(unpack_partial(columns, expected, reading.pluck, number_before));
            number_before = reading.pluck.partials.back().number;
        }
    }
    if (!columns.at_end()) fail(ErrorCode::corrupt, "a check stores more partials than it has readings");
}

} // namespace

double stiff_partial_hz(const PluckMeasurement& pluck, int number)
{
    // As the reading's row keeps it, so that reading back meets the same model.
    const double B = std::round(pluck.inharmonicity * 1e9) / 1e9;
    const double n = number;
    return n * pluck.frequency_hz * std::sqrt(std::max(1.0 + B * n * n, 1e-6) / std::max(1.0 + B, 1e-6));
}

std::vector<std::uint8_t> pack_partials(std::span<const Reading> readings)
{
    Columns columns;
    Expectation expected;
    for (const Reading& reading : readings) {
        put_number(columns[counts], reading.pluck.partials.size());
        columns[glide_uncertainty].push_back(
            glide_uncertainty_scale.code(reading.pluck.glide_uncertainty_cents));
        expected.begin_reading(reading);
        int number_before = 0;
        for (const Partial& partial : reading.pluck.partials) {
            pack_partial(columns, expected, reading.pluck, partial, number_before);
            number_before = partial.number;
        }
    }
    return deflated_columns(columns);
}

void unpack_partials(std::int64_t encoding, std::span<const std::uint8_t> packed, std::span<Reading> readings)
{
    if (encoding == 1)
        unpack_first_packing(packed, readings);
    else if (encoding == partials_encoding)
        unpack_columns(packed, readings);
    else
        fail(ErrorCode::corrupt,
             "the partials of a check are packed in a way that this version does not know; "
             "see whether there is a later version");
}

} // namespace harpkeep::db
