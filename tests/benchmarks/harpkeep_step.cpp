// SPDX-License-Identifier: MIT
#include "tests/benchmarks/harpkeep_step.hpp"

#include "measure/check_assembly.hpp"
#include "measure/pluck_stream.hpp"
#include "measure/step_measurement.hpp"

#include <algorithm>
#include <cmath>
#include <span>

namespace harpkeep::benchmarks {

namespace {

constexpr std::size_t piece_samples = 4096; // as the command line reads a file
constexpr double right_note_cents = 60.0;   // 40 off, and something for the guess

struct Heard {
    std::vector<PluckMeasurement> plucks;
    std::vector<IgnoredSound> ignored;
};

Heard hear(std::span<const float> samples, double rate_hz)
{
    PluckStream stream({.rate_hz = rate_hz});
    Heard heard;
    const auto take = [&heard](const std::vector<PluckEvent>& events) {
        for (const PluckEvent& event : events) {
            if (const auto* ended = std::get_if<PluckEnded>(&event))
                heard.plucks.push_back(ended->measurement);
            if (const auto* other = std::get_if<SoundIgnored>(&event))
                heard.ignored.push_back({.start_s = other->time.value(), .reason = other->reason});
        }
    };
    for (std::size_t at = 0; at < samples.size(); at += piece_samples)
        take(stream.push(samples.subspan(at, std::min(piece_samples, samples.size() - at))));
    take(stream.finish());
    return heard;
}

/// The trusted pluck of the string that was meant.
std::optional<PluckMeasurement> pluck_near(const std::vector<float>& samples, double rate_hz, double near_hz)
{
    std::optional<PluckMeasurement> best;
    for (const PluckMeasurement& pluck : hear(samples, rate_hz).plucks) {
        const double off_cents = 1200.0 * std::log2(pluck.frequency_hz / near_hz);
        if (!pluck.trusted() || std::abs(off_cents) > right_note_cents) continue;
        if (!best || pluck.snr_db > best->snr_db) best = pluck;
    }
    return best;
}

} // namespace

std::optional<double> measure_step(const std::vector<float>& a, const std::vector<float>& b, double rate,
                                   double near_hz)
{
    const auto lower = pluck_near(a, rate, near_hz);
    const auto upper = pluck_near(b, rate, near_hz * std::exp2(1.0 / 12.0));
    if (!lower || !upper) return std::nullopt;
    const auto size = harpkeep::measure_step(*lower, *upper);
    if (!size) return std::nullopt;
    return size->size_cents;
}

std::size_t analyse_whole_harp(const SyntheticHarp& harp, const SyntheticRecording& recording)
{
    Heard heard = hear(recording.samples, recording.sample_rate_hz);
    std::vector<HeardPluck> plucks;
    for (PluckMeasurement& measurement : heard.plucks)
        plucks.push_back({.measurement = std::move(measurement)});
    return assemble_check(harp.layout, plucks, std::move(heard.ignored), {.a4 = harp.a4}).readings.size();
}

} // namespace harpkeep::benchmarks
