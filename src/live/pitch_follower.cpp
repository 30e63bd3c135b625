// SPDX-License-Identifier: MIT
#include "live/pitch_follower.hpp"

#include "base/expects.hpp"
#include "units/interval.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace harpkeep {

namespace {

constexpr std::size_t most_partials = 6;
constexpr double highest_partial_hz = 6000.0; // higher ones ring too short to be followed
constexpr double least_power_ratio = 10.0;    // a partial 10 dB over what lies beside it
// Within 8 Hz the phase difference is unambiguous; these overlap and reach 20 Hz, or what a quick hand turns.
constexpr std::array<double, 5> search_offsets_hz{0.0, -6.0, 6.0, -12.0, 12.0};
constexpr double beside_bins = 4.5; // between the side lobes of a Hann window

std::size_t in_samples(Seconds time, double rate_hz)
{
    return static_cast<std::size_t>(std::lround(time.value() * rate_hz));
}

double wrapped(double phase)
{
    return std::remainder(phase, 2.0 * std::numbers::pi);
}

} // namespace

PitchFollower::PitchFollower(Hertz rate) : rate_hz_(rate.value()), window_(in_samples(stretch, rate.value()))
{
    HARPKEEP_EXPECTS(rate_hz_ >= 8000.0);
    const double step = 2.0 * std::numbers::pi / static_cast<double>(window_.size());
    for (std::size_t n = 0; n < window_.size(); ++n)
        window_[n] = 0.5 - 0.5 * std::cos(step * static_cast<double>(n));
}

void PitchFollower::follow(const PluckMeasurement& measurement)
{
    partials_.clear();
    moved_cents_ = 0.0;
    first_partial_hz_ = measurement.frequency_hz;
    auto partials = measurement.partials;
    std::sort(partials.begin(), partials.end(),
              [](const Partial& a, const Partial& b) { return a.level_db > b.level_db; });
    std::vector<double> above_settled_cents;
    for (const Partial& partial : partials) {
        if (partial.frequency_hz >= highest_partial_hz || partials_.size() == most_partials) continue;
        partials_.push_back({partial.frequency_hz});
        const double k2 = static_cast<double>(partial.number) * partial.number;
        const double B = measurement.inharmonicity;
        // f_k = k f1 sqrt((1 + B k^2) / (1 + B)), the stiff string from its first partial
        const double settled_hz =
            partial.number * measurement.frequency_hz * std::sqrt((1.0 + B * k2) / (1.0 + B));
        above_settled_cents.push_back(interval(Hertz{settled_hz}, Hertz{partial.frequency_hz}).value());
    }
    if (partials_.empty() && first_partial_hz_ > 0.0) partials_.push_back({first_partial_hz_});
    if (!above_settled_cents.empty()) {
        // Partials are measured with their glide still in them, the pitch is the settled one.
        const auto middle =
            above_settled_cents.begin() + static_cast<std::ptrdiff_t>(above_settled_cents.size() / 2);
        std::nth_element(above_settled_cents.begin(), middle, above_settled_cents.end());
        first_partial_hz_ = raised(Hertz{first_partial_hz_}, Cents{*middle}).value();
    }
    std::sort(partials_.begin(), partials_.end(),
              [](const auto& a, const auto& b) { return a.measured_hz < b.measured_hz; });
}

std::optional<FollowedPitch> PitchFollower::push(std::span<const float> samples, std::uint64_t first_frame)
{
    if (first_frame != next_frame_) samples_.clear();
    next_frame_ = first_frame + samples.size();
    samples_.insert(samples_.end(), samples.begin(), samples.end());
    const std::size_t needed = window_.size() + in_samples(apart, rate_hz_);
    if (samples_.size() > needed)
        samples_.erase(samples_.begin(), samples_.end() - static_cast<std::ptrdiff_t>(needed));
    since_look_ += samples.size();
    if (samples_.size() < needed || partials_.empty() || since_look_ < in_samples(every, rate_hz_))
        return std::nullopt;
    since_look_ = 0;
    const auto found = look();
    if (found) moved_cents_ = interval(Hertz{first_partial_hz_}, found->frequency).value();
    return found;
}

std::optional<FollowedPitch> PitchFollower::look() const
{
    double weight_sum = 0.0;
    double moved = moved_cents_;
    double weighted_sum = 0.0;
    double weighted_squares = 0.0;
    int count = 0;
    for (const FollowedPartial& partial : partials_) {
        // Nothing is known yet of where the pitch went since the last look: search for the first partial.
        if (count == 0) moved = searched(partial, moved);
        const auto seen = look_at(partial, moved);
        if (!seen) continue;
        const double weight = 1.0 / seen->variance;
        weight_sum += weight;
        weighted_sum += weight * seen->cents;
        weighted_squares += weight * seen->cents * seen->cents;
        moved = weighted_sum / weight_sum;
        ++count;
    }
    if (count == 0) return std::nullopt;
    double variance = 1.0 / weight_sum;
    if (count > 1) {
        // Partials that disagree by more than their noise (Birge ratio) widen the result.
        const double chi_squared = std::max(0.0, weighted_squares - weight_sum * moved * moved);
        variance *= std::max(1.0, chi_squared / (count - 1));
    }
    const double middle = static_cast<double>(next_frame_) - 0.5 * static_cast<double>(samples_.size());
    return FollowedPitch{.time = Seconds{middle / rate_hz_},
                         .frequency = raised(Hertz{first_partial_hz_}, Cents{moved}),
                         .uncertainty = Cents{std::sqrt(variance)}};
}

double PitchFollower::searched(const FollowedPartial& partial, double moved_cents) const
{
    const double expected_hz = raised(Hertz{partial.measured_hz}, Cents{moved_cents}).value();
    const std::size_t later = samples_.size() - window_.size();
    double strongest = 0.0;
    double found_hz = expected_hz;
    for (const double offset_hz : search_offsets_hz) {
        const double power = std::norm(demodulated(later, expected_hz + offset_hz));
        if (power <= strongest) continue;
        strongest = power;
        found_hz = expected_hz + offset_hz;
    }
    return interval(Hertz{partial.measured_hz}, Hertz{found_hz}).value();
}

std::optional<PitchFollower::PartialPitch> PitchFollower::look_at(const FollowedPartial& partial,
                                                                  double moved_cents) const
{
    const double expected_hz = raised(Hertz{partial.measured_hz}, Cents{moved_cents}).value();
    const std::size_t later = samples_.size() - window_.size();
    const double apart_s = static_cast<double>(later) / rate_hz_;
    const std::complex<double> first = demodulated(0, expected_hz);
    const std::complex<double> second = demodulated(later, expected_hz);
    const double beside_hz = beside_bins / stretch.value();
    const double noise = 0.5 * (std::norm(demodulated(later, expected_hz - beside_hz)) +
                                std::norm(demodulated(later, expected_hz + beside_hz)));
    // In digital silence all three are exactly zero, and nothing stands out of nothing.
    const double least_power = least_power_ratio * noise;
    if (!(std::norm(first) > least_power && std::norm(second) > least_power)) return std::nullopt;
    // Demodulation refers both phases to the start of samples_: what is left turns at the difference
    // frequency.
    const double difference_hz =
        wrapped(std::arg(second) - std::arg(first)) / (2.0 * std::numbers::pi * apart_s);
    const double phase_variance = noise / std::norm(second); // of the difference of two phases
    const double variance_hz2 = phase_variance / std::pow(2.0 * std::numbers::pi * apart_s, 2);
    const double cents_per_hz = cents_per_neper / expected_hz;
    return PartialPitch{.cents = moved_cents + cents_per_hz * difference_hz,
                        .variance = std::max(cents_per_hz * cents_per_hz * variance_hz2, 1e-6)};
}

std::complex<double> PitchFollower::demodulated(std::size_t first, double frequency_hz) const
{
    const double step = -2.0 * std::numbers::pi * frequency_hz / rate_hz_;
    const std::complex<double> turn = std::polar(1.0, step);
    std::complex<double> oscillator = std::polar(1.0, step * static_cast<double>(first));
    std::complex<double> sum;
    // A rotation of 12,000 steps drifts by 1e-12, far below what matters here.
    for (std::size_t n = 0; n < window_.size(); ++n) {
        sum += window_[n] * samples_[first + n] * oscillator;
        oscillator *= turn;
    }
    return sum;
}

} // namespace harpkeep
