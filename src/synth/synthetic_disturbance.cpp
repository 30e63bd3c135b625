// SPDX-License-Identifier: MIT
#include "synth/synthetic_disturbance.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

namespace harpkeep {

namespace {

constexpr double two_pi = 2.0 * std::numbers::pi;

/// Adds `sound` with its rms brought to the level.
void add_at_level(std::span<double> mix, double sample_rate_hz, double start_s,
                  const std::vector<double>& sound, double level_dbfs)
{
    double power = 0.0;
    for (const double sample : sound) power += sample * sample;
    if (power == 0.0) return;
    const double gain =
        std::pow(10.0, level_dbfs / 20.0) / std::sqrt(power / static_cast<double>(sound.size()));
    const auto first = static_cast<std::size_t>(std::ceil(start_s * sample_rate_hz));
    for (std::size_t n = 0; n < sound.size() && first + n < mix.size(); ++n)
        mix[first + n] += gain * sound[n];
}

/// Two-pole resonance, gain about 1 at its peak.
class Resonance {
  public:
    Resonance(double frequency_hz, double bandwidth_hz, double sample_rate_hz)
    {
        const double radius = std::exp(-std::numbers::pi * bandwidth_hz / sample_rate_hz);
        a1_ = 2.0 * radius * std::cos(two_pi * frequency_hz / sample_rate_hz);
        a2_ = -radius * radius;
        gain_ = (1.0 - radius) * 2.0 * std::sin(two_pi * frequency_hz / sample_rate_hz);
    }
    double operator()(double in)
    {
        const double out = gain_ * in + a1_ * y1_ + a2_ * y2_;
        y2_ = y1_;
        y1_ = out;
        return out;
    }

  private:
    double a1_ = 0.0, a2_ = 0.0, gain_ = 0.0, y1_ = 0.0, y2_ = 0.0;
};

/// Gain of a row of formants at a frequency: a sum of resonance curves.
double formant_gain(double frequency_hz, const std::array<double, 3>& formants_hz)
{
    constexpr std::array<double, 3> strengths{1.0, 0.5, 0.2};
    double gain = 0.01;
    for (std::size_t i = 0; i < formants_hz.size(); ++i) {
        const double half_widths = (frequency_hz - formants_hz[i]) / 60.0;
        gain += strengths[i] / (1.0 + half_widths * half_widths);
    }
    return gain;
}

std::size_t length_of(double duration_s, double sample_rate_hz)
{
    return static_cast<std::size_t>(duration_s * sample_rate_hz);
}

/// One syllable: pitch and formants move in straight lines from their first to their second value.
struct Syllable {
    double first_pitch_hz, last_pitch_hz;
    std::array<double, 3> first_formants_hz, last_formants_hz;
};

Syllable draw_syllable(RandomSource& random)
{
    const auto formants = [&random] {
        return std::array{random.uniform(300.0, 800.0), random.uniform(900.0, 2300.0),
                          random.uniform(2300.0, 3100.0)};
    };
    return {random.uniform(100.0, 220.0), random.uniform(90.0, 200.0), formants(), formants()};
}

/// Voiced part of a syllable, in steps of 1/500 s for the formants and every sample for the phase.
void add_voice(std::span<double> sound, double sample_rate_hz, const Syllable& syllable)
{
    const double length = static_cast<double>(sound.size());
    const auto step = static_cast<std::size_t>(sample_rate_hz / 500.0);
    double cycles = 0.0;
    std::vector<double> gains;
    for (std::size_t n = 0; n < sound.size(); ++n) {
        const double share = static_cast<double>(n) / length;
        const double pitch_hz = std::lerp(syllable.first_pitch_hz, syllable.last_pitch_hz, share);
        if (n % step == 0) {
            std::array<double, 3> formants{};
            for (std::size_t i = 0; i < formants.size(); ++i)
                formants[i] = std::lerp(syllable.first_formants_hz[i], syllable.last_formants_hz[i], share);
            gains.clear();
            for (int k = 1; k * pitch_hz < std::min(4000.0, 0.45 * sample_rate_hz); ++k)
                gains.push_back(formant_gain(k * pitch_hz, formants) / k);
        }
        cycles += pitch_hz / sample_rate_hz;
        double sample = 0.0;
        for (std::size_t k = 0; k < gains.size(); ++k)
            sample += gains[k] * std::sin(two_pi * static_cast<double>(k + 1) * cycles);
        sound[n] += sample * std::pow(std::sin(std::numbers::pi * share), 0.7);
    }
}

} // namespace

void add_knock(std::span<double> mix, double sample_rate_hz, double start_s, double level_dbfs,
               RandomSource& random)
{
    std::vector<double> sound(length_of(0.15, sample_rate_hz));
    for (int mode = 0; mode < 7; ++mode) {
        const double frequency_hz = 80.0 * std::pow(12.0, random.uniform());
        const double decay_s = random.uniform(0.008, 0.03);
        const double amplitude = random.uniform(0.3, 1.0);
        for (std::size_t n = 0; n < sound.size(); ++n) {
            const double t = static_cast<double>(n) / sample_rate_hz;
            sound[n] += amplitude * std::exp(-t / decay_s) * std::sin(two_pi * frequency_hz * t);
        }
    }
    const std::size_t click = std::min(sound.size(), length_of(0.003, sample_rate_hz));
    for (std::size_t n = 0; n < click; ++n) sound[n] += 0.7 * random.normal();
    add_at_level(mix, sample_rate_hz, start_s, sound, level_dbfs);
}

void add_cough(std::span<double> mix, double sample_rate_hz, double start_s, double level_dbfs,
               RandomSource& random)
{
    std::vector<double> sound(length_of(0.5, sample_rate_hz));
    std::array throat{Resonance{600.0, 200.0, sample_rate_hz}, Resonance{1400.0, 300.0, sample_rate_hz},
                      Resonance{2600.0, 500.0, sample_rate_hz}};
    for (std::size_t n = 0; n < sound.size(); ++n) {
        const double t = static_cast<double>(n) / sample_rate_hz;
        const auto burst = [t](double from_s, double decay_s) {
            const double since_s = t - from_s;
            return since_s < 0.0 ? 0.0 : (1.0 - std::exp(-since_s / 0.005)) * std::exp(-since_s / decay_s);
        };
        const double breath = random.normal() * (burst(0.0, 0.06) + 0.7 * burst(0.22, 0.07));
        for (Resonance& resonance : throat) sound[n] += resonance(breath);
    }
    add_at_level(mix, sample_rate_hz, start_s, sound, level_dbfs);
}

void add_speech(std::span<double> mix, double sample_rate_hz, double start_s, double duration_s,
                double level_dbfs, RandomSource& random)
{
    std::vector<double> sound(length_of(duration_s, sample_rate_hz));
    std::size_t at = 0;
    while (at < sound.size()) {
        const std::size_t voiced =
            std::min(sound.size() - at, length_of(random.uniform(0.12, 0.28), sample_rate_hz));
        add_voice(std::span(sound).subspan(at, voiced), sample_rate_hz, draw_syllable(random));
        at += voiced;
        const std::size_t hiss =
            std::min(sound.size() - at, length_of(random.uniform(0.02, 0.09), sample_rate_hz));
        for (std::size_t n = 0; n < hiss; ++n) sound[at + n] += 0.03 * random.normal();
        at += hiss;
    }
    add_at_level(mix, sample_rate_hz, start_s, sound, level_dbfs);
}

} // namespace harpkeep
