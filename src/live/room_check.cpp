// SPDX-License-Identifier: MIT
#include "live/room_check.hpp"

#include "base/expects.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace harpkeep {

namespace {

constexpr double high_pass_hz = 20.0; // below the lowest string (30.9 Hz), above rumble and drift
constexpr std::array<double, 2> mains_hz{50.0, 60.0};
constexpr int hum_harmonics = 6;       // up to 300 and 360 Hz; above, hum falls off
constexpr double beside_hum_hz = 7.0;  // clear of the window's main lobe (2 Hz) and of the other mains
constexpr double hum_prominence = 4.0; // 6 dB over what lies beside it
constexpr float clip_level = 0.98F;    // converters cut off at or just below full scale
constexpr std::uint64_t shortest_clip = 3;

Decibels decibels_of_power(double power)
{
    return Decibels{10.0 * std::log10(std::max(power, 1e-20))};
}

std::optional<Decibels> decibels_of_peak(float peak)
{
    if (peak <= 0.0F) return std::nullopt;
    return Decibels{20.0 * std::log10(static_cast<double>(peak))};
}

/// Power of a sine of `frequency_hz` in `samples`, weighted by a Hann window.
///
/// Reference  G. Goertzel, Am. Math. Monthly 65, 34 (1958) (from memory); the Hann window halves amplitudes
double tone_power(std::span<const double> samples, double frequency_hz, double rate_hz)
{
    const double step = 2.0 * std::numbers::pi * frequency_hz / rate_hz;
    const double window_step = 2.0 * std::numbers::pi / static_cast<double>(samples.size());
    const double coefficient = 2.0 * std::cos(step);
    double before = 0.0;
    double last = 0.0;
    for (std::size_t n = 0; n < samples.size(); ++n) {
        const double window = 0.5 - 0.5 * std::cos(window_step * static_cast<double>(n));
        const double next = window * samples[n] + coefficient * last - before;
        before = last;
        last = next;
    }
    const double squared = before * before + last * last - coefficient * before * last;
    const double amplitude = 4.0 * std::sqrt(std::max(squared, 0.0)) / static_cast<double>(samples.size());
    return 0.5 * amplitude * amplitude;
}

} // namespace

std::string_view problem_name(RoomProblem problem)
{
    constexpr std::array<std::string_view, 6> names{"dead-source", "noisy",     "hum",
                                                    "clipping",    "too-quiet", "offset"};
    return names[static_cast<std::size_t>(problem)];
}

std::string_view problem_advice(RoomProblem problem)
{
    switch (problem) {
    case RoomProblem::dead_source:
        return "Nothing at all comes in: is the microphone muted, or not plugged in?";
    case RoomProblem::noisy:
        return "The room is loud: close the windows, switch fans off, go nearer to the harp with the "
               "microphone.";
    case RoomProblem::hum:
        return "Mains hum: keep cable and microphone away from power supplies and lamps, try a laptop on its "
               "battery.";
    case RoomProblem::clipping:
        return "The recording is cut off at its loudest: turn the input level down, or move the microphone "
               "away.";
    case RoomProblem::too_quiet:
        return "Plucks hardly stand out: turn the input level up, or bring the microphone to the soundboard.";
    case RoomProblem::offset:
        return "The signal carries a constant voltage; it does no harm to a reading, but hints at a weak "
               "sound card.";
    }
    return "";
}

RoomCheck::RoomCheck(Hertz rate) : rate_hz_(rate.value())
{
    HARPKEEP_EXPECTS(rate_hz_ >= 8000.0);
    second_.reserve(static_cast<std::size_t>(rate_hz_));
}

void RoomCheck::push(std::span<const float> samples)
{
    for (const float sample : samples) {
        const float size = std::abs(sample);
        peak_ = std::max(peak_, size);
        nonzero_samples_ += sample != 0.0F;
        watch_clipping(sample);
        if (expecting_plucks_)
            pluck_peak_ = std::max(pluck_peak_, size);
        else
            hear_silence(static_cast<double>(sample));
    }
}

void RoomCheck::hear_silence(double sample)
{
    // First-order high pass; its start is heard as part of the first tenth of a second, which the median
    // drops.
    const double keep = std::exp(-2.0 * std::numbers::pi * high_pass_hz / rate_hz_);
    high_pass_out_ = keep * (high_pass_out_ + sample - high_pass_in_);
    high_pass_in_ = sample;
    sum_ += sample;
    ++silent_samples_;

    block_power_sum_ += high_pass_out_ * high_pass_out_;
    if (++block_samples_ >= static_cast<std::size_t>(0.1 * rate_hz_)) {
        block_powers_.push_back(block_power_sum_ / static_cast<double>(block_samples_));
        block_power_sum_ = 0.0;
        block_samples_ = 0;
    }
    second_.push_back(high_pass_out_);
    if (second_.size() >= static_cast<std::size_t>(rate_hz_)) end_second();
}

void RoomCheck::end_second()
{
    for (std::size_t mains = 0; mains < mains_hz.size(); ++mains)
        for (int harmonic = 1; harmonic <= hum_harmonics; ++harmonic) {
            const double frequency_hz = mains_hz[mains] * harmonic;
            const auto power_at = [&](double offset_hz) {
                return tone_power(second_, frequency_hz + offset_hz, rate_hz_);
            };
            const double power = power_at(0.0);
            const bool stands_out =
                power > hum_prominence * std::max(power_at(-beside_hum_hz), power_at(beside_hum_hz));
            const bool is_peak = power > std::max(power_at(-1.0), power_at(1.0)); // 6G sounds at 49 Hz
            if (stands_out && is_peak) hum_power_[mains] += power;
        }
    second_.clear();
    ++seconds_;
}

void RoomCheck::watch_clipping(float sample)
{
    run_length_ = sample == run_value_ ? run_length_ + 1 : 1;
    run_value_ = sample;
    if (std::abs(sample) < clip_level) return;
    if (run_length_ == shortest_clip)
        clipped_samples_ += shortest_clip;
    else if (run_length_ > shortest_clip)
        ++clipped_samples_;
}

RoomReport RoomCheck::report() const
{
    RoomReport report;
    report.listened = Seconds{static_cast<double>(silent_samples_) / rate_hz_};
    report.peak = decibels_of_peak(peak_);
    report.pluck = decibels_of_peak(pluck_peak_);
    report.clipped_samples = clipped_samples_;
    if (silent_samples_ > 0) report.offset = sum_ / static_cast<double>(silent_samples_);
    if (block_powers_.size() >= 5) {
        auto sorted = block_powers_;
        std::sort(sorted.begin(), sorted.end());
        report.noise = decibels_of_power(sorted[sorted.size() / 2]);
    }
    const std::size_t mains = hum_power_[0] >= hum_power_[1] ? 0 : 1;
    const Decibels hum = decibels_of_power(seconds_ > 0 ? hum_power_[mains] / seconds_ : 0.0);
    if (hum > hum_over) {
        report.hum = hum;
        report.mains = Hertz{mains_hz[mains]};
    }

    const bool heard_enough = report.listened > 1_s;
    const auto add_if = [&](bool found, RoomProblem problem) {
        if (found) report.problems.push_back(problem);
    };
    add_if(heard_enough && nonzero_samples_ == 0, RoomProblem::dead_source);
    add_if(report.noise && *report.noise > noisy_over, RoomProblem::noisy);
    add_if(report.hum.has_value(), RoomProblem::hum);
    add_if(clipped_samples_ > 0, RoomProblem::clipping);
    add_if(report.pluck && (*report.pluck < quiet_pluck_under ||
                            (report.noise && *report.pluck - *report.noise < least_room_for_plucks)),
           RoomProblem::too_quiet);
    add_if(heard_enough && std::abs(report.offset) > 0.01, RoomProblem::offset);
    return report;
}

} // namespace harpkeep
