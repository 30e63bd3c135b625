// SPDX-License-Identifier: MIT
#include "tests/benchmarks/aubio_pitch.hpp"

#include <algorithm>
#include <array>
#include <aubio/aubio.h>
#include <cmath>
#include <memory>
#include <stdexcept>

namespace harpkeep::benchmarks {

namespace {

constexpr double attack_s = 0.05;
constexpr double longest_s = 2.5; // of the tone; later frames are noise
constexpr float confident = 0.8F;

struct FreePitch {
    void operator()(aubio_pitch_t* pitch) const { del_aubio_pitch(pitch); }
};
struct FreeVector {
    void operator()(fvec_t* vector) const { del_fvec(vector); }
};

struct Frame {
    double end_s;
    double frequency_hz;
    float confidence;
};

/// The nearest of the rates for which aubio has weighting filters; one of the sets of samples is at 44101 Hz.
double nearest_rate_hz(double rate_hz)
{
    constexpr std::array rates_hz{8000.0,  11025.0, 16000.0, 22050.0, 24000.0, 32000.0,
                                  44100.0, 48000.0, 88200.0, 96000.0, 192000.0};
    return *std::min_element(rates_hz.begin(), rates_hz.end(), [&](double a, double b) {
        return std::abs(a - rate_hz) < std::abs(b - rate_hz);
    });
}

std::vector<Frame> frames_of(const std::vector<float>& samples, double sample_rate_hz,
                             const AubioSettings& settings)
{
    const double taken_for_hz = nearest_rate_hz(sample_rate_hz);
    const std::unique_ptr<aubio_pitch_t, FreePitch> pitch(new_aubio_pitch(
        settings.method.c_str(), settings.buffer, settings.hop, static_cast<uint_t>(taken_for_hz)));
    const std::unique_ptr<fvec_t, FreeVector> in(new_fvec(settings.hop)), out(new_fvec(1));
    if (!pitch || !in || !out) throw std::runtime_error("aubio has no method " + settings.method);
    aubio_pitch_set_unit(pitch.get(), "Hz");
    std::vector<Frame> frames;
    for (std::size_t at = 0; at + settings.hop <= samples.size(); at += settings.hop) {
        std::copy_n(samples.begin() + static_cast<std::ptrdiff_t>(at), settings.hop, in->data);
        aubio_pitch_do(pitch.get(), in.get(), out.get());
        if (out->data[0] > 0.0F)
            frames.push_back({static_cast<double>(at + settings.hop) / sample_rate_hz,
                              static_cast<double>(out->data[0]) * sample_rate_hz / taken_for_hz,
                              aubio_pitch_get_confidence(pitch.get())});
    }
    return frames;
}

std::optional<double> median_hz(std::vector<Frame> frames)
{
    if (frames.empty()) return std::nullopt;
    const auto middle = frames.begin() + static_cast<std::ptrdiff_t>(frames.size() / 2);
    std::nth_element(frames.begin(), middle, frames.end(),
                     [](const Frame& a, const Frame& b) { return a.frequency_hz < b.frequency_hz; });
    return middle->frequency_hz;
}

} // namespace

std::optional<double> aubio_pitch_hz(const std::vector<float>& samples, double sample_rate_hz, double onset_s,
                                     const AubioSettings& settings)
{
    const auto all = frames_of(samples, sample_rate_hz, settings);
    const double buffer_s = settings.buffer / sample_rate_hz;
    const auto between = [&](double first_end_s) {
        std::vector<Frame> chosen;
        std::copy_if(all.begin(), all.end(), std::back_inserter(chosen), [&](const Frame& frame) {
            return frame.end_s >= first_end_s && frame.end_s <= onset_s + longest_s;
        });
        return chosen;
    };
    auto chosen = between(onset_s + attack_s + buffer_s);
    if (chosen.empty()) chosen = between(onset_s + 0.75 * buffer_s); // short recordings
    auto sure = chosen;
    std::erase_if(sure, [](const Frame& frame) { return frame.confidence < confident; });
    return median_hz(sure.empty() ? chosen : sure);
}

std::size_t aubio_frames(const std::vector<float>& samples, double sample_rate_hz,
                         const AubioSettings& settings)
{
    return frames_of(samples, sample_rate_hz, settings).size();
}

} // namespace harpkeep::benchmarks
