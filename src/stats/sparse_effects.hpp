// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace harpkeep::stats {

/// One value that effects are to explain.
struct ObservedValue {
    double value = 0.0;
    double known_variance = 0.0; ///< from measuring
    double scatter_share = 1.0;  ///< how many times the unknown common scatter variance comes on top, > 0
};

/// Two observed values that share a part of their measuring error.
struct SharedVariance {
    std::size_t first = 0;
    std::size_t second = 0;
    double covariance = 0.0;
};

/// Part that an effect has in one observed value.
struct EffectPart {
    std::size_t observation = 0;
    double factor = 1.0;
};

/// Something that may or may not be there, and how large it would be if it were.
struct CandidateEffect {
    std::vector<EffectPart> parts;
    double prior_deviation = 1.0;   ///< standard deviation of its size when it is there, > 0
    double prior_probability = 0.5; ///< that it is there, 0 < p < 1
    bool always_present = false;    ///< estimated in any case (an intercept)
};

struct EffectEstimate {
    bool present = false;
    double value = 0.0;       ///< posterior mean, shrunk towards zero; 0 when not present
    double uncertainty = 0.0; ///< posterior standard deviation; 0 when not present
    double probability = 0.0; ///< that the effect is there, against the best explanation without it
};

struct SparseFit {
    double scatter = 0.0;            ///< standard deviation common to all observed values
    double degrees_of_freedom = 0.0; ///< of the scatter: observations less effective number of effects
    double log_posterior = 0.0;      ///< of the chosen set, up to a constant
    std::vector<EffectEstimate> effects;
    std::vector<double> residuals;
};

/// What is assumed before any value is seen.
struct SparseSettings {
    double scatter_guess = 1.0;      ///< median of the log-normal prior of the scatter, > 0
    double scatter_log_spread = 1.0; ///< its standard deviation in natural logarithm
};

/// Finds the few effects that explain the observed values: spike-and-slab linear model, searched for its most
/// probable set of effects; outliers are effects of one observation, so that the rest is fitted robustly.
///
/// Given      at least one observation; parts that name observations
/// Returns    the most probable set, each effect shrunk by its prior; the scatter by restricted maximum
///            likelihood with a weak prior
/// Notes      Greedy search (add, remove) from two starts: nothing, and everything that has several parts.
///            Then each present effect is locked out and the search goes on without it: the better of the two
///            is kept, and the difference of the log posteriors gives the effect's probability, so that a
///            rival explanation by other effects counts, not only the empty place.
/// Accuracy   the same set as trying all sets in small cases (tests/src/stats/sparse_effects_test.cpp)
/// Reference  M. E. Tipping, A. C. Faul, "Fast marginal likelihood maximisation for sparse Bayesian models",
///            2003 (gain of adding or removing one effect); E. I. George, R. E. McCulloch, J. Amer. Statist.
///            Assoc. 88 (1993) 881 (spike and slab); both from memory
[[nodiscard]] SparseFit find_sparse_effects(std::span<const ObservedValue> observations,
                                            std::span<const SharedVariance> shared,
                                            std::span<const CandidateEffect> candidates,
                                            const SparseSettings& settings = {});

/// Log posterior of one given set of effects with the scatter that suits it best; for tests and comparisons.
[[nodiscard]] double log_posterior_of_set(std::span<const ObservedValue> observations,
                                          std::span<const SharedVariance> shared,
                                          std::span<const CandidateEffect> candidates,
                                          const std::vector<bool>& present,
                                          const SparseSettings& settings = {});

} // namespace harpkeep::stats
