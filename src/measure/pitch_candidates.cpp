// SPDX-License-Identifier: MIT
#include "measure/pitch_candidates.hpp"

#include "signal/real_fft.hpp"
#include "signal/spectrum_peaks.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace harpkeep {

namespace {

/// The spectrum is looked at in three bands: the lower, the longer, as partials lie closer there.
struct Band {
    double from_hz, to_hz, rate_hz, length_s;
};
constexpr std::array<Band, 3> bands{
    {{20.0, 450.0, 2000.0, 0.40}, {450.0, 1800.0, 6000.0, 0.18}, {1800.0, 9000.0, 20000.0, 0.06}}};

constexpr double attack_s = 0.012;     // the pluck's own noise is over
constexpr double before_gap_s = 0.012; // the detector may name the onset a little late
constexpr double least_above_floor_db =
    9.0;                              // of a noise peak in a Hann spectrum: 1 in about 3,000 exceeds it
constexpr double full_rise_db = 40.0; // a partial that rose more counts no more
constexpr double lowest_pitch_hz = 24.0;
constexpr double highest_pitch_hz = 4800.0;
// Candidates are compared by what they explain, so that all of them have to be followed as far up.
constexpr int most_partials = 16, most_bass_partials = 40;
constexpr double followed_up_to_hz = 2600.0;
constexpr std::size_t most_candidates = 6;

struct Series {
    double fundamental_hz; ///< F of f_k = k F sqrt(1 + B k^2)
    double inharmonicity;

    [[nodiscard]] double partial_hz(int k) const
    {
        return k * fundamental_hz * std::sqrt(1.0 + inharmonicity * k * k);
    }
};

/// How far from its place a partial may be found: the peak's own blur, and the spread of real strings.
double tolerance_hz(double frequency_hz, double resolution_hz)
{
    return 0.30 * resolution_hz + 0.005 * frequency_hz; // 9 cents
}

const PartialSighting* nearest(const std::vector<PartialSighting>& peaks, double frequency_hz)
{
    const auto after =
        std::lower_bound(peaks.begin(), peaks.end(), frequency_hz,
                         [](const PartialSighting& p, double f) { return p.frequency_hz < f; });
    const PartialSighting* best = nullptr;
    for (auto it = after == peaks.begin() ? after : after - 1; it != peaks.end() && it <= after; ++it)
        if (!best || std::abs(it->frequency_hz - frequency_hz) < std::abs(best->frequency_hz - frequency_hz))
            best = &*it;
    return best;
}

double resolution_at(double frequency_hz, double scale)
{
    for (const Band& band : bands)
        if (frequency_hz < band.to_hz) return scale / band.length_s;
    return scale / bands.back().length_s;
}

std::vector<PartialSighting> match(const std::vector<PartialSighting>& peaks, const Series& series,
                                   double blur_scale)
{
    std::vector<PartialSighting> matched;
    const int last = std::clamp(static_cast<int>(followed_up_to_hz / series.fundamental_hz), most_partials,
                                most_bass_partials);
    for (int k = 1; k <= last; ++k) {
        const double expected = series.partial_hz(k);
        if (peaks.empty() || expected > peaks.back().frequency_hz * 1.02) break;
        const auto* peak = nearest(peaks, expected);
        if (!peak || std::abs(peak->frequency_hz - expected) >
                         tolerance_hz(expected, resolution_at(expected, blur_scale)))
            continue;
        if (!matched.empty() && matched.back().frequency_hz == peak->frequency_hz) continue;
        matched.push_back({k, peak->frequency_hz, peak->rise_db});
    }
    return matched;
}

/// (f_k / k)^2 = F^2 + F^2 B k^2 is a straight line in k^2.
Series refine(const std::vector<PartialSighting>& matched, Series series)
{
    double s0 = 0, s1 = 0, s2 = 0, y0 = 0, y1 = 0;
    for (const auto& p : matched) {
        const double x = p.number * p.number;
        const double y = std::pow(p.frequency_hz / p.number, 2);
        const double w = p.rise_db * x; // the same blur in Hz is a smaller one in f_k / k
        s0 += w, s1 += w * x, s2 += w * x * x, y0 += w * y, y1 += w * x * y;
    }
    const double determinant = s0 * s2 - s1 * s1;
    if (matched.size() >= 3 && determinant > 1e-9 * s0 * s2) {
        const double square = (y0 * s2 - y1 * s1) / determinant;
        const double slope = (y1 * s0 - y0 * s1) / determinant;
        const double highest = 8.0 * typical_inharmonicity(series.fundamental_hz);
        if (square > 0.0) return {std::sqrt(square), std::clamp(slope / square, 0.0, highest)};
    }
    // Too few to bend: keep B, fit F.
    double sum = 0, weight = 0;
    for (const auto& p : matched) {
        const double w = p.rise_db * p.number;
        sum += w * p.frequency_hz / series.partial_hz(p.number);
        weight += w;
    }
    if (weight > 0.0) series.fundamental_hz *= sum / weight;
    return series;
}

double total_rise_of(const std::vector<PartialSighting>& peaks)
{
    double total = 0.0;
    for (const auto& peak : peaks) total += peak.rise_db;
    return total;
}

double score_of(const std::vector<PartialSighting>& matched, const Series& series, double total_rise)
{
    if (matched.empty() || total_rise <= 0.0) return 0.0;
    double explained = 0.0;
    for (const auto& p : matched) explained += p.rise_db;
    double seen = 0.0, wanted = 0.0;
    auto it = matched.begin();
    for (int k = 1; k <= matched.back().number; ++k) {
        // The first partial of a low string is often too weak to be found: its absence says little.
        const double importance = (k == 1 && series.fundamental_hz < 110.0 ? 0.25 : 1.0) / std::sqrt(k);
        wanted += importance;
        if (it != matched.end() && it->number == k) {
            seen += importance * std::min(1.0, it->rise_db / 12.0);
            ++it;
        }
    }
    return explained / total_rise * seen / wanted;
}

/// The candidate whose partial number `k` lies at `frequency_hz`.
std::optional<PitchCandidate> try_pitch(const std::vector<PartialSighting>& peaks, double frequency_hz, int k,
                                        double blur_scale)
{
    const double first_hz = frequency_hz / k;
    if (first_hz < lowest_pitch_hz || first_hz > highest_pitch_hz) return std::nullopt;
    const double b = typical_inharmonicity(first_hz);
    Series series{first_hz / std::sqrt(1.0 + b * k * k), b};
    auto matched = match(peaks, series, blur_scale);
    for (int round = 0; round < 3 && !matched.empty(); ++round) {
        series = refine(matched, series);
        matched = match(peaks, series, blur_scale);
    }
    const double score = score_of(matched, series, total_rise_of(peaks));
    if (!(score > 0.0)) return std::nullopt;
    return PitchCandidate{series.partial_hz(1), series.inharmonicity, score, std::move(matched)};
}

/// The best of each pitch, best first.
std::vector<PitchCandidate> best_of(std::vector<PitchCandidate> candidates)
{
    std::stable_sort(candidates.begin(), candidates.end(),
                     [](const auto& a, const auto& b) { return a.score > b.score; });
    std::vector<PitchCandidate> best;
    for (auto& candidate : candidates) {
        const bool known = std::any_of(best.begin(), best.end(), [&](const PitchCandidate& other) {
            return std::abs(std::log2(other.frequency_hz / candidate.frequency_hz)) < 30.0 / 1200.0;
        });
        if (!known) best.push_back(std::move(candidate));
        if (best.size() == most_candidates) break;
    }
    return best;
}

} // namespace

double typical_inharmonicity(double frequency_hz)
{
    return 1e-4 * std::max(1.0, std::pow(frequency_hz / 300.0, 1.2));
}

RealFft& PitchFinder::transform(std::size_t length)
{
    return transforms_.try_emplace(length, length).first->second;
}

std::vector<PartialSighting> PitchFinder::new_peaks(const OctavePyramid& sound, double onset_s,
                                                    double until_s, double& blur_scale)
{
    std::vector<PartialSighting> peaks;
    const double start_s = onset_s + attack_s;
    blur_scale = std::clamp(bands.front().length_s / std::max(until_s - start_s, 0.05), 1.0, 8.0);
    for (const Band& band : bands) {
        const int level = sound.level_with_rate(std::min(band.rate_hz, sound.rate_hz(0)));
        const double rate = sound.rate_hz(level);
        const double length_s = std::min(band.length_s, until_s - start_s);
        const auto count = static_cast<std::int64_t>(length_s * rate);
        const auto start = static_cast<std::int64_t>(start_s * rate);
        const auto after = sound.level(level).range(start, start + count);
        if (after.size() < 64) continue;
        RealFft& fft = transform(fast_transform_length(2 * static_cast<std::size_t>(band.length_s * rate)));
        const auto spectrum = level_spectrum(after, rate, fft);
        const auto end_before = static_cast<std::int64_t>((onset_s - before_gap_s) * rate);
        const auto before =
            sound.level(level).range(end_before - static_cast<std::int64_t>(after.size()), end_before);
        std::optional<LevelSpectrum> past;
        if (before.size() >= after.size() / 2 && before.size() >= 16)
            past = level_spectrum(before, rate, fft);

        const double highest = std::min(band.to_hz, 0.45 * rate);
        for (const auto& peak : spectral_peaks(spectrum, band.from_hz, highest, least_above_floor_db)) {
            double rise = peak.above_floor_db;
            if (past)
                rise = std::min(rise, peak.level_db -
                                          level_near(*past, peak.frequency_hz, 0.5 * spectrum.resolution_hz));
            if (rise >= 3.0) peaks.push_back({0, peak.frequency_hz, std::min(rise, full_rise_db)});
        }
    }
    return peaks;
}

std::vector<PitchCandidate> PitchFinder::operator()(const OctavePyramid& sound, double onset_s,
                                                    double until_s)
{
    double blur_scale = 1.0;
    const auto peaks = new_peaks(sound, onset_s, until_s, blur_scale);
    auto strongest = peaks;
    std::sort(strongest.begin(), strongest.end(),
              [](const auto& a, const auto& b) { return a.rise_db > b.rise_db; });
    strongest.resize(std::min<std::size_t>(strongest.size(), 8));

    std::vector<PitchCandidate> candidates;
    for (const auto& peak : strongest)
        for (int k = 1; k <= 10; ++k)
            if (auto found = try_pitch(peaks, peak.frequency_hz, k, blur_scale)) candidates.push_back(*found);
    auto best = best_of(std::move(candidates));
    // The strongest partials of a bass string may all lie above the tenth.
    const std::size_t found = best.size();
    for (std::size_t i = 0; i < std::min<std::size_t>(found, 3); ++i)
        for (const int part : {2, 3})
            if (auto below = try_pitch(peaks, best[i].frequency_hz, part, blur_scale)) best.push_back(*below);
    return best_of(std::move(best));
}

} // namespace harpkeep
