// SPDX-License-Identifier: MIT
#pragma once

#include "signal/tone_equations.hpp"
#include "signal/tone_fit.hpp"
#include "units/interval.hpp"

#include <Eigen/Dense>

#include <optional>
#include <span>
#include <vector>

namespace harpkeep {

// Scatter of the partials about the series: learned, from a guess that counts as two partials.
inline constexpr double first_scatter = 0.2 / cents_per_neper;
inline constexpr double usual_twin_share = 0.2;
// Twins die up to 3 times slower or quicker than the main tone, slower more often than not.
inline constexpr double twin_start_ratio = 0.6;
inline constexpr double log_decay_ratio_sd = 0.5;

inline constexpr Eigen::Index shared_count = 6; // f1, B, glide, its time, the twin's split and decay
using SharedVector = Eigen::Matrix<double, shared_count, 1>;
using OuterVector = Eigen::Matrix<double, unknown::outer, 1>;
using OuterMatrix = Eigen::Matrix<double, unknown::outer, unknown::outer>;

/// What a state takes to be there.
struct ToneHypothesis {
    bool twin = false, glide = false;
};

/// One partial in the course of the fit.
struct TonePartialState {
    OwnTone own;
    double start_decay = 0.0;
    double deviation = 0.0; ///< from the series, relative
    double trust = 1.0;
};

/// Where the fit stands.
struct ToneState {
    SharedTone shared;
    std::vector<TonePartialState> partials;
    double scatter = first_scatter;
    double twin_share = usual_twin_share; ///< rms of the twins' ratios, learned
    double log_evidence = -1e300;
    ToneHypothesis what;
    std::optional<double> held_log_decay_ratio; ///< of the twin: not to be found, but given
};

/// One partial's equations with its own five unknowns eliminated.
struct ReducedPartial {
    OuterMatrix matrix;
    OuterVector pull;
    Eigen::Matrix<double, unknown::own, unknown::outer + 1> back; ///< own = back.last - back.rest * outer
    double log_determinant = 0.0;
    double level = 0.0;
    double excess = 1.0;        ///< of the residual over the noise
    double twin_variance = 0.0; ///< of the twin's ratio
};

/// What one round of Gauss-Newton finds.
struct ToneRound {
    std::vector<ReducedPartial> reduced;
    Eigen::Matrix<double, shared_count, shared_count> information;
    SharedVector step;
    double log_posterior = 0.0;
};

/// The fit of one tone or two to all partials, from a state to the likeliest one.
class ToneProblem {
  public:
    ToneProblem(std::span<const TonePartial> partials, const ToneSearch& search);

    /// One tone without glide, where the single fits left it.
    [[nodiscard]] ToneState start(std::span<const TonePartial> partials) const;
    /// To the likeliest twin with the split and the ratio of decays that the state begins with.
    void form_twin(ToneState& state) const;
    /// The frequency of each partial, and how it depends on what is shared.
    struct Reading {
        double frequency_hz = 0.0, variance = 0.0; ///< relative
        SharedVector slope = SharedVector::Zero(); ///< relative
        double weight = 0.0, level = 0.0, excess = 1.0;
    };
    struct Readings {
        std::vector<Reading> partials;
        double shared_variance = 0.0;    ///< of all together, relative
        double log_decay_ratio_sd = 0.0; ///< of the twin's ratio of decays, by the likelihood's curvature
    };
    /// To the likeliest state, settled to `settled_sds` of what each shared unknown is unsure by.
    Readings solve(ToneState& state, double settled_sds = 0.05) const;

  private:
    [[nodiscard]] static Readings read(const ToneState& state, const ToneRound& round);
    [[nodiscard]] double series_hz(const SharedTone& shared, int number) const;
    [[nodiscard]] ToneRound linearise(const ToneState& state, bool held) const;
    /// Equations of one partial with its priors, its own unknowns eliminated.
    [[nodiscard]] ReducedPartial reduce(const ToneState& state, std::size_t i, double& log_posterior) const;
    /// The variance that the partial's deviation from the series is allowed, Hz^2.
    [[nodiscard]] static double allowed(const ToneState& state, const TonePartialState& partial);
    void add_partial(const ToneState& state, const TonePartialState& partial, int number,
                     const ReducedPartial& r, Eigen::Matrix<double, shared_count, shared_count>& information,
                     SharedVector& pull) const;
    void add_priors(const ToneState& state, bool held,
                    Eigen::Matrix<double, shared_count, shared_count>& information, SharedVector& pull,
                    double& log_posterior) const;
    [[nodiscard]] static bool is_small(const ToneRound& round, double sds);
    /// By `part` of the step.
    void move(ToneState& state, const ToneRound& round, double part) const;
    void move_partial(ToneState& state, const SharedVector& step, const ReducedPartial& r,
                      const SharedTone& before, std::size_t i, double part) const;
    /// Expectation-maximisation for the scatter of the partials about the series, Student weights.
    void learn_scatter(ToneState& state, const ToneRound& round) const;
    /// The same for the size of the twins.
    static void learn_share(ToneState& state, const ToneRound& round);
    [[nodiscard]] double evidence(const ToneState& state, const ToneRound& round) const;

    const ToneSearch& search_;
    double log_b_;
    std::vector<ToneValues> values_;
};

} // namespace harpkeep
