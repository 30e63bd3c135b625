// SPDX-License-Identifier: MIT
#include "tests/support/dense_tone.hpp"

#include <algorithm>
#include <numbers>

namespace harpkeep::tests {

namespace {

class DenseTone {
  public:
    DenseTone(std::vector<DenseRecord> records, const std::vector<DensePartial>& partials,
              const DenseShared& shared, const DensePriors& priors)
        : records_(std::move(records)),
          partials_(partials),
          priors_(priors),
          trust_(partials.size(), 1.0),
          excess_(records_.size(), 1.0)
    {
        x_.resize(dense::shared + dense::own * count());
        x_.head<dense::shared>() = shared;
        step_.resize(x_.size());
        step_.head<dense::shared>() << 1e-7, 1e-4, 1e-6, 1e-4, 1e-7, 1e-4;
        for (Eigen::Index i = 0; i < count(); ++i) {
            const DensePartial& p = partials_[static_cast<std::size_t>(i)];
            x_.segment<dense::own>(at(i)) << p.amplitude.real(), p.amplitude.imag(), p.decay_rate,
                p.twin.real(), p.twin.imag(), p.frequency_hz;
            const double size = 1e-4 * std::abs(p.amplitude);
            step_.segment<dense::own>(at(i)) << size, size, 1e-4 * p.decay_rate, 1e-4, 1e-4,
                1e-7 * p.frequency_hz;
        }
    }

    /// Gauss-Newton rounds, between which scatter, size of the twins and excess are learned, until all stand
    /// still.
    [[nodiscard]] DenseToneFit solve()
    {
        for (int round = 0; round < 200; ++round) {
            const Eigen::MatrixXd j = jacobian();
            const Eigen::VectorXd off = residuals(x_);
            const Eigen::VectorXd move = -j.householderQr().solve(off);
            const Eigen::VectorXd moved_sds =
                move.cwiseProduct((j.transpose() * j).diagonal().cwiseSqrt()); // j is in units of step_
            double part = 1.0;
            while (part > 1e-3 && residuals(x_ + part * step_.cwiseProduct(move)).squaredNorm() >
                                      off.squaredNorm() * (1.0 + 1e-12))
                part *= 0.5;
            x_ += part * step_.cwiseProduct(move);
            const double scatter = scatter_, share = share_;
            learn(jacobian());
            if (moved_sds.cwiseAbs().maxCoeff() < 1e-3 && std::abs(scatter_ / scatter - 1.0) < 1e-4 &&
                std::abs(share_ / share - 1.0) < 1e-4)
                break;
        }
        return read();
    }

  private:
    [[nodiscard]] Eigen::Index count() const { return static_cast<Eigen::Index>(partials_.size()); }
    [[nodiscard]] static Eigen::Index at(Eigen::Index i) { return dense::shared + dense::own * i; }

    /// y = A exp(-at + 2 pi i f T) [1 + r exp((1 - rho) at + 2 pi i delta f T)], T = t + g tau (1 - exp(-t /
    /// tau)) turned back by the record's reference since its first value.
    [[nodiscard]] static std::complex<double> tone(const Eigen::VectorXd& x, Eigen::Index i,
                                                   const DenseRecord& record, double t)
    {
        using std::numbers::pi;
        const Eigen::VectorXd own = x.segment<dense::own>(at(i));
        const double tau = std::exp(x(dense::log_time)), f = own(dense::frequency), a = own(dense::decay);
        const double warped = t + x(dense::glide) * tau * (1.0 - std::exp(-t / tau));
        const std::complex<double> main = std::polar(
            std::exp(-a * t), 2.0 * pi * (f * warped - record.reference_hz * (t - record.times_s.front())));
        const std::complex<double> twin = std::polar(std::exp((1.0 - std::exp(x(dense::log_ratio))) * a * t),
                                                     2.0 * pi * x(dense::split) * f * warped);
        return std::complex<double>{own(dense::re), own(dense::im)} * main *
               (1.0 + std::complex<double>{own(dense::twin), own(dense::twin + 1)} * twin);
    }

    [[nodiscard]] Eigen::Index rows_of(const DenseRecord& record) const
    {
        return static_cast<Eigen::Index>(record.values.size()) * (record.only_real ? 1 : 2);
    }

    /// Adds the tones of one partial, in units of the noise, to the rows of the records that hold it.
    void add_partial(const Eigen::VectorXd& x, Eigen::Index i, double sign,
                     Eigen::Ref<Eigen::VectorXd> rows) const
    {
        Eigen::Index row = 0;
        for (std::size_t r = 0; r < records_.size(); ++r) {
            const DenseRecord& record = records_[r];
            const Eigen::Index first = row;
            row += rows_of(record);
            if (std::count(record.partials.begin(), record.partials.end(), static_cast<std::size_t>(i)) == 0)
                continue;
            const double weight = sign * weight_of(r);
            for (std::size_t n = 0; n < record.times_s.size(); ++n) {
                const auto y = weight * tone(x, i, record, record.times_s[n]);
                const auto k = static_cast<Eigen::Index>(n);
                if (record.only_real)
                    rows(first + k) += y.real();
                else
                    rows(first + 2 * k) += y.real(), rows(first + 2 * k + 1) += y.imag();
            }
        }
    }

    [[nodiscard]] double weight_of(std::size_t r) const
    {
        const DenseRecord& record = records_[r];
        return std::sqrt(2.0 / (record.noise_power * record.correlated * std::max(1.0, excess_[r])));
    }

    [[nodiscard]] Eigen::Index sound_rows() const
    {
        Eigen::Index rows = 0;
        for (const DenseRecord& record : records_) rows += rows_of(record);
        return rows;
    }

    /// Model less sound.
    [[nodiscard]] Eigen::VectorXd sound_residuals(const Eigen::VectorXd& x) const
    {
        Eigen::VectorXd rows = Eigen::VectorXd::Zero(sound_rows());
        Eigen::Index row = 0;
        for (std::size_t r = 0; r < records_.size(); ++r)
            for (const auto& value : records_[r].values) {
                rows(row++) = -weight_of(r) * value.real();
                if (!records_[r].only_real) rows(row++) = -weight_of(r) * value.imag();
            }
        for (Eigen::Index i = 0; i < count(); ++i) add_partial(x, i, 1.0, rows);
        return rows;
    }

    /// Of each partial four: its deviation from the series, its decay, its twin. Of all together five.
    [[nodiscard]] Eigen::VectorXd prior_residuals(const Eigen::VectorXd& x) const
    {
        Eigen::VectorXd rows(4 * count() + 5);
        const double b = std::exp(x(dense::log_b));
        for (Eigen::Index i = 0; i < count(); ++i) {
            const DensePartial& p = partials_[static_cast<std::size_t>(i)];
            const double k = p.number;
            const double series =
                k * std::exp(x(dense::log_first)) * std::sqrt((1.0 + b * k * k) / (1.0 + b));
            rows(4 * i) = (x(at(i) + dense::frequency) / series - 1.0) / scatter_ *
                          std::sqrt(trust_[static_cast<std::size_t>(i)]);
            rows(4 * i + 1) = (x(at(i) + dense::decay) / p.expected_decay - 1.0) / priors_.decay_sd;
            rows(4 * i + 2) = x(at(i) + dense::twin) * std::numbers::sqrt2 / share_;
            rows(4 * i + 3) = x(at(i) + dense::twin + 1) * std::numbers::sqrt2 / share_;
        }
        rows.tail<5>() << (x(dense::log_b) - priors_.log_b) / priors_.log_b_sd,
            x(dense::glide) / priors_.glide_sd, (x(dense::log_time) - priors_.log_time) / priors_.log_time_sd,
            x(dense::split) / priors_.split_sd,
            (x(dense::log_ratio) - priors_.log_ratio) / priors_.log_ratio_sd;
        return rows;
    }

    [[nodiscard]] Eigen::VectorXd residuals(const Eigen::VectorXd& x) const
    {
        Eigen::VectorXd all(sound_rows() + 4 * count() + 5);
        all << sound_residuals(x), prior_residuals(x);
        return all;
    }

    /// For unknowns in units of step_, by differences to both sides. A partial's own move only its own tones.
    [[nodiscard]] Eigen::MatrixXd jacobian() const
    {
        const Eigen::Index sound = sound_rows();
        Eigen::MatrixXd j = Eigen::MatrixXd::Zero(sound + 4 * count() + 5, x_.size());
        for (Eigen::Index u = 0; u < x_.size(); ++u) {
            Eigen::VectorXd up = x_, down = x_;
            up(u) += 0.5 * step_(u), down(u) -= 0.5 * step_(u);
            for (Eigen::Index i = 0; i < count(); ++i)
                if (u < dense::shared || (u >= at(i) && u < at(i + 1))) {
                    add_partial(up, i, 1.0, j.col(u).head(sound));
                    add_partial(down, i, -1.0, j.col(u).head(sound));
                }
            j.col(u).tail(4 * count() + 5) = prior_residuals(up) - prior_residuals(down);
        }
        return j;
    }

    /// Expectation-maximisation for the scatter about the series, with Student weights, and for the twins'
    /// size; what a band holds beyond its noise widens its noise.
    void learn(const Eigen::MatrixXd& j)
    {
        const Eigen::MatrixXd information = j.transpose() * j;
        double scatter2 = priors_.usual_scatter_counts * std::pow(priors_.usual_scatter, 2);
        double share2 = priors_.usual_share_counts * std::pow(priors_.usual_share, 2);
        for (Eigen::Index i = 0; i < count(); ++i) {
            const auto index = static_cast<std::size_t>(i);
            const Eigen::VectorXd own_step = step_.segment<dense::own>(at(i));
            const Eigen::MatrixXd given_shared =
                information.block<dense::own, dense::own>(at(i), at(i)).inverse();
            const Eigen::MatrixXd given_frequency =
                information.block<dense::frequency, dense::frequency>(at(i), at(i)).inverse();
            const double deviation = prior_residuals(x_)(4 * i) * scatter_ / std::sqrt(trust_[index]);
            const double left = given_shared(dense::frequency, dense::frequency) *
                                std::pow(own_step(dense::frequency) / x_(at(i) + dense::frequency), 2);
            const double seen = deviation * deviation + left;
            scatter2 += trust_[index] * seen;
            trust_[index] = std::min(1.0, (priors_.scatter_freedom + 1.0) /
                                              (priors_.scatter_freedom + seen / (scatter_ * scatter_)));
            for (const Eigen::Index part : {dense::twin, dense::twin + 1})
                share2 +=
                    std::pow(x_(at(i) + part), 2) + given_frequency(part, part) * std::pow(own_step(part), 2);
        }
        const double n = static_cast<double>(count());
        scatter_ =
            std::max(0.005 / cents_per_neper, std::sqrt(scatter2 / (priors_.usual_scatter_counts + n)));
        share_ = std::max(0.01, std::sqrt(share2 / (priors_.usual_share_counts + n)));
        const Eigen::VectorXd left_over = sound_residuals(x_);
        Eigen::Index row = 0;
        for (std::size_t r = 0; r < records_.size(); ++r) {
            const double energy =
                left_over.segment(row, rows_of(records_[r])).squaredNorm() / std::pow(weight_of(r), 2);
            row += rows_of(records_[r]);
            // Half of the noise's power is in the real part.
            excess_[r] = energy / (0.5 * static_cast<double>(rows_of(records_[r])) * records_[r].noise_power);
        }
    }

    /// The frequency that each partial's own sound asks for when what is shared is as found, and what the
    /// uncertainty of what is shared does to all of them together.
    [[nodiscard]] DenseToneFit read() const
    {
        const Eigen::MatrixXd j = jacobian();
        const Eigen::MatrixXd covariance =
            step_.asDiagonal() * (j.transpose() * j).inverse() * step_.asDiagonal();
        DenseToneFit fit{.shared = x_.head<dense::shared>(),
                         .shared_sd = covariance.diagonal().head<dense::shared>().cwiseSqrt(),
                         .scatter = scatter_,
                         .share = share_};
        Eigen::MatrixXd by_sound = j; // without the pull towards the series
        for (Eigen::Index i = 0; i < count(); ++i) by_sound.row(sound_rows() + 4 * i).setZero();
        const Eigen::MatrixXd own = by_sound.rightCols(dense::own * count());
        const auto qr = own.householderQr();
        const Eigen::MatrixXd own_covariance = (own.transpose() * own).inverse();
        const Eigen::VectorXd left = -qr.solve(residuals(x_));
        const Eigen::MatrixXd follow = -qr.solve(by_sound.leftCols<dense::shared>());
        DenseShared slope = DenseShared::Zero();
        double weights = 0.0;
        for (Eigen::Index i = 0; i < count(); ++i) {
            const Eigen::Index at_own = dense::own * i + dense::frequency, at_all = at(i) + dense::frequency;
            const double step = step_(at_all), f = x_(at_all);
            const double variance = own_covariance(at_own, at_own) * step * step / (f * f);
            fit.frequency_hz.push_back(f + left(at_own) * step);
            fit.variance_cents2.push_back(variance * cents_per_neper * cents_per_neper);
            const double weight = 1.0 / (variance + scatter_ * scatter_);
            weights += weight;
            for (Eigen::Index k = dense::glide; k < dense::shared; ++k)
                slope(k) += weight * follow(at_own, k) * step / step_(k) / f;
        }
        slope /= weights;
        const Eigen::MatrixXd of_shared = covariance.topLeftCorner<dense::shared, dense::shared>();
        fit.shared_sd_cents = cents_per_neper * std::sqrt(slope.dot(of_shared * slope));
        return fit;
    }

    std::vector<DenseRecord> records_;
    std::vector<DensePartial> partials_;
    DensePriors priors_;
    std::vector<double> trust_, excess_;
    double scatter_ = 0.2 / cents_per_neper, share_ = 0.2;
    Eigen::VectorXd x_, step_;
};

} // namespace

DenseToneFit fit_dense_tone(const std::vector<DenseRecord>& records,
                            const std::vector<DensePartial>& partials, const DenseShared& shared,
                            const DensePriors& priors)
{
    return DenseTone(records, partials, shared, priors).solve();
}

} // namespace harpkeep::tests
