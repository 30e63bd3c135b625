// SPDX-License-Identifier: MIT
#include "measure/pluck_stream.hpp"

#include "measure/pluck_judgement.hpp"
#include "measure/tone_measurement.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep {

namespace {

constexpr double kept_s = 7.0;
constexpr double longest_tone_s = 4.6;        // the longest fit of the lowest string
constexpr double guard_before_next_s = 0.012; // the next onset may be named a little late
constexpr double onset_rate_hz = 16000.0;
constexpr std::size_t piece = 4096;
constexpr double first_estimate_s = 0.30, first_bass_estimate_s = 0.70, next_estimate_s = 0.25;
constexpr double bass_hz = 262.0;   // 4C
constexpr double syllable_s = 0.35; // what begins so soon after a syllable may be another

} // namespace

PluckStream::PluckStream(const Settings& settings)
    : settings_(settings),
      sound_(settings.rate_hz, kept_s),
      onset_level_(sound_.level_with_rate(onset_rate_hz)),
      detector_(sound_.rate_hz(onset_level_))
{
}

std::vector<PluckEvent> PluckStream::push(std::span<const float> samples)
{
    std::vector<PluckEvent> events;
    while (!samples.empty()) {
        const auto now = samples.first(std::min(piece, samples.size()));
        samples = samples.subspan(now.size());
        sound_.push(now);
        advance(events, false);
    }
    return events;
}

std::vector<PluckEvent> PluckStream::finish()
{
    std::vector<PluckEvent> events;
    sound_.finish();
    advance(events, true);
    return events;
}

void PluckStream::advance(std::vector<PluckEvent>& events, bool at_end)
{
    const auto& level = sound_.level(onset_level_);
    std::vector<Onset> found;
    detector_.push(level.range(onset_fed_, level.end()), found);
    onset_fed_ = level.end();
    if (at_end) detector_.finish(found);
    onsets_.insert(onsets_.end(), found.begin(), found.end());

    const double now_s = sound_.complete_until_s();
    while (true) {
        if (!sounding_) {
            if (onsets_.empty()) return;
            sounding_ = Sounding{next_number_++, onsets_.front().time_s, 0.0, onsets_.front().assumed};
            onsets_.pop_front();
            if (!sounding_->assumed)
                events.emplace_back(PluckBegan{sounding_->number, Seconds{sounding_->onset_s}});
        }
        const bool next_known = !onsets_.empty();
        const double limit_s = sounding_->onset_s + longest_tone_s;
        const double until_s =
            next_known ? std::min(limit_s, onsets_.front().time_s - guard_before_next_s) : limit_s;
        if (now_s < until_s && !at_end) {
            if (settings_.estimates && !sounding_->assumed) estimate(*sounding_, now_s, events);
            return;
        }
        conclude(*sounding_, std::min(until_s, now_s), events);
        sounding_.reset();
    }
}

void PluckStream::conclude(const Sounding& pluck, double until_s, std::vector<PluckEvent>& events)
{
    const auto candidates = finder_(sound_, pluck.onset_s, until_s);
    auto judged = judge_pluck(sound_, {pluck.onset_s, until_s}, candidates);
    if (pluck.assumed && !judged) return;
    if (pluck.assumed) events.emplace_back(PluckBegan{pluck.number, Seconds{pluck.onset_s}});
    const bool in_talk = pluck.onset_s - last_talk_s_ < syllable_s;
    if (in_talk || (!judged && judged.error() == talk_reason)) last_talk_s_ = pluck.onset_s;
    if (judged && in_talk) {
        judged->doubts.push_back(Doubt::disturbed);
        for (auto& rival : judged->rivals) rival.doubts.push_back(Doubt::disturbed);
    }
    if (judged)
        events.emplace_back(PluckEnded{pluck.number, Seconds{until_s}, std::move(*judged)});
    else
        events.emplace_back(SoundIgnored{pluck.number, Seconds{pluck.onset_s}, judged.error()});
}

void PluckStream::estimate(Sounding& pluck, double now_s, std::vector<PluckEvent>& events)
{
    if (pluck.next_estimate_s == 0.0) pluck.next_estimate_s = pluck.onset_s + first_estimate_s;
    if (now_s < pluck.next_estimate_s) return;
    pluck.next_estimate_s = now_s + next_estimate_s;
    const auto candidates = finder_(sound_, pluck.onset_s, now_s);
    if (candidates.empty()) return;
    // A low string has not turned often enough yet to be named.
    if (candidates.front().frequency_hz < bass_hz && now_s < pluck.onset_s + first_bass_estimate_s) {
        pluck.next_estimate_s = pluck.onset_s + first_bass_estimate_s;
        return;
    }
    auto judged = judge_pluck(sound_, {pluck.onset_s, now_s}, candidates);
    if (judged) events.emplace_back(PluckEstimated{pluck.number, Seconds{now_s}, std::move(*judged)});
}

} // namespace harpkeep
