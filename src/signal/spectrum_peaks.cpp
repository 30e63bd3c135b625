// SPDX-License-Identifier: MIT
#include "signal/spectrum_peaks.hpp"

#include "base/expects.hpp"
#include "signal/window.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep {

namespace {

constexpr double floor_reach_bins = 40.0; // to each side; wide enough to look past the main lobes between
constexpr float silence_db = -200.0F;

/// Median level of each block of bins; the floor at a bin is that of its block.
std::vector<float> block_floors(const std::vector<float>& level_db, std::size_t block)
{
    std::vector<float> floors;
    std::vector<float> part;
    for (std::size_t start = 0; start < level_db.size(); start += block) {
        const std::size_t from = start > block / 2 ? start - block / 2 : 0;
        const std::size_t to = std::min(level_db.size(), start + block + block / 2);
        part.assign(level_db.begin() + static_cast<std::ptrdiff_t>(from),
                    level_db.begin() + static_cast<std::ptrdiff_t>(to));
        const auto middle = part.begin() + static_cast<std::ptrdiff_t>(part.size() / 2);
        std::nth_element(part.begin(), middle, part.end());
        floors.push_back(*middle);
    }
    return floors;
}

} // namespace

LevelSpectrum level_spectrum(std::span<const float> samples, double rate_hz, RealFft& fft)
{
    HARPKEEP_EXPECTS(samples.size() >= 16 && samples.size() <= fft.length());
    const auto window = hann_window(samples.size());
    std::vector<float> padded(fft.length(), 0.0F);
    for (std::size_t i = 0; i < samples.size(); ++i) padded[i] = static_cast<float>(window[i]) * samples[i];

    const auto bins = fft(padded);
    LevelSpectrum spectrum{.bin_hz = rate_hz / static_cast<double>(fft.length()),
                           .resolution_hz = rate_hz / static_cast<double>(samples.size()),
                           .level_db = std::vector<float>(bins.size())};
    const float scale = 4.0F / static_cast<float>(samples.size()); // 2 for one side, 2 for the Hann window
    for (std::size_t i = 0; i < bins.size(); ++i) {
        const float power = std::norm(bins[i]) * scale * scale;
        spectrum.level_db[i] = power > 1e-20F ? 10.0F * std::log10(power) : silence_db;
    }
    return spectrum;
}

std::vector<SpectralPeak> spectral_peaks(const LevelSpectrum& spectrum, double from_hz, double to_hz,
                                         double least_above_floor_db)
{
    const auto& level = spectrum.level_db;
    const double padding = spectrum.resolution_hz / spectrum.bin_hz;
    const auto block = static_cast<std::size_t>(std::max(8.0, floor_reach_bins * padding));
    const auto floors = block_floors(level, block);

    std::vector<SpectralPeak> peaks;
    const auto first = static_cast<std::size_t>(std::max(1.0, std::ceil(from_hz / spectrum.bin_hz)));
    const auto last =
        std::min(level.size() - 1, static_cast<std::size_t>(std::max(0.0, to_hz / spectrum.bin_hz)));
    for (std::size_t i = first; i < last; ++i) {
        const double left = level[i - 1], middle = level[i], right = level[i + 1];
        if (!(middle > left && middle >= right)) continue;
        const double above = middle - static_cast<double>(floors[i / block]);
        if (above < least_above_floor_db) continue;
        const double curvature = left - 2.0 * middle + right;
        const double offset_bins = curvature < 0.0 ? 0.5 * (left - right) / curvature : 0.0;
        peaks.push_back({.frequency_hz = spectrum.bin_hz * (static_cast<double>(i) + offset_bins),
                         .level_db = middle - 0.25 * (left - right) * offset_bins,
                         .above_floor_db = above});
    }
    return peaks;
}

double level_near(const LevelSpectrum& spectrum, double frequency_hz, double half_width_hz)
{
    const auto& level = spectrum.level_db;
    const double from = std::max(0.0, (frequency_hz - half_width_hz) / spectrum.bin_hz);
    const auto first = static_cast<std::size_t>(std::floor(from));
    const auto last = static_cast<std::size_t>(std::ceil((frequency_hz + half_width_hz) / spectrum.bin_hz));
    double highest = static_cast<double>(silence_db);
    for (std::size_t i = first; i <= last && i < level.size(); ++i)
        highest = std::max(highest, static_cast<double>(level[i]));
    return highest;
}

} // namespace harpkeep
