// SPDX-License-Identifier: MIT
#include "tests/benchmarks/harpkeep_step.hpp"

#include "measure/check_assembly.hpp"
#include "measure/pluck_stream.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <optional>
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

/// What was heard instead of the pluck that was meant.
std::string described(const Heard& heard, double near_hz)
{
    std::string text;
    for (const auto& sound : heard.ignored)
        text += fmt::format(" {:.2f} s: {};", sound.start_s, sound.reason);
    for (const PluckMeasurement& pluck : heard.plucks) {
        text += fmt::format(" {:.2f} s: {:.2f} Hz, {:+.0f} cents, u {:.2f}, {} partials", pluck.start_s,
                            pluck.frequency_hz, 1200.0 * std::log2(pluck.frequency_hz / near_hz),
                            pluck.uncertainty_cents, pluck.partials.size());
        for (const Doubt doubt : pluck.doubts) text += fmt::format(", {}", doubt_name(doubt));
        text += ";";
    }
    return text.empty() ? " nothing" : text;
}

/// The trusted pluck of the string that was meant, or what was heard instead.
tl::expected<PluckMeasurement, std::string> pluck_near(const std::vector<float>& samples, double rate_hz,
                                                       double near_hz)
{
    std::optional<PluckMeasurement> best;
    const Heard heard = hear(samples, rate_hz);
    for (const PluckMeasurement& pluck : heard.plucks) {
        const double off_cents = 1200.0 * std::log2(pluck.frequency_hz / near_hz);
        if (!pluck.trusted() || std::abs(off_cents) > right_note_cents) continue;
        if (!best || pluck.snr_db > best->snr_db) best = pluck;
    }
    if (!best) return tl::unexpected(described(heard, near_hz));
    return std::move(*best);
}

} // namespace

tl::expected<StepSize, std::string> measure_step(const std::vector<float>& a, const std::vector<float>& b,
                                                 double rate, double near_hz)
{
    const auto lower = pluck_near(a, rate, near_hz);
    if (!lower) return tl::unexpected("lower:" + lower.error());
    const auto upper = pluck_near(b, rate, near_hz * std::exp2(1.0 / 12.0));
    if (!upper) return tl::unexpected("upper:" + upper.error());
    const auto size = harpkeep::measure_step(*lower, *upper);
    if (!size) return tl::unexpected<std::string>("no shared partial");
    return *size;
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
