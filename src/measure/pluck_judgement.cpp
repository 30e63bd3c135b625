// SPDX-License-Identifier: MIT
#include "measure/pluck_judgement.hpp"

#include "measure/partial_rise.hpp"
#include "measure/pitch_multiple.hpp"
#include "measure/tone_doubts.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>
#include <vector>

namespace harpkeep {

namespace {

constexpr double least_score = 0.06;    // of a candidate: under this the peaks form no series
constexpr double least_periods = 40.0;  // strings ring for 80 and more before they fall by 1/e, knocks for 30
constexpr double least_decay_s = 0.012; // the shortest strings ring on for 20 ms
constexpr double lone_partial_hz = 2500.0; // a string lower than that has more than one partial
constexpr double telephone_share = 0.425;  // of the rate: what recordings hold (docs/methods/recordings.md)
constexpr double unsteady_cents = 6.0;     // no plucked string is as unsure as that: coughs and voices are
constexpr double least_snr_db = 15.0;      // real strings in noise 10 dB below them keep 16 dB and more
constexpr double treble_hz = 500.0, least_treble_snr_db = 20.0; // the same: 25 dB and more
constexpr double most_rise_between_db = 4.0, least_rise_at_db = 6.0;
constexpr double least_fall_per_s = 0.1; // 60 dB in 70 s: no string rings as long, a voice does not fall
constexpr double steady_decay_s = 15.0, most_steady_share = 0.3; // of the power
constexpr double shortest_tone_s = 0.28; // nobody sounds the strings of a check as fast as syllables come
constexpr double least_heard_periods = 200.0; // short strings need less
constexpr double rival_score = 0.45;    // of the best: others are measured too, for the placement to choose
constexpr double multiple_share = 0.01; // of a whole multiple; stiffness stretches the second partial by less

/// A knock dies within a few periods; the loudest partials say so, a faint one may belong to something else.
bool is_knock(const PluckMeasurement& measured, double rate_hz)
{
    const bool alone = measured.partials.size() == 1 && measured.frequency_hz < lone_partial_hz &&
                       2.0 * measured.frequency_hz < telephone_share * rate_hz;
    double power = 0.0, periods = 0.0;
    for (const auto& partial : measured.partials) {
        const double weight = std::pow(10.0, 0.1 * partial.level_db);
        power += weight;
        periods += weight * partial.decay_s * partial.frequency_hz;
    }
    return measured.decay_s < least_decay_s || periods < least_periods * power || alone;
}

/// Voices hold their partials or let them swell; of a string the loudest fall, though a faint one may beat.
bool is_held(const PluckMeasurement& measured)
{
    double power = 0.0, falling = 0.0, steady = 0.0;
    for (const auto& partial : measured.partials) {
        const double weight = std::pow(10.0, 0.1 * partial.level_db);
        power += weight;
        falling += weight / partial.decay_s;
        if (partial.decay_s > steady_decay_s) steady += weight;
    }
    return falling < least_fall_per_s * power || steady > most_steady_share * power;
}

/// Noise lies between its peaks as well: breath, wind, coughs, hum that swells in a hiss. What lies between
/// the partials because another string rings on does not come with the sound.
bool is_noise(const OctavePyramid& sound, const ToneSpan& span, const PluckMeasurement& measured)
{
    const double least_db = measured.frequency_hz < treble_hz ? least_snr_db : least_treble_snr_db;
    if (measured.snr_db >= least_db) return false;
    const auto rise = partial_rise(sound, span, measured.frequency_hz);
    return !rise || rise->between_db > most_rise_between_db || rise->at_db < least_rise_at_db;
}

/// A pitch that the doubtful uncertainty of a reading leaves too open to be used.
void doubt_unsure(PluckMeasurement& measured)
{
    if (measured.uncertainty_cents > most_unsure_cents && measured.doubts.empty())
        measured.doubts.push_back(Doubt::too_noisy);
}

/// What a sound measured at one of its pitches is instead of a string, if it is none.
std::optional<std::string> other_than_string(const OctavePyramid& sound, const ToneSpan& span,
                                             const PluckMeasurement& measured)
{
    if (is_knock(measured, sound.rate_hz(0))) return "knock";
    if (is_noise(sound, span, measured)) return "noise";
    if (measured.uncertainty_cents > unsteady_cents || is_held(measured)) return talk_reason;
    return std::nullopt;
}

/// Of a pitch an octave or more too high, the partials that it leaves out look like noise.
bool explains_noise(const PluckMeasurement& lower, const PluckMeasurement& noisy)
{
    const double parts = noisy.frequency_hz / lower.frequency_hz;
    const bool whole_parts = parts > 1.5 && std::abs(parts / std::round(parts) - 1.0) < 0.01;
    return whole_parts && lower.snr_db > noisy.snr_db + 10.0;
}

/// What a sound is instead of a string. Where it is one at an octave below its likeliest pitch (plucked over
/// another string of that pitch, which leaves the odd partials little to rise), that pitch becomes the first.
std::optional<std::string> judge_likeliest(const OctavePyramid& sound, const ToneSpan& span,
                                           std::vector<PluckMeasurement>& pitches)
{
    auto reason = other_than_string(sound, span, pitches.front());
    if (reason != "noise") return reason;
    const auto below = std::find_if(pitches.begin() + 1, pitches.end(), [&](const PluckMeasurement& pitch) {
        return explains_noise(pitch, pitches.front()) && !other_than_string(sound, span, pitch);
    });
    if (below == pitches.end()) return reason;
    std::rotate(pitches.begin(), below, below + 1);
    return std::nullopt;
}

/// How many times as high a candidate is as the likeliest pitch, if that is a whole number from 2 on.
std::optional<int> multiple_of(const PluckMeasurement& likeliest, const PitchCandidate& candidate)
{
    const double ratio = candidate.frequency_hz / likeliest.frequency_hz;
    const int multiple = static_cast<int>(std::lround(ratio));
    if (multiple < 2 || std::abs(ratio / multiple - 1.0) > multiple_share) return std::nullopt;
    return multiple;
}

/// The sound at one of its other pitches. Its partials are measured already where that is a multiple.
std::optional<PluckMeasurement> measure_rival(const OctavePyramid& sound, const ToneSpan& span,
                                              const PitchCandidate& candidate,
                                              const PluckMeasurement& likeliest)
{
    if (const auto multiple = multiple_of(likeliest, candidate)) return at_multiple(likeliest, *multiple);
    return measure_tone(sound, span, candidate);
}

/// The sound at each pitch that it may have, the likeliest first; nothing when that one leads nowhere.
std::vector<PluckMeasurement> measure_pitches(const OctavePyramid& sound, const ToneSpan& span,
                                              std::span<const PitchCandidate> candidates)
{
    std::vector<PluckMeasurement> pitches;
    for (const auto& candidate : candidates) {
        if (candidate.score < rival_score * candidates.front().score) break;
        auto measured = pitches.empty() ? measure_tone(sound, span, candidate)
                                        : measure_rival(sound, span, candidate, pitches.front());
        if (measured) pitches.push_back(std::move(*measured));
        if (pitches.empty()) break;
    }
    return pitches;
}

} // namespace

tl::expected<PluckMeasurement, std::string> judge_pluck(const OctavePyramid& sound, const ToneSpan& span,
                                                        std::span<const PitchCandidate> candidates)
{
    if (candidates.empty()) return tl::unexpected<std::string>("nothing new sounds");
    if (candidates.front().score < least_score) return tl::unexpected<std::string>("knock");
    std::vector<PluckMeasurement> pitches = measure_pitches(sound, span, candidates);
    if (pitches.empty()) return tl::unexpected<std::string>("knock");
    if (auto reason = judge_likeliest(sound, span, pitches)) return tl::unexpected(std::move(*reason));

    for (auto& pitch : pitches) {
        const double long_enough_s = std::min(shortest_tone_s, least_heard_periods / pitch.frequency_hz);
        if (span.until_s - span.onset_s < long_enough_s) pitch.doubts.push_back(Doubt::too_short);
        doubt_unsure(pitch);
    }
    PluckMeasurement likeliest = std::move(pitches.front());
    likeliest.rivals.assign(std::make_move_iterator(pitches.begin() + 1),
                            std::make_move_iterator(pitches.end()));
    return likeliest;
}

} // namespace harpkeep
