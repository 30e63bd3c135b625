// SPDX-License-Identifier: MIT
#include "ui/support/demo_school.hpp"

#include "audio/sound_writer.hpp"
#include "db/records/harps.hpp"
#include "synth/synthetic_playing.hpp"
#include "ui/support/demo_history.hpp"

#include <filesystem>
#include <fmt/format.h>

namespace harpkeep::ui {

namespace {

constexpr std::uint64_t seed = 20261125;
constexpr double wide_pedal_cents = 6.0;

/// Heron as its last visit left it.
SyntheticHarp heron()
{
    return make_synthetic_harp(make_layout({}).value(), {.step_error_sd_cents = 1.2, .seed = seed});
}

Result<void> write_recording(const std::string& path)
{
    auto harp = heron();
    const HarpLayout layout = harp.layout;
    for (std::size_t i = 0; i < layout.strings.size(); ++i)
        if (layout.strings[i].place.letter == Letter::F)
            harp.strings[i].upper_error_cents += wide_pedal_cents;
    PlayingSettings playing{.gap_s = 1.5};
    playing.mishaps = {.skipped = 1, .repeated = 1, .knocks = 2};
    playing.seed = seed;
    const auto performance = play(harp, plan_pass_by_pass(layout, Direction::low_to_high), playing);
    RecordingSettings settings{.snr_db = 40.0, .hum = MainsHum{}};
    settings.seed = seed;
    const auto recording = render_recording(harp, performance.events, settings);
    auto file = SoundWriter::create(path, {.sample_rate_hz = 48000, .bits_per_sample = 16});
    if (!file) return failure(file.error());
    if (const auto written = file->write(recording.samples); !written) return failure(written.error());
    return file->finish();
}

} // namespace

Result<void> fill_demo_ledger(db::Ledger& ledger, const db::Author& author)
{
    struct Instrument {
        const char* name;
        LayoutRequest request;
        int year_built;
        const char* serial_number;
        std::int64_t value_minor_units;
    };
    const Instrument instruments[] = {
        {"Heron", {.kind = HarpKind::pedal, .string_count = 47}, 2009, "L-0147", 1450000},
        {"Wren", {.kind = HarpKind::pedal, .string_count = 40}, 1998, "L-0032", 620000},
        {"Linnet", {.kind = HarpKind::lever, .string_count = 34}, 2017, "L-0219", 280000},
        {"Kestrel", {.kind = HarpKind::lever, .string_count = 38}, 2021, "L-0288", 340000},
    };
    std::vector<DemoHarp> harps;
    for (const auto& instrument : instruments) {
        HarpDetails details;
        details.name = instrument.name;
        details.layout = make_layout(instrument.request).value();
        details.maker = "an invented workshop";
        details.serial_number = instrument.serial_number;
        details.year_built = instrument.year_built;
        details.value = Money{instrument.value_minor_units, "EUR"};
        const auto id = db::add_harp(ledger, author, details);
        if (!id) return failure(id.error());
        harps.push_back({*id, details.layout});
    }
    return add_demo_history(ledger, author, harps, heron());
}

Result<DemoSchool> make_demo_school(const std::string& folder, const db::Author& author)
{
    std::error_code error;
    std::filesystem::create_directories(folder, error);
    if (error)
        return failure(ErrorCode::unavailable,
                       fmt::format("making the folder {}: {}", folder, error.message()));
    const std::filesystem::path path{folder};
    DemoSchool demo{(path / "larkmoor.harpkeep").string(), (path / "heron.flac").string()};
    for (const auto& file : {demo.ledger_path, demo.recording_path})
        if (std::filesystem::exists(file))
            return failure(ErrorCode::refused,
                           fmt::format("{} is there already; name another folder or remove it", file));
    auto ledger = db::Ledger::open(demo.ledger_path, db::Access::create, author.now);
    if (!ledger) return failure(ledger.error());
    if (const auto filled = fill_demo_ledger(*ledger, author); !filled) return failure(filled.error());
    if (const auto written = write_recording(demo.recording_path); !written) return failure(written.error());
    return demo;
}

} // namespace harpkeep::ui
