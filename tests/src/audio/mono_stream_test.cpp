// SPDX-License-Identifier: MIT
#include "audio/mono_stream.hpp"

#include "audio/sound_writer.hpp"
#include "tests/support/temporary_folder.hpp"
#include "tests/support/tone.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;
using namespace harpkeep::tests;
using Catch::Matchers::Contains;

namespace {

void write_sound(const std::string& path, const std::vector<float>& samples, int channels,
                 int rate_hz = 48000)
{
    auto writer = SoundWriter::create(path, {.sample_rate_hz = rate_hz, .channels = channels}).value();
    REQUIRE(writer.write(samples).has_value());
    REQUIRE(writer.finish().has_value());
}

std::vector<float> read_all(MonoStream& stream)
{
    std::vector<float> samples, piece(1009);
    while (true) {
        const std::size_t count = stream.read(piece).value();
        if (count == 0) return samples;
        samples.insert(samples.end(), piece.begin(), piece.begin() + static_cast<std::ptrdiff_t>(count));
    }
}

} // namespace

TEST_CASE("MonoStream: a stereo recording with one dead channel gives the live one", "[audio]")
{
    const TemporaryFolder folder;
    const auto live = tone(440.0, 48000.0, 15.0); // longer than what is read ahead
    std::vector<float> stereo;
    for (const float sample : live) stereo.insert(stereo.end(), {0.0F, sample});
    write_sound(folder / "stereo.flac", stereo, 2);
    auto stream = MonoStream::open(folder / "stereo.flac").value();
    CHECK(stream.choice().weights == std::vector{0.0, 1.0});
    const auto mono = read_all(stream);
    REQUIRE(mono.size() == live.size());
    double worst = 0.0;
    for (std::size_t n = 0; n < live.size(); ++n)
        worst = std::max(worst, static_cast<double>(std::abs(mono[n] - live[n])));
    CHECK(worst <= 0x1p-24 * 1.01); // half a step of 24 bits
    CHECK(stream.condition().dead_channels == std::vector{1});
    CHECK_THAT(stream.remarks().at(0), Contains("right channel is used"));
    CHECK(stream.progress().value() == 1.0);
}

TEST_CASE("MonoStream: a mono recording passes through as it is", "[audio]")
{
    const TemporaryFolder folder;
    write_sound(folder / "mono.flac", tone(440.0, 8000.0, 2.0), 1, 8000);
    auto stream = MonoStream::open(folder / "mono.flac").value();
    CHECK(stream.progress().value() == 0.0);
    CHECK(read_all(stream).size() == 16000);
    CHECK_THAT(stream.remarks().at(0), Contains("8000 samples a second"));
}

TEST_CASE("MonoStream: hands on why a file cannot be opened", "[audio]")
{
    const auto stream = MonoStream::open("/nowhere/a.flac");
    REQUIRE_FALSE(stream.has_value());
    CHECK(stream.error().code == ErrorCode::not_found);
}
