// SPDX-License-Identifier: MIT
#include "audio/mono_stream.hpp"
#include "audio/sound_writer.hpp"
#include "tests/support/temporary_folder.hpp"
#include "tests/support/tone.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>

using namespace harpkeep;
using namespace harpkeep::tests;

namespace {

/// Flips, overwrites, cuts, repeats: what bad cables, bad disks and bad people do to a file.
std::string damaged(std::string bytes, bool header_too, std::mt19937_64& engine)
{
    const auto any = [&](std::size_t below) { return static_cast<std::size_t>(engine() % below); };
    const std::size_t changes = 1 + any(20);
    for (std::size_t i = 0; i < changes && bytes.size() > 16; ++i) {
        // The header is where damage does most, and where nothing is read after it.
        const bool in_header = header_too && any(2) == 0;
        const std::size_t first = header_too ? 0 : std::min<std::size_t>(bytes.size() / 2, 6000);
        const std::size_t at =
            in_header ? any(std::min<std::size_t>(bytes.size(), 256)) : first + any(bytes.size() - first);
        switch (any(5)) {
        case 0:
            bytes[at] = static_cast<char>(bytes[at] ^ static_cast<char>(1U << any(8)));
            break;
        case 1:
            bytes[at] = static_cast<char>(any(256));
            break;
        case 2:
            bytes.resize(16 + any(bytes.size() - 16));
            break;
        case 3:
            bytes.insert(at, bytes.substr(any(bytes.size()), any(2000)));
            break;
        default:
            for (std::size_t n = at; n < std::min(at + 8, bytes.size()); ++n)
                bytes[n] = static_cast<char>(0xff);
        }
    }
    return bytes;
}

} // namespace

TEST_CASE("SoundFile: damaged files give data or an error, never a crash, a hang or nonsense",
          "[audio][fuzz]")
{
    const std::string kind = GENERATE("wav", "flac", "mp3", "m4a", "ogg", "opus", "aiff", "caf", "mov");
    CAPTURE(kind);
    const TemporaryFolder folder;
    const std::string path = folder / ("a." + kind);
    {
        auto writer = SoundWriter::create(path, {.channels = 2}).value();
        REQUIRE(writer.write(tone(440.0, 48000.0, 6.0, 2)).has_value());
        REQUIRE(writer.finish().has_value());
    }
    const std::string bytes = read_bytes(path);
    std::mt19937_64 engine(20240917);
    std::vector<float> mono(4096);
    int opened = 0, refused = 0;
    for (int round = 0; round < 60; ++round) {
        write_bytes(path, damaged(bytes, round % 2 == 0, engine));
        auto stream = MonoStream::open(path);
        if (!stream) {
            ++refused;
            CHECK_FALSE(stream.error().message.empty());
            continue;
        }
        ++opened;
        std::size_t total = 0;
        bool finite = true;
        for (auto count = stream->read(mono); count && *count > 0; count = stream->read(mono)) {
            total += *count;
            for (std::size_t n = 0; n < *count; ++n) finite = finite && std::isfinite(mono[n]);
            if (total > 200U * 192000U) break; // gaps are bridged up to a minute each
        }
        CHECK(finite);
        CHECK(total <= 200U * 192000U);
        static_cast<void>(stream->remarks());
    }
    CHECK(opened > 0); // the damage is not so great that nothing is tried
    CHECK(refused > 0);
}
