// SPDX-License-Identifier: MIT
#include "tests/support/two_tone_bound.hpp"

#include "units/interval.hpp"

#include <cmath>
#include <numbers>

namespace harpkeep::tests {

namespace {

using Complex = std::complex<double>;
constexpr double two_pi = 2.0 * std::numbers::pi;
constexpr Eigen::Index shared = 6, own = 6, all = shared + own;
constexpr Eigen::Index decay_at = shared + 2, twin_at = shared + 3, deviation_at = shared + 5;
constexpr double exactly = 1e-9; // standard deviation of what is known
constexpr double worst_condition = 1e13;
constexpr double longest_step_s = 1e-3, steps_in_decay = 40.0;

double known(double sd)
{
    return 1.0 / std::pow(std::max(sd, exactly), 2);
}

/// Derivatives of the partial's complex sound at time t to all twelve unknowns.
Eigen::Matrix<Complex, 1, all> derivatives(const TwoTonePluck& pluck, const TwoTonePartial& partial, double t)
{
    const double k = partial.number, b = pluck.inharmonicity;
    const double f = k * pluck.first_hz * std::sqrt((1.0 + b * k * k) / (1.0 + b));
    const double stretch = 0.5 * (b * k * k / (1.0 + b * k * k) - b / (1.0 + b));
    const double tau = pluck.glide.time_s, fade = std::exp(-t / tau);
    const double shape = tau * (1.0 - fade), warped = t + pluck.glide.amount * shape;
    const double a = partial.decay_rate, rho = pluck.decay_ratio;
    const Complex i{0.0, 1.0}, turn = i * two_pi * f;
    const Complex main =
        partial.amplitude * std::polar(std::exp(-a * t), two_pi * std::fmod(f * warped, 1.0));
    const Complex twin =
        main * std::polar(std::exp((1.0 - rho) * a * t), two_pi * std::fmod(pluck.split * f * warped, 1.0));
    const Complex both = main + partial.twin * twin;
    const Complex phase = main + (1.0 + pluck.split) * partial.twin * twin; // per unit of 2 pi i f T
    Eigen::Matrix<Complex, 1, all> d;
    d << turn * warped * phase, turn * warped * phase * stretch, turn * shape * phase,
        turn * pluck.glide.amount * (shape - t * fade) * phase, turn * warped * partial.twin * twin,
        -rho * a * t * partial.twin * twin, both, i * both, -a * t * (main + rho * partial.twin * twin), twin,
        i * twin, turn * warped * phase;
    return d;
}

/// Rows in units of the noise, by the rule of midpoints.
Eigen::Matrix<double, all, all> information_of(const TwoTonePluck& pluck, const TwoTonePartial& partial)
{
    const double heard_s = pluck.length_s - pluck.from_s;
    const double step_s = std::min(longest_step_s, 1.0 / (steps_in_decay * partial.decay_rate));
    const auto count = static_cast<Eigen::Index>(std::ceil(heard_s / step_s));
    const double dt = heard_s / static_cast<double>(count);
    Eigen::Matrix<Complex, Eigen::Dynamic, all> rows(count, all);
    for (Eigen::Index n = 0; n < count; ++n)
        rows.row(n) = derivatives(pluck, partial, pluck.from_s + (static_cast<double>(n) + 0.5) * dt);
    const double unit = 0.5 * pluck.sample_rate_hz * dt / (partial.noise_rms * partial.noise_rms);
    return unit * (rows.adjoint() * rows).real();
}

std::optional<double> sd_of(const Eigen::MatrixXd& information, const Eigen::VectorXd& slope)
{
    const Eigen::VectorXd scale = information.diagonal().cwiseSqrt().cwiseInverse();
    const Eigen::MatrixXd scaled = scale.asDiagonal() * information * scale.asDiagonal();
    const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> spectrum(scaled, Eigen::EigenvaluesOnly);
    if (!(spectrum.eigenvalues().minCoeff() * worst_condition > spectrum.eigenvalues().maxCoeff()))
        return std::nullopt;
    const Eigen::VectorXd x = scale.cwiseProduct(slope);
    return cents_per_neper * std::sqrt(x.dot(scaled.ldlt().solve(x)));
}

} // namespace

ToneKnowledge knowledge_of_fit()
{
    return {.log_b_sd = 1.1,
            .glide_sd = 3.0 / cents_per_neper,
            .log_time_sd = 0.7,
            .split_sd = 1.0 / cents_per_neper,
            .log_ratio_sd = 0.5,
            .twin_sd = 0.2 / std::numbers::sqrt2,
            .decay_sd = 0.5};
}

ToneKnowledge knowledge_of_plain_tone()
{
    return {.log_b_sd = 1.1,
            .glide_sd = 0.0,
            .log_time_sd = 0.0,
            .split_sd = 0.0,
            .log_ratio_sd = 0.0,
            .twin_sd = 0.0,
            .decay_sd = 0.5};
}

SharedInformation shared_information(const TwoTonePluck& pluck, const ToneKnowledge& knowledge)
{
    SharedInformation sum = SharedInformation::Zero();
    for (const TwoTonePartial& partial : pluck.partials) {
        Eigen::Matrix<double, all, all> one = information_of(pluck, partial);
        one(decay_at, decay_at) += known(knowledge.decay_sd);
        one(twin_at, twin_at) += known(knowledge.twin_sd);
        one(twin_at + 1, twin_at + 1) += known(knowledge.twin_sd);
        one(deviation_at, deviation_at) += known(knowledge.deviation_sd);
        const Eigen::Matrix<double, own, shared> across = one.bottomLeftCorner<own, shared>();
        sum += one.topLeftCorner<shared, shared>() -
               across.transpose() * one.bottomRightCorner<own, own>().ldlt().solve(across);
    }
    const double sds[] = {ToneKnowledge::nothing, knowledge.log_b_sd, knowledge.glide_sd,
                          knowledge.log_time_sd,  knowledge.split_sd, knowledge.log_ratio_sd};
    for (Eigen::Index i = 0; i < shared; ++i) sum(i, i) += known(sds[i]);
    return sum;
}

std::optional<double> pitch_bound_cents(const SharedInformation& information)
{
    return sd_of(information, Eigen::VectorXd::Unit(shared, 0));
}

std::optional<double> step_bound_cents(const SharedInformation& lower, const SharedInformation& upper,
                                       double log_b_ratio_sd)
{
    Eigen::MatrixXd both = Eigen::MatrixXd::Zero(2 * shared, 2 * shared);
    both.topLeftCorner<shared, shared>() = lower;
    both.bottomRightCorner<shared, shared>() = upper;
    // ln B_upper - ln B_lower - 2 (ln f_upper - ln f_lower) lies about 0.
    Eigen::VectorXd stiff = Eigen::VectorXd::Zero(2 * shared), step = stiff;
    stiff(0) = 2.0, stiff(1) = -1.0, stiff(shared) = -2.0, stiff(shared + 1) = 1.0;
    both += stiff * stiff.transpose() * known(log_b_ratio_sd);
    step(0) = -1.0, step(shared) = 1.0;
    return sd_of(both, step);
}

} // namespace harpkeep::tests
