// SPDX-License-Identifier: MIT
#include "audio/capture_continuity.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace harpkeep;

namespace {

constexpr double rate_hz = 48000.0;

BlockStamp block_at(double start_frame, std::uint32_t frames, bool overflow = false)
{
    return {.frames = frames, .first_sample_s = 1000.0 + start_frame / rate_hz, .overflow = overflow};
}

} // namespace

TEST_CASE("capture continuity: blocks that follow each other have no hole", "[audio]")
{
    CaptureContinuity continuity{Hertz{rate_hz}};
    double frame = 0.0;
    for (const std::uint32_t frames : {960U, 1U, 960U, 238U, 960U}) {
        CHECK_FALSE(continuity(block_at(frame, frames)));
        frame += frames;
    }
}

TEST_CASE("capture continuity: one hole is counted once, however many blocks carry the flag", "[audio]")
{
    CaptureContinuity continuity{Hertz{rate_hz}};
    CHECK_FALSE(continuity(block_at(0, 480)));
    const auto gap = continuity(block_at(480 + 722, 480, true));
    REQUIRE(gap);
    CHECK(gap->counted);
    CHECK(gap->lost_frames == 722);
    for (int block = 0; block < 4; ++block)
        CHECK_FALSE(continuity(block_at(480 + 722 + 480 + 480 * block, 480, true)));
}

TEST_CASE("capture continuity: the jump may come blocks after the flag", "[audio]")
{
    CaptureContinuity continuity{Hertz{rate_hz}};
    CHECK_FALSE(continuity(block_at(0, 480)));
    const auto unknown = continuity(block_at(480, 480, true));
    REQUIRE(unknown);
    CHECK_FALSE(unknown->counted);
    CHECK_FALSE(continuity(block_at(960, 480)));
    CHECK(continuity(block_at(1440 + 100, 480))->lost_frames == 100);
}

TEST_CASE("capture continuity: jitter of the clock without a flag is no hole", "[audio]")
{
    CaptureContinuity continuity{Hertz{rate_hz}};
    for (int block = 0; block < 200; ++block) {
        const double jitter_frames = 200.0 * std::sin(0.7 * block); // 4 ms
        CHECK_FALSE(continuity(block_at(480.0 * block + jitter_frames, 480)));
    }
}

TEST_CASE("capture continuity: a card that runs off by 300 ppm never adds up to a hole", "[audio]")
{
    CaptureContinuity continuity{Hertz{rate_hz}};
    for (int block = 0; block < 100'000; ++block) // a quarter of an hour
        REQUIRE_FALSE(continuity(block_at(480.0 * block * 1.0003, 480, false)));
}

TEST_CASE("capture continuity: a long jump without a flag is a hole", "[audio]")
{
    CaptureContinuity continuity{Hertz{rate_hz}};
    CHECK_FALSE(continuity(block_at(0, 480)));
    CHECK(continuity(block_at(480 + 4800, 480))->lost_frames == 4800);
}

TEST_CASE("capture continuity: a wrong time of one block is no hole", "[audio]")
{
    CaptureContinuity continuity{Hertz{rate_hz}};
    CHECK_FALSE(continuity(block_at(0, 480)));
    for (const double wrong_frames : {4800.0, -4800.0}) {
        const BlockStamp strange = block_at(480 + wrong_frames, 480);
        const BlockStamp next = block_at(960, 480);
        REQUIRE(continuity.needs_next(strange));
        auto copy = continuity;
        CHECK_FALSE(copy(strange, &next));
        CHECK_FALSE(copy.needs_next(next));
        CHECK_FALSE(copy(next));
    }
}

TEST_CASE("capture continuity: a jump that the next block keeps is a hole", "[audio]")
{
    CaptureContinuity continuity{Hertz{rate_hz}};
    CHECK_FALSE(continuity(block_at(0, 480)));
    const BlockStamp late = block_at(480 + 4800, 480);
    const BlockStamp next = block_at(960 + 4800, 480);
    CHECK(continuity(late, &next)->lost_frames == 4800);
    CHECK_FALSE(continuity(next));
}

TEST_CASE("capture continuity: a clock that steps back marks a hole of unknown size", "[audio]")
{
    CaptureContinuity continuity{Hertz{rate_hz}};
    CHECK_FALSE(continuity(block_at(48000, 480)));
    const auto gap = continuity(block_at(0, 480));
    REQUIRE(gap);
    CHECK_FALSE(gap->counted);
    CHECK_FALSE(continuity(block_at(480, 480)));
}
