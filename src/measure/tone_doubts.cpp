// SPDX-License-Identifier: MIT
#include "measure/tone_doubts.hpp"

#include "units/interval.hpp"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>

namespace harpkeep {

namespace {

using Complex = std::complex<double>;
constexpr double two_pi = 2.0 * std::numbers::pi;

constexpr double clipping_looked_at_s = 0.15;
constexpr float top_share = 0.9999F; // of the highest sample: a steady sine spends 0.9 % of its time above
constexpr double clipped_share = 0.02;

constexpr double widest_split_cents = 25.0;
constexpr double least_level_ratio = 0.4; // a quieter second tone is left to the fit of two tones
constexpr double splits_agree = 0.25;     // relative
constexpr double least_beats = 0.8;       // in the time that the partial rings

constexpr double irregular_cents = 10.0; // real strings' partials stray by up to 6
constexpr std::size_t irregular_partials = 4;
constexpr double disturbing_share = 0.7; // of the amplitude of both: the one before is as loud

/// The strongest second tone that one partial shows.
std::optional<Beat> beat_of(const Baseband& band, const PartialFit& fit)
{
    const std::size_t n = band.values.size();
    const double ringing_s = 1.0 / std::max(fit.decay_rate, 0.05);
    const double length_s = std::min(2.5 * ringing_s, band.hop_s * static_cast<double>(n));
    const auto count = std::min(n, static_cast<std::size_t>(length_s / band.hop_s));
    if (count < 8) return std::nullopt;
    // Freed of decay and turned so that the tone stands still.
    std::vector<Complex> still(count);
    Complex mean{};
    for (std::size_t i = 0; i < count; ++i) {
        const double t = band.hop_s * static_cast<double>(i);
        still[i] = band.values[i] * std::exp(fit.decay_rate * t) *
                   std::polar(1.0, -two_pi * (fit.frequency_hz - band.reference_hz) * t);
        mean += still[i] / static_cast<double>(count);
    }
    const double widest_hz =
        std::min(fit.frequency_hz * (std::exp2(widest_split_cents / 1200.0) - 1.0), 0.35 / band.hop_s);
    const double step_hz = 0.25 / length_s;
    Beat best;
    double most = 0.0;
    for (double off_hz = -widest_hz; off_hz <= widest_hz; off_hz += step_hz) {
        if (std::abs(off_hz) * length_s < least_beats) continue;
        Complex sum{};
        for (std::size_t i = 0; i < count; ++i) {
            sum +=
                (still[i] - mean) * std::polar(1.0, -two_pi * off_hz * band.hop_s * static_cast<double>(i));
        }
        const double amplitude = std::abs(sum) / static_cast<double>(count);
        if (amplitude <= most) continue;
        most = amplitude;
        best = {.rate_hz = std::abs(off_hz),
                .split_cents = cents_per_neper * std::log1p(off_hz / fit.frequency_hz),
                .level_ratio = amplitude / std::abs(mean)};
    }
    if (best.level_ratio < least_level_ratio) return std::nullopt;
    return best;
}

bool has(const std::vector<Doubt>& doubts, Doubt doubt)
{
    return std::find(doubts.begin(), doubts.end(), doubt) != doubts.end();
}

} // namespace

std::optional<Beat> find_beat(std::span<const Baseband* const> bands, std::span<const PartialFit* const> fits)
{
    if (bands.size() < 2) return std::nullopt;
    const auto first = beat_of(*bands[0], *fits[0]), second = beat_of(*bands[1], *fits[1]);
    if (!first || !second) return std::nullopt;
    // Which of the two pitches is the stronger may differ from partial to partial.
    const double a = std::abs(first->split_cents), b = std::abs(second->split_cents);
    if (std::abs(a - b) > splits_agree * std::max(a, b)) return std::nullopt;
    return first;
}

bool is_clipped(const OctavePyramid& sound, double onset_s)
{
    const double rate = sound.rate_hz(0);
    const auto samples =
        sound.level(0).range(static_cast<std::int64_t>(onset_s * rate),
                             static_cast<std::int64_t>((onset_s + clipping_looked_at_s) * rate));
    if (samples.empty()) return false;
    float high = 0.0F, low = 0.0F;
    for (const float sample : samples) high = std::max(high, sample), low = std::min(low, sample);
    std::size_t at_top = 0;
    for (const float sample : samples)
        at_top += (high > 0.0F && sample >= top_share * high) || (low < 0.0F && sample <= top_share * low);
    return static_cast<double>(at_top) > clipped_share * static_cast<double>(samples.size());
}

std::vector<Doubt> tone_doubts(const PluckMeasurement& measured, const ToneSpan& span, const ToneFacts& facts)
{
    std::vector<Doubt> doubts;
    if (facts.rms_at > 0.0 && facts.rms_before > disturbing_share * facts.rms_at)
        doubts.push_back(Doubt::disturbed);
    if (facts.series_scatter_cents > irregular_cents && measured.partials.size() >= irregular_partials)
        doubts.push_back(Doubt::irregular);
    if (measured.uncertainty_cents <= most_unsure_cents || !doubts.empty()) return doubts;
    // Too unsure to be used: the likeliest reason.
    const bool cut_short =
        facts.fitted_s < measured.decay_s && span.until_s - span.onset_s < 2.0 * measured.decay_s;
    if (cut_short && facts.shared_sd_cents > 0.7 * measured.uncertainty_cents && measured.glide_cents > 1.0)
        doubts.push_back(Doubt::still_gliding);
    else if (cut_short)
        doubts.push_back(Doubt::too_short);
    else
        doubts.push_back(Doubt::too_noisy);
    if (has(doubts, Doubt::too_noisy) && facts.series_scatter_cents > 0.5 * irregular_cents)
        doubts.back() = Doubt::irregular;
    return doubts;
}

} // namespace harpkeep
