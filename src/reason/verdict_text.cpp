// SPDX-License-Identifier: MIT
#include "reason/verdict_text.hpp"

#include "reason/words.hpp"
#include "units/format.hpp"
#include "units/format_amount.hpp"

#include <fmt/format.h>

#include <cmath>

namespace harpkeep {

namespace {

std::string positions_listed(std::span<const Position> positions)
{
    std::vector<std::string> names;
    for (const Position position : positions) names.emplace_back(position_name(position));
    return listed(names);
}

std::string at_place(const Reason& reason)
{
    return reason.place ? harp_name(*reason.place) : std::string{};
}

std::string neck_words(CauseKind cause)
{
    switch (cause) {
    case CauseKind::slope:
        return "a slope along the neck";
    case CauseKind::bend:
        return "a bend along the neck";
    default:
        return "a general offset of all strings";
    }
}

std::string other_strings(int count)
{
    return count > 1 ? fmt::format(" and {}", how_many(count - 1, "other", "others")) : std::string{};
}

} // namespace

std::string_view conformity_words(Conformity conformity)
{
    switch (conformity) {
    case Conformity::within:
        return "within tolerance";
    case Conformity::out:
        return "out of tolerance";
    case Conformity::not_proven:
        break;
    }
    return "not proven";
}

std::string step_sentence(const StepVerdict& verdict, HarpKind kind)
{
    std::string text = fmt::format("{} {}: {}, {} ({})", harp_name(verdict.place),
                                   step_words(kind, verdict.step), cents_words(verdict.error),
                                   conformity_words(verdict.conformity), band_words(verdict.tolerance));
    if (verdict.conformity == Conformity::not_proven)
        text += fmt::format(", {} to be within", probability_text(verdict.probability_within));
    if (verdict.watch) text += "; to be watched";
    if (verdict.conformity == Conformity::not_proven && !verdict.plucks_factor)
        text += "; it lies on the limit, so more plucks would hardly decide";
    return text + ".";
}

std::string pluck_again_sentence(const PluckAgain& again)
{
    if (again.missing)
        return fmt::format("{} was not measured: sound it in {}.", harp_name(again.place),
                           positions_listed(again.positions));
    return fmt::format("Pluck {} again in {}, about {} times as often as before.", harp_name(again.place),
                       positions_listed(again.positions), again.plucks_factor);
}

std::string tolerance_sentence(const ToleranceSettings& settings)
{
    std::string bands = band_words(settings.standard);
    for (const auto& [octave, band] : settings.by_harp_octave)
        bands += fmt::format(", octave {} {}", octave, band_words(band));
    const auto how = fmt::format("A step is called within or out when that is {} certain, else not proven.",
                                 percent_text(settings.rule.confidence));
    if (settings.is_project_default())
        return fmt::format("Judged against {}: this program's own choice, as no open source states a "
                           "tolerance; set your own. {}",
                           bands, how);
    return fmt::format("Judged against {}, as set for this harp. {}", bands, how);
}

std::string whole_step_sentence(const ToleranceSettings& settings)
{
    return fmt::format(
        "Flat to sharp may be off by {:g} times a step's tolerance; a step is watched from {:g} of it on.",
        settings.whole_step_factor, settings.watch_share);
}

std::string_view urgency_sentence(Urgency urgency)
{
    switch (urgency) {
    case Urgency::call_now:
        return "Call the technician now.";
    case Urgency::next_visit:
        return "Have it seen to at the next visit.";
    case Urgency::not_needed:
        return "No technician is needed now.";
    case Urgency::cannot_say:
        break;
    }
    return "It cannot be said yet.";
}

std::string reason_sentence(const Reason& reason, HarpKind kind)
{
    const auto interval = cents_words(reason.cents, reason.lower_cents, reason.upper_cents);
    switch (reason.kind) {
    case ReasonKind::pedal_off:
        return fmt::format("The {} pedal is off by {}, seen on {}.", letter_name(*reason.pedal), interval,
                           how_many(reason.rests_on, "string", "strings"));
    case ReasonKind::steps_far_out:
        return fmt::format("{} of {} beyond twice the tolerance, worst {} with {}.",
                           how_many(reason.count, "step", "steps"), reason.of, at_place(reason), interval);
    case ReasonKind::steps_out:
        return fmt::format("{} of {} proven out of tolerance, worst {} with {}.",
                           how_many(reason.count, "step", "steps"), reason.of, at_place(reason), interval);
    case ReasonKind::neck_off:
        return fmt::format("There is {} of {}, from {}.", neck_words(*reason.cause), interval,
                           how_many(reason.rests_on, "step", "steps"));
    case ReasonKind::string_off:
        return fmt::format("{} by {} of its own, apart from pedals and neck.",
                           reason.count == 1
                               ? at_place(reason) + " is off"
                               : fmt::format("{} are off, worst {}",
                                             how_many(reason.count, "string", "strings"), at_place(reason)),
                           interval);
    case ReasonKind::poor_ring:
        return fmt::format("{}{} ring short in one position only, as with poor grip.", at_place(reason),
                           other_strings(reason.count));
    case ReasonKind::no_return:
        return fmt::format("{}{} do not come back to the open pitch after the {}.", at_place(reason),
                           other_strings(reason.count), kind == HarpKind::lever ? "lever" : "pedal");
    case ReasonKind::leaving:
        return fmt::format("{} likely to leave tolerance within {}: {} with {}, from {}.",
                           how_many(reason.count, "step is", "steps are"),
                           how_many(reason.months, "month", "months"), at_place(reason),
                           probability_text(reason.probability),
                           how_many(reason.rests_on, "check", "checks"));
    case ReasonKind::many_watched:
        return fmt::format("{} of {} steps have used up more than half of their tolerance.", reason.count,
                           reason.of);
    case ReasonKind::visit_due:
        return fmt::format("The last visit was {} ago, longer than usual.", span_text(reason.days));
    case ReasonKind::false_strings:
        return fmt::format("{}{} {} false: replace {} before discs are judged.", at_place(reason),
                           other_strings(reason.count), reason.count == 1 ? "sounds" : "sound",
                           reason.count == 1 ? "it" : "them");
    case ReasonKind::settling:
        return fmt::format("{} still settling; judge {} again in two weeks.",
                           how_many(reason.count, "new string is", "new strings are"),
                           reason.count == 1 ? "it" : "them");
    case ReasonKind::all_within:
        return fmt::format("{} of {} steps measured are proven within tolerance, none is out.", reason.count,
                           reason.of);
    case ReasonKind::no_fault_found:
        return fmt::format("No pedal, no string and nothing along the neck stands out of {} steps.",
                           reason.rests_on);
    case ReasonKind::visit_recent:
        return fmt::format("The last visit was {} ago.", span_text(reason.days));
    case ReasonKind::few_measured:
        return fmt::format("Only {} of {} steps were measured; half of them would suffice.", reason.count,
                           reason.of);
    case ReasonKind::many_not_proven:
        break;
    }
    return fmt::format("{} of {} steps lie too near the limit to be decided; pluck them again.", reason.count,
                       reason.of);
}

std::vector<std::string> verdict_sentences(const HarpVerdict& verdict, HarpKind kind)
{
    std::vector<std::string> sentences{std::string(urgency_sentence(verdict.urgency))};
    for (const auto& reason : verdict.reasons) sentences.push_back(reason_sentence(reason, kind));
    std::string counts =
        fmt::format("The harp as a whole: {}. Of {} steps {} measured: {} within, {} not proven, {} out, {} "
                    "watched",
                    conformity_words(verdict.conformity), verdict.expected, verdict.measured, verdict.within,
                    verdict.not_proven, verdict.out, verdict.watched);
    if (verdict.within > 0)
        counts += fmt::format("; of those within, {} may be out all the same",
                              count_text(verdict.expected_wrong_within));
    sentences.push_back(counts + ".");
    if (verdict.check_age_days && *verdict.check_age_days > 0)
        sentences.push_back(fmt::format("The check is {} old.", span_text(*verdict.check_age_days)));
    return sentences;
}

} // namespace harpkeep
