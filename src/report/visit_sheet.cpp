// SPDX-License-Identifier: MIT
#include "report/visit_sheet.hpp"

#include "reason/drift_text.hpp"
#include "reason/verdict_text.hpp"
#include "reason/words.hpp"
#include "report/report_words.hpp"
#include "report/step_panels.hpp"
#include "units/format.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace harpkeep::report {

namespace {

std::string check_words(const CheckHeader& header)
{
    std::string words = short_time(header.taken);
    if (header.temperature) words += fmt::format(", {:.0f} °C", header.temperature->value());
    if (header.humidity) words += fmt::format(", {:.0f} %", header.humidity->value());
    return words;
}

Section visit_section(const VisitSheetInput& input)
{
    Facts facts{.columns = 2};
    if (input.visit) {
        const Visit& visit = input.visit->visit;
        Fact when{"Visit",
                  fmt::format("{}, {}", iso_date(visit.visited_on),
                              visit.technician.empty() ? "technician not noted" : visit.technician),
                  {{"harp", input.harp.details.name},
                   {"visited_on", iso_date(visit.visited_on)},
                   {"technician", visit.technician}}};
        facts.facts.push_back(std::move(when));
        facts.facts.push_back(
            {"Cost", visit.cost ? money_text(*visit.cost) : "not noted", money_fields("cost", visit.cost)});
    }
    facts.facts.push_back(
        {"Check before", check_words(input.before), {{"before_taken", iso_time(input.before.taken)}}});
    facts.facts.push_back(
        {"Check after", check_words(input.after), {{"after_taken", iso_time(input.after.taken)}}});
    return {"visit", "", {facts}};
}

Section work_section(const Visit& visit)
{
    Table table{.name = "work",
                .columns = {{"Where"}, {"Work", Align::left, true}, {"Parts", Align::left, true}},
                .when_empty = "No work is noted."};
    for (const VisitWork& work : visit.work) {
        const std::string where = work.place   ? harp_name(*work.place)
                                  : work.pedal ? fmt::format("{} pedal", letter_name(*work.pedal))
                                               : "harp";
        table.rows.push_back({.cells = {where, work.work, work.parts},
                              .fields = {{"where", where}, {"work", work.work}, {"parts", work.parts}}});
    }
    Section section{"work", "Work done", {table}};
    if (!visit.remarks.empty()) section.blocks.push_back(Sentences{{visit.remarks}});
    return section;
}

std::string signed_share(int before, int after)
{
    return format_signed(after - before, 0);
}

Section summary_section(const VisitSheetInput& input)
{
    const VisitComparison& comparison = input.comparison;
    Table table{.name = "summary",
                .columns = {{"Steps in both checks"},
                            {"before", Align::right},
                            {"after", Align::right},
                            {"change", Align::right}}};
    const auto add = [&](const char* label, const char* name, int before, int after) {
        table.rows.push_back({.cells = {label, fmt::format("{}", before), fmt::format("{}", after),
                                        signed_share(before, after)},
                              .fields = {{"what", std::string{name}},
                                         {"before", std::int64_t{before}},
                                         {"after", std::int64_t{after}}}});
    };
    add("proven within tolerance", "within", comparison.within_before, comparison.within_after);
    add("proven out of tolerance", "out", comparison.out_before, comparison.out_after);
    const double less = comparison.typical_after_cents - comparison.typical_before_cents;
    table.rows.push_back(
        {.cells = {"typical error (root mean square), cents",
                   fmt::format("{:.1f}", comparison.typical_before_cents),
                   fmt::format("{:.1f}", comparison.typical_after_cents), format_signed(less, 1)},
         .fields = {{"what", std::string{"typical_error_cents"}},
                    {"before", comparison.typical_before_cents},
                    {"after", comparison.typical_after_cents}}});
    // The first sentences of the comparison hold the counts; single steps stand in the table below.
    std::vector<std::string> sentences{fmt::format(
        "{} improved and {} became worse beyond what measuring could feign; of {} neither is shown.",
        how_many(comparison.improved, "step", "steps"), comparison.worse,
        how_many(comparison.unproven, "step", "steps"))};
    if (comparison.only_before + comparison.only_after > 0)
        sentences.push_back(fmt::format("{} measured only before and {} only after; they are left out.",
                                        how_many(comparison.only_before, "step was", "steps were"),
                                        comparison.only_after));
    return {"summary", "What it did", {Sentences{sentences}, table}};
}

ChartPoint point_of(const StepChange& change)
{
    return {.place = change.place,
            .cents = change.after.error.value,
            .half_interval_cents = half_interval_cents(change.after.error),
            .mark = mark_of(change.after),
            .before_cents = change.before.error.value,
            .fields = {place_field(change.place),
                       {"step", std::string{step_name(change.step)}},
                       {"before_error_cents", change.before.error.value},
                       {"after_error_cents", change.after.error.value}}};
}

NeckChart change_chart(const VisitSheetInput& input)
{
    NeckChart chart = neck_chart(input.harp.details.layout, input.tolerances, [&](Step step) {
        std::vector<ChartPoint> points;
        for (const StepChange& change : input.comparison.steps)
            if (change.step == step) points.push_back(point_of(change));
        return points;
    });
    chart.name = "chart";
    chart.panel_height_mm = 30.0;
    return chart;
}

std::string_view change_name(VisitChange change)
{
    switch (change) {
    case VisitChange::improved:
        return "improved";
    case VisitChange::worse:
        return "worse";
    case VisitChange::unproven:
        break;
    }
    return "no change shown";
}

/// On paper: what changed, and what is out or not proven now.
bool is_worth_paper(const StepChange& change)
{
    return change.change != VisitChange::unproven || change.after.conformity != Conformity::within;
}

Row change_row(const StepChange& change, HarpKind kind)
{
    Row row{.fields = {place_field(change.place),
                       {"step", std::string{step_name(change.step)}},
                       {"before_error_cents", change.before.error.value},
                       {"before_uncertainty_cents", change.before.error.uncertainty},
                       {"before_verdict", std::string{mark_words(mark_of(change.before))}},
                       {"after_error_cents", change.after.error.value},
                       {"after_uncertainty_cents", change.after.error.uncertainty},
                       {"after_verdict", std::string{mark_words(mark_of(change.after))}},
                       {"nearer_cents", change.nearer_cents},
                       {"change", std::string{change_name(change.change)}}},
            .strong = change.change == VisitChange::worse || mark_of(change.after) == Mark::out};
    if (is_worth_paper(change))
        row.cells = {harp_name(change.place),
                     std::string{step_words(kind, change.step)},
                     cents_cell(change.before.error),
                     std::string{mark_words(mark_of(change.before))},
                     cents_cell(change.after.error),
                     std::string{mark_words(mark_of(change.after))},
                     format_signed(change.nearer_cents, 1),
                     std::string{change_name(change.change)}};
    return row;
}

Section steps_section(const VisitSheetInput& input)
{
    const HarpKind kind = input.harp.details.layout.kind;
    Table table{.name = "steps",
                .columns = {{"String"},
                            {"Step"},
                            {"before\ncents", Align::right},
                            {"was"},
                            {"after\ncents", Align::right},
                            {"is"},
                            {"nearer by\ncents", Align::right},
                            {"Shown"}},
                .when_empty =
                    "No step changed beyond what measuring could feign, and all are within tolerance.",
                .text_pt = 7.6};
    auto changes = input.comparison.steps;
    std::stable_sort(changes.begin(), changes.end(), [](const StepChange& a, const StepChange& b) {
        return a.place < b.place || (a.place == b.place && a.step < b.step);
    });
    for (const StepChange& change : changes) table.rows.push_back(change_row(change, kind));
    return {"steps", "Steps that changed, or are not within tolerance now", {table}};
}

} // namespace

Document visit_sheet(const VisitSheetInput& input)
{
    Document document{.kind = "visit",
                      .title = "Before and after",
                      .subject = input.harp.details.name,
                      .subtitle = harp_subtitle(input.harp.details),
                      .day = input.today,
                      .main_table = "steps"};
    auto& sections = document.sections;
    sections.push_back(visit_section(input));
    if (input.visit) sections.push_back(work_section(input.visit->visit));
    sections.push_back(summary_section(input));
    sections.push_back({"chart", "Steps along the neck, lowest string on the left", {change_chart(input)}});
    sections.push_back(steps_section(input));
    sections.push_back(
        {"meaning",
         "",
         {Sentences{{"Cents are errors of a step against 100 cents, with half of the 95 % interval "
                     "after ±. Nearer: how much nearer to 100 cents.",
                     tolerance_sentence(input.tolerances), std::string{mechanism_caution}},
                    TextLook::small}}});
    return document;
}

} // namespace harpkeep::report
