// SPDX-License-Identifier: MIT
#include "reason/step_geometry.hpp"
#include "reason/words.hpp"
#include "report/report_words.hpp"
#include "report/technician_sheet.hpp"
#include "stats/quantiles.hpp"
#include "stats/summary.hpp"
#include "units/format.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace harpkeep::report {

namespace {

constexpr std::size_t rows_on_paper = 18; ///< the sheet is to stay at two pages
constexpr const char* nothing = "–";

const CauseEffect* pedal_effect(const CauseReport& report, Letter letter, Step step)
{
    for (const CauseEffect& effect : report.effects)
        if (effect.kind == CauseKind::pedal && effect.pedal == letter && effect.step == step) return &effect;
    return nullptr;
}

const Fault* fault_of_pedal(std::span<const Fault> faults, Letter letter)
{
    const auto found = std::find_if(faults.begin(), faults.end(), [&](const Fault& fault) {
        return fault.kind == CauseKind::pedal && fault.pedal == letter;
    });
    return found == faults.end() ? nullptr : &*found;
}

const Fault* fault_of_string(std::span<const Fault> faults, StringPlace place)
{
    const auto found = std::find_if(faults.begin(), faults.end(), [&](const Fault& fault) {
        return fault.kind == CauseKind::string && fault.place == place;
    });
    return found == faults.end() ? nullptr : &*found;
}

/// How the two steps of a fault go together, short.
std::string_view pattern_note(StepPattern pattern)
{
    switch (pattern) {
    case StepPattern::both_wide:
        return ", both steps wide";
    case StepPattern::both_narrow:
        return ", both steps narrow";
    case StepPattern::natural_high:
        return ", natural high";
    case StepPattern::natural_low:
        return ", natural low";
    case StepPattern::unresolved:
        return ", natural not measured";
    case StepPattern::lower_only:
    case StepPattern::upper_only:
        break;
    }
    return "";
}

/// Mean error of a pedal's strings in one step, with half the 95 % interval that their scatter leaves.
struct PedalMean {
    double cents = 0.0;
    double half_interval_cents = 0.0;
    std::int64_t strings = 0;
};

std::optional<PedalMean> pedal_mean(std::span<const StepVerdict> steps, Letter letter, Step step)
{
    std::vector<double> errors;
    for (const StepVerdict& verdict : steps)
        if (verdict.place.letter == letter && verdict.step == step) errors.push_back(verdict.error.value);
    const auto summary = stats::summarise(errors);
    if (!summary) return std::nullopt;
    const auto count = static_cast<double>(summary->count);
    return PedalMean{summary->mean,
                     stats::coverage_factor(0.95, count - 1.0) * summary->standard_deviation /
                         std::sqrt(count),
                     static_cast<std::int64_t>(summary->count)};
}

std::string mean_cell(const std::optional<PedalMean>& mean)
{
    if (!mean) return nothing;
    return format_cents(Cents{mean->cents}, Cents{mean->half_interval_cents});
}

void add_pedal_fields(std::vector<Field>& fields, const std::string& step,
                      const std::optional<PedalMean>& mean, const CauseEffect* effect)
{
    fields.push_back({step + "_mean_cents", mean ? FieldValue{mean->cents} : FieldValue{}});
    fields.push_back(
        {step + "_mean_half_interval_cents", mean ? FieldValue{mean->half_interval_cents} : FieldValue{}});
    fields.push_back({step + "_strings", mean ? FieldValue{mean->strings} : FieldValue{}});
    fields.push_back({step + "_effect_cents", effect ? FieldValue{effect->cents} : FieldValue{}});
    fields.push_back({step + "_effect_probability", effect ? FieldValue{effect->probability} : FieldValue{}});
}

std::string pedal_finding(const CauseReport& report, Letter letter)
{
    if (const auto* fault = fault_of_pedal(report.faults, letter))
        return fmt::format("off{}; pedal, rod or its adjustment", pattern_note(fault->pattern));
    if (const auto* fault = fault_of_pedal(report.suspected, letter))
        return fmt::format("perhaps off{}, not certain", pattern_note(fault->pattern));
    if (std::find(report.unclear_pedals.begin(), report.unclear_pedals.end(), letter) !=
        report.unclear_pedals.end())
        return "too few strings measured to tell";
    return "no fault found";
}

Table pedal_table(const TechnicianSheetInput& input, const CauseReport& report)
{
    const HarpKind kind = input.harp.details.layout.kind;
    std::vector<Step> steps{Step::lower};
    if (kind == HarpKind::pedal) steps.push_back(Step::upper);
    Table table{.name = "pedals", .columns = {{"Pedal"}}};
    for (const Step step : steps) {
        table.columns.push_back({std::string{step_words(kind, step)} + "\nmean, cents", Align::right});
        table.columns.push_back({"strings", Align::right});
    }
    table.columns.push_back({"Finding", Align::left, true});
    for (const Letter letter : pedal_order) {
        Row row{.cells = {std::string(1, letter_name(letter))},
                .fields = {{"pedal", std::string(1, letter_name(letter))}},
                .strong = fault_of_pedal(report.faults, letter) != nullptr};
        for (const Step step : steps) {
            const auto mean = pedal_mean(input.evidence.steps, letter, step);
            row.cells.push_back(mean_cell(mean));
            row.cells.push_back(mean ? fmt::format("{}", mean->strings) : nothing);
            add_pedal_fields(row.fields, std::string{step_name(step)}, mean,
                             pedal_effect(report, letter, step));
        }
        row.cells.push_back(pedal_finding(report, letter));
        row.fields.push_back({"finding", pedal_finding(report, letter)});
        table.rows.push_back(std::move(row));
    }
    return table;
}

/// Faults of the whole neck, certain or suspected.
std::vector<std::string> neck_sentences(const TechnicianSheetInput& input, const CauseReport& report)
{
    std::vector<std::string> sentences;
    const auto kind = input.harp.details.layout.kind;
    for (const auto* faults : {&report.faults, &report.suspected})
        for (const Fault& fault : *faults)
            if (fault.kind != CauseKind::pedal && fault.kind != CauseKind::string)
                sentences.push_back((faults == &report.suspected ? "Perhaps: " : "") +
                                    fault_sentence(fault, kind));
    return sentences;
}

/// All that is known of one string's steps.
struct StringWork {
    StringPlace place;
    const StepVerdict* lower = nullptr;
    const StepVerdict* upper = nullptr;
    const StepVerdict* whole = nullptr;
    std::string finding;
    int urgency = 0;   ///< 0 nothing, 1 to be watched, 2 not proven, 3 out or a cause found
    double used = 0.0; ///< of the tolerance, by the worse step
};

const StepVerdict* verdict_of(const TechnicianSheetInput& input, StringPlace place, std::optional<Step> step)
{
    for (const StepVerdict& verdict : input.evidence.steps)
        if (verdict.place == place && verdict.step == step) return &verdict;
    return nullptr;
}

int urgency_of(const StepVerdict* verdict)
{
    if (verdict == nullptr) return 0;
    switch (mark_of(*verdict)) {
    case Mark::out:
        return 3;
    case Mark::not_proven:
        return 2;
    case Mark::watch:
        return 1;
    case Mark::within:
        break;
    }
    return 0;
}

void add_words(std::string& text, const std::string& words)
{
    text += (text.empty() ? "" : "; ") + words;
}

std::string condition_note(const StringCondition& condition)
{
    switch (condition.kind) {
    case ConditionKind::settling:
        return "new, still settling";
    case ConditionKind::no_return:
        return condition.certainty == Conformity::out ? "does not come back" : "perhaps does not come back";
    case ConditionKind::poor_ring:
        return fmt::format("rings short in {}", position_name(*condition.position));
    case ConditionKind::false_string:
        break;
    }
    return "string false: first";
}

std::string finding_of(const TechnicianSheetInput& input, const StringWork& work)
{
    std::string text;
    for (const StringCondition& condition : input.evidence.conditions)
        if (condition.place == work.place) add_words(text, condition_note(condition));
    if (const auto& causes = input.evidence.causes) {
        if (const auto* fault = fault_of_string(causes->faults, work.place))
            add_words(text, fmt::format("off by itself{}", pattern_note(fault->pattern)));
        else if (const auto* suspected = fault_of_string(causes->suspected, work.place))
            add_words(text, fmt::format("perhaps off by itself{}", pattern_note(suspected->pattern)));
        if (fault_of_pedal(causes->faults, work.place.letter) != nullptr &&
            urgency_of(work.lower) + urgency_of(work.upper) > 0)
            add_words(text, fmt::format("{} pedal", letter_name(work.place.letter)));
    }
    if (work.whole != nullptr && mark_of(*work.whole) == Mark::out && urgency_of(work.lower) < 3 &&
        urgency_of(work.upper) < 3)
        add_words(text, fmt::format("flat to sharp {} cents, out", cents_cell(work.whole->error)));
    return text;
}

StringWork work_on(const TechnicianSheetInput& input, StringPlace place)
{
    StringWork work{.place = place,
                    .lower = verdict_of(input, place, Step::lower),
                    .upper = verdict_of(input, place, Step::upper),
                    .whole = verdict_of(input, place, std::nullopt)};
    work.urgency = std::max(urgency_of(work.lower), urgency_of(work.upper));
    if (work.whole != nullptr && mark_of(*work.whole) == Mark::out) work.urgency = 3;
    work.finding = finding_of(input, work);
    for (const auto* verdict : {work.lower, work.upper})
        if (verdict != nullptr)
            work.used = std::max(work.used, tolerance_used(verdict->error.value, verdict->tolerance));
    const auto& causes = input.evidence.causes;
    const bool cause = causes && fault_of_string(causes->faults, place) != nullptr;
    const auto& conditions = input.evidence.conditions;
    const bool condition = std::any_of(conditions.begin(), conditions.end(), [&](const StringCondition& one) {
        return one.place == place && one.certainty == Conformity::out;
    });
    if (cause || condition) work.urgency = 3;
    return work;
}

/// The error as length of the string that sounds above the step, by geometry alone.
std::optional<Millimetres> error_length(const TechnicianSheetInput& input, const StepVerdict& verdict)
{
    const auto length = input.lengths.find(verdict.place);
    if (length == input.lengths.end()) return std::nullopt;
    const auto kind = input.harp.details.layout.kind;
    const auto sounding = sounding_length(length->second, positions_of_step(kind, *verdict.step)[1]);
    return verdict.error.value * length_for_one_cent(sounding);
}

void add_step(Row& row, const TechnicianSheetInput& input, const std::string& step,
              const StepVerdict* verdict)
{
    const auto length = verdict ? error_length(input, *verdict) : std::nullopt;
    row.cells.push_back(verdict ? cents_cell(verdict->error) : nothing);
    row.cells.push_back(length ? format_signed(length->value(), 2) : nothing);
    row.cells.push_back(verdict ? std::string{mark_words(mark_of(*verdict))} : "not measured");
    row.fields.push_back({step + "_error_cents", verdict ? FieldValue{verdict->error.value} : FieldValue{}});
    row.fields.push_back(
        {step + "_uncertainty_cents", verdict ? FieldValue{verdict->error.uncertainty} : FieldValue{}});
    row.fields.push_back({step + "_error_mm", length ? FieldValue{length->value()} : FieldValue{}});
    row.fields.push_back(
        {step + "_verdict", verdict ? FieldValue{std::string{mark_words(mark_of(*verdict))}} : FieldValue{}});
}

Row string_row(const TechnicianSheetInput& input, const StringWork& work)
{
    const auto& layout = input.harp.details.layout;
    const auto steps = steps_of(layout.kind, *find_string(layout, work.place));
    Row row{
        .cells = {harp_name(work.place)}, .fields = {place_field(work.place)}, .strong = work.urgency == 3};
    add_step(row, input, "lower", work.lower);
    if (layout.kind == HarpKind::pedal) add_step(row, input, "upper", work.upper);
    if (steps.size() == 1 && layout.kind == HarpKind::pedal) row.cells[6] = "no disc";
    const auto length = input.lengths.find(work.place);
    row.fields.push_back({"open_length_mm",
                          length == input.lengths.end() ? FieldValue{} : FieldValue{length->second.value()}});
    row.cells.push_back(work.finding);
    row.fields.push_back({"finding", work.finding});
    return row;
}

/// The places that stand on paper with their figures: as many as fit, the worst.
std::vector<StringPlace> most_urgent(std::vector<StringWork> works)
{
    std::erase_if(works, [](const StringWork& work) { return work.urgency == 0; });
    std::stable_sort(works.begin(), works.end(), [](const StringWork& a, const StringWork& b) {
        return a.urgency > b.urgency || (a.urgency == b.urgency && a.used > b.used);
    });
    std::vector<StringPlace> places;
    for (std::size_t i = 0; i < std::min(works.size(), rows_on_paper); ++i) places.push_back(works[i].place);
    return places;
}

std::vector<Column> string_columns(HarpKind kind)
{
    std::vector<Column> columns{{"String"}};
    const auto add = [&](Step step) {
        columns.push_back({std::string{step_words(kind, step)} + "\ncents", Align::right});
        columns.push_back({"mm", Align::right});
        columns.push_back({"is"});
    };
    add(Step::lower);
    if (kind == HarpKind::pedal) add(Step::upper);
    columns.push_back({"Cause as found", Align::left, true});
    return columns;
}

} // namespace

Section pedal_section(const TechnicianSheetInput& input)
{
    Section section{"pedals", "2  Pedals", {}};
    if (!input.evidence.causes) {
        section.blocks.push_back(Sentences{{"Too few steps were measured to tell pedals from strings."}});
        return section;
    }
    section.blocks.push_back(pedal_table(input, *input.evidence.causes));
    const auto neck = neck_sentences(input, *input.evidence.causes);
    if (!neck.empty()) section.blocks.push_back(Sentences{neck, TextLook::body, true});
    return section;
}

Section intonation_section(const TechnicianSheetInput& input)
{
    const auto& layout = input.harp.details.layout;
    const bool lever = layout.kind == HarpKind::lever;
    Section section{"intonation", lever ? "3  Intonation" : "4  Intonation, natural before sharp", {}};
    if (!input.check) {
        section.blocks.push_back(
            Sentences{{"Not checked: `harpkeep check` makes a check from a recording."}});
        return section;
    }
    std::vector<StringWork> works;
    for (const HarpString& string : layout.strings)
        if (!steps_of(layout.kind, string).empty()) works.push_back(work_on(input, string.place));
    const auto listed_strings = most_urgent(works);
    Table table{.name = "strings",
                .columns = string_columns(layout.kind),
                .when_empty = "No string is out, not proven or to be watched.",
                .text_pt = 7.6};
    std::array<std::vector<StringPlace>, 4> not_listed; // by urgency
    for (const StringWork& work : works) {
        Row row = string_row(input, work);
        const bool on_paper =
            std::find(listed_strings.begin(), listed_strings.end(), work.place) != listed_strings.end();
        if (!on_paper) {
            row.cells.clear();
            not_listed[static_cast<std::size_t>(work.urgency)].push_back(work.place);
        }
        table.rows.push_back(std::move(row));
    }
    section.blocks.push_back(std::move(table));
    std::vector<std::string> others;
    for (const auto& [urgency, words] :
         {std::pair{3U, "Also out"}, {2U, "Also not proven"}, {1U, "Also to be watched"}})
        if (!not_listed[urgency].empty())
            others.push_back(fmt::format("{}: {}.", words, places_words(not_listed[urgency], layout)));
    if (!others.empty()) section.blocks.push_back(Sentences{others});
    return section;
}

} // namespace harpkeep::report
