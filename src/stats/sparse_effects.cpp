// SPDX-License-Identifier: MIT
#include "stats/sparse_effects.hpp"

#include "base/expects.hpp"
#include "stats/robust_scale.hpp"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

namespace harpkeep::stats {

namespace {

constexpr double minus_infinity = -std::numeric_limits<double>::infinity();

struct Problem {
    std::span<const ObservedValue> observations;
    std::span<const SharedVariance> shared;
    std::span<const CandidateEffect> candidates;
    SparseSettings settings;
    Eigen::VectorXd values;
    Eigen::VectorXd scatter_shares;
    Eigen::MatrixXd measured_covariance;

    [[nodiscard]] double log_prior_odds(std::size_t candidate) const
    {
        const double p = candidates[candidate].prior_probability;
        return std::log(p / (1.0 - p));
    }
};

Problem problem_of(std::span<const ObservedValue> observations, std::span<const SharedVariance> shared,
                   std::span<const CandidateEffect> candidates, const SparseSettings& settings)
{
    HARPKEEP_EXPECTS(!observations.empty());
    HARPKEEP_EXPECTS(settings.scatter_guess > 0.0 && settings.scatter_log_spread > 0.0);
    const auto count = static_cast<Eigen::Index>(observations.size());
    Problem problem{observations,
                    shared,
                    candidates,
                    settings,
                    Eigen::VectorXd(count),
                    Eigen::VectorXd(count),
                    Eigen::MatrixXd::Zero(count, count)};
    for (Eigen::Index i = 0; i < count; ++i) {
        const auto& observation = observations[static_cast<std::size_t>(i)];
        HARPKEEP_EXPECTS(observation.known_variance >= 0.0 && observation.scatter_share > 0.0);
        problem.values(i) = observation.value;
        problem.scatter_shares(i) = observation.scatter_share;
        problem.measured_covariance(i, i) = observation.known_variance;
    }
    for (const auto& pair : shared) {
        HARPKEEP_EXPECTS(pair.first < observations.size() && pair.second < observations.size());
        const auto i = static_cast<Eigen::Index>(pair.first);
        const auto j = static_cast<Eigen::Index>(pair.second);
        problem.measured_covariance(i, j) = problem.measured_covariance(j, i) = pair.covariance;
    }
    for (const auto& candidate : candidates) {
        HARPKEEP_EXPECTS(candidate.prior_deviation > 0.0);
        HARPKEEP_EXPECTS(candidate.always_present ||
                         (candidate.prior_probability > 0.0 && candidate.prior_probability < 1.0));
        for (const auto& part : candidate.parts) HARPKEEP_EXPECTS(part.observation < observations.size());
    }
    return problem;
}

/// A set of effects and a scatter, with what follows from them.
struct State {
    std::vector<bool> present;
    double scatter = 1.0;
    Eigen::MatrixXd precision;       // inverse covariance of the values, effects integrated out
    Eigen::VectorXd weighted_values; // precision * values
    double log_posterior = minus_infinity;
};

double square(double x)
{
    return x * x;
}

/// Covariance of the values when the present effects are random with their priors.
Eigen::MatrixXd covariance_of(const Problem& problem, const State& state)
{
    Eigen::MatrixXd covariance = problem.measured_covariance;
    covariance.diagonal() += square(state.scatter) * problem.scatter_shares;
    for (std::size_t k = 0; k < problem.candidates.size(); ++k) {
        if (!state.present[k]) continue;
        const auto& candidate = problem.candidates[k];
        const double variance = square(candidate.prior_deviation);
        for (const auto& a : candidate.parts)
            for (const auto& b : candidate.parts)
                covariance(static_cast<Eigen::Index>(a.observation),
                           static_cast<Eigen::Index>(b.observation)) += variance * a.factor * b.factor;
    }
    return covariance;
}

void evaluate(const Problem& problem, State& state)
{
    const Eigen::LLT<Eigen::MatrixXd> factor(covariance_of(problem, state));
    HARPKEEP_EXPECTS(factor.info() == Eigen::Success); // a sum of covariances with a positive diagonal
    const auto count = problem.values.size();
    state.precision = factor.solve(Eigen::MatrixXd::Identity(count, count));
    state.weighted_values = state.precision * problem.values;
    const double log_determinant = 2.0 * factor.matrixLLT().diagonal().array().log().sum();
    state.log_posterior = -0.5 * log_determinant - 0.5 * problem.values.dot(state.weighted_values) -
                          0.5 * square(std::log(state.scatter / problem.settings.scatter_guess) /
                                       problem.settings.scatter_log_spread);
    for (std::size_t k = 0; k < problem.candidates.size(); ++k)
        if (!problem.candidates[k].always_present && state.present[k])
            state.log_posterior += problem.log_prior_odds(k);
}

/// One step of Fisher scoring on the logarithm of the scatter; returns how far it moved.
double improve_scatter(const Problem& problem, State& state)
{
    const Eigen::VectorXd slope = 2.0 * square(state.scatter) * problem.scatter_shares; // d covariance
    const double prior_precision = 1.0 / square(problem.settings.scatter_log_spread);
    const double gradient = -0.5 * state.precision.diagonal().dot(slope) +
                            0.5 * state.weighted_values.cwiseAbs2().dot(slope) -
                            prior_precision * std::log(state.scatter / problem.settings.scatter_guess);
    const double information = 0.5 * slope.dot(state.precision.cwiseAbs2() * slope) + prior_precision;
    const double step = std::clamp(gradient / information, -0.5, 0.5); // at most a factor 1.65 at once
    state.scatter *= std::exp(step);
    evaluate(problem, state);
    return std::abs(step);
}

void settle_scatter(const Problem& problem, State& state)
{
    constexpr int most_steps = 50;
    for (int i = 0; i < most_steps && improve_scatter(problem, state) > 1e-6; ++i) {}
}

struct Projection {
    double information = 0.0; // x' W x
    double pull = 0.0;        // x' W y
};

Projection projection_of(const CandidateEffect& candidate, const State& state)
{
    Projection projection;
    for (const auto& a : candidate.parts) {
        const auto i = static_cast<Eigen::Index>(a.observation);
        projection.pull += a.factor * state.weighted_values(i);
        for (const auto& b : candidate.parts)
            projection.information +=
                a.factor * b.factor * state.precision(i, static_cast<Eigen::Index>(b.observation));
    }
    return projection;
}

/// Change of the log posterior when candidate `k` is taken in, or is taken out when it is in.
double gain_of_flip(const Problem& problem, const State& state, std::size_t k)
{
    const auto& candidate = problem.candidates[k];
    const auto [information, pull] = projection_of(candidate, state);
    const double variance = square(candidate.prior_deviation);
    if (!state.present[k]) {
        const double spread = 1.0 + variance * information;
        return -0.5 * std::log(spread) + 0.5 * variance * square(pull) / spread + problem.log_prior_odds(k);
    }
    const double rest = 1.0 - variance * information; // 1 / spread, seen from inside
    return -(0.5 * std::log(rest) + 0.5 * variance * square(pull) / rest + problem.log_prior_odds(k));
}

/// Adds and removes effects one at a time while that raises the log posterior; never touches `locked`.
void climb(const Problem& problem, State& state, std::optional<std::size_t> locked)
{
    evaluate(problem, state);
    const std::size_t most_flips = 4 * problem.candidates.size() + 20;
    for (std::size_t flips = 0; flips < most_flips; ++flips) {
        improve_scatter(problem, state);
        std::size_t best = 0;
        double best_gain = 1e-9;
        for (std::size_t k = 0; k < problem.candidates.size(); ++k) {
            if (k == locked || problem.candidates[k].always_present || problem.candidates[k].parts.empty())
                continue;
            const double gain = gain_of_flip(problem, state, k);
            if (gain > best_gain) {
                best_gain = gain;
                best = k;
            }
        }
        if (best_gain <= 1e-9) {
            const double before = state.scatter;
            settle_scatter(problem, state);
            if (std::abs(std::log(state.scatter / before)) < 1e-3) return;
            continue; // another scatter may let another effect in
        }
        state.present[best] = !state.present[best];
        evaluate(problem, state);
    }
    settle_scatter(problem, state);
}

State start_with(const Problem& problem, bool shared_effects, double scatter)
{
    State state{.scatter = scatter};
    for (const auto& candidate : problem.candidates)
        state.present.push_back(candidate.always_present || (shared_effects && candidate.parts.size() > 1));
    return state;
}

/// The best of the climbs from several starts: a large scatter hides effects and a small one makes them up,
/// each being a summit of its own.
State best_climb(const Problem& problem)
{
    const std::vector<double> values(problem.values.data(), problem.values.data() + problem.values.size());
    const double bulk = std::max(robust_scale(values), 0.05 * problem.settings.scatter_guess);
    State best;
    for (const bool shared_effects : {false, true}) {
        for (const double part : {0.2, 1.0}) {
            State state = start_with(problem, shared_effects, part * bulk);
            climb(problem, state, std::nullopt);
            if (state.log_posterior > best.log_posterior) best = std::move(state);
        }
    }
    return best;
}

SparseFit fit_of(const Problem& problem, const State& state, const std::vector<double>& probabilities)
{
    SparseFit fit{.scatter = state.scatter, .log_posterior = state.log_posterior};
    double effective_count = 0.0;
    Eigen::VectorXd rest = problem.values;
    for (std::size_t k = 0; k < problem.candidates.size(); ++k) {
        EffectEstimate estimate{.present = state.present[k], .probability = probabilities[k]};
        if (estimate.present) {
            const auto& candidate = problem.candidates[k];
            const auto [information, pull] = projection_of(candidate, state);
            const double variance = square(candidate.prior_deviation);
            estimate.value = variance * pull;
            estimate.uncertainty =
                candidate.prior_deviation * std::sqrt(std::max(0.0, 1.0 - variance * information));
            effective_count += variance * information;
            for (const auto& part : candidate.parts)
                rest(static_cast<Eigen::Index>(part.observation)) -= part.factor * estimate.value;
        }
        fit.effects.push_back(estimate);
    }
    // Never under 1: with fewer values than effects the priors carry the rest.
    fit.degrees_of_freedom = std::max(1.0, static_cast<double>(problem.values.size()) - effective_count);
    fit.residuals.assign(rest.data(), rest.data() + rest.size());
    return fit;
}

double probability_from_log_odds(double log_odds)
{
    return 1.0 / (1.0 + std::exp(-log_odds));
}

/// The best state that can be reached from `state` without effect `k`.
State without(const Problem& problem, const State& state, std::size_t k)
{
    State other = state;
    other.present[k] = false;
    climb(problem, other, k);
    return other;
}

/// Locks out each present effect in turn; moves to a better state when that finds one.
std::vector<double> challenge(const Problem& problem, State& state)
{
    std::vector<double> probabilities;
    constexpr int most_moves = 5; // a move is rare, a second one rarer
    for (int moves = 0;; ++moves) {
        probabilities.assign(problem.candidates.size(), 0.0);
        std::optional<State> better;
        for (std::size_t k = 0; k < problem.candidates.size() && !better; ++k) {
            if (problem.candidates[k].parts.empty()) continue;
            if (problem.candidates[k].always_present || !state.present[k]) {
                const double gain =
                    state.present[k] ? -gain_of_flip(problem, state, k) : gain_of_flip(problem, state, k);
                probabilities[k] = probability_from_log_odds(gain);
                continue;
            }
            State rival = without(problem, state, k);
            probabilities[k] = probability_from_log_odds(state.log_posterior - rival.log_posterior);
            if (rival.log_posterior > state.log_posterior + 1e-6 && moves < most_moves) better = rival;
        }
        if (!better) return probabilities;
        state = std::move(*better);
        climb(problem, state, std::nullopt);
    }
}

} // namespace

SparseFit find_sparse_effects(std::span<const ObservedValue> observations,
                              std::span<const SharedVariance> shared,
                              std::span<const CandidateEffect> candidates, const SparseSettings& settings)
{
    const Problem problem = problem_of(observations, shared, candidates, settings);
    State best = best_climb(problem);
    const auto probabilities = challenge(problem, best);
    return fit_of(problem, best, probabilities);
}

double log_posterior_of_set(std::span<const ObservedValue> observations,
                            std::span<const SharedVariance> shared,
                            std::span<const CandidateEffect> candidates, const std::vector<bool>& present,
                            const SparseSettings& settings)
{
    const Problem problem = problem_of(observations, shared, candidates, settings);
    HARPKEEP_EXPECTS(present.size() == candidates.size());
    double best = minus_infinity;
    for (const double start : {0.2, 1.0, 5.0}) { // the scatter may have more than one summit
        State state{.present = present, .scatter = start * settings.scatter_guess};
        evaluate(problem, state);
        settle_scatter(problem, state);
        best = std::max(best, state.log_posterior);
    }
    return best;
}

} // namespace harpkeep::stats
