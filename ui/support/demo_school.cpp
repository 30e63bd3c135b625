// SPDX-License-Identifier: MIT
#include "ui/support/demo_school.hpp"

#include "audio/sound_writer.hpp"
#include "synth/synthetic_playing.hpp"
#include "ui/support/demo_ledger.hpp"

#include <filesystem>
#include <fmt/format.h>

namespace harpkeep::ui {

namespace {

constexpr std::uint64_t seed = 20261125;

Result<void> write_recording(const std::string& path, int today)
{
    const auto harp = demo_heron(today).harp_on(today);
    PlayingSettings playing{.gap_s = 1.5};
    playing.mishaps = {.skipped = 1, .repeated = 1, .knocks = 2};
    playing.seed = seed;
    const auto performance = play(harp, plan_pass_by_pass(harp.layout, Direction::low_to_high), playing);
    RecordingSettings settings{.snr_db = 40.0, .hum = MainsHum{}};
    settings.seed = seed;
    const auto recording = render_recording(harp, performance.events, settings);
    auto file = SoundWriter::create(path, {.sample_rate_hz = 48000, .bits_per_sample = 16});
    if (!file) return failure(file.error());
    if (const auto written = file->write(recording.samples); !written) return failure(written.error());
    return file->finish();
}

} // namespace

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
    if (const auto written = write_recording(demo.recording_path, days_since_epoch(local_date(author.now)));
        !written)
        return failure(written.error());
    return demo;
}

} // namespace harpkeep::ui
