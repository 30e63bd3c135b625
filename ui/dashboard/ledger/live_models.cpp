// SPDX-License-Identifier: MIT
#include "ui/dashboard/ledger/live_models.hpp"

#include "measure/step_measurement.hpp"
#include "reason/step_verdict.hpp"
#include "ui/dashboard/ledger/ledger_words.hpp"
#include "ui/dashboard/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace harpkeep::dashboard {

namespace {

LivePhase phase_after(NoticeKind kind)
{
    switch (kind) {
    case NoticeKind::new_setting:
        return LivePhase::set_pedals;
    case NoticeKind::settled:
    case NoticeKind::accepted:
    case NoticeKind::accepted_doubtful:
    case NoticeKind::repeated:
    case NoticeKind::replaced:
        return LivePhase::accepted;
    case NoticeKind::ask_again:
    case NoticeKind::too_uncertain:
    case NoticeKind::wrong_position:
    case NoticeKind::pedal_wrong:
    case NoticeKind::old_setting:
    case NoticeKind::ambiguous:
    case NoticeKind::not_asked:
    case NoticeKind::unplaced:
        return LivePhase::ask_again;
    case NoticeKind::complete:
        return LivePhase::finished;
    case NoticeKind::ignored:
    case NoticeKind::skipped:
    case NoticeKind::left_for_later:
        break;
    }
    return LivePhase::listening;
}

std::string instruction_for(LivePhase phase, const ui::LiveCheckView& live)
{
    const std::string next = live.check.next ? target_text(*live.check.next) : std::string{};
    switch (phase) {
    case LivePhase::opening:
        return text::live_opening;
    case LivePhase::judging_room:
        return text::live_be_silent;
    case LivePhase::device_lost:
        return text::live_device_lost;
    case LivePhase::paused:
        return text::live_paused;
    case LivePhase::finished:
        return text::live_finished;
    case LivePhase::hearing:
        return text::live_let_ring;
    case LivePhase::accepted:
        return fmt::format(text::live_good_format, next);
    case LivePhase::set_pedals:
        return fmt::format(text::live_set_format, next);
    case LivePhase::ask_again:
        return fmt::format(text::live_again_format, next);
    case LivePhase::setting_up:
    case LivePhase::listening:
        break;
    }
    return fmt::format(text::live_pluck_format, next);
}

PedalSetting pedals_of(const LetterPositions& setting)
{
    PedalSetting pedals;
    pedals.alterations.fill(-1);
    for (std::size_t letter = 0; letter < setting.size(); ++letter)
        if (setting[letter]) pedals.alterations[letter] = semitones_above_open(*setting[letter]) - 1;
    return pedals;
}

const Reading* reading_at(const GuidedCheckState& state, StringPlace place, Position position)
{
    for (auto kept = state.readings.rbegin(); kept != state.readings.rend(); ++kept)
        if (!kept->superseded && kept->reading.place == place && kept->reading.position == position)
            return &kept->reading;
    return nullptr;
}

void add_strings(GuidedModel& model, const HarpLayout& layout, const GuidedCheckState& state)
{
    for (const auto& string : layout.strings) {
        GuidedString out{.place = string.place};
        out.positions.fill(ReadingProgress::no_position);
        for (const Position position : positions_of(layout.kind, string)) {
            const auto* reading = reading_at(state, string.place, position);
            out.positions[static_cast<std::size_t>(semitones_above_open(position))] =
                reading == nullptr         ? ReadingProgress::open
                : reading->pluck.trusted() ? ReadingProgress::done
                                           : ReadingProgress::doubtful;
        }
        model.strings.push_back(out);
    }
}

/// The step of a reading down to the position below it, when that was sounded too.
std::optional<StepError> closed_step(const HarpLayout& layout, const GuidedCheckState& state,
                                     const Reading& reading)
{
    for (const Step step : {Step::lower, Step::upper}) {
        const auto [low, high] = positions_of_step(layout.kind, step);
        if (high != reading.position) continue;
        const auto* below = reading_at(state, reading.place, low);
        if (below == nullptr) continue;
        const auto size = measure_step(below->pluck, reading.pluck);
        if (!size) continue;
        return StepError{reading.place, step, size->size_cents - 100.0, size->uncertainty_cents,
                         size->degrees_of_freedom};
    }
    return std::nullopt;
}

TuningString tuning_string(StringPlace place, const TuningRequest& request)
{
    TuningString out{.place = place};
    for (const auto& offset : request.offsets)
        if (offset.place == place) out.target_offset_cents = offset.offset.value();
    return out;
}

} // namespace

LivePhase phase_of(const ui::LiveCheckView& live)
{
    if (live.check.complete) return LivePhase::finished;
    if (!live.trouble.empty()) return LivePhase::device_lost;
    if (!live.device) return LivePhase::opening;
    if (live.judging_room) return LivePhase::judging_room;
    if (live.check.paused) return LivePhase::paused;
    if (live.check.heard) return live.check.heard->good ? LivePhase::accepted : LivePhase::hearing;
    return live.check.notice ? phase_after(live.check.notice->kind) : LivePhase::listening;
}

RoomSound room_sound(const RoomReport& report)
{
    RoomSound room{.state = report.problems.empty() ? State::fine : State::watch};
    if (report.pluck || report.peak) room.level_db = (report.pluck ? *report.pluck : *report.peak).value();
    if (report.noise) room.noise_db = report.noise->value();
    for (const RoomProblem problem : report.problems) {
        if (problem == RoomProblem::dead_source || problem == RoomProblem::clipping) room.state = State::out;
        room.advice += (room.advice.empty() ? "" : " ") + std::string{problem_advice(problem)};
    }
    if (report.problems.empty()) room.advice = text::room_good;
    return room;
}

std::vector<AcceptedReading> recent_readings(const HarpLayout& layout, const GuidedCheckState& state,
                                             const ToleranceSettings& tolerance, std::size_t most)
{
    std::vector<AcceptedReading> out;
    for (auto kept = state.readings.rbegin(); kept != state.readings.rend() && out.size() < most; ++kept) {
        if (kept->superseded) continue;
        const Reading& reading = kept->reading;
        AcceptedReading accepted{.place = reading.place, .position = reading.position};
        accepted.state = reading.pluck.trusted() ? State::fine : State::unsure;
        const auto step = reading.pluck.trusted() ? closed_step(layout, state, reading) : std::nullopt;
        if (step) {
            accepted.closes_step = true;
            accepted.step_cents = {step->error_cents, step->uncertainty_cents};
            const std::vector<StepError> steps{*step};
            for (const auto& verdict : judge_steps(steps, {}, tolerance)) accepted.state = state_of(verdict);
        }
        out.push_back(accepted);
    }
    return out;
}

GuidedModel guided_from(const HarpLayout& layout, const ui::LiveCheckView& live,
                        std::vector<AcceptedReading> recent)
{
    GuidedModel model;
    model.kind = layout.kind;
    model.phase = phase_of(live);
    const auto& check = live.check;
    const auto target = model.phase == LivePhase::hearing ? std::optional{check.heard->target} : check.next;
    if (target) {
        model.place = target->place;
        model.position = target->position;
    }
    model.instruction = instruction_for(model.phase, live);
    if (!live.trouble.empty())
        model.reason = live.trouble;
    else if (live.device && !live.device->warning.empty() && model.phase == LivePhase::judging_room)
        model.reason = live.device->warning;
    else if (check.notice && model.phase != LivePhase::accepted && model.phase != LivePhase::hearing)
        model.reason = notice_text(*check.notice, layout.kind);
    model.pedals = pedals_of(check.setting);
    if (check.heard) {
        model.heard_cents = Figure{check.heard->deviation.value(), check.heard->uncertainty.value()};
        model.heard_is_step = check.heard->is_step;
    }
    if (live.room) model.room = room_sound(*live.room);
    model.done = static_cast<int>(check.done);
    model.total = static_cast<int>(check.total);
    if (check.time_left) model.seconds_left = check.time_left->value();
    if (check.drift)
        model.reason = fmt::format(text::live_drift_format, check.drift->shift.value(),
                                   check.drift->uncertainty.value());
    if (live.state) add_strings(model, layout, *live.state);
    model.recent = std::move(recent);
    return model;
}

TuningModel tuning_before(const HarpLayout& layout, const TuningRequest& request)
{
    TuningModel model;
    model.kind = layout.kind;
    model.a4_hz = request.a4.value();
    for (const auto& string : layout.strings) model.strings.push_back(tuning_string(string.place, request));
    return model;
}

TuningModel tuning_from(const HarpLayout& layout, const ui::LiveTuningView& live,
                        const ui::LiveTuningRequest& request)
{
    TuningModel model = tuning_before(layout, request.tuning);
    model.listening = true;
    model.device_lost = !live.trouble.empty();
    model.a4_hz = live.a4.value();
    model.good_within_cents = request.tolerance.value();
    model.pass = live.tuning.pass;
    model.place_fixed = live.tuning.chosen;
    if (live.tuning.target) model.place = live.tuning.target->place;
    if (live.tuning.pitch)
        model.off_cents =
            Figure{live.tuning.pitch->deviation.value(), live.tuning.pitch->uncertainty.value()};
    if (!live.trouble.empty())
        model.instruction = live.trouble;
    else if (!live.device)
        model.instruction = text::live_opening;
    else if (live.waiting_for_tone)
        model.instruction = text::tune_sound_a;
    else if (model.off_cents)
        model.instruction = std::abs(model.off_cents->value) <= model.good_within_cents ? text::tune_true
                            : model.off_cents->value < 0.0                              ? text::tune_low
                                                                                        : text::tune_high;
    if (!live.strings) return model;
    for (auto& string : model.strings) {
        const auto known = std::find_if(live.strings->begin(), live.strings->end(),
                                        [&](const StringTuning& s) { return s.place == string.place; });
        if (known == live.strings->end()) continue;
        if (known->deviation)
            string.last_cents = Figure{known->deviation->value(), known->uncertainty.value()};
        string.mark = known->done ? TuningMark::done : known->sank ? TuningMark::sank : TuningMark::open;
    }
    return model;
}

} // namespace harpkeep::dashboard
