// SPDX-License-Identifier: MIT
#include "ui/dashboard/ledger/ledger_today.hpp"

#include "base/expects.hpp"

#include "reason/cause_text.hpp"
#include "reason/harp_verdict.hpp"
#include "reason/verdict_text.hpp"
#include "reason/words.hpp"
#include "ui/dashboard/ledger/ledger_words.hpp"
#include "ui/dashboard/text.hpp"
#include "units/format_amount.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace harpkeep::dashboard {

namespace {

/// Everything reasoning says about the check.
struct Findings {
    std::vector<StepVerdict> verdicts;
    std::optional<CauseReport> causes;
    std::vector<StringCondition> conditions;
    HarpVerdict verdict;
    std::vector<PluckAgain> again;
};

Findings reasoned(const ui::HarpKnowledge& knowledge, const std::optional<DriftFit>& drift, Date today)
{
    const auto evidence = ui::harp_evidence(knowledge, days_since_epoch(today), &drift);
    return {evidence.steps, evidence.causes, evidence.conditions, judge_harp(evidence),
            pluck_again(knowledge.harp.details.layout, evidence.steps)};
}

State state_of(ReasonKind kind)
{
    switch (kind) {
    case ReasonKind::pedal_off:
    case ReasonKind::steps_far_out:
    case ReasonKind::steps_out:
    case ReasonKind::neck_off:
    case ReasonKind::string_off:
    case ReasonKind::poor_ring:
    case ReasonKind::no_return:
        return State::out;
    case ReasonKind::leaving:
    case ReasonKind::many_watched:
    case ReasonKind::visit_due:
    case ReasonKind::false_strings:
    case ReasonKind::settling:
        return State::watch;
    case ReasonKind::few_measured:
    case ReasonKind::many_not_proven:
        return State::unsure;
    case ReasonKind::all_within:
    case ReasonKind::no_fault_found:
    case ReasonKind::visit_recent:
        break;
    }
    return State::fine;
}

Verdict verdict_of(Urgency urgency)
{
    switch (urgency) {
    case Urgency::call_now:
        return Verdict::call_now;
    case Urgency::next_visit:
        return Verdict::next_visit;
    case Urgency::not_needed:
        return Verdict::not_needed;
    case Urgency::cannot_say:
        break;
    }
    return Verdict::too_little_data;
}

StepToday step_today(const Findings& findings, const HarpLayout& layout, const HarpString& string, Step step,
                     const ToleranceSettings& tolerance)
{
    StepToday out;
    const auto steps = steps_of(layout.kind, string);
    if (std::find(steps.begin(), steps.end(), step) == steps.end()) return out;
    const auto band = tolerance_of(tolerance, string.place, step);
    out.low_cents = band.lower;
    out.high_cents = band.upper;
    out.state = State::not_measured;
    for (const auto& verdict : findings.verdicts) {
        if (verdict.place != string.place || verdict.step != step) continue;
        out.state = dashboard::state_of(verdict);
        out.error_cents = Figure{verdict.error.value, verdict.error.uncertainty};
        out.why = step_sentence(verdict, layout.kind);
    }
    return out;
}

std::vector<std::string> causes_of(const Findings& findings, HarpKind kind, StringPlace place)
{
    std::vector<std::string> out;
    if (findings.causes)
        for (const auto& fault : findings.causes->faults)
            if (fault.place == place || (fault.pedal && *fault.pedal == place.letter && !fault.place))
                out.push_back(fault_sentence(fault, kind));
    for (const auto& condition : findings.conditions)
        if (condition.place == place) out.push_back(condition_sentence(condition, kind));
    return out;
}

std::vector<PedalToday> pedals_of(const Findings& findings, const HarpLayout& layout)
{
    std::vector<PedalToday> out;
    if (layout.kind == HarpKind::lever || !findings.causes) return out;
    for (const Letter letter : pedal_order) {
        PedalToday pedal{.letter = letter};
        for (const auto& effect : findings.causes->effects) {
            if (effect.kind != CauseKind::pedal || effect.pedal != letter || !effect.step) continue;
            // Half the 95 % interval is 1.96 standard uncertainties.
            const Figure figure{effect.cents, (effect.upper_cents - effect.lower_cents) / (2.0 * 1.96)};
            (*effect.step == Step::lower ? pedal.lower_cents : pedal.upper_cents) = figure;
        }
        for (const auto& fault : findings.causes->faults)
            if (fault.kind == CauseKind::pedal && fault.pedal == letter) pedal.state = State::out;
        for (const auto& fault : findings.causes->suspected)
            if (fault.kind == CauseKind::pedal && fault.pedal == letter && pedal.state == State::fine)
                pedal.state = State::unsure;
        out.push_back(pedal);
    }
    return out;
}

std::vector<Advice> to_do_from(const Findings& findings, HarpKind kind)
{
    std::vector<Advice> out;
    if (findings.verdict.urgency == Urgency::call_now || findings.verdict.urgency == Urgency::next_visit)
        out.push_back({std::string{urgency_sentence(findings.verdict.urgency)},
                       std::string{mechanism_caution}, State::out});
    constexpr std::size_t most_shown = 4;
    for (std::size_t i = 0; i < std::min(findings.again.size(), most_shown); ++i)
        out.push_back({pluck_again_sentence(findings.again[i]), "",
                       findings.again[i].missing ? State::not_measured : State::unsure});
    if (findings.again.size() > most_shown)
        out.push_back(
            {fmt::format(text::more_to_pluck_format, findings.again.size() - most_shown), "", State::unsure});
    for (const auto& condition : findings.conditions)
        if (condition.kind == ConditionKind::settling || condition.kind == ConditionKind::false_string)
            out.push_back({condition_sentence(condition, kind), "", State::watch});
    return out;
}

std::string note_of(const StoredCheck& check)
{
    const auto trusted = std::count_if(check.result.readings.begin(), check.result.readings.end(),
                                       [](const Reading& reading) { return reading.pluck.trusted(); });
    std::string out = fmt::format(text::check_note_format, iso_date(local_date(check.header.taken)), trusted,
                                  check.result.readings.size());
    if (check.header.temperature) out += fmt::format(", {:.0f} °C", check.header.temperature->value());
    if (check.header.humidity) out += fmt::format(text::humidity_note_format, check.header.humidity->value());
    return out + ".";
}

} // namespace

TodayModel today_from(const ui::HarpKnowledge& knowledge, const std::optional<DriftFit>& drift, Date today)
{
    HARPKEEP_EXPECTS(knowledge.check.has_value());
    const auto& layout = knowledge.harp.details.layout;
    const Findings findings = reasoned(knowledge, drift, today);
    TodayModel model;
    model.kind = layout.kind;
    model.checked_on = day_of(local_date(knowledge.check->header.taken));
    model.check_note = note_of(*knowledge.check);
    model.verdict = verdict_of(findings.verdict.urgency);
    for (const auto& reason : findings.verdict.reasons)
        model.reasons.push_back({reason_sentence(reason, layout.kind), "", state_of(reason.kind)});
    model.to_do = to_do_from(findings, layout.kind);
    for (const auto& string : layout.strings) {
        StringToday out{.place = string.place};
        out.lower = step_today(findings, layout, string, Step::lower, knowledge.tolerances);
        out.upper = step_today(findings, layout, string, Step::upper, knowledge.tolerances);
        for (const auto& life : knowledge.strings)
            if (life.string.place == string.place && !life.removal)
                out.string_now =
                    make_text(life.string.make) +
                    (life.string.put_on ? fmt::format(text::on_since_format, date_text(*life.string.put_on))
                                        : "");
        out.causes = causes_of(findings, layout.kind, string.place);
        model.strings.push_back(std::move(out));
    }
    model.pedals = pedals_of(findings, layout);
    return model;
}

} // namespace harpkeep::dashboard
