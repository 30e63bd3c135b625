// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <span>
#include <vector>

namespace harpkeep {

/// A partial of a clean string: amplitude exp(-decay_rate t) sin(2 pi f_k t + phase).
struct DampedPartial {
    int number = 1;
    double amplitude = 0.0;  ///< at time 0
    double decay_rate = 0.0; ///< alpha, 1/s
    double phase_rad = 0.0;
};

/// A damped stiff string without glide, f_k = k F sqrt(1 + B k^2).
struct DampedStiffString {
    double fundamental_hz = 0.0; ///< F
    double inharmonicity = 0.0;  ///< B
    std::vector<DampedPartial> partials;
};

/// What is recorded of it, and what an estimator knows beforehand.
struct Observation {
    double sample_rate_hz = 48000.0;
    double from_s = 0.0; ///< of the string's own time
    double to_s = 1.0;
    double noise_rms = 0.0; ///< white, > 0
    bool inharmonicity_known = false;
};

/// The smallest standard deviations that an unbiased estimator can have.
struct CramerRaoBound {
    double fundamental_sd_hz = 0.0;
    double first_partial_sd_hz = 0.0; ///< of f1 = F sqrt(1 + B)
    double inharmonicity_sd = 0.0;    ///< 0 when B is known
};

/// Cramer-Rao bound of pitch and inharmonicity when every amplitude, phase and decay is unknown too.
///
/// Given    partials with amplitude > 0, all below half the sample rate
/// Returns  the bound, or nothing when the observation does not determine the parameters (one partial and
///          unknown B, or no samples)
/// Notes    Fisher information J'J / noise^2 of the samples, with J the derivatives of the model, summed over
///          the samples themselves and inverted: no assumption that partials do not overlap.
/// Accuracy 0.1 % of the closed forms for one sinusoid (tests/src/signal/cramer_rao_test.cpp)
/// Reference S. M. Kay, Fundamentals of Statistical Signal Processing: Estimation Theory (1993), sections 3.7
///           to 3.9 (from memory); closed forms: Rife & Boorstyn, IEEE Trans. IT-20, 591 (1974) (from memory)
[[nodiscard]] std::optional<CramerRaoBound> cramer_rao_bound(const DampedStiffString& string,
                                                             const Observation& observation);

} // namespace harpkeep
