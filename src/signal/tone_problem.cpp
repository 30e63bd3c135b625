// SPDX-License-Identifier: MIT
#include "signal/tone_problem.hpp"

#include "base/expects.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep {

namespace {

// What is expected before: glides of some 3 cents (0.4 to 7 seen on harp plucks), whose time lies within a
// factor of 2 of what the decay suggests; twins within about a cent, at -12 dB.
constexpr double glide_sd = 3.0 / cents_per_neper;
constexpr double log_glide_time_sd = 0.7;
constexpr double split_sd = 1.0 / cents_per_neper;
constexpr double held_log_decay_ratio_sd = 0.001; // as good as fixed
constexpr double usual_share_counts = 2.0, least_twin_share = 0.01;
constexpr double log_b_sd = 1.1;
constexpr double decay_sd = 0.5; // relative
constexpr double usual_scatter = 0.05 / cents_per_neper;
constexpr double least_scatter = 0.005 / cents_per_neper;
constexpr double usual_scatter_counts = 2.0;
constexpr double scatter_freedom = 4.0; // Student's, so that single partials do not pull

constexpr int held_rounds = 2;   // in which a twin's split and decay stay, until its partials have formed
constexpr int most_rounds = 40;  // two or three short partials need that many, twenty end much sooner
constexpr double swinging = 0.6; // of a step, how much of it the next one takes back
constexpr double split_step = 0.3 / cents_per_neper, decay_ratio_step = 0.4, glide_time_step = 0.4;
constexpr double largest_twin = 1.0;

namespace u = unknown;
constexpr Eigen::Index series_first = 0, series_b = 1, shared_at = 2, decay_ratio_at = 5;

double stretch(double b, double k)
{
    return 0.5 * (std::log1p(b * k * k) - std::log1p(b));
}

double stretch_slope(double b, double k)
{
    return 0.5 * (b * k * k / (1.0 + b * k * k) - b / (1.0 + b));
}

/// Gauss and Jordan's elimination of the partial's own unknowns from the others' equations.
ReducedPartial eliminate_own(const ToneEquations& e)
{
    Eigen::Matrix<double, u::count, u::count + 1> m;
    m << e.matrix, e.pull;
    ReducedPartial r;
    for (Eigen::Index k = 0; k < u::own; ++k) {
        if (k == u::twin) { // all that comes before is eliminated: the trace of the inverse
            const double across = m(k, k + 1), determinant = m(k, k) * m(k + 1, k + 1) - across * across;
            r.twin_variance = (m(k, k) + m(k + 1, k + 1)) / determinant;
        }
        const double pivot = std::max(m(k, k), 1e-300);
        r.log_determinant += std::log(pivot);
        m.row(k) /= pivot;
        Eigen::Matrix<double, u::count, 1> column = m.col(k);
        column(k) = 0.0;
        const Eigen::Matrix<double, 1, u::count + 1> row = m.row(k);
        m.noalias() -= column * row;
    }
    r.back = m.topRightCorner<u::own, u::outer + 1>();
    r.matrix = m.block<u::outer, u::outer>(u::own, u::own);
    r.pull = m.bottomRightCorner<u::outer, 1>();
    return r;
}

} // namespace

ToneProblem::ToneProblem(std::span<const TonePartial> partials, const ToneSearch& search)
    : search_(search), log_b_(std::log(std::max(search.inharmonicity, 1e-7)))
{
    for (const auto& partial : partials) values_.push_back(tone_values(partial, search.glide.start_s));
}

ToneState ToneProblem::start(std::span<const TonePartial> partials) const
{
    ToneState state;
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

void ToneProblem::form_twin(ToneState& state) const
{
    HARPKEEP_EXPECTS(state.what.twin);
    state.scatter = first_scatter;
    for (int i = 0;; ++i) {
        const ToneRound round = linearise(state, true);
        state.log_evidence = evidence(state, round);
        if (i == held_rounds) return;
        move(state, round, 1.0);
        learn_scatter(state, round);
    }
}

ToneProblem::Readings ToneProblem::solve(ToneState& state, double settled_sds) const
{
    SharedVector last = SharedVector::Zero();
    for (int i = 0;; ++i) {
        const ToneRound round = linearise(state, false);
        if (i == most_rounds || (i > 0 && is_small(round, settled_sds))) {
            state.log_evidence = evidence(state, round);
            return read(state, round);
        }
        const SharedVector weight = round.information.diagonal();
        const double along = last.dot(weight.cwiseProduct(round.step));
        const bool swings = along < -swinging * last.dot(weight.cwiseProduct(last));
        move(state, round, swings ? 0.5 : 1.0);
        last = round.step;
        learn_scatter(state, round);
        if (state.what.twin) learn_share(state, round);
    }
}

ToneProblem::Readings ToneProblem::read(const ToneState& state, const ToneRound& round)
{
    Readings readings;
    SharedVector slope = SharedVector::Zero();
    double weights = 0.0;
    for (std::size_t i = 0; i < state.partials.size(); ++i) {
        const ReducedPartial& r = round.reduced[i];
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
    const auto information = round.information.ldlt();
    readings.shared_variance = slope.dot(information.solve(slope));
    const SharedVector ratio = SharedVector::Unit(decay_ratio_at);
    readings.log_decay_ratio_sd = std::sqrt(ratio.dot(information.solve(ratio)));
    return readings;
}

double ToneProblem::series_hz(const SharedTone& shared, int number) const
{
    return number * std::exp(shared.log_first + stretch(std::exp(shared.log_b), number));
}

ToneRound ToneProblem::linearise(const ToneState& state, bool held) const
{
    ToneRound round;
    round.information.setZero();
    SharedVector pull = SharedVector::Zero();
    double log_posterior = 0.0;
    for (std::size_t i = 0; i < state.partials.size(); ++i) {
        const TonePartialState& partial = state.partials[i];
        round.reduced.push_back(reduce(state, i, log_posterior));
        add_partial(state, partial, values_[i].number, round.reduced.back(), round.information, pull);
    }
    add_priors(state, held, round.information, pull, log_posterior);
    round.log_posterior = log_posterior;
    round.step = round.information.ldlt().solve(pull);
    return round;
}

ReducedPartial ToneProblem::reduce(const ToneState& state, std::size_t i, double& log_posterior) const
{
    const TonePartialState& partial = state.partials[i];
    const ToneValues& values = values_[i];
    ToneEquations e = tone_equations(values, partial.own, state.shared, state.what.twin);
    const double count = static_cast<double>(values.real.size());
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
    e.pull(u::twin) -= twin * partial.own.twin.real(), e.pull(u::twin + 1) -= twin * partial.own.twin.imag();
    log_posterior += std::log(twin) - 0.5 * twin * std::norm(partial.own.twin);

    ReducedPartial r = eliminate_own(e);
    if (!state.what.twin) r.twin_variance = 0.0;
    r.level = std::abs(e.amplitude), r.excess = excess;
    return r;
}

double ToneProblem::allowed(const ToneState& state, const TonePartialState& partial)
{
    return std::pow(state.scatter * partial.own.frequency_hz, 2) / partial.trust;
}

void ToneProblem::add_partial(const ToneState& state, const TonePartialState& partial, int number,
                              const ReducedPartial& r,
                              Eigen::Matrix<double, shared_count, shared_count>& information,
                              SharedVector& pull) const
{
    const double f = partial.own.frequency_hz, d = allowed(state, partial);
    const double kept = 1.0 / (1.0 + d * r.matrix(0, 0));
    const OuterMatrix eased = r.matrix - d * kept * r.matrix.col(0) * r.matrix.row(0);
    OuterVector eased_pull = r.pull - d * kept * r.matrix.col(0) * r.pull(0);
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

void ToneProblem::add_priors(const ToneState& state, bool held,
                             Eigen::Matrix<double, shared_count, shared_count>& information,
                             SharedVector& pull, double& log_posterior) const
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
    const double usual_log_ratio = std::log(twin_start_ratio);
    prior(decay_ratio_at, s.log_decay_ratio - state.held_log_decay_ratio.value_or(usual_log_ratio),
          state.held_log_decay_ratio ? held_log_decay_ratio_sd : log_decay_ratio_sd,
          state.what.twin && !held);
}

bool ToneProblem::is_small(const ToneRound& round, double sds)
{
    for (Eigen::Index k = 0; k < shared_count; ++k)
        if (std::abs(round.step(k)) * std::sqrt(round.information(k, k)) > sds) return false;
    return true;
}

void ToneProblem::move(ToneState& state, const ToneRound& round, double part) const
{
    SharedVector step = round.step;
    const double over =
        std::max({std::abs(step(shared_at + 1)) / glide_time_step, std::abs(step(shared_at + 2)) / split_step,
                  std::abs(step(decay_ratio_at)) / decay_ratio_step, 1.0});
    step *= part / over;
    const SharedTone before = state.shared;
    state.shared.log_first += step(series_first);
    state.shared.log_b = std::clamp(before.log_b + std::clamp(step(series_b), -1.0, 1.0), -16.0, -3.0);
    state.shared.glide_amount += step(shared_at);
    state.shared.log_glide_time += step(shared_at + 1);
    state.shared.split += step(shared_at + 2);
    state.shared.log_decay_ratio += step(decay_ratio_at);
    for (std::size_t i = 0; i < state.partials.size(); ++i)
        move_partial(state, step, round.reduced[i], before, i, part);
}

void ToneProblem::move_partial(ToneState& state, const SharedVector& step, const ReducedPartial& r,
                               const SharedTone& before, std::size_t i, double part) const
{
    TonePartialState& partial = state.partials[i];
    const double f = partial.own.frequency_hz, d = allowed(state, partial);
    OuterVector outer;
    outer(0) = 0.0;
    for (Eigen::Index k = 1; k < u::outer; ++k) outer(k) = step(shared_at + k - 1);
    // Its best frequency between what its values say and the series.
    const double stretched = stretch_slope(std::exp(before.log_b), values_[i].number);
    const double series = part * (series_hz(before, values_[i].number) - f) +
                          f * (step(series_first) + stretched * step(series_b));
    const double wanted =
        part * r.pull(0) - r.matrix.row(0).tail<u::outer - 1>().dot(outer.tail<u::outer - 1>());
    outer(0) = (wanted * d + series) / (1.0 + d * r.matrix(0, 0));
    partial.deviation = (outer(0) - series) / f;
    const Eigen::Matrix<double, u::own, 1> own =
        part * r.back.rightCols<1>() - r.back.leftCols<u::outer>() * outer;
    partial.own.frequency_hz += outer(0);
    const double alpha = partial.own.decay_rate, largest = 0.3 * std::max(alpha, partial.start_decay);
    partial.own.decay_rate = std::clamp(alpha + std::clamp(own(u::decay), -largest, largest),
                                        0.2 * partial.start_decay, 4.0 * partial.start_decay);
    if (!state.what.twin) return;
    partial.own.twin += std::complex<double>{own(u::twin), own(u::twin + 1)};
    const double size = std::abs(partial.own.twin);
    if (size > largest_twin) partial.own.twin *= largest_twin / size;
}

void ToneProblem::learn_scatter(ToneState& state, const ToneRound& round) const
{
    double square = usual_scatter_counts * usual_scatter * usual_scatter, count = usual_scatter_counts;
    for (std::size_t i = 0; i < state.partials.size(); ++i) {
        TonePartialState& partial = state.partials[i];
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

void ToneProblem::learn_share(ToneState& state, const ToneRound& round)
{
    double square = usual_share_counts * usual_twin_share * usual_twin_share, count = usual_share_counts;
    for (std::size_t i = 0; i < state.partials.size(); ++i) {
        square += std::norm(state.partials[i].own.twin) + round.reduced[i].twin_variance;
        count += 1.0;
    }
    state.twin_share = std::max(least_twin_share, std::sqrt(square / count));
}

double ToneProblem::evidence(const ToneState& state, const ToneRound& round) const
{
    double log_evidence = round.log_posterior - 0.5 * std::log(round.information.determinant());
    for (std::size_t i = 0; i < state.partials.size(); ++i) {
        const TonePartialState& partial = state.partials[i];
        const ReducedPartial& r = round.reduced[i];
        const double d = allowed(state, partial);
        log_evidence -= 0.5 * r.log_determinant + 0.5 * std::log1p(d * r.matrix(0, 0)) +
                        0.5 * std::pow(partial.deviation / state.scatter, 2) * partial.trust;
    }
    return log_evidence;
}

} // namespace harpkeep
