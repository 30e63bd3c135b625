// SPDX-License-Identifier: MIT
#include "intake/recording.hpp"

#include "written_harp.hpp"

#include <ctime>
#include <sys/resource.h>

using namespace harpkeep;
using namespace harpkeep::tests;

namespace {

double most_memory_mb()
{
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    return static_cast<double>(usage.ru_maxrss) / 1024.0;
}

} // namespace

TEST_CASE("hear_recording: an hour takes no more memory than a minute, and little time", "[intake]")
{
    const TemporaryFolder folder;
    const auto layout = small_harp();
    const auto sound = record(layout, plan_pass_by_pass(layout, Direction::low_to_high), 32000.0);
    const double once_s = static_cast<double>(sound.samples.size()) / sound.sample_rate_hz;
    const int repeats = static_cast<int>(3600.0 / once_s) + 1;
    const auto brief = write_sound(folder / "minute.flac", sound.samples, 32000.0, 2);
    const auto hour = write_sound(folder / "hour.flac", sound.samples, 32000.0, repeats);
    REQUIRE(hear_recording(brief).has_value());
    const double before_mb = most_memory_mb();
    const std::clock_t begun = std::clock();
    const auto heard = hear_recording(hour);
    const double work_s = static_cast<double>(std::clock() - begun) / CLOCKS_PER_SEC;
    REQUIRE(heard.has_value());
    CHECK(heard->duration_s >= 3600.0);
    CHECK(heard->plucks.size() >=
          static_cast<std::size_t>(0.95 * 24 * repeats)); // an end may cut a tone short
    // An hour of samples would be 460 MB; the plucks themselves, with their partials, are a few.
    CHECK(most_memory_mb() - before_mb < 30.0);
    CHECK(work_s < 10.0 / 240.0 * heard->duration_s); // four minutes in ten seconds
}
