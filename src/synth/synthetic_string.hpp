// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace harpkeep {

/// A string in one position whose truth is known. Every figure is invented; none is taken from a harp.
struct SyntheticString {
    double ideal_frequency_hz = 261.5; ///< F of the string without stiffness: f_k = k F sqrt(1 + B k^2)
    double inharmonicity = 1e-4;       ///< B
    double decay_t60_s = 7.0;          ///< partial 1: time to fall by 60 dB
    double decay_exponent = 0.6;       ///< alpha_k = alpha_1 k^decay_exponent
    double rolloff_hz = 2500.0;        ///< amplitudes carry exp(-f / rolloff_hz)
    double soundboard_hz = 200.0;      ///< and r / (1 + r), r = (f / soundboard_hz)^2: weak fundamentals in
                                       ///< the bass
    double fundamental_db = 0.0;       ///< further change of partial 1 alone; -200 removes it
    int partial_count = 60;            ///< at most, and below 0.48 of the sample rate
    std::vector<double> partial_deviations_cents; ///< of partial 1, 2, ... from the series; may be short
};

/// A second direction in which the string swings: every partial has a twin beside it.
struct SecondPolarisation {
    double split_cents = 0.6; ///< its pitch above that of the first
    double level_db = -14.0;  ///< against the first
    double decay_ratio = 0.6; ///< its decay rate against that of the first
};

/// Another string that swings along: a tone without glide that grows and then dies away.
struct SympatheticTone {
    double frequency_hz = 392.0;
    double level_db = -40.0; ///< against the rms level of the pluck
    double rise_s = 0.15;    ///< time constant of its growth
    double decay_t60_s = 6.0;
};

/// How a string is plucked.
struct SyntheticPluck {
    double level_dbfs = -24.0;    ///< rms of all partials at the pluck, re 1.0
    double plucking_point = 0.31; ///< share of the length; partial amplitudes go as |sin(k pi p)| / k
    double glide_cents = 1.5;     ///< f(t) = f_settled 2^(g exp(-2 alpha_1 t) / 1200)
    double attack_s = 0.004;      ///< raised cosine
    std::optional<SecondPolarisation> second_polarisation;
    std::vector<SympatheticTone> sympathetic;
    std::optional<double> damp_after_s; ///< a hand stops the string; nothing: it rings on
    double damping_time_s = 0.03;       ///< 1/e time while the hand stops it
    std::uint64_t phase_seed = 1;       ///< phases of the partials
    double silence_amplitude = 3e-8; ///< a partial is left out once it is below (a quarter of a 24-bit step)
};

/// A string as it might hang on a harp where the open pitch is `first_partial_hz`: invented, smooth curves of
/// decay (T60 13 s in octave 7 to 0.25 s in octave 0) and inharmonicity (4e-5 in octave 5, 4e-3 in octave 0).
///
/// Given    first_partial_hz  f1 = F sqrt(1 + B), 20 to 6000 Hz
[[nodiscard]] SyntheticString generic_string(double first_partial_hz);

/// The settled frequency of a partial, deviation included; partial 1 is what a reading has to report.
[[nodiscard]] double partial_frequency_hz(const SyntheticString& string, int partial);

/// One sinusoid A exp(-alpha t) sin(2 pi f tau(t) + phase), where tau(t) is time, or the time warped by the
/// glide. Shown so that tests can render the same sound in another way.
struct SyntheticComponent {
    double frequency_hz = 0.0;
    double amplitude = 0.0;
    double decay_per_s = 0.0;
    double phase_rad = 0.0;
    bool glides = true;
};
[[nodiscard]] std::vector<SyntheticComponent>
components_of(const SyntheticString& string, const SyntheticPluck& pluck, double sample_rate_hz);

/// Adds one pluck to a recording.
///
/// Given     mix             mono samples; sample n lies at n / sample_rate_hz
///           start_s         when the string is let go, any fraction of a sample
/// Returns   the energy of this pluck alone over its first 0.5 s: sum of squared samples
/// Notes     tau is the exact integral of the glide, not a sum over samples.
/// Accuracy  phase within 1e-9 rad of a long-double rendering (tests/src/synth/synthetic_string_test.cpp)
double add_pluck(std::span<double> mix, double sample_rate_hz, double start_s, const SyntheticString& string,
                 const SyntheticPluck& pluck);

/// One pluck alone, let go at time 0.
[[nodiscard]] std::vector<double> render_pluck(const SyntheticString& string, const SyntheticPluck& pluck,
                                               double sample_rate_hz, double duration_s);

} // namespace harpkeep
