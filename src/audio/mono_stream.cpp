// SPDX-License-Identifier: MIT
#include "audio/mono_stream.hpp"

#include "base/expects.hpp"

#include <algorithm>

namespace harpkeep {

namespace {

constexpr std::size_t piece_frames = 4096;
constexpr double enough_s = 10.0;
constexpr double enough_range_db = 12.0; // something sounds
constexpr double longest_s = 60.0;
constexpr std::size_t most_samples = (std::size_t{32} << 20) / sizeof(float);

bool something_sounds(const ChannelSurvey& survey)
{
    return std::any_of(survey.channels().begin(), survey.channels().end(),
                       [](const auto& channel) { return channel.range_db() > enough_range_db; });
}

} // namespace

MonoStream::MonoStream(SoundFile file)
    : file_(std::move(file)),
      survey_(file_.info().channels, file_.info().sample_rate_hz),
      piece_(piece_frames * static_cast<std::size_t>(file_.info().channels))
{
}

Result<MonoStream> MonoStream::open(const std::string& path)
{
    auto file = SoundFile::open(path);
    if (!file) return failure(file.error());
    MonoStream stream(std::move(*file));
    if (const auto chosen = stream.choose(); !chosen) return failure(chosen.error());
    return stream;
}

/// Reads ahead until the channels can be told apart.
Result<void> MonoStream::choose()
{
    const auto channels = static_cast<std::size_t>(info().channels);
    double next_look_s = enough_s;
    while (channels > 1 && ahead_.size() < most_samples) {
        const auto frames = file_.read(piece_);
        if (!frames) return failure(frames.error());
        if (*frames == 0) break;
        const auto piece = std::span(piece_).first(*frames * channels);
        survey_(piece);
        ahead_.insert(ahead_.end(), piece.begin(), piece.end());
        const double read_s = static_cast<double>(ahead_.size() / channels) / sample_rate_hz();
        if (read_s < next_look_s) continue;
        if (read_s > longest_s || something_sounds(survey_)) break;
        next_look_s += 1.0;
    }
    choice_ = choose_channels(survey_);
    return {};
}

Result<std::size_t> MonoStream::read(std::span<float> mono)
{
    HARPKEEP_EXPECTS(!mono.empty());
    const auto channels = static_cast<std::size_t>(info().channels);
    std::size_t done = 0;
    while (done < mono.size()) {
        if (ahead_used_ < ahead_.size()) {
            const std::size_t frames = std::min((ahead_.size() - ahead_used_) / channels, mono.size() - done);
            mix_down(std::span(ahead_).subspan(ahead_used_, frames * channels), choice_, mono.subspan(done));
            ahead_used_ += frames * channels;
            done += frames;
            if (ahead_used_ == ahead_.size()) {
                std::vector<float>().swap(ahead_);
                ahead_used_ = 0;
            }
            continue;
        }
        const std::size_t wanted = std::min(piece_frames, mono.size() - done);
        const auto frames = file_.read(std::span(piece_).first(wanted * channels));
        if (!frames) return failure(frames.error());
        if (*frames == 0) break;
        const auto piece = std::span(piece_).first(*frames * channels);
        survey_(piece);
        mix_down(piece, choice_, mono.subspan(done));
        done += *frames;
    }
    handed_out_ += done;
    return done;
}

std::optional<double> MonoStream::progress() const
{
    if (!info().duration_s || *info().duration_s <= 0.0) return std::nullopt;
    return std::min(1.0, static_cast<double>(handed_out_) / sample_rate_hz() / *info().duration_s);
}

SignalCondition MonoStream::condition() const
{
    return judge_signal(survey_, choice_, sample_rate_hz());
}

std::vector<std::string> MonoStream::remarks() const
{
    auto remarks = file_.remarks();
    const auto advice = condition().advice;
    remarks.insert(remarks.end(), advice.begin(), advice.end());
    return remarks;
}

} // namespace harpkeep
