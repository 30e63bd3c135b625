// SPDX-License-Identifier: MIT
#include "audio/sound_file.hpp"

#include "audio/sound_writer.hpp"
#include "tests/support/temporary_folder.hpp"
#include "tests/support/tone.hpp"
#include "tests/support/video_file.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <string>
#include <unistd.h>
#include <vector>

using namespace harpkeep;
using namespace harpkeep::tests;
using Catch::Matchers::Contains;

namespace {

void write_sound(const std::string& path, const std::vector<float>& samples,
                 const SoundWriterSettings& settings)
{
    auto writer = SoundWriter::create(path, settings);
    INFO((writer ? std::string() : writer.error().message));
    REQUIRE(writer.has_value());
    REQUIRE(writer->write(samples).has_value());
    REQUIRE(writer->finish().has_value());
}

/// All samples, read in pieces of an odd size.
std::vector<float> read_all(SoundFile& file)
{
    std::vector<float> samples, piece(997 * static_cast<std::size_t>(file.info().channels));
    while (true) {
        const auto frames = file.read(piece);
        REQUIRE(frames.has_value());
        if (*frames == 0) return samples;
        samples.insert(samples.end(), piece.begin(),
                       piece.begin() + static_cast<std::ptrdiff_t>(
                                           *frames * static_cast<std::size_t>(file.info().channels)));
    }
}

std::string message_of(const std::string& path)
{
    const auto file = SoundFile::open(path);
    REQUIRE_FALSE(file.has_value());
    return file.error().message;
}

} // namespace

// RFC 9639 (FLAC), appendix D.1: the smallest file, 57 bytes, two channels of one 16-bit sample. The bytes
// were checked by their own checksums: CRC-8 0xbf, CRC-16 0xaa9a and the MD5 of the samples, 3e84b418...2e0f.
TEST_CASE("SoundFile: reads the first example file of RFC 9639", "[audio][reference]")
{
    const std::string bytes(
        "fLaC\x80\x00\x00\x22\x10\x00\x10\x00\x00\x00\x0f\x00\x00\x0f\x0a\xc4\x42\xf0\x00\x00\x00\x01"
        "\x3e\x84\xb4\x18\x07\xdc\x69\x03\x07\x58\x6a\x3d\xad\x1a\x2e\x0f"
        "\xff\xf8\x69\x18\x00\x00\xbf\x03\x58\xfd\x03\x12\x8b\xaa\x9a",
        57);
    const TemporaryFolder folder;
    write_bytes(folder / "example.flac", bytes);
    auto file = SoundFile::open(folder / "example.flac").value();
    CHECK(file.info().sample_rate_hz == 44100.0);
    CHECK(file.info().channels == 2);
    CHECK(file.info().bits_per_sample == 16);
    CHECK(read_all(file) == std::vector{25588.0F / 32768.0F, 10416.0F / 32768.0F});
    CHECK(file.remarks().empty());
}

TEST_CASE("SoundFile: lossless files come back bit for bit, at any rate, depth and number of channels",
          "[audio][property]")
{
    const auto [kind, bits] =
        GENERATE(std::tuple{"flac", 16}, std::tuple{"flac", 24}, std::tuple{"wav", 16}, std::tuple{"wav", 24},
                 std::tuple{"wav", 32}, std::tuple{"aiff", 24}, std::tuple{"caf", 16});
    const int rate_hz = GENERATE(8000, 44100, 48000, 96000);
    const int channels = GENERATE(1, 2, 6);
    CAPTURE(kind, bits, rate_hz, channels);
    const TemporaryFolder folder;
    const std::string path = folder / (std::string("tone.") + kind);
    const auto samples = tone(440.0, rate_hz, 0.3, channels);
    write_sound(path, samples, {.sample_rate_hz = rate_hz, .channels = channels, .bits_per_sample = bits});

    auto file = SoundFile::open(path).value();
    CHECK(file.info().sample_rate_hz == rate_hz);
    CHECK(file.info().channels == channels);
    CHECK(file.info().bits_per_sample == bits);
    // Whole samples in 0.3 s; FFmpeg only estimates the length of caf.
    if (std::string(kind) != "caf") CHECK(file.info().duration_s.value() == Approx(0.3).margin(1e-9));
    const auto read = read_all(file);
    REQUIRE(read.size() == samples.size());
    const double steps = std::ldexp(1.0, bits - 1);
    std::size_t different = 0;
    for (std::size_t n = 0; n < read.size(); ++n)
        different +=
            read[n] != static_cast<float>(std::nearbyint(static_cast<double>(samples[n]) * steps) / steps);
    CHECK(different == 0);
    CHECK(file.remarks().empty());
    CHECK(file.position() == samples.size() / static_cast<std::size_t>(channels));
}

TEST_CASE("SoundFile: a tone keeps its pitch and its time through every lossy codec", "[audio]")
{
    const auto [kind, rate_hz] =
        GENERATE(std::tuple{"m4a", 44100}, std::tuple{"m4a", 48000}, std::tuple{"m4a", 96000},
                 std::tuple{"mp4", 48000}, std::tuple{"mov", 48000}, std::tuple{"ogg", 44100},
                 std::tuple{"ogg", 48000}, std::tuple{"opus", 48000}, std::tuple{"mp3", 44100},
                 std::tuple{"mp3", 48000}, std::tuple{"m4a", 8000}, std::tuple{"mp3", 8000});
    const int channels = GENERATE(1, 2);
    CAPTURE(kind, rate_hz, channels);
    const TemporaryFolder folder;
    const std::string path = folder / (std::string("tone.") + kind);
    std::vector<float> samples(static_cast<std::size_t>(rate_hz / 2 * channels),
                               0.0F); // half a second of silence
    const auto sound = tone(440.0, rate_hz, 3.0, channels);
    samples.insert(samples.end(), sound.begin(), sound.end());
    write_sound(path, samples, {.sample_rate_hz = rate_hz, .channels = channels});

    auto file = SoundFile::open(path).value();
    CHECK(file.info().sample_rate_hz == rate_hz);
    REQUIRE(file.info().channels == channels);
    CHECK(file.info().bits_per_sample == 0);
    const auto interleaved = read_all(file);
    std::vector<double> first;
    for (std::size_t n = 0; n < interleaved.size(); n += static_cast<std::size_t>(channels))
        first.push_back(static_cast<double>(interleaved[n]));
    REQUIRE(first.size() > static_cast<std::size_t>(3.4 * rate_hz));
    // A steady tone moves by 4e-4 cent at most, in Vorbis; decaying notes move by 0.01 to 0.02 in mp3.
    CHECK(std::abs(cents_off(first, rate_hz, 440.0, 1.0, 1.0, 0.5)) < 1e-3);
    // The encoder's delay is taken off: the tone's phase is where it was, within a fifth of a millisecond.
    const double start_s = std::floor(0.5 * rate_hz) / rate_hz;
    const double late_rad = std::arg(phasor(first, rate_hz, 440.0, 1.0, 0.5) *
                                     std::polar(1.0, 2.0 * std::numbers::pi * (440.0 * start_s + 0.25)));
    const bool delay_is_known = std::string(kind) != "mp3" || rate_hz != 8000;
    if (delay_is_known) CHECK(std::abs(late_rad) / (2.0 * std::numbers::pi * 440.0) < 2e-4);
    double before = 0.0;
    for (std::size_t n = 0; n < static_cast<std::size_t>(0.4 * rate_hz); ++n)
        before = std::max(before, std::abs(first[n]));
    CHECK(before < 0.01); // and the silence in front is still silence
}

TEST_CASE("SoundFile: reads the sound track of a phone's video", "[audio]")
{
    const std::string name = GENERATE("video.mp4", "video.mov");
    CAPTURE(name);
    const TemporaryFolder folder;
    write_video(folder / name, tone(440.0, 48000.0, 4.0));
    auto file = SoundFile::open(folder / name).value();
    CHECK(file.info().codec == "aac");
    const auto samples = read_all(file);
    CHECK(static_cast<double>(samples.size()) / 48000.0 ==
          Approx(4.0).margin(0.05));                                           // one AAC frame is 0.021 s
    CHECK(std::abs(cents_off(samples, 48000.0, 440.0, 1.0, 1.0, 0.5)) < 1e-3); // as above
}

TEST_CASE("SoundFile: says what is wrong with a file and what to do", "[audio]")
{
    const TemporaryFolder folder;
    CHECK_THAT(message_of(folder / "none.wav"),
               Contains("none.wav: No such file") && Contains("check the name"));
    CHECK(SoundFile::open(folder / "none.wav").error().code == ErrorCode::not_found);
    CHECK_THAT(message_of(folder / ""), Contains("is a folder"));
    write_bytes(folder / "empty.wav", "");
    CHECK_THAT(message_of(folder / "empty.wav"), Contains("is empty (0 bytes)"));
    write_bytes(folder / "notes.txt", std::string(3000, 'a') + "\nthese are the strings to buy\n");
    CHECK_THAT(message_of(folder / "notes.txt"), Contains("not a recording") && Contains("wav, flac"));
    write_bytes(folder / "notes.wav", std::string(3000, 'a'));
    CHECK_THAT(message_of(folder / "notes.wav"), Contains("not a recording"));
    write_video(folder / "mute.mp4", {});
    CHECK_THAT(message_of(folder / "mute.mp4"), Contains("has no sound in it"));
    CHECK_THAT(message_of("/dev/null"), Contains("is no ordinary file"));
}

TEST_CASE("SoundFile: a name is a file's name and never a protocol's", "[audio]")
{
    for (const std::string name :
         {"http://127.0.0.1:9/a.wav", "concat:a.wav|b.wav", "data:audio/wav;base64,UklG"})
        CHECK(SoundFile::open(name).error().code == ErrorCode::not_found);
    const TemporaryFolder folder; // a playlist must not fetch what it names
    write_bytes(folder / "list.wav",
                "#EXTM3U\n#EXT-X-TARGETDURATION:10\n#EXTINF:10,\nfile:///etc/passwd\n#EXT-X-ENDLIST\n");
    CHECK_THAT(message_of(folder / "list.wav"), Contains("not a recording"));
}

TEST_CASE("SoundFile: an unreadable file says so", "[audio]")
{
    const TemporaryFolder folder;
    write_sound(folder / "a.wav", tone(440.0, 48000.0, 0.1), {});
    std::filesystem::permissions(folder / "a.wav", std::filesystem::perms::none);
    if (::access((folder / "a.wav").c_str(), R_OK) == 0) return; // the superuser reads everything
    CHECK_THAT(message_of(folder / "a.wav"), Contains("cannot read") && Contains("Permission denied"));
}

TEST_CASE("SoundFile: uses what is there of a file that was cut off, and says so", "[audio]")
{
    const std::string kind = GENERATE("wav", "flac", "aiff", "mp3");
    CAPTURE(kind);
    const TemporaryFolder folder;
    write_sound(folder / ("whole." + kind), tone(440.0, 48000.0, 5.0), {.bits_per_sample = 16});
    const std::string bytes = read_bytes(folder / ("whole." + kind));
    write_bytes(folder / ("cut." + kind), bytes.substr(0, bytes.size() * 6 / 10));

    auto file = SoundFile::open(folder / ("cut." + kind)).value();
    const auto samples = read_all(file);
    CHECK(static_cast<double>(samples.size()) / 48000.0 ==
          Approx(3.0).margin(0.4)); // compression is not even
    REQUIRE(file.remarks().size() >= 1);
    CHECK_THAT(file.remarks().back(), Contains("promises 5.0 s") && Contains("cut off"));
}

TEST_CASE("SoundFile: a phone recording without its end cannot be read and says why", "[audio]")
{
    const TemporaryFolder folder;
    write_sound(folder / "whole.m4a", tone(440.0, 48000.0, 5.0), {});
    const std::string bytes = read_bytes(folder / "whole.m4a");
    write_bytes(folder / "cut.m4a", bytes.substr(0, bytes.size() * 6 / 10));
    CHECK_THAT(message_of(folder / "cut.m4a"), Contains("cut off when it was copied") && Contains("moov"));
}

TEST_CASE("SoundFile: missing pieces become silence of their length", "[audio]")
{
    const TemporaryFolder folder;
    write_sound(folder / "whole.ogg", tone(440.0, 48000.0, 20.0), {});
    std::string bytes = read_bytes(folder / "whole.ogg");
    std::vector<std::size_t> pages;
    for (std::size_t at = 0; (at = bytes.find("OggS", at)) != std::string::npos; ++at) pages.push_back(at);
    REQUIRE(pages.size() > 12);
    bytes.erase(pages[8], pages[9] - pages[8]);
    write_bytes(folder / "holed.ogg", bytes);

    auto file = SoundFile::open(folder / "holed.ogg").value();
    const auto samples = read_all(file);
    CHECK(static_cast<double>(samples.size()) / 48000.0 ==
          Approx(20.0).margin(0.06)); // a Vorbis block beside the hole
    REQUIRE_FALSE(file.remarks().empty());
    CHECK_THAT(file.remarks().back(), Contains("sound are missing"));
}

TEST_CASE("SoundFile: reads RF64, which holds recordings of more than 4 GB", "[audio]")
{
    // ITU-R BS.2088 (from memory): RF64, size unknown, WAVE, ds64 with the 64-bit lengths, then fmt and data
    // as in RIFF.
    std::string bytes("RF64\xff\xff\xff\xffWAVE"
                      "ds64\x1c\0\0\0"
                      "\x50\0\0\0\0\0\0\0"
                      "\x04\0\0\0\0\0\0\0"
                      "\x02\0\0\0\0\0\0\0"
                      "\0\0\0\0"
                      "fmt \x10\0\0\0"
                      "\x01\0\x01\0"
                      "\x80\xbb\0\0"
                      "\0\x77\x01\0"
                      "\x02\0\x10\0"
                      "data\xff\xff\xff\xff"
                      "\0\x40\0\xc0",
                      12 + 36 + 24 + 8 + 4);
    const TemporaryFolder folder;
    write_bytes(folder / "long.wav", bytes);
    auto file = SoundFile::open(folder / "long.wav").value();
    CHECK(read_all(file) == std::vector{0.5F, -0.5F});
    CHECK(file.remarks().empty());
}

TEST_CASE("SoundFile: FFmpeg's log stays off the terminal", "[audio]")
{
    const TemporaryFolder folder;
    write_bytes(folder / "notes.wav", "RIFF\x10\x00\x00\x00WAVEfmt garbage that is none");
    const int terminal = ::dup(STDERR_FILENO);
    REQUIRE(std::freopen((folder / "log").c_str(), "w", stderr) != nullptr);
    const bool opened = SoundFile::open(folder / "notes.wav").has_value();
    std::fflush(stderr);
    ::dup2(terminal, STDERR_FILENO);
    ::close(terminal);
    CHECK_FALSE(opened);
    CHECK(read_bytes(folder / "log").empty());
}
