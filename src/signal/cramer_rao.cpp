// SPDX-License-Identifier: MIT
#include "signal/cramer_rao.hpp"

#include "base/expects.hpp"

#include <Eigen/Dense>

#include <cmath>
#include <numbers>

namespace harpkeep {

namespace {

constexpr double two_pi = 2.0 * std::numbers::pi;
constexpr Eigen::Index block_rows = 256;
constexpr Eigen::Index per_partial = 3; // amplitude, phase, decay
constexpr double worst_condition = 1e13;

/// Derivatives of f_k = k F sqrt(1 + B k^2).
struct FrequencySlopes {
    double frequency_hz, to_fundamental, to_inharmonicity;
};

FrequencySlopes slopes_of(const DampedStiffString& string, int number)
{
    const double k = number, root = std::sqrt(1.0 + string.inharmonicity * k * k);
    return {k * string.fundamental_hz * root, k * root, 0.5 * k * k * k * string.fundamental_hz / root};
}

/// One row of the Jacobian: derivatives of the sample at time t to F, B and each partial's own parameters.
template <class Row>
void fill_row(const DampedStiffString& string, const std::vector<FrequencySlopes>& slopes, double t, Row row)
{
    row.setZero();
    for (std::size_t i = 0; i < string.partials.size(); ++i) {
        const DampedPartial& partial = string.partials[i];
        const double envelope = std::exp(-partial.decay_rate * t);
        const double phase = two_pi * std::fmod(slopes[i].frequency_hz * t, 1.0) + partial.phase_rad;
        const double sine = envelope * std::sin(phase);
        const double cosine = partial.amplitude * envelope * std::cos(phase);
        row(0) += two_pi * t * cosine * slopes[i].to_fundamental;
        row(1) += two_pi * t * cosine * slopes[i].to_inharmonicity;
        const Eigen::Index own = 2 + per_partial * static_cast<Eigen::Index>(i);
        row(own) = sine;
        row(own + 1) = cosine;
        row(own + 2) = -t * partial.amplitude * sine;
    }
}

Eigen::MatrixXd fisher_information(const DampedStiffString& string, const Observation& seen)
{
    std::vector<FrequencySlopes> slopes;
    for (const auto& partial : string.partials) {
        slopes.push_back(slopes_of(string, partial.number));
        HARPKEEP_EXPECTS(partial.amplitude > 0.0 && slopes.back().frequency_hz < 0.5 * seen.sample_rate_hz);
    }
    const Eigen::Index size = 2 + per_partial * static_cast<Eigen::Index>(string.partials.size());
    Eigen::MatrixXd information = Eigen::MatrixXd::Zero(size, size);
    Eigen::MatrixXd block(block_rows, size);
    const auto first = static_cast<long>(std::ceil(seen.from_s * seen.sample_rate_hz));
    const auto last = static_cast<long>(std::ceil(seen.to_s * seen.sample_rate_hz));
    for (long start = first; start < last; start += block_rows) {
        const auto rows = static_cast<Eigen::Index>(std::min<long>(block_rows, last - start));
        for (Eigen::Index i = 0; i < rows; ++i)
            fill_row(string, slopes, static_cast<double>(start + i) / seen.sample_rate_hz, block.row(i));
        information.selfadjointView<Eigen::Lower>().rankUpdate(block.topRows(rows).transpose());
    }
    information.triangularView<Eigen::StrictlyUpper>() = information.transpose();
    return information / (seen.noise_rms * seen.noise_rms);
}

} // namespace

std::optional<CramerRaoBound> cramer_rao_bound(const DampedStiffString& string, const Observation& seen)
{
    HARPKEEP_EXPECTS(seen.noise_rms > 0.0 && seen.sample_rate_hz > 0.0 && !string.partials.empty());
    Eigen::MatrixXd information = fisher_information(string, seen);
    if (seen.inharmonicity_known) {
        information.row(1).setZero();
        information.col(1).setZero();
        information(1, 1) = 1.0;
    }
    // Scaled to a unit diagonal: F in hertz and B of 1e-4 have little in common.
    if (!(information.diagonal().minCoeff() > 0.0)) return std::nullopt;
    const Eigen::VectorXd scale = information.diagonal().cwiseSqrt().cwiseInverse();
    const Eigen::MatrixXd scaled = scale.asDiagonal() * information * scale.asDiagonal();
    const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> spectrum(scaled, Eigen::EigenvaluesOnly);
    if (spectrum.eigenvalues().minCoeff() * worst_condition < spectrum.eigenvalues().maxCoeff())
        return std::nullopt;
    Eigen::MatrixXd columns = Eigen::MatrixXd::Zero(scaled.rows(), 2);
    columns(0, 0) = columns(1, 1) = 1.0;
    Eigen::Matrix2d covariance = scaled.ldlt().solve(columns).topRows<2>();
    covariance = scale.head<2>().asDiagonal() * covariance * scale.head<2>().asDiagonal();

    const double root = std::sqrt(1.0 + string.inharmonicity);
    Eigen::Vector2d slope{root, 0.5 * string.fundamental_hz / root};
    if (seen.inharmonicity_known) slope(1) = 0.0;
    return CramerRaoBound{.fundamental_sd_hz = std::sqrt(covariance(0, 0)),
                          .first_partial_sd_hz = std::sqrt(slope.dot(covariance * slope)),
                          .inharmonicity_sd = seen.inharmonicity_known ? 0.0 : std::sqrt(covariance(1, 1))};
}

} // namespace harpkeep
