// SPDX-License-Identifier: MIT
#include "measure/tone_measurement.hpp"

#include "measure/stiff_series.hpp"
#include "measure/tone_doubts.hpp"
#include "signal/baseband.hpp"
#include "signal/glide.hpp"
#include "signal/partial_fit.hpp"
#include "signal/tone_fit.hpp"
#include "units/interval.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace harpkeep {

namespace {

constexpr double periods_per_window = 8.0; // the band between two partials then lies in the window's null
constexpr double windows_per_fit = 32.0;   // more would cost time and tell nothing new
constexpr int most_partials = 20;
constexpr double many_partials_below_hz = 1200.0; // low strings say most by partials beyond the twentieth
constexpr int most_partials_of_all = 36;
constexpr int most_misses = 4;
constexpr double attack_s = 0.008;
constexpr double faintest_share =
    0.004; // of the loudest partial, -48 dB: fainter ones are often other things
constexpr double least_information = 6.0; // 1/rad^2: under this a partial's phase is mere noise
constexpr double useful_energy = 0.9995;  // of the lower partials; the rest is tail
constexpr int lower_partials = 3;

/// How long a tone is looked at, if it rings and nothing comes between: shorter for higher strings.
double longest_fit_s(double first_hz)
{
    return 4.0 * std::pow(40.0 / first_hz, 0.35);
}

/// So many periods, or so many windows for the length.
double window_for(double first_hz, double length_s)
{
    return std::max(periods_per_window / first_hz, length_s / windows_per_fit);
}

/// What is fitted from when to when, through which window.
struct Plan {
    double from_s, to_s, window_s;
};

double cents2(double variance_hz2, double frequency_hz)
{
    return variance_hz2 * std::pow(cents_per_neper / frequency_hz, 2);
}

double median_noise(const Baseband& band)
{
    std::vector<double> power;
    for (const auto& value : band.values) power.push_back(std::norm(value));
    const auto middle = power.begin() + static_cast<std::ptrdiff_t>(power.size() / 2);
    std::nth_element(power.begin(), middle, power.end());
    return std::sqrt(*middle / std::log(2.0)); // the power of complex noise is exponentially distributed
}

/// Cuts bands out of the sound for one pluck.
class BandCutter {
  public:
    BandCutter(const OctavePyramid& sound, const Plan& plan, double first_hz)
        : sound_(sound), plan_(plan), first_hz_(first_hz)
    {
    }

    [[nodiscard]] std::optional<Baseband> band(double frequency_hz, int values_per_window) const
    {
        if (frequency_hz < 8.0 || frequency_hz > sound_.highest_frequency_hz()) return std::nullopt;
        const int level = sound_.level_for(frequency_hz);
        return extract_baseband(sound_.level(level), sound_.rate_hz(level),
                                {.reference_hz = frequency_hz,
                                 .from_s = plan_.from_s,
                                 .to_s = plan_.to_s,
                                 .window_s = plan_.window_s,
                                 .values_per_window = values_per_window});
    }

    /// Noise beside partial `number` near `frequency_hz`: the quieter of the two bands half-way to its
    /// neighbours, each looked at once.
    [[nodiscard]] double noise_beside(int number, double frequency_hz)
    {
        double power = 0.0;
        int sides = 0;
        for (const int side : {-1, 1}) {
            const double noise = noise_between(2 * number + side, frequency_hz + 0.5 * side * first_hz_);
            if (noise <= 0.0) continue;
            power += noise * noise;
            ++sides;
        }
        return std::max(std::sqrt(power / std::max(1, sides)), 1e-9);
    }

  private:
    double noise_between(int half_number, double frequency_hz)
    {
        const auto known = noise_.find(half_number);
        if (known != noise_.end()) return known->second;
        const auto beside = band(frequency_hz, 2);
        return noise_[half_number] = beside ? median_noise(*beside) : 0.0;
    }

    const OctavePyramid& sound_;
    Plan plan_;
    double first_hz_;
    std::map<int, double> noise_;
};

/// How long the tone rings to some purpose: the time in which the strongest of its lower partials give off
/// nearly all of their energy.
double useful_length_s(const OctavePyramid& sound, const Plan& plan, const PitchCandidate& guess)
{
    const StiffSeries series{guess.frequency_hz, 0.0};
    std::vector<double> power;
    double hop_s = 0.0;
    for (int k = 1; k <= lower_partials; ++k) {
        const auto band = BandCutter(sound, plan, guess.frequency_hz).band(series.partial_hz(k), 4);
        if (!band) continue;
        hop_s = band->hop_s;
        power.resize(std::max(power.size(), band->values.size()));
        for (std::size_t i = 0; i < band->values.size(); ++i) power[i] += std::norm(band->values[i]);
    }
    double total = 0.0, sum = 0.0;
    for (const double p : power) total += p;
    std::size_t count = 0;
    while (count < power.size() && sum < useful_energy * total) sum += power[count++];
    return std::min(plan.to_s - plan.from_s, hop_s * static_cast<double>(count) + plan.window_s);
}

Plan plan_for(const OctavePyramid& sound, const ToneSpan& span, const PitchCandidate& guess)
{
    const double first_hz = guess.frequency_hz;
    Plan plan{.from_s = span.onset_s + attack_s,
              .to_s = std::min(span.until_s, span.onset_s + attack_s + longest_fit_s(first_hz)),
              .window_s = periods_per_window / first_hz};
    plan.to_s = plan.from_s + useful_length_s(sound, plan, guess);
    const double length_s = plan.to_s - plan.from_s;
    plan.window_s = std::min(window_for(first_hz, length_s), length_s / 2.5);
    return plan;
}

struct FittedPartials {
    std::vector<int> numbers;
    std::vector<Baseband> bands;
    std::vector<PartialFit> fits;
};

int partials_to_try(double first_hz)
{
    return std::clamp(static_cast<int>(many_partials_below_hz / first_hz), most_partials,
                      most_partials_of_all);
}

/// Fits one partial after the other; where the next is looked for follows from those found.
FittedPartials fit_partials(const OctavePyramid& sound, const Plan& plan, const PitchCandidate& guess)
{
    BandCutter cutter(sound, plan, guess.frequency_hz);
    FittedPartials found;
    StiffSeries series{guess.frequency_hz / std::sqrt(1.0 + guess.inharmonicity), guess.inharmonicity};
    std::vector<SeriesPoint> points;
    int misses = 0;
    double loudest = 0.0, typical_rate = 0.0;
    for (int k = 1; k <= partials_to_try(guess.frequency_hz) && misses < most_misses; ++k) {
        const double expected = series.partial_hz(k);
        if (expected > sound.highest_frequency_hz()) break;
        ++misses;
        const auto band = cutter.band(expected, 4);
        if (!band) continue;
        const double reach_hz = 0.15 / plan.window_s + (points.size() < 2 ? 0.008 : 0.005) * expected;
        const auto fit = fit_partial(*band, {.reach_hz = reach_hz,
                                             .noise_level = cutter.noise_beside(k, expected),
                                             .typical_decay_rate = typical_rate});
        if (!fit || fit->information < least_information) continue;
        if (!found.fits.empty() && fit->level < faintest_share * loudest) continue;
        loudest = std::max(loudest, fit->level);
        // Each partial dies somewhat sooner than the one below it.
        const double rate = std::max(fit->decay_rate, 0.05);
        typical_rate = 1.1 * (typical_rate > 0.0 ? std::sqrt(typical_rate * rate) : rate);
        misses = 0;
        found.numbers.push_back(k);
        found.bands.push_back(*band);
        found.fits.push_back(*fit);
        points.push_back({k, fit->frequency_hz,
                          cents2(fit->noise_variance_hz2 + fit->model_variance_hz2, fit->frequency_hz)});
        series = follow_series(points, std::max(guess.inharmonicity, 1e-6));
    }
    return found;
}

/// The partials with the glide they share taken off.
struct SettledPartials {
    std::vector<PartialFit> fits; ///< frequency_hz: settled
    GlideFit glide;
};

constexpr double unsure_cents_at_first = 4.0;
constexpr double settled_enough_cents = 0.05; // the rest of the glide is then linear in every phase
constexpr int glide_rounds = 10;
constexpr double usual_decay_exponent = 0.6; // alpha_k / alpha_1 = k^0.6, about (our own choice)
constexpr double clear_information = 100.0;  // 1/rad^2: of a partial whose decay shows as well

/// Tension relaxes with the square of the amplitude.
double usual_relaxation_s(double decay_rate)
{
    return 0.5 / decay_rate;
}

/// Every partial again, with the glide found taken off; one that is lost keeps its earlier fit.
void refit(const FittedPartials& found, const GlideFit& glide, double unsure, std::vector<PartialFit>& fits)
{
    for (std::size_t i = 0; i < fits.size(); ++i) {
        const double expected_hz = fits[i].frequency_hz - glide.shift_hz[i];
        if (auto fit =
                refit_partial(found.bands[i], found.fits[i], expected_hz, unsure * expected_hz, glide.glide))
            fits[i] = std::move(*fit);
    }
}

SettledPartials settle(const FittedPartials& found, double start_s, double decay_rate)
{
    SettledPartials settled{.fits = found.fits};
    GlideSearch search{.decay_rate = decay_rate,
                       .start = {.amount = 0.0, .time_s = usual_relaxation_s(decay_rate), .start_s = start_s},
                       .unsure_amount = unsure_cents_at_first / cents_per_neper};
    const double enough = settled_enough_cents / cents_per_neper;
    double taken_off = 0.0;
    for (int round = 0; round < glide_rounds; ++round) {
        const bool all_heard = search.unsure_amount <= enough;
        settled.glide = fit_glide(settled.fits, search);
        const double change = std::abs(settled.glide.glide.amount - taken_off);
        if ((all_heard && change < enough) || round + 1 == glide_rounds) break;
        const double unsure = 2.0 * settled.glide.amount_sd + 0.5 * change;
        search.unsure_amount = round + 2 == glide_rounds ? 0.0 : std::min(unsure, 0.5 * search.unsure_amount);
        if (change < 0.2 * enough) continue;
        refit(found, settled.glide, unsure, settled.fits);
        search.start = settled.glide.glide;
        taken_off = search.start.amount;
    }
    for (std::size_t i = 0; i < settled.fits.size(); ++i)
        settled.fits[i].frequency_hz -= settled.glide.shift_hz[i];
    return settled;
}

/// All partials at once with a second tone beside each, from where the single fits and their glide left them.
std::optional<ToneFit> fit_twins(const FittedPartials& found, const SettledPartials& settled,
                                 double inharmonicity, double decay_rate)
{
    std::vector<TonePartial> partials;
    for (std::size_t i = 0; i < found.fits.size(); ++i)
        partials.push_back({.number = found.numbers[i],
                            .band = &found.bands[i],
                            .frequency_hz = settled.fits[i].frequency_hz,
                            .decay_rate = settled.fits[i].decay_rate,
                            .noise_level = found.fits[i].noise_level});
    return fit_two_tones(partials, {.glide = settled.glide.glide,
                                    .inharmonicity = inharmonicity,
                                    .relaxation_s = usual_relaxation_s(decay_rate)});
}

/// What one partial says in the end.
struct PartialReading {
    double settled_hz = 0.0;
    double lift_hz = 0.0;              ///< by glide and second tone, in the mean over the fit
    double noise2 = 0.0, model2 = 0.0; ///< variances, cents^2
};

/// All partials, and what they share.
struct ToneReading {
    std::vector<PartialReading> partials;
    double glide_amount = 0.0;    ///< relative
    double shared_sd_cents = 0.0; ///< what glide and second tone leave unsure in all partials together
};

ToneReading read_one_tone(const FittedPartials& found, const SettledPartials& settled, std::size_t strongest)
{
    ToneReading reading{.glide_amount = settled.glide.glide.amount,
                        .shared_sd_cents = cents_per_neper * settled.glide.shift_sd_hz[strongest] /
                                           found.fits[strongest].frequency_hz};
    for (std::size_t i = 0; i < found.fits.size(); ++i) {
        const PartialFit& fit = settled.fits[i];
        reading.partials.push_back({.settled_hz = fit.frequency_hz,
                                    .lift_hz = found.fits[i].frequency_hz - fit.frequency_hz,
                                    .noise2 = cents2(fit.noise_variance_hz2, fit.frequency_hz),
                                    .model2 = cents2(fit.model_variance_hz2, fit.frequency_hz)});
    }
    return reading;
}

ToneReading read_two_tones(const FittedPartials& found, const ToneFit& tone)
{
    ToneReading reading{.glide_amount = tone.glide.amount, .shared_sd_cents = tone.shared_sd_cents};
    for (std::size_t i = 0; i < found.fits.size(); ++i) {
        const FittedTonePartial& fit = tone.partials[i];
        const double noise2 = fit.variance_cents2 / fit.excess;
        reading.partials.push_back({.settled_hz = fit.frequency_hz,
                                    .lift_hz = found.fits[i].frequency_hz - fit.frequency_hz,
                                    .noise2 = noise2,
                                    .model2 = fit.variance_cents2 - noise2});
    }
    return reading;
}

double square(double x)
{
    return x * x;
}

// What lies between one tone and two is a part of the way from one to the other, not the one or the other.
constexpr double both_count = 0.15;

/// Between both, by the probability of the second; what they differ by together goes into what is shared.
/// What a hidden second tone does looks like a glide: as far as the glide is unsure, that is counted already.
ToneReading blend(const ToneReading& one, const ToneReading& two, const ToneFit& fit)
{
    const double probability = fit.probability;
    ToneReading reading = one;
    const auto between = [&](double a, double b) { return a + probability * (b - a); };
    double apart = 0.0, weights = 0.0;
    for (std::size_t i = 0; i < one.partials.size(); ++i) {
        const PartialReading &a = one.partials[i], &b = two.partials[i];
        reading.partials[i] = {.settled_hz = between(a.settled_hz, b.settled_hz),
                               .lift_hz = between(a.lift_hz, b.lift_hz),
                               .noise2 = between(a.noise2, b.noise2),
                               .model2 = between(a.model2, b.model2)};
        const double weight = 1.0 / (reading.partials[i].noise2 + reading.partials[i].model2);
        apart += weight * cents_per_neper * std::log(b.settled_hz / a.settled_hz), weights += weight;
    }
    apart /= weights;
    reading.glide_amount = between(one.glide_amount, two.glide_amount);
    const double hidden2 = std::max(0.0, square(fit.hidden_sd_cents) - square(one.shared_sd_cents));
    reading.shared_sd_cents =
        std::sqrt(between(square(one.shared_sd_cents), square(two.shared_sd_cents)) +
                  both_count * probability * (1.0 - probability) * square(apart) + hidden2);
    return reading;
}

/// How fast the string's motion dies, of which the first partial is the greatest part, heard or not: a power
/// of the partials' numbers through their rates.
double motion_decay_rate(const FittedPartials& found)
{
    double s0 = 0.0, s1 = 0.0, s2 = 1.0, y0 = 0.0, y1 = usual_decay_exponent; // as one clear partial says it
    for (std::size_t i = 0; i < found.fits.size(); ++i) {
        const double weight = found.fits[i].information / (found.fits[i].information + clear_information);
        const double x = std::log(found.numbers[i]), y = std::log(std::max(found.fits[i].decay_rate, 0.05));
        s0 += weight, s1 += weight * x, s2 += weight * x * x, y0 += weight * y, y1 += weight * x * y;
    }
    return std::max(std::exp((y0 * s2 - y1 * s1) / (s0 * s2 - s1 * s1)), 0.2);
}

constexpr std::size_t judged_partials = 3; // the strongest tell whether something else sounds

/// The loudest partials, the loudest first.
std::vector<std::size_t> strongest_partials(const FittedPartials& found)
{
    std::vector<std::size_t> order(found.fits.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return found.fits[a].level > found.fits[b].level; });
    order.resize(std::min(order.size(), judged_partials));
    return order;
}

/// How loud the strongest partials were before the pluck, and at its start.
void hear_before(const OctavePyramid& sound, const Plan& plan, const ToneSpan& span,
                 const FittedPartials& found, ToneFacts& facts)
{
    const double window_s = plan.window_s;
    const Plan before{.from_s = span.onset_s - attack_s - 2.2 * window_s,
                      .to_s = span.onset_s - attack_s,
                      .window_s = window_s};
    if (before.from_s < 0.0) return;
    double power_before = 0.0, power_at = 0.0;
    for (const std::size_t i : strongest_partials(found)) {
        const auto band = BandCutter(sound, before, span.onset_s).band(found.fits[i].frequency_hz, 2);
        if (!band) return;
        power_before += std::norm(band->values.back());
        power_at += std::norm(found.bands[i].values.front());
    }
    facts.rms_before = std::sqrt(power_before), facts.rms_at = std::sqrt(power_at);
}

std::optional<Beat> hear_beat(const FittedPartials& found)
{
    std::vector<const Baseband*> bands;
    std::vector<const PartialFit*> fits;
    for (const std::size_t i : strongest_partials(found))
        bands.push_back(&found.bands[i]), fits.push_back(&found.fits[i]);
    return find_beat(bands, fits);
}

} // namespace

FitExtent likely_extent(const PluckMeasurement& pluck)
{
    double slowest_s = shortest_decay_s;
    for (const auto& partial : pluck.partials)
        if (partial.number <= lower_partials) slowest_s = std::max(slowest_s, partial.decay_s);
    const double useful_s = -0.5 * std::log(1.0 - useful_energy) * slowest_s;
    const double length_s = std::min(longest_fit_s(pluck.frequency_hz), useful_s);
    return {.length_s = length_s, .window_s = window_for(pluck.frequency_hz, length_s)};
}

std::optional<PluckMeasurement> measure_tone(const OctavePyramid& sound, const ToneSpan& span,
                                             const PitchCandidate& guess)
{
    const Plan plan = plan_for(sound, span, guess);
    if (!(plan.window_s * guess.frequency_hz > 3.0)) return std::nullopt;
    const FittedPartials found = fit_partials(sound, plan, guess);
    if (found.fits.empty()) return std::nullopt;

    const auto strongest =
        std::max_element(found.fits.begin(), found.fits.end(),
                         [](const auto& a, const auto& b) { return a.information < b.information; });
    const double decay_rate = std::max(strongest->decay_rate, 0.2);
    const double motion_rate = motion_decay_rate(found);
    const SettledPartials settled = settle(found, plan.from_s, motion_rate);

    const auto strongest_index = static_cast<std::size_t>(strongest - found.fits.begin());
    const double typical_b = typical_inharmonicity(guess.frequency_hz);
    ToneReading reading = read_one_tone(found, settled, strongest_index);
    if (const auto twins = fit_twins(found, settled, typical_b, motion_rate))
        reading = blend(reading, read_two_tones(found, *twins), *twins);

    PluckMeasurement result;
    result.start_s = span.onset_s;
    result.decay_s = 1.0 / decay_rate;
    std::vector<SeriesPoint> points;
    double signal = 0.0, noise = 0.0;
    for (std::size_t i = 0; i < found.fits.size(); ++i) {
        const PartialFit& mean = found.fits[i];
        const PartialReading& one = reading.partials[i];
        points.push_back({found.numbers[i], one.settled_hz, one.noise2 + one.model2});
        result.partials.push_back(
            {.number = found.numbers[i],
             .frequency_hz = one.settled_hz + one.lift_hz,
             .uncertainty_cents = std::sqrt(one.noise2 + one.model2),
             .noise_cents = std::sqrt(one.noise2),
             .level_db = 20.0 * std::log10(mean.level),
             .decay_s = 1.0 / std::max(mean.decay_rate, 1e-2),
             .glide_cents = cents_per_neper * std::log1p(one.lift_hz / one.settled_hz)});
        signal += mean.level * mean.level;
        noise += mean.noise_level * mean.noise_level;
    }
    const auto fit = fit_series(points, typical_b);
    result.frequency_hz = fit.first_partial_hz;
    result.inharmonicity = fit.series.inharmonicity;
    result.uncertainty_cents = std::hypot(fit.uncertainty_cents, reading.shared_sd_cents);
    result.degrees_of_freedom = fit.degrees_of_freedom;
    result.glide_uncertainty_cents = reading.shared_sd_cents;
    result.glide_cents = reading.glide_amount * cents_per_neper;
    result.snr_db = 10.0 * std::log10(signal / noise);

    ToneFacts facts{.fitted_s = plan.to_s - plan.from_s,
                    .shared_sd_cents = reading.shared_sd_cents,
                    .series_scatter_cents = fit.scatter_cents};
    hear_before(sound, plan, span, found, facts);
    result.doubts = tone_doubts(result, span, facts);
    if (is_clipped(sound, span.onset_s)) result.doubts.push_back(Doubt::clipped);
    if (const auto beat = hear_beat(found)) {
        result.beat_rate_hz = beat->rate_hz;
        result.doubts.push_back(Doubt::beating);
    }
    return result;
}

} // namespace harpkeep
