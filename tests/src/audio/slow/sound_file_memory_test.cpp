// SPDX-License-Identifier: MIT
#include "audio/mono_stream.hpp"
#include "audio/sound_writer.hpp"
#include "tests/support/temporary_folder.hpp"
#include "tests/support/tone.hpp"

#include <catch2/catch.hpp>

#include <fstream>
#include <unistd.h>

using namespace harpkeep;
using namespace harpkeep::tests;

namespace {

/// Memory that the process holds now, from the second field of /proc/self/statm.
double resident_mb()
{
    std::ifstream file("/proc/self/statm");
    double pages_total = 0.0, pages_resident = 0.0;
    file >> pages_total >> pages_resident;
    return pages_resident * static_cast<double>(::sysconf(_SC_PAGESIZE)) / 1e6;
}

} // namespace

TEST_CASE("MonoStream: an hour of sound takes no more memory than two minutes", "[audio]")
{
    const auto [kind, duration_s] =
        GENERATE(std::tuple{std::string("flac"), 3600}, std::tuple{std::string("m4a"), 300});
    const TemporaryFolder folder;
    const std::string path = folder / ("hour." + kind);
    {
        auto writer = SoundWriter::create(path, {.channels = 2, .bits_per_sample = 16}).value();
        const auto ten_seconds = tone(440.0, 48000.0, 10.0, 2);
        for (int i = 0; i < duration_s / 10; ++i) REQUIRE(writer.write(ten_seconds).has_value());
        REQUIRE(writer.finish().has_value());
    }
    const double before_mb = resident_mb();
    auto stream = MonoStream::open(path).value();
    std::vector<float> mono(4096);
    double most_mb = 0.0, after_first_minute_mb = 0.0;
    std::size_t frames = 0;
    for (std::size_t count = stream.read(mono).value(); count > 0; count = stream.read(mono).value()) {
        frames += count;
        if (frames % (48000U * 20U) < 4096U) most_mb = std::max(most_mb, resident_mb());
        if (after_first_minute_mb == 0.0 && frames > 48000U * 60U) after_first_minute_mb = resident_mb();
    }
    CHECK(static_cast<double>(frames) / 48000.0 == Approx(duration_s).margin(0.1)); // one AAC frame
    CHECK(most_mb - before_mb < 60.0); // 32 MB read ahead to choose the channel, given back later
    CHECK(resident_mb() - after_first_minute_mb <
          10.0); // block levels: 20 floats a second and channel are 0.6 MB
}
