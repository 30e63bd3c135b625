// SPDX-License-Identifier: MIT
#include "measure/onset_detector.hpp"

#include "signal/window.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep {

namespace {

constexpr double frame_s = 0.042;
constexpr double hop_s = 0.010;
constexpr double lowest_hz = 60.0, highest_hz = 9000.0;
constexpr double bands_per_octave = 6.0;
constexpr double floor_rise =
    1.004;                          // per frame, 1.7 dB a second: the floor follows a fading room, not a tone
constexpr double floor_share = 6.0; // noise of one band seldom rises above this many times its floor
constexpr double least_rise_db =
    45.0; // summed; noise alone stays under 35 (measured on pink and white noise)
constexpr double least_spacing_s = 0.09; // nobody plucks two strings of a check faster
// A string that has just begun may swell or beat: what follows so soon has to rise nearly as much as it did.
constexpr double settling_s = 0.2, settling_share = 0.3;
constexpr std::int64_t look_back = 4; // frames, as long as a frame's own window
constexpr std::int64_t look_ahead = 4;
constexpr std::int64_t memory_frames = 150;

} // namespace

OnsetDetector::OnsetDetector(double rate_hz)
    : rate_hz_(rate_hz),
      hop_(std::max<std::size_t>(16, static_cast<std::size_t>(hop_s * rate_hz))),
      fft_(fast_transform_length(static_cast<std::size_t>(frame_s * rate_hz)))
{
    window_ = hann_window(fft_.length());
    const double bin_hz = rate_hz / static_cast<double>(fft_.length());
    double edge_hz = lowest_hz;
    const double top_hz = std::min(highest_hz, 0.45 * rate_hz);
    while (edge_hz < top_hz) {
        const double next_hz = std::max(edge_hz * std::exp2(1.0 / bands_per_octave), edge_hz + 2.0 * bin_hz);
        bands_.push_back(
            {static_cast<std::size_t>(std::lround(edge_hz / bin_hz)),
             static_cast<std::size_t>(std::lround(std::min(next_hz, top_hz + bin_hz) / bin_hz))});
        edge_hz = next_hz;
    }
    std::erase_if(bands_, [](const Band& band) { return band.last <= band.first; });
}

void OnsetDetector::take_frame(std::span<const float> samples)
{
    std::vector<float> windowed(samples.size());
    for (std::size_t i = 0; i < samples.size(); ++i)
        windowed[i] = samples[i] * static_cast<float>(window_[i]);
    const auto bins = fft_(windowed);
    const bool first = floors_.empty();
    if (first) floors_.resize(bands_.size());
    Frame now;
    now.level_db.resize(bands_.size());
    for (std::size_t b = 0; b < bands_.size(); ++b) {
        double power = 0.0;
        for (std::size_t i = bands_[b].first; i < bands_[b].last; ++i)
            power += static_cast<double>(std::norm(bins[i]));
        power += 1e-9 * static_cast<double>(samples.size()); // what 16-bit silence holds
        floors_[b] = first ? power : std::min(floors_[b] * floor_rise, std::max(power, 0.5 * floors_[b]));
        now.level_db[b] = 10.0 * std::log10(power + floor_share * floors_[b]);
    }
    const std::int64_t before = next_frame_ - look_back;
    if (before >= first_frame_)
        for (std::size_t b = 0; b < bands_.size(); ++b) {
            const double past = std::max(frame(before).level_db[b], frame(before + 2).level_db[b]);
            now.rise_db += std::clamp(now.level_db[b] - past, 0.0, 30.0);
        }
    frames_.push_back(std::move(now));
    ++next_frame_;
    while (static_cast<std::int64_t>(frames_.size()) > memory_frames) {
        frames_.pop_front();
        ++first_frame_;
    }
}

double OnsetDetector::threshold_db(std::size_t frame) const
{
    std::vector<double> rises;
    const std::size_t from = frame > 60 ? frame - 60 : 0;
    for (std::size_t i = from; i <= frame && i < frames_.size(); ++i) rises.push_back(frames_[i].rise_db);
    const auto middle = rises.begin() + static_cast<std::ptrdiff_t>(rises.size() / 2);
    std::nth_element(rises.begin(), middle, rises.end());
    return std::max(least_rise_db, 2.5 * *middle + 15.0);
}

void OnsetDetector::pick(std::vector<Onset>& onsets, bool at_end)
{
    const auto spacing = static_cast<std::int64_t>(least_spacing_s / hop_s);
    while (next_pick_ < next_frame_ - (at_end ? 0 : look_ahead)) {
        const std::int64_t at = next_pick_++;
        if (at < first_frame_) continue;
        // Nothing is known of the time before the first frame: a sound may begin with the stream.
        if (at == 0) onsets.push_back({refined_time_s(0), true, 0.0});
        const double rise = frame(at).rise_db;
        bool highest = true;
        for (std::int64_t i = std::max(first_frame_, at - look_ahead);
             i < std::min(next_frame_, at + look_ahead + 1); ++i)
            if (frame(i).rise_db > rise || (frame(i).rise_db == rise && i < at)) highest = false;
        if (!highest || at - last_onset_frame_ < spacing) continue;
        if (rise < threshold_db(static_cast<std::size_t>(at - first_frame_))) continue;
        const double since_s = static_cast<double>(at - last_onset_frame_) * hop_s;
        if (since_s < settling_s && rise < settling_share * last_rise_db_) continue;
        last_onset_frame_ = at;
        last_rise_db_ = rise;
        onsets.push_back({refined_time_s(at), false, rise});
    }
}

double OnsetDetector::refined_time_s(std::int64_t frame_index) const
{
    // The attack is bright: energy of the first difference in steps of a millisecond, where it grows most.
    const auto step = static_cast<std::int64_t>(std::max(1.0, 0.001 * rate_hz_));
    const std::int64_t frame_start = frame_index * static_cast<std::int64_t>(hop_);
    const std::int64_t from = std::max(first_sample_ + 1, frame_start - 2 * static_cast<std::int64_t>(hop_));
    const std::int64_t to = std::min(first_sample_ + static_cast<std::int64_t>(samples_.size()),
                                     frame_start + static_cast<std::int64_t>(fft_.length()));
    std::vector<double> energy;
    for (std::int64_t at = from; at + step <= to; at += step) {
        double sum = 0.0;
        for (std::int64_t i = at; i < at + step; ++i) {
            const auto k = static_cast<std::size_t>(i - first_sample_);
            const double difference = static_cast<double>(samples_[k]) - static_cast<double>(samples_[k - 1]);
            sum += difference * difference;
        }
        energy.push_back(sum);
    }
    std::size_t best = 0;
    double most = -1.0;
    for (std::size_t i = 6; i + 4 < energy.size(); ++i) {
        double before = 0.0, after = 0.0;
        for (std::size_t k = 1; k <= 6; ++k) before += energy[i - k] / 6.0;
        for (std::size_t k = 0; k < 4; ++k) after += energy[i + k] / 4.0;
        const double growth = after - before;
        const double ratio = growth / (before + 1e-12) * std::sqrt(std::max(growth, 0.0));
        if (ratio > most) most = ratio, best = i;
    }
    if (most <= 0.0) return static_cast<double>(frame_start) / rate_hz_;
    return static_cast<double>(from + static_cast<std::int64_t>(best) * step) / rate_hz_;
}

void OnsetDetector::push(std::span<const float> samples, std::vector<Onset>& onsets)
{
    samples_.insert(samples_.end(), samples.begin(), samples.end());
    const auto length = static_cast<std::int64_t>(fft_.length());
    while (true) {
        const std::int64_t start = next_frame_ * static_cast<std::int64_t>(hop_);
        if (start + length > first_sample_ + static_cast<std::int64_t>(samples_.size())) break;
        take_frame(
            std::span{samples_}.subspan(static_cast<std::size_t>(start - first_sample_), fft_.length()));
        pick(onsets, false);
    }
    const std::int64_t needed = next_pick_ * static_cast<std::int64_t>(hop_) - 4 * length;
    if (needed - first_sample_ > 8 * length) {
        samples_.erase(samples_.begin(),
                       samples_.begin() + static_cast<std::ptrdiff_t>(needed - first_sample_));
        first_sample_ = needed;
    }
}

void OnsetDetector::finish(std::vector<Onset>& onsets)
{
    pick(onsets, true);
}

} // namespace harpkeep
