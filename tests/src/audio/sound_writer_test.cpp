// SPDX-License-Identifier: MIT
#include "audio/sound_writer.hpp"

#include "audio/sound_file.hpp"
#include "tests/support/temporary_folder.hpp"
#include "tests/support/tone.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;
using namespace harpkeep::tests;
using Catch::Matchers::Contains;

TEST_CASE("SoundWriter: says what cannot be written and what to do", "[audio]")
{
    const TemporaryFolder folder;
    const auto message = [](const std::string& path, const SoundWriterSettings& settings) {
        const auto writer = SoundWriter::create(path, settings);
        REQUIRE_FALSE(writer.has_value());
        return writer.error().message;
    };
    CHECK_THAT(message(folder / "a", {}), Contains("no ending") && Contains(".flac"));
    CHECK_THAT(message(folder / "none/a.flac", {}), Contains("cannot write") && Contains("No such file"));
    CHECK_THAT(message(folder / "a.mp3", {.sample_rate_hz = 96000}), Contains("cannot be written"));
    CHECK_THAT(message(folder / "a.flac", {.channels = 20}), Contains("cannot be written"));
}

TEST_CASE("SoundWriter: a full disk is told when it happens", "[audio]")
{
    // /dev/full fails every write with "No space left on device".
    const TemporaryFolder folder;
    std::filesystem::create_symlink("/dev/full", folder / "full.flac");
    auto writer = SoundWriter::create(folder / "full.flac", {});
    Result<void> result;
    if (!writer) {
        result = failure(writer.error());
    } else {
        const auto second = tone(440.0, 48000.0, 1.0);
        for (int i = 0; i < 20 && result; ++i) result = writer->write(second);
        if (result) result = writer->finish();
    }
    REQUIRE_FALSE(result.has_value());
    CHECK_THAT(result.error().message, Contains("No space left on device"));
}

TEST_CASE("SoundWriter: pieces of any size make the same file as one piece", "[audio][property]")
{
    const TemporaryFolder folder;
    const auto samples = tone(440.0, 48000.0, 1.0, 2);
    auto whole = SoundWriter::create(folder / "whole.flac", {.channels = 2}).value();
    REQUIRE(whole.write(samples).has_value());
    REQUIRE(whole.finish().has_value());
    auto pieces = SoundWriter::create(folder / "pieces.flac", {.channels = 2}).value();
    for (std::size_t at = 0; at < samples.size(); at += 2 * 331)
        REQUIRE(
            pieces.write(std::span(samples).subspan(at, std::min<std::size_t>(2 * 331, samples.size() - at)))
                .has_value());
    REQUIRE(pieces.finish().has_value());
    CHECK(pieces.position() == 48000);
    CHECK(read_bytes(folder / "whole.flac") == read_bytes(folder / "pieces.flac"));
}

TEST_CASE("SoundWriter: what is written so far can be read while it grows", "[audio]")
{
    const TemporaryFolder folder;
    auto writer = SoundWriter::create(folder / "live.flac", {}).value();
    REQUIRE(writer.write(tone(440.0, 48000.0, 20.0)).has_value());
    auto file =
        SoundFile::open(folder / "live.flac").value(); // before finish(): the program may have been killed
    std::vector<float> piece(48000);
    CHECK(file.read(piece).value() == 48000);
    CHECK(std::abs(cents_off(piece, 48000.0, 440.0, 0.1, 0.5, 0.2)) < 1e-3); // 24 bits
}

TEST_CASE("SoundWriter: values beyond full scale are held there", "[audio]")
{
    const TemporaryFolder folder;
    auto writer = SoundWriter::create(folder / "loud.flac", {}).value();
    REQUIRE(writer.write(std::vector{2.0F, -2.0F, 0.25F}).has_value());
    REQUIRE(writer.finish().has_value());
    auto file = SoundFile::open(folder / "loud.flac").value();
    std::vector<float> samples(3);
    REQUIRE(file.read(samples).value() == 3);
    CHECK(samples == std::vector{8388607.0F / 8388608.0F, -1.0F, 0.25F});
}
