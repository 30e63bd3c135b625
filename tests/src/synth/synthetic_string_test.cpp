// SPDX-License-Identifier: MIT
#include "synth/synthetic_string.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>

using namespace harpkeep;

namespace {

constexpr long double pi = std::numbers::pi_v<long double>;

/// Warped time by Simpson's rule over the glide itself; add_pluck sums a series instead.
long double warped_time(long double t, long double glide_cents, long double first_decay)
{
    const auto ratio = [&](long double s) {
        return std::exp2(glide_cents * std::exp(-2.0L * first_decay * s) / 1200.0L);
    };
    constexpr int intervals = 2000;
    const long double h = t / intervals;
    long double sum = ratio(0.0L) + ratio(t);
    for (int i = 1; i < intervals; ++i) sum += ratio(h * i) * (i % 2 == 1 ? 4.0L : 2.0L);
    return sum * h / 3.0L;
}

/// One sample of the pluck from the written definition, in long double, partial by partial.
long double naive_sample(const SyntheticString& string, const SyntheticPluck& pluck, double rate,
                         long double t)
{
    const long double first_decay = std::log(1000.0L) / string.decay_t60_s;
    const long double warped = warped_time(t, pluck.glide_cents, first_decay);
    long double sum = 0.0L;
    for (const auto& c : components_of(string, pluck, rate))
        sum += c.amplitude * std::exp(-static_cast<long double>(c.decay_per_s) * t) *
               std::sin(2.0L * pi * c.frequency_hz * (c.glides ? warped : t) + c.phase_rad);
    if (t < pluck.attack_s) sum *= 0.5L * (1.0L - std::cos(pi * t / pluck.attack_s));
    return sum;
}

/// Frequency from the phase that a Hann-windowed Fourier sum gains between two stretches `gap_s` apart.
double frequency_between(const std::vector<double>& samples, double rate, double near_hz, double from_s,
                         double gap_s, double stretch_s)
{
    const auto phasor = [&](double start_s) {
        const auto length = static_cast<std::size_t>(stretch_s * rate);
        const auto first = static_cast<std::size_t>(start_s * rate);
        std::complex<double> sum;
        for (std::size_t n = 0; n < length; ++n) {
            const double hann = 1.0 - std::cos(2.0 * std::numbers::pi * (static_cast<double>(n) + 0.5) /
                                               static_cast<double>(length));
            const double angle = 2.0 * std::numbers::pi * near_hz * static_cast<double>(first + n) / rate;
            sum += samples[first + n] * hann * std::polar(1.0, -angle);
        }
        return sum;
    };
    return near_hz + std::arg(phasor(from_s + gap_s) / phasor(from_s)) / (2.0 * std::numbers::pi * gap_s);
}

} // namespace

TEST_CASE("add_pluck: agrees with a long-double rendering by another formula", "[synth][twin]")
{
    const auto [f1_hz, rate, glide_cents] = GENERATE(
        std::tuple{31.0, 44100.0, 3.0}, std::tuple{262.0, 48000.0, 7.0}, std::tuple{3136.0, 48000.0, 12.0},
        std::tuple{3136.0, 96000.0, 12.0}, std::tuple{440.0, 8000.0, -4.0});
    CAPTURE(f1_hz, rate, glide_cents);
    const auto string = generic_string(f1_hz);
    SyntheticPluck pluck{.level_dbfs = -9.0, .glide_cents = glide_cents};
    pluck.second_polarisation = SecondPolarisation{};
    pluck.sympathetic = {{.frequency_hz = 392.0}};
    pluck.silence_amplitude = 0.0;
    const auto samples = render_pluck(string, pluck, rate, 2.0);

    double worst = 0.0;
    for (std::size_t n = 0; n < samples.size(); n += 1471) // every part of the blocks of 128 samples
        worst = std::max(worst, std::abs(static_cast<double>(
                                    naive_sample(string, pluck, rate, static_cast<long double>(n) / rate) -
                                    static_cast<long double>(samples[n]))));
    CHECK(worst < 1e-9); // amplitudes sum to about 1, so this holds phases to 1e-9 rad
}

TEST_CASE("add_pluck: a fraction of a sample in the start moves the sound by that much", "[synth][twin]")
{
    const auto string = generic_string(262.0);
    const SyntheticPluck pluck{.level_dbfs = -9.0, .silence_amplitude = 0.0};
    const double rate = 48000.0, start_s = 0.1 + 0.37 / rate;
    std::vector<double> mix(24000, 0.0);
    add_pluck(mix, rate, start_s, string, pluck);
    CHECK(mix[4800] == 0.0);
    double worst = 0.0;
    for (std::size_t n = 4801; n < mix.size(); n += 397) {
        const long double t = static_cast<long double>(n) / rate - start_s;
        worst = std::max(worst, std::abs(mix[n] - static_cast<double>(naive_sample(string, pluck, rate, t))));
    }
    CHECK(worst < 1e-9); // as above
}

TEST_CASE("partial_frequency_hz: follows the stiff string", "[synth][reference]")
{
    // R. W. Young, JASA 24(3), 1952: about 1.2 cents at mode 2 for middle C, B = 3.4657e-4 in f_k = k F
    // sqrt(1 + B k^2); exact value 865.617 B k^2 (1 - B k^2 / 2) = 1.1992 cents above 2 F.
    const SyntheticString string{.ideal_frequency_hz = 261.0, .inharmonicity = 3.4657e-4};
    CHECK(1200.0 * std::log2(partial_frequency_hz(string, 2) / 522.0) ==
          Approx(1.2).margin(0.001)); // rounded source
    CHECK(partial_frequency_hz(string, 1) ==
          Approx(261.0 * std::sqrt(1.00034657)).epsilon(1e-14)); // rounding
}

TEST_CASE("render_pluck: a settled tone has the frequency it promises", "[synth]")
{
    const double f1_hz = GENERATE(65.4, 261.6, 1046.5);
    CAPTURE(f1_hz);
    auto string = generic_string(f1_hz);
    string.decay_t60_s = 8.0;
    string.partial_count = 1;
    const auto samples = render_pluck(string, {.glide_cents = 5.0}, 48000.0, 8.0);
    const double measured_hz = frequency_between(samples, 48000.0, f1_hz, 6.0, 0.5, 1.0);
    // The glide left at 6 s is 5 exp(-2 6.908 / 8 6) = 1.6e-4 cent.
    CHECK(std::abs(1200.0 * std::log2(measured_hz / f1_hz)) < 2e-4);
}

TEST_CASE("render_pluck: the glide starts as many cents up as it says", "[synth]")
{
    auto string = generic_string(1046.5);
    string.decay_t60_s = 8.0;
    string.partial_count = 1;
    const auto samples = render_pluck(string, {.glide_cents = 20.0}, 48000.0, 2.0);
    const double measured_hz = frequency_between(samples, 48000.0, 1046.5, 0.01, 0.02, 0.04);
    // The two stretches lie about 0.03 s + 0.01 s: 20 exp(-2 6.908 / 8 0.04) = 18.67 cents; the decay inside
    // the stretches moves their centres by less than a millisecond, 0.03 cent.
    CHECK(1200.0 * std::log2(measured_hz / 1046.5) == Approx(18.67).margin(0.05));
}

TEST_CASE("add_pluck: reports the energy of the first half second", "[synth]")
{
    const auto string = generic_string(523.0);
    std::vector<double> mix(48000, 0.25); // what is there already does not count
    const double energy = add_pluck(mix, 48000.0, 0.0, string, {});
    const auto alone = render_pluck(string, {}, 48000.0, 0.5);
    double expected = 0.0;
    for (const double sample : alone) expected += sample * sample;
    CHECK(energy == Approx(expected).epsilon(1e-12)); // rounding of the sum
}

TEST_CASE("add_pluck: a hand stops the string when it is told to", "[synth]")
{
    const auto string = generic_string(131.0);
    const auto samples = render_pluck(string, {.damp_after_s = 1.0}, 48000.0, 3.0);
    const auto peak = [&](double from_s, double to_s) {
        double largest = 0.0;
        for (auto n = static_cast<std::size_t>(from_s * 48000.0);
             n < static_cast<std::size_t>(to_s * 48000.0); ++n)
            largest = std::max(largest, std::abs(samples[n]));
        return largest;
    };
    CHECK(peak(0.9, 1.0) > 0.01);
    CHECK(peak(1.2, 1.3) < 0.01 * peak(0.9, 1.0)); // 0.2 s is 6.7 time constants: a factor of 0.0013
    CHECK(peak(2.0, 3.0) == 0.0);                  // and then it is left out
}

TEST_CASE("generic_string: weak fundamental in the bass, faster decay and more stiffness above", "[synth]")
{
    // On recorded harps the fundamental lies 8 to 22 dB under the strongest partial in the bass.
    const auto below_strongest_db = [](double f1_hz) {
        double strongest = 0.0;
        const auto components = components_of(generic_string(f1_hz), {}, 48000.0);
        for (const auto& c : components) strongest = std::max(strongest, c.amplitude);
        return 20.0 * std::log10(strongest / components.front().amplitude);
    };
    CHECK(below_strongest_db(33.0) > 8.0);
    CHECK(below_strongest_db(33.0) < 22.0);
    CHECK(below_strongest_db(523.0) == 0.0);
    CHECK(generic_string(33.0).decay_t60_s > 10.0);
    CHECK(generic_string(3136.0).decay_t60_s < 0.4);
    CHECK(generic_string(3136.0).inharmonicity > 10.0 * generic_string(262.0).inharmonicity);
}
