// SPDX-License-Identifier: MIT
// Makes the sound that the pages of the user guide speak of.
// usage: guide_recordings phone FOLDER     flats.m4a, naturals.m4a, sharps.m4a: three passes over a harp
//        guide_recordings microphone FILE  two seconds of a quiet room, then a pass; raw float32
#include "synth/synthetic_playing.hpp"
#include "tests/support/video_file.hpp"

#include <filesystem>
#include <fstream>
#include <iostream>
#include <string_view>

using namespace harpkeep;

namespace {

constexpr std::uint64_t seed = 8;

std::vector<float> pass(const SyntheticHarp& harp, Position position, double first_s)
{
    const auto plan = plan_pass(harp.layout, position, Direction::low_to_high);
    const auto performance = play(harp, plan, {.first_s = first_s, .gap_s = 1.8, .seed = seed});
    return render_recording(harp, performance.events, {.snr_db = 40.0, .seed = seed}).samples;
}

/// As a phone writes it: AAC in an MPEG-4 container.
void write_phone_recording(const std::filesystem::path& file, std::span<const float> sound)
{
    const auto video = std::filesystem::path{file}.replace_extension(".mp4");
    tests::write_video(video.string(), sound);
    std::filesystem::rename(video, file);
}

void write_raw(const std::filesystem::path& file, std::span<const float> sound)
{
    std::ofstream{file, std::ios::binary}.write(reinterpret_cast<const char*>(sound.data()),
                                                static_cast<std::streamsize>(sound.size_bytes()));
}

} // namespace

int main(int count, char** arguments)
{
    if (count != 3) {
        std::cerr << "usage: guide_recordings phone|microphone PATH\n";
        return 2;
    }
    const auto harp =
        make_synthetic_harp(make_layout({}).value(), {.step_error_sd_cents = 1.5, .seed = seed});
    const std::filesystem::path path{arguments[2]};
    if (std::string_view{arguments[1]} == "microphone") {
        write_raw(path, pass(harp, Position::flat, 2.0));
        return 0;
    }
    write_phone_recording(path / "flats.m4a", pass(harp, Position::flat, 1.0));
    write_phone_recording(path / "naturals.m4a", pass(harp, Position::natural, 1.0));
    write_phone_recording(path / "sharps.m4a", pass(harp, Position::sharp, 1.0));
}
