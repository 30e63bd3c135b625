// SPDX-License-Identifier: MIT
#pragma once

#include "measure/reading.hpp"
#include "measure/tone_measurement.hpp"
#include "signal/baseband.hpp"
#include "signal/partial_fit.hpp"

#include <optional>
#include <span>
#include <vector>

namespace harpkeep {

/// A pitch that is less sure than this may be a string's, but is nothing to set a harp by.
inline constexpr double most_unsure_cents = 2.6;

/// What a measurement knows about itself beyond what it reports.
struct ToneFacts {
    double fitted_s = 0.0;                 ///< length of the fit
    double shared_sd_cents = 0.0;          ///< what glide and second polarisation leave unsure
    double series_scatter_cents = 0.0;     ///< of the partials about one stiff string's series
    double rms_before = 0.0, rms_at = 0.0; ///< of the strongest partials before the onset, and at it
};

/// Two pitches in one string.
struct Beat {
    double rate_hz = 0.0;     ///< of the stronger partial
    double split_cents = 0.0; ///< of the second pitch above the first
    double level_ratio = 0.0; ///< of their amplitudes
};

/// Looks for a second pitch beside the one that was fitted, in what the fits of the strongest partials leave
/// over.
///
/// Given    bands and fits of the same partials, the strongest first; a second pitch has to show in two of
/// them Returns  the beat, or nothing when the first two partials do not agree on one within 25 cents
[[nodiscard]] std::optional<Beat> find_beat(std::span<const Baseband* const> bands,
                                            std::span<const PartialFit* const> fits);

/// Is the recording cut off at its loudest, at the start of the pluck?
[[nodiscard]] bool is_clipped(const OctavePyramid& sound, double onset_s);

/// Why a measurement cannot be trusted, as far as the sound itself tells.
[[nodiscard]] std::vector<Doubt> tone_doubts(const PluckMeasurement& measured, const ToneSpan& span,
                                             const ToneFacts& facts);

} // namespace harpkeep
