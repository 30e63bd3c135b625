// SPDX-License-Identifier: MIT
#include "signal/glide.hpp"

#include "base/expects.hpp"
#include "units/interval.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace harpkeep {

namespace {

constexpr double two_pi = 2.0 * std::numbers::pi;
constexpr double prior_sd = 3.0 / cents_per_neper; // 3 cents: between the 0.4 and 7 cents seen on harp plucks
constexpr double prior_probability = 0.5;
constexpr double prior_log_time_sd = 0.7; // a factor of 2 about the time that the decay suggests
constexpr std::array time_factors{0.5, 0.8, 1.25, 2.0, 3.2};
constexpr double largest_time_step = 0.5; // in ln time, for one round
constexpr double small_time_step = 0.02;
constexpr int time_rounds = 4;
constexpr int time_steps = 4; // on either side
constexpr double time_step_sds = 0.75, least_log_time_sd = 0.005;
constexpr double linear_range_rad = 0.7;
constexpr std::size_t least_heard = 2; // the lowest partials, whose phases bend least
// Spread between partials that is tried: none, and beats of up to 3 cents.
constexpr std::array spreads_cents{0.0, 0.03, 0.1, 0.3, 1.0, 3.0};

/// What one partial says about amount a and its stretch in time c, where the phase is a g(t) + c h(t), g that
/// of a glide of amount 1 and h its derivative to ln time; all freed of constant and slope.
struct Evidence {
    double gg = 0.0, gh = 0.0, hh = 0.0; ///< information
    double gp = 0.0, hp = 0.0;           ///< products with the phase
    double slope_g = 0.0, slope_h = 0.0; ///< Hz of the fitted frequency for a or c of 1
    double excursion = 0.0;              ///< rms of the phase that an amount of 1 leaves over, rad
};

/// Weighted sums of one function of time with 1 and t.
struct Moments {
    double zero = 0.0, first = 0.0;
    void add(double w, double t, double x) { zero += w * x, first += w * t * x; }
};

Evidence evidence_of(const PartialFit& partial, double time_s, double start_s)
{
    const std::size_t n = partial.times_s.size();
    if (n < 3) return {};
    double s0 = 0, s1 = 0, s2 = 0, gg = 0, gh = 0, hh = 0, gp = 0, hp = 0;
    Moments of_g, of_h, of_p;
    const double hop_s = partial.times_s[1] - partial.times_s[0]; // times are evenly spaced
    const double fade = std::exp(-hop_s / time_s);
    double rest = std::exp(-(partial.times_s[0] - start_s) / time_s);
    for (std::size_t i = 0; i < n; ++i, rest *= fade) {
        const double t = partial.times_s[i] - start_s, w = partial.weights[i], p = partial.phase_rad[i];
        const double g = time_s * (1.0 - rest), h = g - t * rest;
        s0 += w, s1 += w * t, s2 += w * t * t;
        of_g.add(w, t, g), of_h.add(w, t, h), of_p.add(w, t, p);
        gg += w * g * g, gh += w * g * h, hh += w * h * h, gp += w * g * p, hp += w * h * p;
    }
    const double determinant = s0 * s2 - s1 * s1;
    if (!(determinant > 0.0)) return {};
    const auto freed = [&](double product, const Moments& x, const Moments& y) {
        return product -
               (x.zero * (s2 * y.zero - s1 * y.first) + x.first * (s0 * y.first - s1 * y.zero)) / determinant;
    };
    const auto slope = [&](const Moments& x) { return (s0 * x.first - s1 * x.zero) / determinant; };
    const double turn = two_pi * partial.frequency_hz; // g and h above are for 1 rad/s
    Evidence evidence{.gg = turn * turn * freed(gg, of_g, of_g),
                      .gh = turn * turn * freed(gh, of_g, of_h),
                      .hh = turn * turn * freed(hh, of_h, of_h),
                      .gp = turn * freed(gp, of_g, of_p),
                      .hp = turn * freed(hp, of_h, of_p),
                      .slope_g = partial.frequency_hz * slope(of_g),
                      .slope_h = partial.frequency_hz * slope(of_h)};
    if (!(evidence.gg > 0.0)) return {};
    evidence.excursion = std::sqrt(evidence.gg / s0);
    return evidence;
}

/// One explanation: a time, a spread between partials, and a glide or none.
struct Explanation {
    std::size_t trial = 0;
    bool glides = false;
    double log_weight = 0.0;
    double amount = 0.0, stretch = 0.0;  ///< a and c: means, given this explanation
    double aa = 0.0, ac = 0.0, cc = 0.0; ///< their covariance
};

/// Keeps what is above zero of a normal value; what goes with it follows by regression.
void keep_positive(Explanation& glide)
{
    const double sd = std::sqrt(glide.aa), z = glide.amount / sd;
    const double mass = 0.5 * std::erfc(-z / std::numbers::sqrt2);
    double mean = 0.0, variance = 0.0;
    if (mass < 1e-12) { // far below zero: an exponential hugging zero
        glide.log_weight -= 0.5 * z * z + std::log(-z * std::sqrt(two_pi));
        mean = sd / -z, variance = mean * mean;
    } else {
        const double hazard = std::exp(-0.5 * z * z) / (std::sqrt(two_pi) * mass);
        glide.log_weight += std::log(mass);
        mean = glide.amount + sd * hazard;
        variance = glide.aa * std::max(1e-6, 1.0 - hazard * (hazard + z));
    }
    const double regression = glide.ac / glide.aa;
    glide.stretch += regression * (mean - glide.amount);
    glide.cc += regression * regression * (variance - glide.aa);
    glide.ac = regression * variance;
    glide.amount = mean;
    glide.aa = variance;
}

/// All partials' evidence on one time.
struct TimeTrial {
    double time_s = 1.0;
    double log_prior = 0.0;
    std::vector<Evidence> evidence;
    std::vector<bool> heard;
};

TimeTrial try_time(std::span<const PartialFit> partials, const GlideSearch& search, double time_s)
{
    const double off = std::log(time_s * 2.0 * search.decay_rate) / prior_log_time_sd;
    TimeTrial trial{.time_s = time_s, .log_prior = -0.5 * off * off};
    for (const auto& partial : partials) {
        trial.evidence.push_back(evidence_of(partial, time_s, search.start.start_s));
        const double excursion = trial.evidence.back().excursion;
        trial.heard.push_back(excursion > 0.0 && (trial.heard.size() < least_heard ||
                                                  excursion * search.unsure_amount < linear_range_rad));
    }
    return trial;
}

/// No glide, and a glide, for one spread. `stretch_sd` 0: the time is as tried.
void explain(const TimeTrial& trial, std::size_t index, double spread, double stretch_sd,
             std::vector<Explanation>& explanations)
{
    double i11 = 1.0 / (prior_sd * prior_sd), i12 = 0.0, i22 = 1.0, p1 = 0.0, p2 = 0.0, log_none = 0.0;
    if (stretch_sd > 0.0) i22 = 1.0 / (stretch_sd * stretch_sd);
    const double prior_determinant = i11 * i22;
    for (std::size_t i = 0; i < trial.evidence.size(); ++i) {
        if (!trial.heard[i]) continue;
        const Evidence& one = trial.evidence[i];
        const double kept = 1.0 / (1.0 + spread * spread * one.gg); // of its information, with the spread
        i11 += kept * one.gg, p1 += kept * one.gp;
        if (stretch_sd > 0.0) i12 += kept * one.gh, i22 += kept * one.hh, p2 += kept * one.hp;
        log_none += 0.5 * std::log(kept) - 0.5 * kept * one.gp * one.gp / one.gg;
    }
    log_none += trial.log_prior;
    explanations.push_back({.trial = index, .log_weight = log_none + std::log(1.0 - prior_probability)});

    const double determinant = i11 * i22 - i12 * i12;
    Explanation glide{.trial = index, .glides = true};
    glide.aa = i22 / determinant, glide.ac = -i12 / determinant, glide.cc = i11 / determinant;
    glide.amount = glide.aa * p1 + glide.ac * p2;
    glide.stretch = glide.ac * p1 + glide.cc * p2;
    if (stretch_sd == 0.0) glide.cc = 0.0;
    // Against none: Bayes factor of normal means under a prior that is half-normal in a (twice the density).
    glide.log_weight = log_none + 0.5 * (p1 * glide.amount + p2 * glide.stretch) -
                       0.5 * std::log(determinant / prior_determinant) + std::log(2.0 * prior_probability);
    keep_positive(glide);
    explanations.push_back(glide);
}

/// Mean and spread over all explanations, whose log weights are turned into weights.
GlideFit sum_up(std::span<const PartialFit> partials, const GlideSearch& search,
                const std::vector<TimeTrial>& trials, std::vector<Explanation>& explanations)
{
    const auto likeliest =
        std::max_element(explanations.begin(), explanations.end(),
                         [](const auto& a, const auto& b) { return a.log_weight < b.log_weight; });
    const double highest = likeliest->log_weight, time_s = trials[likeliest->trial].time_s;
    double sum = 0.0;
    for (auto& one : explanations) sum += one.log_weight = std::exp(one.log_weight - highest);
    GlideFit fit{.glide = search.start,
                 .shift_hz = std::vector<double>(partials.size()),
                 .shift_sd_hz = std::vector<double>(partials.size())};
    double amount = 0.0, stretch = 0.0, square = 0.0;
    for (const auto& one : explanations) {
        const double weight = one.log_weight / sum;
        if (!one.glides || weight < 1e-6) continue;
        fit.probability += weight;
        amount += weight * one.amount, stretch += weight * one.stretch;
        square += weight * (one.aa + one.amount * one.amount);
        for (std::size_t i = 0; i < partials.size(); ++i) {
            const double g = trials[one.trial].evidence[i].slope_g, h = trials[one.trial].evidence[i].slope_h;
            const double shift_hz = g * one.amount + h * one.stretch;
            fit.shift_hz[i] += weight * shift_hz;
            fit.shift_sd_hz[i] += weight * (shift_hz * shift_hz + g * g * one.aa + 2.0 * g * h * one.ac +
                                            h * h * one.cc); // the square, until below
        }
    }
    fit.amount_sd = std::sqrt(std::max(0.0, square - amount * amount));
    fit.glide.amount = amount;
    fit.glide.time_s = time_s;
    if (amount > 0.0)
        fit.glide.time_s *= std::exp(std::clamp(stretch / amount, -largest_time_step, largest_time_step));
    for (std::size_t i = 0; i < partials.size(); ++i) {
        fit.shift_sd_hz[i] = std::sqrt(std::max(0.0, fit.shift_sd_hz[i] - fit.shift_hz[i] * fit.shift_hz[i]));
        fit.shift_hz[i] -= glide_shift_hz(partials[i], partials[i].taken_off);
    }
    return fit;
}

/// How well the likeliest glide knows its time, in ln time.
double log_time_sd_of(const std::vector<Explanation>& explanations)
{
    double sd = prior_log_time_sd, most = -1.0;
    for (const auto& one : explanations) {
        if (!one.glides || one.log_weight <= most) continue;
        most = one.log_weight;
        sd = std::sqrt(one.cc) / one.amount;
    }
    return std::clamp(sd, least_log_time_sd, prior_log_time_sd);
}

/// All times that are possible about the one found, in steps of the standard deviation that it seems to have:
/// pitch and time go together along a curve, so that at one time alone the pitch would be too sure.
GlideFit weigh_times(std::span<const PartialFit> partials, const GlideSearch& search, double time_s,
                     double log_time_sd)
{
    std::vector<TimeTrial> trials;
    std::vector<Explanation> explanations;
    for (int step = -time_steps; step <= time_steps; ++step)
        trials.push_back(try_time(partials, search, time_s * std::exp(time_step_sds * step * log_time_sd)));
    for (std::size_t i = 0; i < trials.size(); ++i)
        for (const double spread : spreads_cents)
            explain(trials[i], i, spread / cents_per_neper, 0.0, explanations);
    return sum_up(partials, search, trials, explanations);
}

/// The best time near the one that the search starts with; the phases are linear in the amount, not in it.
GlideFit follow_time(std::span<const PartialFit> partials, GlideSearch search)
{
    for (int round = 0;; ++round) {
        const std::vector<TimeTrial> trials{try_time(partials, search, search.start.time_s)};
        std::vector<Explanation> explanations;
        for (const double spread : spreads_cents)
            explain(trials.front(), 0, spread / cents_per_neper, prior_log_time_sd * search.start.amount,
                    explanations);
        const GlideFit fit = sum_up(partials, search, trials, explanations);
        const double step = std::log(fit.glide.time_s / search.start.time_s);
        if (std::abs(step) < small_time_step || round == time_rounds)
            return weigh_times(partials, search, fit.glide.time_s, log_time_sd_of(explanations));
        // A long step has overshot the amount along with the time.
        search.start.time_s = fit.glide.time_s;
        if (std::abs(step) < 0.5 * largest_time_step) search.start.amount = fit.glide.amount;
    }
}

} // namespace

GlideFit fit_glide(std::span<const PartialFit> partials, const GlideSearch& search)
{
    HARPKEEP_EXPECTS(search.decay_rate > 0.0 && !partials.empty());
    if (search.start.amount > 0.0) return follow_time(partials, search);
    // Before a glide is known, a few times; from then on time is a parameter as the amount is.
    std::vector<TimeTrial> trials;
    std::vector<Explanation> explanations;
    for (const double factor : time_factors)
        trials.push_back(try_time(partials, search, factor / (2.0 * search.decay_rate)));
    for (std::size_t i = 0; i < trials.size(); ++i)
        for (const double spread : spreads_cents)
            explain(trials[i], i, spread / cents_per_neper, 0.0, explanations);
    return sum_up(partials, search, trials, explanations);
}

double glide_shift_hz(const PartialFit& partial, const PitchGlide& glide)
{
    if (glide.amount == 0.0) return 0.0;
    return glide.amount * evidence_of(partial, glide.time_s, glide.start_s).slope_g;
}

} // namespace harpkeep
