// SPDX-License-Identifier: MIT
#include "live/guided_check.hpp"

#include "base/expects.hpp"
#include "units/interval.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace harpkeep {

namespace {

// Three letters heard in a forbidden position cannot be three pedals forgotten: it is the setting as a whole.
constexpr std::size_t letters_of_a_whole_setting = 3;
constexpr int near_turn = 4;             // strings
constexpr Seconds least_ring{1.2};       // syllables were heard for up to 0.9 s
constexpr double clearly_likelier = 3.0; // odds of 20 to 1
// Two plucks of one string that are nearer than that, besides their uncertainty, both count; as in the
// analysis of recordings (measure/check_assembly.cpp).
constexpr double repeats_agree_cents = 2.0;

std::size_t index_of(Letter letter)
{
    return static_cast<std::size_t>(letter);
}

bool contains(const std::vector<CheckTarget>& targets, const CheckTarget& target)
{
    return std::find(targets.begin(), targets.end(), target) != targets.end();
}

CheckTarget target_of(const Reading& reading)
{
    return {reading.place, reading.position};
}

template <class Claims>
void forget_pluck(Claims& claims, int pluck)
{
    std::erase_if(claims, [&](const auto& claim) { return claim.pluck == pluck; });
}

} // namespace

Result<GuidedCheck> GuidedCheck::begin(HarpLayout layout, const CheckPlanRequest& request,
                                       const GuidedCheckSettings& settings)
{
    return resume(std::move(layout), GuidedCheckState{.request = request}, settings);
}

Result<GuidedCheck> GuidedCheck::resume(HarpLayout layout, GuidedCheckState state,
                                        const GuidedCheckSettings& settings)
{
    auto plan = make_check_plan(layout, state.request);
    if (!plan) return failure(plan.error());
    const auto in_plan = [&](std::size_t station, const CheckTarget& target) {
        return station < plan->stations.size() && contains(plan->stations[station].targets, target);
    };
    bool fits = state.station < plan->stations.size();
    for (const KeptReading& kept : state.readings) fits &= in_plan(kept.station, target_of(kept.reading));
    for (const GivenUpTarget& given_up : state.given_up) fits &= in_plan(given_up.station, given_up.target);
    if (!fits)
        return failure(ErrorCode::corrupt,
                       "the check that was begun does not fit the strings of this harp any more; "
                       "begin a new one");
    GuidedCheck check{std::move(layout), std::move(*plan), std::move(state), settings};
    GuidedCheckOutcome ignored;
    const std::size_t station = check.state_.station;
    if (check.pending_in(station).empty())
        check.advance(ignored);
    else
        check.enter_station(station, ignored);
    return check;
}

GuidedCheck::GuidedCheck(HarpLayout layout, CheckPlan plan, GuidedCheckState state,
                         const GuidedCheckSettings& settings)
    : layout_(std::move(layout)),
      plan_(std::move(plan)),
      state_(std::move(state)),
      settings_(settings),
      left_before_(plan_.stations.size(), false)
{
}

GuidedCheckOutcome GuidedCheck::handle(const PluckEvent& event)
{
    GuidedCheckOutcome outcome;
    if (!paused_ && !complete_) std::visit([&](const auto& specific) { on(specific, outcome); }, event);
    return outcome;
}

void GuidedCheck::on(const PluckBegan& event, GuidedCheckOutcome&)
{
    sounding_ = event.pluck;
    heard_.reset();
}

void GuidedCheck::on(const PluckEstimated& event, GuidedCheckOutcome& outcome)
{
    if (sounding_ && event.pluck < *sounding_) return; // the player has gone on
    const auto known_already = std::any_of(settled_.begin(), settled_.end(),
                                           [&](const Claim& claim) { return claim.pluck == event.pluck; });
    const auto candidates = locate_string(event.so_far, knowledge_before(event.pluck));
    if (!believes(candidates)) {
        heard_.reset();
        return;
    }
    const StringCandidate& best = candidates.front();
    heard_ = heard_as(best.target, at_pitch_of(event.so_far, best));
    const bool asked = best.fit == Fit::awaited || best.fit == Fit::pending;
    if (known_already || !asked || !heard_->good) return;
    settled_.push_back({event.pluck, best.target});
    say({.kind = NoticeKind::settled, .target = best.target}, outcome);
}

void GuidedCheck::on(const PluckEnded& event, GuidedCheckOutcome& outcome)
{
    forget_pluck(settled_, event.pluck);
    const auto candidates = locate_string(event.measurement, knowledge_before(event.pluck));
    if (candidates.empty()) {
        say({.kind = NoticeKind::unplaced}, outcome);
        return;
    }
    if (is_poor(candidates.front(), event)) {
        say({.kind = NoticeKind::ignored, .reason = "unsteady, or too faint to be a string asked for"},
            outcome);
        return;
    }
    if (!believes(candidates)) {
        note_ambiguous(candidates, event, outcome);
        return;
    }
    asked_pair_.clear();
    conclude(candidates.front(),
             {event.pluck, event.time, at_pitch_of(event.measurement, candidates.front())}, outcome);
}

void GuidedCheck::on(const SoundIgnored& event, GuidedCheckOutcome& outcome)
{
    forget_pluck(settled_, event.pluck);
    say({.kind = NoticeKind::ignored, .reason = event.reason}, outcome);
}

void GuidedCheck::conclude(const StringCandidate& candidate, const PluckEnded& event,
                           GuidedCheckOutcome& outcome)
{
    if (!sounding_ || event.pluck >= *sounding_) heard_ = heard_as(candidate.target, event.measurement);
    switch (candidate.fit) {
    case Fit::other_position:
    case Fit::far_position:
        attempts_.push_back({event.pluck, as_asked(candidate.target)});
        note_wrong_position(candidate.target, event, outcome);
        return;
    case Fit::next_part:
        if (good_enough(candidate.target, event.measurement))
            go_on_to_next_part(event, outcome);
        else
            reject(candidate.target, event.measurement, outcome);
        return;
    case Fit::not_asked:
        say({.kind = NoticeKind::not_asked, .target = candidate.target}, outcome);
        return;
    case Fit::awaited:
    case Fit::pending:
    case Fit::again:
    case Fit::earlier:
        break;
    }
    const bool kept_before = candidate.fit == Fit::again || candidate.fit == Fit::earlier;
    if (good_enough(candidate.target, event.measurement) ||
        (!kept_before && tries_are_used_up(candidate.target)))
        keep(candidate, event, outcome);
    else if (!kept_before) { // else the reading that is there stays
        attempts_.push_back({event.pluck, candidate.target});
        reject(candidate.target, event.measurement, outcome);
    }
}

void GuidedCheck::go_on_to_next_part(const PluckEnded& event, GuidedCheckOutcome& outcome)
{
    left_before_[state_.station] = true;
    say({.kind = NoticeKind::left_for_later, .count = static_cast<int>(pending_in(state_.station).size())},
        outcome);
    advance(outcome);
    on(event, outcome);
}

bool GuidedCheck::is_poor(const StringCandidate& best, const PluckEnded& event) const
{
    const double uncertainty_cents = event.measurement.uncertainty_cents;
    const double limit_cents = uncertainty_limit(best.target).value();
    if (uncertainty_cents > 5.0 * limit_cents) return true;
    const auto knowledge = knowledge_before(event.pluck);
    const bool in_turn =
        std::any_of(knowledge.awaited.begin(), knowledge.awaited.end(), [&](const CheckTarget& awaited) {
            return std::abs(awaited.place.diatonic_index() - best.target.place.diatonic_index()) <= near_turn;
        });
    const bool asked = best.fit == Fit::awaited || best.fit == Fit::pending || best.fit == Fit::again;
    if (asked && in_turn) return false;
    // Talk may hit the pitch of any string, but no syllable lasts as long.
    if (event.time.value() - event.measurement.start_s < least_ring.value()) return true;
    return !asked && !event.measurement.trusted() && uncertainty_cents > limit_cents;
}

CheckTarget GuidedCheck::as_asked(const CheckTarget& heard) const
{
    return {heard.place, station().setting[index_of(heard.place.letter)].value_or(heard.position)};
}

bool GuidedCheck::tries_are_used_up(const CheckTarget& target)
{
    if (tried_target_ != target) tries_ = 0;
    tried_target_ = target;
    return ++tries_ >= settings_.most_tries;
}

void GuidedCheck::reject(const CheckTarget& target, const PluckMeasurement& measurement,
                         GuidedCheckOutcome& outcome)
{
    CheckNotice notice{.kind = NoticeKind::too_uncertain, .target = target};
    if (!measurement.trusted()) {
        notice.kind = NoticeKind::ask_again;
        notice.doubt = measurement.doubts.front();
    }
    notice.uncertainty = Cents{measurement.uncertainty_cents};
    say(notice, outcome);
}

void GuidedCheck::keep(const StringCandidate& candidate, const PluckEnded& event, GuidedCheckOutcome& outcome)
{
    const CheckTarget target = candidate.target;
    const Retake retake = supersede_others(target, event.measurement);
    const Reading reading{target.place, target.position, settings_.file_index, event.measurement};
    state_.readings.push_back({.station = state_.station, .reading = reading});
    outcome.kept.push_back(state_.readings.back());

    confirmed_[index_of(target.place.letter)] = true;
    suspected_[index_of(target.place.letter)] = false;
    wrong_run_.clear();
    wrong_sounds_.clear();
    CheckNotice notice{.kind = NoticeKind::accepted, .target = target};
    if (retake == Retake::repeats) notice.kind = NoticeKind::repeated;
    if (retake == Retake::replaces) notice.kind = NoticeKind::replaced;
    notice.uncertainty = Cents{event.measurement.uncertainty_cents};
    if (!good_enough(target, event.measurement)) notice.kind = NoticeKind::accepted_doubtful;
    if (!event.measurement.trusted()) notice.doubt = event.measurement.doubts.front();
    say(notice, outcome);
    note_passed_over(target, outcome);
    claims_.push_back({event.pluck, target});
    note_pace(event.time);
    if (pending_in(state_.station).empty()) advance(outcome);
}

GuidedCheck::Retake GuidedCheck::supersede_others(const CheckTarget& target,
                                                  const PluckMeasurement& measurement)
{
    Retake retake = Retake::first;
    for (KeptReading& earlier : state_.readings) {
        if (earlier.station != state_.station || target_of(earlier.reading) != target || earlier.superseded)
            continue;
        const PluckMeasurement& before = earlier.reading.pluck;
        const double apart =
            std::abs(interval(Hertz{before.frequency_hz}, Hertz{measurement.frequency_hz}).value());
        const double allowed =
            repeats_agree_cents + 1.5 * std::max(before.uncertainty_cents, measurement.uncertainty_cents);
        const bool agrees = before.trusted() && measurement.trusted() && apart <= allowed;
        earlier.superseded = !agrees;
        if (retake != Retake::replaces) retake = agrees ? Retake::repeats : Retake::replaces;
    }
    return retake;
}

void GuidedCheck::note_passed_over(const CheckTarget& kept, GuidedCheckOutcome& outcome)
{
    if (claims_.empty()) return;
    const auto& targets = station().targets;
    const auto place_in_order = [&](const CheckTarget& target) {
        return std::find(targets.begin(), targets.end(), target) - targets.begin();
    };
    const auto [low, high] = std::minmax({place_in_order(claims_.back().target), place_in_order(kept)});
    std::vector<CheckTarget> passed;
    for (const CheckTarget& pending : pending_in(state_.station)) {
        const auto place = place_in_order(pending);
        const bool settled = std::any_of(settled_.begin(), settled_.end(),
                                         [&](const Claim& claim) { return claim.target == pending; });
        if (place > low && place < high && !settled) passed.push_back(pending);
    }
    if (passed.empty()) return;
    say({.kind = NoticeKind::skipped, .target = passed.front(), .count = static_cast<int>(passed.size())},
        outcome);
}

void GuidedCheck::note_wrong_position(const CheckTarget& heard, const PluckEnded& event,
                                      GuidedCheckOutcome& outcome)
{
    suspected_[index_of(heard.place.letter)] = true;
    wrong_run_.push_back(heard);
    note_wrong_sound(event);
    if (note_whole_setting(outcome)) return;
    std::set<StringPlace> same_letter;
    for (const CheckTarget& wrong : wrong_run_)
        if (wrong.place.letter == heard.place.letter) same_letter.insert(wrong.place);
    CheckNotice notice{.kind = NoticeKind::wrong_position, .target = heard, .alternative = as_asked(heard)};
    if (layout_.kind != HarpKind::lever && same_letter.size() > 1) notice.kind = NoticeKind::pedal_wrong;
    say(notice, outcome);
}

void GuidedCheck::note_wrong_sound(const PluckEnded& event)
{
    wrong_sounds_.push_back({event, locate_string(event.measurement, knowledge_before(event.pluck))});
}

bool GuidedCheck::believes(const std::vector<StringCandidate>& candidates) const
{
    int asked_before = 0;
    if (candidates.size() > 1 && contains(asked_pair_, candidates[0].target) &&
        contains(asked_pair_, candidates[1].target))
        asked_before = asked_pair_count_;
    const bool in_doubt = setting_in_doubt() ||
                          (!candidates.empty() && suspected_[index_of(candidates[0].target.place.letter)]);
    return is_clear(candidates, in_doubt, asked_before);
}

bool GuidedCheck::setting_in_doubt() const
{
    return std::any_of(wrong_run_.begin(), wrong_run_.end(), [&](const CheckTarget& wrong) {
        return wrong.place.letter != wrong_run_.front().place.letter;
    });
}

void GuidedCheck::note_ambiguous(const std::vector<StringCandidate>& candidates, const PluckEnded& event,
                                 GuidedCheckOutcome& outcome)
{
    if (!event.measurement.trusted()) { // a better pluck may tell
        reject(candidates[0].target, event.measurement, outcome);
        return;
    }
    if (candidates.size() < 2) {
        say({.kind = NoticeKind::not_asked, .target = candidates[0].target}, outcome);
        return;
    }
    // The stranger one of the two goes second: its pedal is to be looked at.
    const bool swap = candidates[0].fit > candidates[1].fit;
    const bool same_pair =
        contains(asked_pair_, candidates[0].target) && contains(asked_pair_, candidates[1].target);
    asked_pair_ = {candidates[0].target, candidates[1].target};
    asked_pair_count_ = same_pair ? asked_pair_count_ + 1 : 1;
    const StringCandidate& likelier = candidates[swap ? 1 : 0];
    const StringCandidate& stranger = candidates[swap ? 0 : 1];
    if (stranger.fit == Fit::other_position || stranger.fit == Fit::far_position ||
        stranger.fit == Fit::next_part) {
        wrong_run_.push_back(stranger.target);
        note_wrong_sound(event);
        if (note_whole_setting(outcome)) return;
    }
    say({.kind = NoticeKind::ambiguous, .target = likelier.target, .alternative = stranger.target}, outcome);
}

std::optional<double>
GuidedCheck::cost_of_wrong_run(const std::function<bool(const CheckTarget&)>& belongs) const
{
    std::set<Letter> letters;
    double cost = 0.0;
    for (const WrongSound& wrong : wrong_sounds_) {
        const StringCandidate* likeliest = nullptr;
        for (const StringCandidate& candidate : wrong.candidates)
            if (candidate.measured && belongs(candidate.target) &&
                (!likeliest || candidate.pitch_cost < likeliest->pitch_cost))
                likeliest = &candidate;
        if (!likeliest) return std::nullopt;
        letters.insert(likeliest->target.place.letter);
        cost += likeliest->pitch_cost;
    }
    if (letters.size() < letters_of_a_whole_setting) return std::nullopt;
    return cost;
}

bool GuidedCheck::note_whole_setting(GuidedCheckOutcome& outcome)
{
    const auto as_before = cost_of_wrong_run([&](const CheckTarget& target) {
        return standing_before_[index_of(target.place.letter)] == target.position;
    });
    const auto next = next_unfinished_station();
    const auto as_next = next ? cost_of_wrong_run([&](const CheckTarget& target) {
        return contains(plan_.stations[*next].targets, target);
    })
                              : std::nullopt;
    // G flat is F sharp: what both explain is told apart by what the strings measured before.
    if (as_next && (!as_before || *as_next + clearly_likelier < *as_before)) {
        left_before_[state_.station] = true;
        say({.kind = NoticeKind::left_for_later,
             .count = static_cast<int>(pending_in(state_.station).size())},
            outcome);
        const auto sounds = std::move(wrong_sounds_);
        advance(outcome);
        for (const WrongSound& wrong : sounds) on(wrong.sound, outcome); // they belong to the part just begun
        return true;
    }
    if (!as_before || (as_next && *as_before + clearly_likelier > *as_next)) return false;
    say({.kind = NoticeKind::old_setting}, outcome);
    return true;
}

GuidedCheckOutcome GuidedCheck::leave_station()
{
    GuidedCheckOutcome outcome;
    if (complete_) return outcome;
    const auto pending = pending_in(state_.station);
    const auto next = next_unfinished_station();
    const bool nowhere_else = !next || *next == state_.station;
    if (left_before_[state_.station] || nowhere_else)
        for (const CheckTarget& target : pending) state_.given_up.push_back({state_.station, target});
    else
        say({.kind = NoticeKind::left_for_later, .count = static_cast<int>(pending.size())}, outcome);
    left_before_[state_.station] = true;
    advance(outcome);
    return outcome;
}

std::optional<KeptReading> GuidedCheck::take_back()
{
    const auto last = std::find_if(state_.readings.rbegin(), state_.readings.rend(),
                                   [](const KeptReading& kept) { return !kept.superseded; });
    if (last == state_.readings.rend()) return std::nullopt;
    last->superseded = true;
    complete_ = false;
    std::erase_if(claims_, [&](const Claim& claim) { return claim.target == target_of(last->reading); });
    GuidedCheckOutcome ignored;
    if (last->station != state_.station) enter_station(last->station, ignored);
    return *last;
}

void GuidedCheck::pause(bool paused)
{
    paused_ = paused;
    sounding_.reset();
    settled_.clear();
    last_kept_s_.reset();
}

void GuidedCheck::advance(GuidedCheckOutcome& outcome)
{
    const auto next = next_unfinished_station();
    if (!next) {
        complete_ = true;
        say({.kind = NoticeKind::complete}, outcome);
        return;
    }
    if (*next != state_.station) enter_station(*next, outcome);
}

void GuidedCheck::enter_station(std::size_t next, GuidedCheckOutcome& outcome)
{
    HARPKEEP_EXPECTS(next < plan_.stations.size());
    state_.station = next;
    claims_.clear();
    settled_.clear();
    attempts_.clear();
    wrong_run_.clear();
    wrong_sounds_.clear();
    suspected_.fill(false);
    to_move_.clear();
    standing_before_ = standing_;
    for (const Letter letter : pedal_order) {
        const auto wanted = station().setting[index_of(letter)];
        if (!wanted || wanted == standing_[index_of(letter)]) continue;
        to_move_.push_back(letter);
        confirmed_[index_of(letter)] = false;
        standing_[index_of(letter)] = wanted;
    }
    say({.kind = NoticeKind::new_setting}, outcome);
}

void GuidedCheck::say(CheckNotice notice, GuidedCheckOutcome& outcome)
{
    notice_ = notice;
    outcome.notices.push_back(std::move(notice));
}

} // namespace harpkeep
