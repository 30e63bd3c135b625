// SPDX-License-Identifier: MIT
#include "intake/recording.hpp"

#include "audio/file_hash.hpp"
#include "audio/mono_stream.hpp"
#include "intake/rate_limits.hpp"
#include "measure/check_assembly.hpp"
#include "measure/pluck_stream.hpp"

#include <fmt/format.h>
#include <utility>

namespace harpkeep {

namespace {

constexpr std::size_t piece_frames = 16384;
constexpr double lowest_rate_hz = 4000.0, highest_rate_hz = 768000.0;

void collect(std::vector<PluckEvent>&& events, HeardRecording& heard)
{
    for (auto& event : events) {
        if (auto* ended = std::get_if<PluckEnded>(&event))
            heard.plucks.push_back(std::move(ended->measurement));
        if (auto* ignored = std::get_if<SoundIgnored>(&event))
            heard.ignored.push_back({0, ignored->time.value(), ignored->reason});
    }
}

Result<void> listen(MonoStream& sound, const std::string& path, const Progress& progress,
                    HeardRecording& heard)
{
    PluckStream stream({.rate_hz = sound.sample_rate_hz()});
    std::vector<float> piece(piece_frames);
    std::size_t frames = 0;
    while (true) {
        const auto count = sound.read(piece);
        if (!count) return failure(count.error());
        if (*count == 0) break;
        frames += *count;
        collect(stream.push(std::span{piece}.first(*count)), heard);
        if (progress && !progress(sound.progress().value_or(0.0)))
            return failure(ErrorCode::refused, fmt::format("listening to {} was stopped", path));
    }
    collect(stream.finish(), heard);
    heard.duration_s = static_cast<double>(frames) / sound.sample_rate_hz();
    return {};
}

} // namespace

Result<HeardRecording> hear_recording(const std::string& path, const Progress& progress)
{
    auto sound = MonoStream::open(path);
    if (!sound) return failure(sound.error());
    HeardRecording heard{.path = path, .sample_rate_hz = sound->sample_rate_hz()};
    if (heard.sample_rate_hz < lowest_rate_hz || heard.sample_rate_hz > highest_rate_hz)
        return failure(ErrorCode::unusable_input,
                       fmt::format("{} has a sample rate of {:.0f} Hz; record at 44100 or 48000 Hz", path,
                                   heard.sample_rate_hz));
    if (const auto done = listen(*sound, path, progress, heard); !done) return failure(done.error());
    heard.remarks = sound->remarks();
    const auto condition = sound->condition();
    if (condition.silent)
        return failure(
            ErrorCode::unusable_input,
            fmt::format("{} is silent (peak {:.0f} dB re full scale); see whether the microphone was on and "
                        "near the harp, and record again",
                        path, condition.peak_dbfs));
    const auto hash = sha256_of_file(path);
    if (!hash) return failure(hash.error());
    heard.sha256 = *hash;
    return heard;
}

Result<HeardCheck> hear_check(const HarpLayout& layout, Hertz a4,
                              const std::vector<CheckRecording>& recordings, const Progress& progress)
{
    HeardCheck check;
    std::vector<HeardPluck> plucks;
    std::vector<IgnoredSound> ignored;
    for (std::size_t i = 0; i < recordings.size(); ++i) {
        const double begun = static_cast<double>(i) / static_cast<double>(recordings.size());
        auto heard = hear_recording(recordings[i].path, [&](double share) {
            return !progress || progress(begun + share / static_cast<double>(recordings.size()));
        });
        if (!heard) return failure(heard.error());
        for (const auto& before : check.recordings)
            if (before.sha256 == heard->sha256)
                return failure(
                    ErrorCode::invalid_argument,
                    fmt::format("{} and {} are the same recording; name it once, as no pluck may count "
                                "twice",
                                before.path, heard->path));
        for (auto& limit : rate_limits(layout, a4, heard->sample_rate_hz))
            heard->remarks.push_back(std::move(limit));
        const int file_index = static_cast<int>(i);
        for (auto& pluck : heard->plucks)
            plucks.push_back({file_index, std::move(pluck), recordings[i].pass});
        heard->plucks.clear();
        for (auto& sound : heard->ignored) ignored.push_back({file_index, sound.start_s, sound.reason});
        check.recordings.push_back(std::move(*heard));
    }
    check.result = assemble_check(layout, plucks, std::move(ignored), {.a4 = a4});
    return check;
}

} // namespace harpkeep
