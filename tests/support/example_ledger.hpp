// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"
#include "db/records/harps.hpp"
#include "records/check_record.hpp"
#include "tests/support/temporary_folder.hpp"

#include <cmath>
#include <random>
#include <stdexcept>
#include <string>

namespace harpkeep::test {

using tests::TemporaryFolder;

/// 2026-03-04 18:05 in a zone one hour ahead of UTC.
inline constexpr Moment an_evening{1772643900000, 60};

inline db::Author at(Moment moment)
{
    return {moment, "test computer"};
}

/// Fails loudly when the ledger refuses what an example wants.
template <class T>
void done(const Result<T>& result)
{
    if (!result) throw std::runtime_error(result.error().message);
}

inline db::Author that_evening()
{
    return at(an_evening);
}

inline db::Ledger ledger_in_memory()
{
    return db::Ledger::open(":memory:", db::Access::create, an_evening).value();
}

inline HarpDetails concert_harp(const std::string& name)
{
    HarpDetails details;
    details.name = name;
    details.layout = make_layout({}).value();
    return details;
}

/// A check of a whole harp with every position sounded once, errors of a few cents, and ten partials each.
inline CheckResult whole_check(const HarpLayout& layout, unsigned seed)
{
    std::mt19937 random{seed};
    std::normal_distribution<double> cents{0.0, 3.0};
    std::uniform_real_distribution<double> unit{0.0, 1.0};
    CheckResult result;
    double start_s = 0.5;
    for (const HarpString& string : layout.strings)
        for (const Position position : positions_of(layout.kind, string)) {
            Reading reading{.place = string.place, .position = position};
            PluckMeasurement& pluck = reading.pluck;
            pluck.start_s = start_s += 1.5 + unit(random);
            pluck.frequency_hz =
                32.7 * std::exp2((string.place.diatonic_index() - 7) / 7.0 +
                                 semitones_above_open(position) / 12.0 + cents(random) / 1200.0);
            pluck.uncertainty_cents = 0.03 + 0.1 * unit(random);
            pluck.degrees_of_freedom = 20.0 + 30.0 * unit(random);
            pluck.inharmonicity = 1e-4 * (1.0 + unit(random));
            pluck.glide_cents = 2.0 * unit(random);
            pluck.decay_s = 0.5 + unit(random);
            pluck.snr_db = 30.0 + 5.0 * unit(random);
            if (unit(random) < 0.1) pluck.beat_rate_hz = 0.5 + unit(random);
            if (unit(random) < 0.1) pluck.doubts = {Doubt::too_noisy, Doubt::irregular};
            pluck.glide_uncertainty_cents = 0.1 + 0.2 * unit(random);
            for (int n = 1; n <= 10; ++n) {
                Partial partial{.number = n,
                                .frequency_hz = n * pluck.frequency_hz *
                                                std::sqrt((1.0 + pluck.inharmonicity * n * n) /
                                                          (1.0 + pluck.inharmonicity)) *
                                                std::exp2(0.3 * cents(random) / 1200.0),
                                .noise_cents = 0.02 + 0.1 * unit(random) * unit(random),
                                .level_db = -20.0 - 5.0 * n - 3.0 * unit(random),
                                .decay_s = 0.8 / n + 0.1 * unit(random)};
                const double uneven_cents = n % 3 == 0 ? 0.2 * unit(random) : 0.0;
                partial.uncertainty_cents = std::hypot(partial.noise_cents, uneven_cents);
                partial.glide_cents = pluck.glide_cents / (1.0 + partial.decay_s);
                pluck.partials.push_back(partial);
            }
            result.readings.push_back(std::move(reading));
        }
    for (const HarpString& string : layout.strings)
        for (const Step step : steps_of(layout.kind, string))
            result.steps.push_back({string.place, step, cents(random), 0.1, 25.0});
    for (const HarpString& string : layout.strings)
        if (steps_of(layout.kind, string).size() == 2)
            result.whole_steps.push_back({string.place, cents(random), 0.12});
    return result;
}

inline CheckHeader header_of(const Uuid& harp_id, Moment taken)
{
    CheckHeader header;
    header.harp_id = harp_id;
    header.taken = taken;
    header.recordings = {{"heron-flat.flac", {}, Seconds{240.0}}};
    header.recordings[0].sha256[0] = 0xAB;
    return header;
}

} // namespace harpkeep::test
