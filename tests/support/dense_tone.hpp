// SPDX-License-Identifier: MIT
#pragma once

#include "units/interval.hpp"

#include <Eigen/Dense>

#include <cmath>
#include <complex>
#include <cstddef>
#include <vector>

/// The slow, obvious way to fit two tones in every partial: all unknowns of all partials in one matrix, which
/// is built by differences and solved by QR. Nothing of src/signal is used, only what docs/methods says.
namespace harpkeep::tests {

/// What is heard of one partial (a band) or of several (samples).
struct DenseRecord {
    std::vector<double> times_s; ///< since the glide's start
    std::vector<std::complex<double>> values;
    double reference_hz = 0.0; ///< turned to 0 Hz
    bool only_real = false;    ///< samples, of which the real part is all there is
    double noise_power = 0.0;  ///< of one value; of samples: twice their variance
    double correlated = 1.0;   ///< values that count as one
    std::vector<std::size_t> partials;
};

/// Where the fit begins. The truth, so that nothing is proved but where the maximum lies.
struct DensePartial {
    int number = 1;
    std::complex<double> amplitude; ///< at time 0
    double decay_rate = 1.0, frequency_hz = 0.0;
    std::complex<double> twin; ///< against the amplitude, at time 0
    double expected_decay = 1.0;
};

/// f1, B, glide, its time, the twin's split and its ratio of decays.
using DenseShared = Eigen::Matrix<double, 6, 1>;
namespace dense {
inline constexpr Eigen::Index log_first = 0, log_b = 1, glide = 2, log_time = 3, split = 4, log_ratio = 5;
inline constexpr Eigen::Index shared = 6, own = 6;
inline constexpr Eigen::Index re = 0, im = 1, decay = 2, twin = 3, frequency = 5; // of each partial's own
} // namespace dense

/// What is known beforehand, as src/signal/tone_problem.cpp states it: means and standard deviations.
struct DensePriors {
    double log_b = 0.0, log_time = 0.0;
    double log_b_sd = 1.1;
    double glide_sd = 3.0 / cents_per_neper, log_time_sd = 0.7;
    double split_sd = 1.0 / cents_per_neper, log_ratio_sd = 0.5;
    double log_ratio = std::log(0.6);
    double decay_sd = 0.5;
    double usual_share = 0.2, usual_share_counts = 2.0;
    double usual_scatter = 0.05 / cents_per_neper, usual_scatter_counts = 2.0, scatter_freedom = 4.0;
};

struct DenseToneFit {
    DenseShared shared, shared_sd;
    std::vector<double> frequency_hz, variance_cents2; ///< by each partial's own sound, what is shared known
    double shared_sd_cents = 0.0;                      ///< of all frequencies together
    double scatter = 0.0, share = 0.0;
};

/// Gauss-Newton over all unknowns at once, between whose rounds scatter, size of the twins and excess are
/// learned, until all stand still.
///
/// Given  partials, shared  where the fit begins
[[nodiscard]] DenseToneFit fit_dense_tone(const std::vector<DenseRecord>& records,
                                          const std::vector<DensePartial>& partials,
                                          const DenseShared& shared, const DensePriors& priors);

} // namespace harpkeep::tests
