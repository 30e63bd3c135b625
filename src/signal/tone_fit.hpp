// SPDX-License-Identifier: MIT
#pragma once

#include "signal/baseband.hpp"
#include "signal/sinking_pitch.hpp"

#include <optional>
#include <span>
#include <vector>

namespace harpkeep {

/// A second tone close beside every partial: the string swings in two directions, which the bridge holds
/// differently, so that they differ in pitch and in how fast they die.
struct Twin {
    double split = 0.0;       ///< its frequency above the main tone's, relative
    double decay_ratio = 1.0; ///< its decay rate against the main tone's
    double share = 0.0;       ///< rms of its amplitude against the main tone's at the start
};

/// One partial as single fits left it.
struct TonePartial {
    int number = 1;
    const Baseband* band = nullptr;
    double frequency_hz = 0.0; ///< settled, to a few cents
    double decay_rate = 0.0;   ///< alpha, 1/s
    double noise_level = 0.0;  ///< rms of the noise in the band, > 0
};

struct ToneSearch {
    PitchGlide glide;           ///< where the search begins; amount 0: there may be none; time_s > 0
    double inharmonicity = 0.0; ///< B, about
    double relaxation_s = 1.0;  ///< in which a glide of such a tone usually falls by 1/e
};

struct FittedTonePartial {
    double frequency_hz = 0.0;     ///< settled, of the main tone
    double variance_cents2 = 0.0;  ///< of it, if what all partials share were known
    double decay_rate = 0.0;       ///< of the main tone
    double level = 0.0;            ///< of the main tone, at the start of the band
    double excess = 1.0;           ///< power of what the fit leaves over against the noise's, at least 1
    double twin_level_ratio = 0.0; ///< amplitude of its twin against its own, at the start
};

/// Two tones in every partial.
struct ToneFit {
    double probability = 0.0; ///< that this explains the sound, against one tone
    std::vector<FittedTonePartial> partials;
    PitchGlide glide;
    Twin twin;                    ///< the likeliest
    double shared_sd_cents = 0.0; ///< what glide and twin leave unsure in all frequencies together
    double hidden_sd_cents = 0.0; ///< what a second tone may do to the fit with one, where noise hides it
    double scatter_cents = 0.0;   ///< of the partials about a stiff string's series
};

/// Fits all partials of one pluck at once: each its amplitude, phase, decay and twin's amplitude and phase;
/// all together the series, the glide, and the twin's split and decay.
///
/// Given    at least one partial
/// Returns  the fit, whose main tone is the louder one at the start, or nothing when one tone explains the
/// sound Notes    A partial's own band hardly tells two tones a cent apart, a fraction of a beat long; but
/// all
///          partials share the split in cents, so together they do. Maximum a posteriori by Gauss-Newton with
///          the partials' own parameters eliminated one partial at a time. One tone or two, split upwards or
///          downwards: weighed by their evidence (Laplace). Recorded plucks hold more than any model says; a
///          second tone that explains only a part of what one leaves over is not believed.
/// Accuracy tests/src/signal/tone_fit_test.cpp
/// Reference G. Weinreich, JASA 62, 1474 (1977) on two polarisations; Le Carrou, Gautier & Badeau, Acta
/// Acust.
///           united Acust. 95 (2009) on several components inside a harp's partials (both from abstracts)
[[nodiscard]] std::optional<ToneFit> fit_two_tones(std::span<const TonePartial> partials,
                                                   const ToneSearch& search);

} // namespace harpkeep
