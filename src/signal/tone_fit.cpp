// SPDX-License-Identifier: MIT
#include "signal/tone_fit.hpp"

#include "base/expects.hpp"
#include "signal/tone_equations.hpp"
#include "units/interval.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace harpkeep {

namespace {

// What is expected before: glides of some 3 cents (0.4 to 7 seen on harp plucks), whose time lies within a
// factor of 2 of what the decay suggests; twins within about a cent, at -12 dB, dying up to 3 times slower or
// quicker.
constexpr double glide_sd = 3.0 / cents_per_neper;
constexpr double log_glide_time_sd = 0.7;
constexpr double split_sd = 1.0 / cents_per_neper;
constexpr double log_decay_ratio_sd = 0.5;
constexpr double usual_twin_share = 0.2, usual_share_counts = 2.0, least_twin_share = 0.01;
constexpr double log_b_sd = 1.1;
constexpr double decay_sd = 0.5; // relative
// Scatter of the partials about the series: learned, from a guess that counts as two partials.
constexpr double first_scatter = 0.2 / cents_per_neper, usual_scatter = 0.05 / cents_per_neper;
constexpr double least_scatter = 0.005 / cents_per_neper;
constexpr double usual_scatter_counts = 2.0;
constexpr double scatter_freedom = 4.0; // Student's, so that single partials do not pull

constexpr double learned_together = 4.0; // glide, its time, the twin's split and decay

constexpr int held_rounds = 3; // in which a twin's split and decay stay, until its partials have formed
constexpr int most_rounds = 14;
constexpr double split_step = 0.3 / cents_per_neper, decay_ratio_step = 0.4, glide_time_step = 0.4;
constexpr std::array other_starts{0.45, 1.7};
constexpr double worth_other_starts = 0.12; // share explained under which it is no twin
constexpr double twin_start_split = 0.7 / cents_per_neper, twin_start_ratio = 0.6;
constexpr double largest_twin = 1.0;
constexpr double settled_steps = 0.02; // of a standard deviation
// Of the log of what one tone leaves over against the noise: measured, synthetic strings with a twin 0.9 to
// 1, recorded plucks on which two tones are not all that goes on 0.1 to 0.4.
constexpr double explained_least = 0.55, explained_surely = 0.8;
constexpr double small_misfit = 0.05;
constexpr double shows_least = 0.05, shows_surely = 0.35;
constexpr double least_probability = 1e-3;
constexpr double rarely_alone = 0.05;      // odds that a string swings in one direction only
constexpr double most_hidden_cents = 0.35; // by what twins an octave around do where they are heard

namespace u = unknown;
constexpr Eigen::Index series_first = 0, series_b = 1, shared_at = 2, shared_count = 6;
using Shared6 = Eigen::Matrix<double, shared_count, 1>;
using Outer = Eigen::Matrix<double, u::outer, 1>;
using OuterSquare = Eigen::Matrix<double, u::outer, u::outer>;

struct Hypothesis {
    bool twin = false, glide = false;
};

struct PartialState {
    OwnTone own;
    double start_decay = 0.0;
    double deviation = 0.0; ///< from the series, relative
    double trust = 1.0;
};

struct State {
    SharedTone shared;
    std::vector<PartialState> partials;
    double scatter = first_scatter;
    double twin_share = usual_twin_share; ///< rms of the twins' ratios, learned
    double log_evidence = -1e300;
    Hypothesis what;
};

/// One partial's equations with its own five unknowns eliminated.
struct Reduced {
    OuterSquare matrix;
    Outer pull;
    Eigen::Matrix<double, u::own, u::outer + 1> back; ///< own = back.last - back.rest * outer
    double log_determinant = 0.0;
    double level = 0.0;
    double excess = 1.0;        ///< of the residual over the noise
    double twin_variance = 0.0; ///< of the twin's ratio
};

/// What one round of Gauss-Newton finds.
struct Round {
    std::vector<Reduced> reduced;
    Eigen::Matrix<double, shared_count, shared_count> information;
    Shared6 step;
    double log_posterior = 0.0;
};

double stretch(double b, double k)
{
    return 0.5 * (std::log1p(b * k * k) - std::log1p(b));
}

double stretch_slope(double b, double k)
{
    return 0.5 * (b * k * k / (1.0 + b * k * k) - b / (1.0 + b));
}

class ToneProblem {
  public:
    ToneProblem(std::span<const TonePartial> partials, const ToneSearch& search)
        : search_(search), log_b_(std::log(std::max(search.inharmonicity, 1e-7)))
    {
        for (const auto& partial : partials) values_.push_back(tone_values(partial, search.glide.start_s));
    }

    [[nodiscard]] State start(std::span<const TonePartial> partials) const
    {
        State state;
        state.shared = {.log_first = std::log(partials[0].frequency_hz / partials[0].number) -
                                     stretch(std::exp(log_b_), partials[0].number),
                        .log_b = log_b_,
                        .glide_amount = 0.0,
                        .log_glide_time = std::log(search_.glide.time_s)};
        for (const auto& partial : partials)
            state.partials.push_back(
                {.own = {.frequency_hz = partial.frequency_hz, .decay_rate = partial.decay_rate, .twin = {}},
                 .start_decay = std::max(partial.decay_rate, 0.2)});
        return state;
    }

    void solve(State& state) const
    {
        state.scatter = first_scatter;
        for (int i = 0;; ++i) {
            const bool held = state.what.twin && i < held_rounds;
            const Round round = linearise(state, held);
            const bool last = i == most_rounds || (!held && i > 1 && is_small(round));
            if (last) {
                state.log_evidence = evidence(state, round);
                return;
            }
            move(state, round);
            learn_scatter(state, round);
            if (state.what.twin && !held) learn_share(state, round);
        }
    }

    /// The frequency of each partial, and how it depends on what is shared.
    struct Reading {
        double frequency_hz = 0.0, variance = 0.0; ///< relative
        Shared6 slope = Shared6::Zero();           ///< relative
        double weight = 0.0, level = 0.0, excess = 1.0;
    };
    struct Readings {
        std::vector<Reading> partials;
        double shared_variance = 0.0; ///< of all together, relative
    };

    [[nodiscard]] Readings read(const State& state) const
    {
        const Round round = linearise(state, false);
        Readings readings;
        Shared6 slope = Shared6::Zero();
        double weights = 0.0;
        for (std::size_t i = 0; i < state.partials.size(); ++i) {
            const Reduced& r = round.reduced[i];
            const double f = state.partials[i].own.frequency_hz;
            Reading one{.frequency_hz = f + r.pull(0) / r.matrix(0, 0),
                        .variance = 1.0 / (r.matrix(0, 0) * f * f),
                        .level = r.level,
                        .excess = r.excess};
            for (Eigen::Index k = 1; k < u::outer; ++k)
                one.slope(shared_at + k - 1) = -r.matrix(0, k) / r.matrix(0, 0) / f;
            one.weight = 1.0 / (one.variance + state.scatter * state.scatter);
            slope += one.weight * one.slope;
            weights += one.weight;
            readings.partials.push_back(one);
        }
        slope /= weights;
        // The four that are shared are learned from the partials themselves: few partials, few degrees of
        // freedom.
        const double count = static_cast<double>(state.partials.size());
        readings.shared_variance =
            slope.dot(round.information.ldlt().solve(slope)) * (count + learned_together) / count;
        return readings;
    }

  private:
    [[nodiscard]] double series_hz(const SharedTone& shared, int number) const
    {
        return number * std::exp(shared.log_first + stretch(std::exp(shared.log_b), number));
    }

    [[nodiscard]] Round linearise(const State& state, bool held) const
    {
        Round round;
        round.information.setZero();
        Shared6 pull = Shared6::Zero();
        double log_posterior = 0.0;
        for (std::size_t i = 0; i < state.partials.size(); ++i) {
            const PartialState& partial = state.partials[i];
            round.reduced.push_back(reduce(state, i, log_posterior));
            add_partial(state, partial, values_[i].number, round.reduced.back(), round.information, pull);
        }
        add_priors(state, held, round.information, pull, log_posterior);
        round.log_posterior = log_posterior;
        round.step = round.information.ldlt().solve(pull);
        return round;
    }

    /// Equations of one partial with its priors, its own unknowns eliminated.
    [[nodiscard]] Reduced reduce(const State& state, std::size_t i, double& log_posterior) const
    {
        const PartialState& partial = state.partials[i];
        const ToneValues& values = values_[i];
        ToneEquations e = tone_equations(values, partial.own, state.shared, state.what.twin);
        const double count = static_cast<double>(values.values.size());
        const double excess = e.residual_energy / (count * values.noise_power);
        const double inverse = 1.0 / std::max(1.0, excess);
        e.matrix *= inverse, e.pull *= inverse;
        log_posterior -= count / values.correlated * (excess > 1.0 ? 1.0 + std::log(excess) : excess);

        const double decay = 1.0 / std::pow(decay_sd * partial.start_decay, 2);
        e.matrix(u::decay, u::decay) += decay;
        e.pull(u::decay) -= decay * (partial.own.decay_rate - partial.start_decay);
        log_posterior -= 0.5 * decay * std::pow(partial.own.decay_rate - partial.start_decay, 2);
        const double twin = state.what.twin ? 2.0 / (state.twin_share * state.twin_share) : 1.0;
        e.matrix(u::twin, u::twin) += twin, e.matrix(u::twin + 1, u::twin + 1) += twin;
        e.pull(u::twin) -= twin * partial.own.twin.real(),
            e.pull(u::twin + 1) -= twin * partial.own.twin.imag();
        log_posterior += std::log(twin) - 0.5 * twin * std::norm(partial.own.twin);

        const Eigen::LDLT<Eigen::Matrix<double, u::own, u::own>> own(
            e.matrix.topLeftCorner<u::own, u::own>());
        Eigen::Matrix<double, u::own, u::outer + 1> right;
        right.leftCols<u::outer>() = e.matrix.topRightCorner<u::own, u::outer>();
        right.rightCols<1>() = e.pull.head<u::own>();
        Reduced r{.back = own.solve(right), .level = std::abs(e.amplitude), .excess = excess};
        if (state.what.twin)
            for (const Eigen::Index at : {u::twin, u::twin + 1}) {
                const Eigen::Matrix<double, u::own, 1> unit = Eigen::Matrix<double, u::own, 1>::Unit(at);
                r.twin_variance += own.solve(unit)(at);
            }
        const auto across = e.matrix.bottomLeftCorner<u::outer, u::own>();
        r.matrix = e.matrix.bottomRightCorner<u::outer, u::outer>() - across * r.back.leftCols<u::outer>();
        r.pull = e.pull.tail<u::outer>() - across * r.back.rightCols<1>();
        r.log_determinant = own.vectorD().array().max(1e-300).log().sum();
        return r;
    }

    /// The variance that the partial's deviation from the series is allowed, Hz^2.
    [[nodiscard]] static double allowed(const State& state, const PartialState& partial)
    {
        return std::pow(state.scatter * partial.own.frequency_hz, 2) / partial.trust;
    }

    void add_partial(const State& state, const PartialState& partial, int number, const Reduced& r,
                     Eigen::Matrix<double, shared_count, shared_count>& information, Shared6& pull) const
    {
        const double f = partial.own.frequency_hz, d = allowed(state, partial);
        const double kept = 1.0 / (1.0 + d * r.matrix(0, 0));
        const OuterSquare eased = r.matrix - d * kept * r.matrix.col(0) * r.matrix.row(0);
        Outer eased_pull = r.pull - d * kept * r.matrix.col(0) * r.pull(0);
        // Towards the series: the partial stands off by what it deviates now.
        eased_pull -= eased.col(0) * (series_hz(state.shared, number) - f);
        Eigen::Matrix<double, u::outer, shared_count> slope =
            Eigen::Matrix<double, u::outer, shared_count>::Zero();
        slope(0, series_first) = f;
        slope(0, series_b) = f * stretch_slope(std::exp(state.shared.log_b), number);
        for (Eigen::Index k = 1; k < u::outer; ++k) slope(k, shared_at + k - 1) = 1.0;
        information.noalias() += slope.transpose() * eased * slope;
        pull.noalias() += slope.transpose() * eased_pull;
    }

    void add_priors(const State& state, bool held,
                    Eigen::Matrix<double, shared_count, shared_count>& information, Shared6& pull,
                    double& log_posterior) const
    {
        constexpr double fixed_sd = 1e-15;
        const SharedTone& s = state.shared;
        const auto prior = [&](Eigen::Index at, double off, double usual_sd, bool free) {
            const double sd = free ? usual_sd : fixed_sd, weight = 1.0 / (sd * sd);
            information(at, at) += weight;
            if (free)
                pull(at) -= weight * off, log_posterior -= 0.5 * weight * off * off;
            else
                pull(at) = 0.0;
            log_posterior -= std::log(sd);
        };
        prior(series_b, s.log_b - log_b_, log_b_sd, true);
        prior(shared_at, s.glide_amount, glide_sd, state.what.glide);
        prior(shared_at + 1, s.log_glide_time - std::log(search_.glide.time_s), log_glide_time_sd,
              state.what.glide);
        prior(shared_at + 2, s.split, split_sd, state.what.twin && !held);
        prior(shared_at + 3, s.log_decay_ratio - std::log(twin_start_ratio), log_decay_ratio_sd,
              state.what.twin && !held);
    }

    [[nodiscard]] static bool is_small(const Round& round)
    {
        for (Eigen::Index k = 0; k < shared_count; ++k)
            if (std::abs(round.step(k)) * std::sqrt(round.information(k, k)) > settled_steps) return false;
        return true;
    }

    void move(State& state, const Round& round) const
    {
        Shared6 step = round.step;
        const double over = std::max({std::abs(step(shared_at + 1)) / glide_time_step,
                                      std::abs(step(shared_at + 2)) / split_step,
                                      std::abs(step(shared_at + 3)) / decay_ratio_step, 1.0});
        step /= over;
        const SharedTone before = state.shared;
        state.shared.log_first += step(series_first);
        state.shared.log_b = std::clamp(before.log_b + std::clamp(step(series_b), -1.0, 1.0), -16.0, -3.0);
        state.shared.glide_amount += step(shared_at);
        state.shared.log_glide_time += step(shared_at + 1);
        state.shared.split += step(shared_at + 2);
        state.shared.log_decay_ratio += step(shared_at + 3);
        for (std::size_t i = 0; i < state.partials.size(); ++i)
            move_partial(state, step, round.reduced[i], before, i);
    }

    void move_partial(State& state, const Shared6& step, const Reduced& r, const SharedTone& before,
                      std::size_t i) const
    {
        PartialState& partial = state.partials[i];
        const double f = partial.own.frequency_hz, d = allowed(state, partial);
        Outer outer;
        outer(0) = 0.0;
        for (Eigen::Index k = 1; k < u::outer; ++k) outer(k) = step(shared_at + k - 1);
        // Its best frequency between what its values say and the series.
        const double stretched = stretch_slope(std::exp(before.log_b), values_[i].number);
        const double series =
            series_hz(before, values_[i].number) - f + f * (step(series_first) + stretched * step(series_b));
        const double wanted =
            r.pull(0) - r.matrix.row(0).tail<u::outer - 1>().dot(outer.tail<u::outer - 1>());
        outer(0) = (wanted * d + series) / (1.0 + d * r.matrix(0, 0));
        partial.deviation = (outer(0) - series) / f;
        const Eigen::Matrix<double, u::own, 1> own =
            r.back.rightCols<1>() - r.back.leftCols<u::outer>() * outer;
        partial.own.frequency_hz += outer(0);
        const double alpha = partial.own.decay_rate, largest = 0.3 * std::max(alpha, partial.start_decay);
        partial.own.decay_rate = std::clamp(alpha + std::clamp(own(u::decay), -largest, largest),
                                            0.2 * partial.start_decay, 4.0 * partial.start_decay);
        if (!state.what.twin) return;
        partial.own.twin += std::complex<double>{own(u::twin), own(u::twin + 1)};
        const double size = std::abs(partial.own.twin);
        if (size > largest_twin) partial.own.twin *= largest_twin / size;
    }

    /// Expectation-maximisation for the scatter of the partials about the series, Student weights.
    void learn_scatter(State& state, const Round& round) const
    {
        double square = usual_scatter_counts * usual_scatter * usual_scatter, count = usual_scatter_counts;
        for (std::size_t i = 0; i < state.partials.size(); ++i) {
            PartialState& partial = state.partials[i];
            const double d = allowed(state, partial), f = partial.own.frequency_hz;
            const double left = d / (1.0 + d * round.reduced[i].matrix(0, 0)) / (f * f);
            const double seen = partial.deviation * partial.deviation + left;
            square += partial.trust * seen;
            count += 1.0;
            partial.trust = std::min(1.0, (scatter_freedom + 1.0) /
                                              (scatter_freedom + seen / (state.scatter * state.scatter)));
        }
        state.scatter = std::max(least_scatter, std::sqrt(square / count));
    }

    /// The same for the size of the twins.
    static void learn_share(State& state, const Round& round)
    {
        double square = usual_share_counts * usual_twin_share * usual_twin_share, count = usual_share_counts;
        for (std::size_t i = 0; i < state.partials.size(); ++i) {
            square += std::norm(state.partials[i].own.twin) + round.reduced[i].twin_variance;
            count += 1.0;
        }
        state.twin_share = std::max(least_twin_share, std::sqrt(square / count));
    }

    [[nodiscard]] double evidence(const State& state, const Round& round) const
    {
        double log_evidence = round.log_posterior - 0.5 * std::log(round.information.determinant());
        for (std::size_t i = 0; i < state.partials.size(); ++i) {
            const PartialState& partial = state.partials[i];
            const Reduced& r = round.reduced[i];
            const double d = allowed(state, partial);
            log_evidence -= 0.5 * r.log_determinant + 0.5 * std::log1p(d * r.matrix(0, 0)) +
                            0.5 * std::pow(partial.deviation / state.scatter, 2) * partial.trust;
        }
        return log_evidence;
    }

    const ToneSearch& search_;
    double log_b_;
    std::vector<ToneValues> values_;
};

/// Mean of the log of what is left over against the noise; by chance it is as often below zero as above.
double misfit(const ToneProblem::Readings& readings)
{
    double sum = 0.0;
    for (const auto& one : readings.partials) sum += std::log(std::max(one.excess, 0.1));
    return std::max(0.0, sum / static_cast<double>(readings.partials.size()));
}

double smooth_step(double from, double to, double x)
{
    const double part = std::clamp((x - from) / (to - from), 0.0, 1.0);
    return part * part * (3.0 - 2.0 * part);
}

/// How far the second tone is believed: fully where it explains nearly all that one tone leaves over, not at
/// all where it merely bends along with other things, nor where one tone leaves hardly more than noise.
double acceptance(double alone, double together)
{
    return smooth_step(shows_least, shows_surely, alone) *
           smooth_step(explained_least, explained_surely,
                       (alone - together + small_misfit) / (alone + small_misfit));
}

/// A solved explanation by two tones.
struct TwoTones {
    State state;
    ToneProblem::Readings readings;
    double weight = 0.0;
};

TwoTones explain_by_two(const ToneProblem& problem, const State& alone, double start_split)
{
    State two = alone;
    two.what.twin = true;
    two.shared.split = start_split;
    two.shared.log_decay_ratio = std::log(twin_start_ratio);
    problem.solve(two);
    auto readings = problem.read(two);
    return {.state = std::move(two), .readings = std::move(readings)};
}

bool less_likely(const TwoTones& a, const TwoTones& b)
{
    return a.state.log_evidence < b.state.log_evidence;
}

/// The best fit with the second tone above the main one, and below. The likelihood has more than one maximum:
/// where a start leads to one that explains half, other starts are tried.
std::vector<TwoTones> explain_by_both_sides(const ToneProblem& problem, const State& alone,
                                            double misfit_alone)
{
    std::vector<TwoTones> sides;
    for (const double side : {1.0, -1.0})
        sides.push_back(explain_by_two(problem, alone, side * twin_start_split));
    const auto found = [&] {
        const auto& best = *std::max_element(sides.begin(), sides.end(), less_likely);
        return (misfit_alone - misfit(best.readings) + small_misfit) / (misfit_alone + small_misfit);
    };
    if (found() > explained_surely || found() < worth_other_starts) return sides;
    for (std::size_t i = 0; i < sides.size(); ++i)
        for (const double share : other_starts) {
            auto other = explain_by_two(problem, alone, (i == 0 ? share : -share) * twin_start_split);
            if (less_likely(sides[i], other)) sides[i] = std::move(other);
            if (found() > explained_surely) return sides;
        }
    return sides;
}

void fill(ToneFit& fit, std::span<const TonePartial> partials, const std::vector<TwoTones>& sides)
{
    std::vector<double> mean(partials.size()); // relative to where the search began
    double shared = 0.0, shared_mean = 0.0, shared_square = 0.0;
    for (const auto& side : sides) {
        double off = 0.0, sum = 0.0;
        for (std::size_t i = 0; i < partials.size(); ++i) {
            const auto& one = side.readings.partials[i];
            const double relative = std::log(one.frequency_hz / partials[i].frequency_hz);
            mean[i] += side.weight * relative;
            fit.partials[i].variance_cents2 += side.weight * one.variance * cents_per_neper * cents_per_neper;
            off += one.weight * relative, sum += one.weight;
        }
        off /= sum;
        shared += side.weight * side.readings.shared_variance;
        shared_mean += side.weight * off, shared_square += side.weight * off * off;
    }
    for (std::size_t i = 0; i < partials.size(); ++i)
        fit.partials[i].frequency_hz = partials[i].frequency_hz * std::exp(mean[i]);
    const double between = std::max(0.0, shared_square - shared_mean * shared_mean);
    fit.shared_sd_cents = cents_per_neper * std::sqrt(shared + between);
}

/// How far both explanations are apart in the mean over the partials.
double apart_cents(const ToneFit& fit, const State& alone, const ToneProblem::Readings& readings)
{
    double apart = 0.0, weights = 0.0;
    for (std::size_t i = 0; i < alone.partials.size(); ++i) {
        const double weight = readings.partials[i].weight;
        apart += weight * std::log(fit.partials[i].frequency_hz / alone.partials[i].own.frequency_hz);
        weights += weight;
    }
    return cents_per_neper * apart / weights;
}

} // namespace

std::optional<ToneFit> fit_two_tones(std::span<const TonePartial> partials, const ToneSearch& search)
{
    HARPKEEP_EXPECTS(!partials.empty() && search.glide.time_s > 0.0);
    const ToneProblem problem(partials, search);
    State alone = problem.start(partials);
    alone.what.glide = search.glide.amount > 0.0;
    alone.shared.glide_amount = search.glide.amount;
    problem.solve(alone);

    const double misfit_alone = misfit(problem.read(alone));
    std::vector<TwoTones> sides = explain_by_both_sides(problem, alone, misfit_alone);
    const TwoTones& best = *std::max_element(sides.begin(), sides.end(), less_likely);
    const double least = best.state.log_evidence;
    double sum = 0.0;
    for (auto& side : sides) sum += side.weight = std::exp(side.state.log_evidence - least);
    const double against = std::exp(std::min(700.0, alone.log_evidence - least));
    ToneFit fit{.probability = sum / (sum + against) * acceptance(misfit_alone, misfit(best.readings))};
    const double possible =
        sum / (sum + against * rarely_alone) * (1.0 - smooth_step(shows_least, shows_surely, misfit_alone));
    if (fit.probability + possible < least_probability) return std::nullopt;
    for (auto& side : sides) side.weight /= sum;

    double square = 0.0;
    for (std::size_t i = 0; i < partials.size(); ++i) {
        const OwnTone& own = best.state.partials[i].own;
        fit.partials.push_back({.decay_rate = own.decay_rate,
                                .level = best.readings.partials[i].level,
                                .excess = std::max(1.0, best.readings.partials[i].excess),
                                .twin_level_ratio = std::abs(own.twin)});
        square += std::norm(own.twin);
    }
    fill(fit, partials, sides);
    fit.hidden_sd_cents =
        std::min(most_hidden_cents, std::sqrt(possible) * std::hypot(fit.shared_sd_cents,
                                                                     apart_cents(fit, alone, best.readings)));
    const SharedTone& shared = best.state.shared;
    fit.glide = {.amount = shared.glide_amount,
                 .time_s = std::exp(shared.log_glide_time),
                 .start_s = search.glide.start_s};
    fit.twin = {.split = shared.split,
                .decay_ratio = std::exp(shared.log_decay_ratio),
                .share = std::sqrt(square / static_cast<double>(partials.size()))};
    fit.scatter_cents = cents_per_neper * best.state.scatter;
    return fit;
}

} // namespace harpkeep
