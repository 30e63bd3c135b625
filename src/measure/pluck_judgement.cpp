// SPDX-License-Identifier: MIT
#include "measure/pluck_judgement.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep {

namespace {

constexpr double least_score = 0.06;       // of a candidate: under this the peaks form no series
constexpr double least_periods = 30.0;     // of its longest partial: a string rings longer, a knock does not
constexpr double least_decay_s = 0.012;    // the shortest strings ring on for 20 ms
constexpr double lone_partial_hz = 2500.0; // a string lower than that has more than one partial
constexpr double telephone_share = 0.425;  // of the rate: what recordings hold (docs/methods/recordings.md)
constexpr double unsteady_cents = 6.0;     // no plucked string is as unsure as that: coughs and voices are
constexpr double unsure_cents = 2.5;       // may be a string, but nothing to set a harp by
constexpr double least_snr_db = 15.0;      // real strings in noise 10 dB below them keep 16 dB and more
constexpr double treble_hz = 500.0, least_treble_snr_db = 20.0; // the same: 25 dB and more
constexpr double least_fall_per_s = 0.1; // 60 dB in 70 s: no string rings as long, a voice does not fall
constexpr double steady_decay_s = 15.0, most_steady_share = 0.3; // of the power
constexpr double shortest_tone_s = 0.28; // nobody sounds the strings of a check as fast as syllables come
constexpr double least_heard_periods = 200.0; // short strings need less
constexpr double rival_score = 0.45; // of the best: others are measured too, for the placement to choose

/// A knock dies within a few periods; low strings are judged by the partials that carry them.
bool is_knock(const PluckMeasurement& measured, double rate_hz)
{
    const bool alone = measured.partials.size() == 1 && measured.frequency_hz < lone_partial_hz &&
                       2.0 * measured.frequency_hz < telephone_share * rate_hz;
    double periods = 0.0;
    for (const auto& partial : measured.partials)
        periods = std::max(periods, partial.decay_s * partial.frequency_hz);
    return measured.decay_s < least_decay_s || periods < least_periods || alone;
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

/// Noise lies between its peaks as well: breath, wind, coughs, hum that swells in a hiss.
bool is_noise(const PluckMeasurement& measured)
{
    const double least_db = measured.frequency_hz < treble_hz ? least_snr_db : least_treble_snr_db;
    return measured.snr_db < least_db;
}

/// A pitch that the doubtful uncertainty of a reading leaves too open to be used.
void doubt_unsure(PluckMeasurement& measured)
{
    const bool known =
        std::find(measured.doubts.begin(), measured.doubts.end(), Doubt::too_noisy) != measured.doubts.end();
    if (measured.uncertainty_cents > unsure_cents && !known) measured.doubts.push_back(Doubt::too_noisy);
}

} // namespace

tl::expected<PluckMeasurement, std::string> judge_pluck(const OctavePyramid& sound, const ToneSpan& span,
                                                        std::span<const PitchCandidate> candidates)
{
    if (candidates.empty()) return tl::unexpected<std::string>("nothing new sounds");
    if (candidates.front().score < least_score) return tl::unexpected<std::string>("knock");
    auto measured = measure_tone(sound, span, candidates.front());
    if (!measured) return tl::unexpected<std::string>("knock");
    if (is_knock(*measured, sound.rate_hz(0))) return tl::unexpected<std::string>("knock");
    if (is_noise(*measured)) return tl::unexpected<std::string>("noise");
    if (measured->uncertainty_cents > unsteady_cents || is_held(*measured))
        return tl::unexpected<std::string>(talk_reason);
    const double long_enough_s = std::min(shortest_tone_s, least_heard_periods / measured->frequency_hz);
    if (span.until_s - span.onset_s < long_enough_s) measured->doubts.push_back(Doubt::too_short);
    for (const auto& other : candidates.subspan(1)) {
        if (other.score < rival_score * candidates.front().score) continue;
        auto rival = measure_tone(sound, span, other);
        if (!rival) continue;
        doubt_unsure(*rival);
        measured->rivals.push_back(std::move(*rival));
    }
    doubt_unsure(*measured);
    return std::move(*measured);
}

} // namespace harpkeep
