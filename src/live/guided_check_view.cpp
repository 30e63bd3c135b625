// SPDX-License-Identifier: MIT
//
// What a guided check knows about itself: what is still to do, how it stands, how long it will take.
#include "harp/expected_pitch.hpp"
#include "live/guided_check.hpp"
#include "units/interval.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep {

namespace {

constexpr double first_guess_of_pace_s = 4.0;
constexpr double setting_time_s = 2.0;  ///< for each pedal to move
constexpr double longest_pace_s = 15.0; ///< longer pauses say nothing about the pace
constexpr std::size_t pace_memory = 15;
constexpr std::size_t beginnings_looked_at = 3; // two strings left out at once are rare

bool contains(const std::vector<CheckTarget>& targets, const CheckTarget& target)
{
    return std::find(targets.begin(), targets.end(), target) != targets.end();
}

CheckTarget target_of(const Reading& reading)
{
    return {reading.place, reading.position};
}

} // namespace

std::vector<CheckTarget> GuidedCheck::pending_in(std::size_t index) const
{
    std::vector<CheckTarget> pending = plan_.stations[index].targets;
    std::erase_if(pending, [&](const CheckTarget& target) {
        const auto counts = [&](const KeptReading& kept) {
            return kept.station == index && !kept.superseded && target_of(kept.reading) == target;
        };
        return std::any_of(state_.readings.begin(), state_.readings.end(), counts) ||
               std::find(state_.given_up.begin(), state_.given_up.end(), GivenUpTarget{index, target}) !=
                   state_.given_up.end();
    });
    return pending;
}

std::optional<GuidedCheck::Claim> GuidedCheck::latest_before(int pluck, bool with_attempts) const
{
    std::optional<Claim> latest;
    const auto look_at = [&](const Claim& claim) {
        if (claim.pluck < pluck && (!latest || claim.pluck >= latest->pluck)) latest = claim;
    };
    std::for_each(claims_.begin(), claims_.end(), look_at);
    std::for_each(settled_.begin(), settled_.end(), look_at);
    if (with_attempts) std::for_each(attempts_.begin(), attempts_.end(), look_at);
    return latest;
}

std::vector<CheckTarget> GuidedCheck::awaited_before(int pluck, const std::vector<CheckTarget>& pending) const
{
    if (pending.empty()) return {};
    const auto latest = latest_before(pluck, true);
    if (!latest) return {pending.front()};
    const auto& order = station().targets;
    const auto place_of = [&](const CheckTarget& target) {
        return std::find(order.begin(), order.end(), target) - order.begin();
    };
    const auto here = place_of(latest->target);
    const auto at = std::find_if(pending.begin(), pending.end(),
                                 [&](const CheckTarget& target) { return place_of(target) >= here; });
    const bool again = at != pending.end() && place_of(*at) == here; // heard, but not kept
    const auto after = again ? at + 1 : at;

    std::vector<CheckTarget> neighbours;
    if (after != pending.end()) neighbours.push_back(*after);
    if (at != pending.begin()) neighbours.push_back(*(at - 1));
    const bool downwards =
        claims_.size() > 1 && place_of(claims_.back().target) < place_of((claims_.end() - 2)->target);
    if (downwards) std::reverse(neighbours.begin(), neighbours.end());
    if (again) neighbours.insert(neighbours.begin(), *at);
    return neighbours;
}

std::optional<std::size_t> GuidedCheck::next_unfinished_station() const
{
    const std::size_t count = plan_.stations.size();
    for (const bool closing : {false, true})
        for (std::size_t step = 1; step <= count; ++step) {
            const std::size_t index = (state_.station + step) % count;
            if (plan_.stations[index].closing == closing && !pending_in(index).empty()) return index;
        }
    return std::nullopt;
}

std::vector<CheckTarget> GuidedCheck::beginnings_of_next_part(int pluck) const
{
    const auto latest = latest_before(pluck, true);
    const auto next = next_unfinished_station();
    if (pending_in(state_.station).size() > std::max<std::size_t>(1, station().targets.size() / 4)) return {};
    if (!latest || !next || *next == state_.station || plan_.stations[*next].closing) return {};
    const auto& order = station().targets;
    const auto size = static_cast<std::ptrdiff_t>(order.size());
    const auto here = std::find(order.begin(), order.end(), latest->target) - order.begin();
    // The last string may be among those left out, unless there are only a few.
    const std::ptrdiff_t margin = size > 4 ? 2 : 1;
    const bool at_end = here >= size - margin && here < size;
    const bool at_begin = here < margin && claims_.size() > 1; // gone through in the other direction
    if (!at_end && !at_begin) return {};
    std::vector<CheckTarget> beginnings = pending_in(*next);
    if (!at_end) std::reverse(beginnings.begin(), beginnings.end());
    beginnings.resize(std::min(beginnings.size(), beginnings_looked_at));
    return beginnings;
}

LocatorKnowledge GuidedCheck::knowledge_before(int pluck) const
{
    LocatorKnowledge knowledge{.layout = &layout_, .a4 = settings_.a4, .setting = station().setting};
    knowledge.confirmed = confirmed_;
    knowledge.suspected = suspected_;
    knowledge.pending = pending_in(state_.station);
    for (const KeptReading& kept : state_.readings) {
        if (kept.superseded) continue;
        knowledge.known.push_back({target_of(kept.reading), Hertz{kept.reading.pluck.frequency_hz}});
        if (kept.station == state_.station) knowledge.done.push_back(target_of(kept.reading));
    }
    if (const auto latest = latest_before(pluck, false))
        knowledge.last = latest->target;
    else if (!knowledge.done.empty())
        knowledge.last = knowledge.done.back();
    for (const Claim& claim : settled_) {
        if (claim.pluck >= pluck) continue;
        knowledge.done.push_back(claim.target);
        std::erase(knowledge.pending, claim.target);
    }
    knowledge.awaited = awaited_before(pluck, knowledge.pending);
    knowledge.setting_in_doubt = setting_in_doubt();
    knowledge.next_part = beginnings_of_next_part(pluck);
    return knowledge;
}

Cents GuidedCheck::uncertainty_limit(const CheckTarget& target) const
{
    return target.place.harp_octave() <= 1 ? settings_.good_uncertainty_top : settings_.good_uncertainty;
}

bool GuidedCheck::good_enough(const CheckTarget& target, const PluckMeasurement& measurement) const
{
    return measurement.trusted() && measurement.uncertainty_cents <= uncertainty_limit(target).value();
}

const Reading* GuidedCheck::counting_reading(const CheckTarget& target) const
{
    for (auto kept = state_.readings.rbegin(); kept != state_.readings.rend(); ++kept)
        if (!kept->superseded && target_of(kept->reading) == target) return &kept->reading;
    return nullptr;
}

HeardNow GuidedCheck::heard_as(const CheckTarget& target, const PluckMeasurement& measurement) const
{
    HeardNow heard{.target = target, .uncertainty = Cents{measurement.uncertainty_cents}};
    heard.good = good_enough(target, measurement);
    const Hertz frequency{measurement.frequency_hz};
    const HarpString& string = *find_string(layout_, target.place);
    heard.deviation = interval(expected_pitch(string, target.position, settings_.a4), frequency);
    // From the nearest lower position that was kept: a step.
    for (int below = 1; below <= semitones_above_open(target.position); ++below)
        for (const Position position : positions_of(layout_.kind, string)) {
            if (semitones_above_open(position) != semitones_above_open(target.position) - below) continue;
            const Reading* lower = counting_reading({target.place, position});
            if (!lower || heard.is_step) continue;
            heard.is_step = true;
            heard.deviation = interval(Hertz{lower->pluck.frequency_hz}, frequency) - Cents{100.0 * below};
            heard.uncertainty =
                Cents{std::hypot(lower->pluck.uncertainty_cents, measurement.uncertainty_cents)};
        }
    return heard;
}

std::optional<HarpDrift> GuidedCheck::drift() const
{
    std::vector<Reading> first;
    std::vector<Reading> again;
    for (const KeptReading& kept : state_.readings)
        if (!kept.superseded) (plan_.stations[kept.station].closing ? again : first).push_back(kept.reading);
    return harp_drift(first, again);
}

void GuidedCheck::note_pace(Seconds time)
{
    if (last_kept_s_) {
        const double pace_s = time.value() - *last_kept_s_;
        if (pace_s > 0.0 && pace_s < longest_pace_s) pace_s_.push_back(pace_s);
        if (pace_s_.size() > pace_memory) pace_s_.erase(pace_s_.begin());
    }
    last_kept_s_ = time.value();
}

std::optional<Seconds> GuidedCheck::time_left() const
{
    if (complete_) return std::nullopt;
    double pace_s = first_guess_of_pace_s;
    if (pace_s_.size() >= 3) {
        auto sorted = pace_s_;
        std::sort(sorted.begin(), sorted.end());
        pace_s = sorted[sorted.size() / 2];
    }
    double left_s = 0.0;
    LetterPositions standing = standing_;
    for (std::size_t index = 0; index < plan_.stations.size(); ++index) {
        const auto pending = pending_in(index).size();
        if (pending == 0) continue;
        left_s += pace_s * static_cast<double>(pending);
        if (index == state_.station) continue;
        for (std::size_t letter = 0; letter < standing.size(); ++letter) {
            const auto wanted = plan_.stations[index].setting[letter];
            if (!wanted || wanted == standing[letter]) continue;
            left_s += setting_time_s;
            standing[letter] = wanted;
        }
    }
    return Seconds{left_s};
}

GuidedCheckView GuidedCheck::view() const
{
    GuidedCheckView view{.station = state_.station, .station_count = plan_.stations.size()};
    view.closing = station().closing;
    view.setting = station().setting;
    view.to_move = to_move_;
    view.single_lever = station().single_string;
    view.total = plan_.target_count();
    view.done = view.total - state_.given_up.size();
    for (std::size_t index = 0; index < plan_.stations.size(); ++index) view.done -= pending_in(index).size();
    view.heard = heard_;
    view.notice = notice_;
    view.paused = paused_;
    view.complete = complete_;
    view.time_left = time_left();
    view.drift = drift();

    const auto knowledge = knowledge_before(std::numeric_limits<int>::max());
    if (!complete_ && !knowledge.awaited.empty()) view.next = knowledge.awaited.front();
    // Passed over: still pending although a later and an earlier one are done.
    const auto& order = station().targets;
    const auto is_done = [&](const CheckTarget& target) { return contains(knowledge.done, target); };
    const auto first_done = std::find_if(order.begin(), order.end(), is_done);
    const auto last_done = std::find_if(order.rbegin(), order.rend(), is_done);
    for (const CheckTarget& target : knowledge.pending) {
        const auto place = std::find(order.begin(), order.end(), target);
        if (first_done != order.end() && place > first_done && place < last_done.base())
            view.passed_over.push_back(target);
    }
    return view;
}

} // namespace harpkeep
