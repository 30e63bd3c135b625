// SPDX-License-Identifier: MIT
#include "stats/renewal.hpp"

#include "base/expects.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace harpkeep::stats {

namespace {

double midpoint_renewal(const std::function<double(double)>& distribution, double time, int steps)
{
    const double h = time / steps;
    const auto size = static_cast<std::size_t>(steps);
    std::vector<double> middle(size), renewals(size + 1, 0.0);
    for (std::size_t i = 0; i < size; ++i) middle[i] = distribution((static_cast<double>(i) + 0.5) * h);
    for (std::size_t i = 1; i <= size; ++i) {
        double sum = distribution(static_cast<double>(i) * h) - renewals[i - 1] * middle[0];
        for (std::size_t j = 1; j < i; ++j) sum += (renewals[j] - renewals[j - 1]) * middle[i - j];
        renewals[i] = sum / (1.0 - middle[0]);
    }
    return renewals[size];
}

/// Chances that the first failure falls in each step, for one sound at the start: as weibull_failure_within()
/// has it, with (t / s)^k as exp(k (log t - log s)).
std::vector<double> first_failure(const WeibullLife& life, const LogSteps& steps)
{
    const double log_scale = std::log(life.scale);
    const double start = std::exp(life.shape * (steps.log_start - log_scale));
    std::vector<double> in_step(steps.log_ends.size());
    double sound_before = 1.0;
    for (std::size_t i = 0; i < in_step.size(); ++i) {
        const double sound = std::exp(start - std::exp(life.shape * (steps.log_ends[i] - log_scale)));
        in_step[i] = sound_before - sound; // to 1e-16 of a chance: counts below 1e-9 are not looked at
        sound_before = sound;
    }
    return in_step;
}

/// Chance of `more` further failures in what is left after the first, which fell in one of the steps.
double followed_by(const std::vector<double>& in_step, const std::vector<double>& more, std::size_t until)
{
    double total = 0.0;
    for (std::size_t m = 0; m < until; ++m) // the middle of the step it fell in: mean of what both ends leave
        total += in_step[m] * 0.5 * (more[until - m - 1] + more[until - m]);
    return total;
}

} // namespace

double renewal_function(const std::function<double(double)>& distribution, double time, int steps)
{
    HARPKEEP_EXPECTS(time >= 0.0 && steps >= 2);
    if (time == 0.0) return 0.0;
    const double coarse = midpoint_renewal(distribution, time, (steps + 1) / 2);
    const double fine = midpoint_renewal(distribution, time, 2 * ((steps + 1) / 2));
    return fine + (fine - coarse) / 3.0; // the error falls with the square of the step
}

LogSteps log_steps(double age, double duration, int steps)
{
    HARPKEEP_EXPECTS(age >= 0.0 && duration > 0.0 && steps >= 2);
    LogSteps out{.log_start = std::log(age), .log_ends = {}};
    for (int i = 1; i <= steps; ++i) out.log_ends.push_back(std::log(age + duration * i / steps));
    return out;
}

FailureCounts::FailureCounts(const WeibullLife& life, double duration, int steps)
    : life_(life), duration_(duration)
{
    HARPKEEP_EXPECTS(duration > 0.0 && steps >= 2 && life.shape > 0.0 && life.scale > 0.0);
    constexpr double negligible = 1e-10;
    constexpr std::size_t most = 200; // failures of one string place: nobody plans beyond
    const auto size = static_cast<std::size_t>(steps);
    const auto in_step = first_failure(life, log_steps(0.0, duration, steps));
    at_least_.assign(1, std::vector<double>(size + 1, 1.0));
    while (at_least_.back().back() > negligible && at_least_.size() < most) {
        std::vector<double> next(size + 1, 0.0);
        for (std::size_t i = 1; i <= size; ++i) next[i] = followed_by(in_step, at_least_.back(), i);
        at_least_.push_back(std::move(next));
    }
}

CountDistribution FailureCounts::starting_at(double age) const
{
    return starting_at(log_steps(age, duration_, static_cast<int>(at_least_.front().size()) - 1));
}

CountDistribution FailureCounts::starting_at(const LogSteps& logs) const
{
    const std::size_t steps = at_least_.front().size() - 1;
    HARPKEEP_EXPECTS(logs.log_ends.size() == steps);
    const auto in_step = first_failure(life_, logs);
    std::vector<double> tail{1.0}; // chance of j or more
    for (const auto& more : at_least_) tail.push_back(followed_by(in_step, more, steps));
    CountDistribution counts(tail.size());
    for (std::size_t j = 0; j + 1 < tail.size(); ++j) counts[j] = std::max(0.0, tail[j] - tail[j + 1]);
    counts.back() = tail.back();
    return counts;
}

} // namespace harpkeep::stats
