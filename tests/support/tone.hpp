// SPDX-License-Identifier: MIT
#pragma once

#include <cmath>
#include <complex>
#include <cstddef>
#include <numbers>
#include <vector>

namespace harpkeep::tests {

/// Interleaved sinusoids: channel c has amplitude / (c + 1).
inline std::vector<float> tone(double frequency_hz, double sample_rate_hz, double duration_s,
                               int channels = 1, double amplitude = 0.5)
{
    std::vector<float> samples;
    const auto frames = static_cast<std::size_t>(duration_s * sample_rate_hz);
    for (std::size_t n = 0; n < frames; ++n)
        for (int c = 0; c < channels; ++c)
            samples.push_back(static_cast<float>(
                amplitude / (c + 1) *
                std::sin(2.0 * std::numbers::pi * frequency_hz * static_cast<double>(n) / sample_rate_hz)));
    return samples;
}

/// Hann-windowed Fourier sum at one frequency over a stretch, phase counted from the first sample of the
/// recording.
template <class Samples>
std::complex<double> phasor(const Samples& samples, double sample_rate_hz, double frequency_hz, double from_s,
                            double stretch_s)
{
    const auto first = static_cast<std::size_t>(from_s * sample_rate_hz);
    const auto length = static_cast<std::size_t>(stretch_s * sample_rate_hz);
    const double hann_step = 2.0 * std::numbers::pi / static_cast<double>(length);
    const auto turn = std::polar(1.0, -2.0 * std::numbers::pi * frequency_hz / sample_rate_hz);
    const auto hann_turn = std::polar(1.0, hann_step);
    std::complex<double> sum, rotor, hann;
    for (std::size_t n = 0; n < length; ++n) {
        if (n % 1024 == 0) { // anew, before rounding adds up
            const double cycles =
                std::fmod(frequency_hz * static_cast<double>(first + n) / sample_rate_hz, 1.0);
            rotor = std::polar(1.0, -2.0 * std::numbers::pi * cycles);
            hann = std::polar(1.0, hann_step * (static_cast<double>(n) + 0.5));
        }
        sum += static_cast<double>(samples[first + n]) * (1.0 - hann.real()) * rotor;
        rotor *= turn;
        hann *= hann_turn;
    }
    return 2.0 / static_cast<double>(length) * sum; // the modulus is the amplitude
}

/// Cents by which a steady tone lies above `frequency_hz`: from the phase gained between two stretches
/// `gap_s` apart.
template <class Samples>
double cents_off(const Samples& samples, double sample_rate_hz, double frequency_hz, double from_s,
                 double gap_s, double stretch_s)
{
    const auto before = phasor(samples, sample_rate_hz, frequency_hz, from_s, stretch_s);
    const auto after = phasor(samples, sample_rate_hz, frequency_hz, from_s + gap_s, stretch_s);
    const double off_hz = std::arg(after / before) / (2.0 * std::numbers::pi * gap_s);
    return 1200.0 * std::log2(1.0 + off_hz / frequency_hz);
}

} // namespace harpkeep::tests
