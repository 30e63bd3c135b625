// SPDX-License-Identifier: MIT
#include "synth/synthetic_noise.hpp"

#include "base/expects.hpp"

#include <array>
#include <cmath>
#include <complex>
#include <numbers>
#include <vector>

namespace harpkeep {

namespace {

constexpr double two_pi = 2.0 * std::numbers::pi;

void add_scaled(std::span<double> mix, const std::vector<double>& noise, double rms)
{
    double power = 0.0;
    for (const double sample : noise) power += sample * sample;
    const double gain = power > 0.0 ? rms / std::sqrt(power / static_cast<double>(noise.size())) : 0.0;
    for (std::size_t n = 0; n < mix.size(); ++n) mix[n] += gain * noise[n];
}

/// y = x - zero x' + pole y': one pole and one zero on the real axis.
struct Section {
    double pole, zero, last_in = 0.0, last_out = 0.0;
    double operator()(double in)
    {
        last_out = in - zero * last_in + pole * last_out;
        last_in = in;
        return last_out;
    }
};

} // namespace

void add_white_noise(std::span<double> mix, double rms, RandomSource& random)
{
    std::vector<double> noise(mix.size());
    for (double& sample : noise) sample = random.normal();
    add_scaled(mix, noise, rms);
}

void add_pink_noise(std::span<double> mix, double sample_rate_hz, double rms, RandomSource& random)
{
    HARPKEEP_EXPECTS(sample_rate_hz > 0.0);
    std::vector<Section> sections;
    for (double pole_hz = 10.0; 2.0 * pole_hz < 0.5 * sample_rate_hz; pole_hz *= 4.0)
        sections.push_back({std::exp(-two_pi * pole_hz / sample_rate_hz),
                            std::exp(-two_pi * 2.0 * pole_hz / sample_rate_hz)});
    std::vector<double> noise(mix.size());
    for (double& sample : noise) {
        sample = random.normal();
        for (Section& section : sections) sample = section(sample);
    }
    add_scaled(mix, noise, rms);
}

void add_hum(std::span<double> mix, double sample_rate_hz, const MainsHum& hum, RandomSource& random)
{
    HARPKEEP_EXPECTS(sample_rate_hz > 0.0 && hum.harmonics >= 1);
    std::vector<double> amplitudes;
    double power = 0.0;
    for (int k = 1; k <= hum.harmonics; ++k) {
        amplitudes.push_back((k % 2 == 1 ? 1.0 : 0.316) / k);
        power += 0.5 * amplitudes.back() * amplitudes.back();
    }
    const double gain = std::pow(10.0, hum.level_dbfs / 20.0) / std::sqrt(power);
    for (int k = 1; k <= hum.harmonics && k * hum.frequency_hz < 0.5 * sample_rate_hz; ++k) {
        const double amplitude = gain * amplitudes[static_cast<std::size_t>(k - 1)];
        const double phase_rad = two_pi * random.uniform();
        const double cycles_per_sample = k * hum.frequency_hz / sample_rate_hz;
        const auto turn = std::polar(1.0, two_pi * cycles_per_sample);
        std::complex<double> rotor;
        for (std::size_t n = 0; n < mix.size(); ++n) {
            if (n % 1024 == 0) // the phase anew, before rounding adds up
                rotor = std::polar(amplitude,
                                   two_pi * std::fmod(cycles_per_sample * static_cast<double>(n), 1.0) +
                                       phase_rad);
            mix[n] += rotor.imag();
            rotor *= turn;
        }
    }
}

} // namespace harpkeep
