// SPDX-License-Identifier: MIT
#pragma once

#include "harp/position.hpp"
#include "harp/string_place.hpp"
#include "units/quantity.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace harpkeep {

/// Name and version of the way in which frequencies are measured; stored with every reading, raised whenever
/// a change can move a figure.
inline constexpr std::string_view pitch_method = "partials-5";

/// Why a reading cannot be trusted.
enum class Doubt {
    too_short,       ///< the tone ended, or the next began, before the pitch was settled
    too_noisy,       ///< too few partials stand out of the noise
    clipped,         ///< the recording is overdriven
    beating,         ///< two pitches in one string: false string, or a neighbour sounding with it
    still_gliding,   ///< the pitch was still sinking at the end
    disturbed,       ///< the string before still sounds on the same partials
    ambiguous_place, ///< fits more than one string or position equally well
    wrong_pitch,     ///< far from the pitch of the place that its order names: pedal or lever in another
                     ///< position?
    irregular,       ///< the partials do not form one stiff string's series
};

[[nodiscard]] std::string_view doubt_name(Doubt doubt);
[[nodiscard]] std::optional<Doubt> doubt_from_name(std::string_view name);
/// One plain sentence for the player: what is the matter and what to do.
[[nodiscard]] std::string_view doubt_advice(Doubt doubt);

/// One partial of one pluck as measured.
struct Partial {
    int number = 1;
    double frequency_hz = 0.0;      ///< mean over the time it rang, weighted by energy; the glide still in it
    double uncertainty_cents = 0.0; ///< standard uncertainty, all in all
    double noise_cents = 0.0;       ///< the part of it that the noise beside the partial leaves
    double level_db = 0.0;          ///< at the start of the fit, re full scale
    double decay_s = 0.0;           ///< time for the amplitude to fall by 1/e
    double glide_cents = 0.0; ///< how far glide and second polarisation lift frequency_hz above the settled
                              ///< pitch, as fitted
};

/// What one pluck measured, before it is known which string it was.
struct PluckMeasurement {
    double start_s = 0.0;                 ///< onset in the recording
    double frequency_hz = 0.0;            ///< settled first partial, f1 = F sqrt(1 + B)
    double uncertainty_cents = 0.0;       ///< standard uncertainty (k = 1) of frequency_hz
    double degrees_of_freedom = 0.0;      ///< effective, of uncertainty_cents
    double inharmonicity = 0.0;           ///< B
    double glide_cents = 0.0;             ///< how much higher the pitch was at the start than settled
    double glide_uncertainty_cents = 0.0; ///< standard uncertainty that glide and second polarisation leave in it
    double decay_s = 0.0;                 ///< 1/e amplitude decay time of the strongest partial
    double snr_db = 0.0;                  ///< partials against the noise beside them, over the fitted time
    std::optional<double> beat_rate_hz;   ///< when two pitches beat in the strongest partials
    std::vector<Partial> partials;
    std::vector<PluckMeasurement> rivals; ///< the same sound measured at other pitches that it may have
    std::vector<Doubt> doubts;            ///< empty: to be trusted

    [[nodiscard]] bool trusted() const { return doubts.empty(); }
};

/// A pluck placed on a string and position.
struct Reading {
    StringPlace place;
    Position position = Position::flat;
    int file_index = 0; ///< which of the files of the check
    PluckMeasurement pluck;
};

/// A sound that became no reading, and why ("knock", "speech", "fits no string of this harp").
struct IgnoredSound {
    int file_index = 0;
    double start_s = 0.0;
    std::string reason;
};

/// Error of one step of one string.
struct StepError {
    StringPlace place;
    Step step = Step::lower;
    double error_cents = 0.0;        ///< size of the step minus 100 cents
    double uncertainty_cents = 0.0;  ///< standard uncertainty (k = 1)
    double degrees_of_freedom = 0.0; ///< effective (Welch-Satterthwaite)
};

/// Error of flat to sharp against 200 cents, as the sum of both steps with their covariance by the natural.
struct WholeStepError {
    StringPlace place;
    double error_cents = 0.0;
    double uncertainty_cents = 0.0;
};

struct MissingReading {
    StringPlace place;
    Position position = Position::flat;
};

/// All that one check found.
struct CheckResult {
    double a4_hz = 440.0;
    std::vector<Reading> readings;
    std::vector<StepError> steps;
    std::vector<WholeStepError> whole_steps;
    std::vector<MissingReading> missing;
    std::vector<IgnoredSound> ignored;
    std::vector<std::string> remarks; ///< what the player should know about the check as a whole
};

} // namespace harpkeep
