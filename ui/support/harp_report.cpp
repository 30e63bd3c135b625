// SPDX-License-Identifier: MIT
#include "ui/support/harp_report.hpp"

#include "base/expects.hpp"

#include "db/records/checks.hpp"
#include "db/records/climate.hpp"
#include "db/records/loans.hpp"
#include "db/records/notes.hpp"
#include "db/records/reminders.hpp"
#include "db/records/rooms.hpp"
#include "db/records/spares.hpp"
#include "db/records/timeline.hpp"
#include "db/records/upkeep.hpp"
#include "db/records/visits.hpp"
#include "report/harp_history_sheet.hpp"
#include "report/report_words.hpp"
#include "report/string_card.hpp"
#include "report/technician_sheet.hpp"
#include "report/tuning_list.hpp"
#include "report/visit_sheet.hpp"
#include "ui/support/harp_knowledge.hpp"
#include "ui/support/room_report.hpp"
#include "ui/support/visit_checks.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace harpkeep::ui {

namespace {

constexpr std::array<std::string_view, all_report_kinds.size()> kind_names{"technician", "visit",   "history",
                                                                           "room",       "strings", "tuning"};

/// Puts the value of a result into place, or hands its error on.
template <class T>
std::optional<Error> take(Result<T> result, T& into)
{
    if (!result) return result.error();
    into = std::move(*result);
    return std::nullopt;
}

Result<HarpKnowledge> knowledge_for(const db::Ledger& ledger, const ReportRequest& request)
{
    return harp_knowledge(ledger, *request.harp, request.check_id);
}

Result<std::vector<DueItem>> due_until_today(const db::Ledger& ledger, const ReportRequest& request)
{
    const auto upkeep = db::harp_upkeep(ledger, request.harp->id);
    if (!upkeep) return failure(upkeep.error());
    return due_work(*upkeep, {}, {}, request.today, request.today);
}

Result<report::Document> technician_report(const db::Ledger& ledger, const ReportRequest& request)
{
    const auto knowledge = knowledge_for(ledger, request);
    if (!knowledge) return failure(knowledge.error());
    report::TechnicianSheetInput input{.harp = *request.harp,
                                       .today = request.today,
                                       .visits = knowledge->visits,
                                       .check = knowledge->check,
                                       .evidence = harp_evidence(*knowledge, days_since_epoch(request.today)),
                                       .tolerances = knowledge->tolerances,
                                       .lengths = open_lengths(*knowledge),
                                       .strings = knowledge->strings};
    const auto* visit = report::last_visit(knowledge->visits, request.today);
    const Date from = visit ? first_day(visit->visit.visited_on) : plus_months(request.today, -12);
    std::vector<ClimateSample> climate;
    for (const auto& problem :
         {take(room_of(ledger, request.harp->id, request.today), input.room),
          take(climate_between(ledger, request.harp->id, from, request.today), climate),
          take(db::notes(ledger, request.harp->id), input.notes), take(db::spare_stock(ledger), input.stock),
          take(due_until_today(ledger, request), input.due)})
        if (problem) return failure(*problem);
    input.climate = report::climate_overview(climate, from, request.today);
    return report::technician_sheet(input);
}

/// The visit asked for, or the last one; nothing when two checks were named instead.
Result<std::optional<VisitRecord>> visit_for(const db::Ledger& ledger, const ReportRequest& request)
{
    if (request.visit_id) {
        auto visit = db::visit_with_id(ledger, *request.visit_id);
        if (!visit) return failure(visit.error());
        if (visit->visit.harp_id != request.harp->id)
            return failure(ErrorCode::invalid_argument,
                           "that visit was to another harp than " + request.harp->details.name);
        return std::optional{std::move(*visit)};
    }
    if (request.checks) return std::optional<VisitRecord>{};
    const auto visits = db::visits_of(ledger, request.harp->id);
    if (!visits) return failure(visits.error());
    if (visits->empty())
        return failure(
            ErrorCode::not_found,
            fmt::format("{} has no visit yet; `harpkeep visit add --harp NAME --work ...` notes one, or name "
                        "two checks with --before and --after",
                        request.harp->details.name));
    return std::optional{visits->back()};
}

Result<report::Document> visit_report(const db::Ledger& ledger, const ReportRequest& request)
{
    auto visit = visit_for(ledger, request);
    if (!visit) return failure(visit.error());
    auto checks = request.checks ? Result<CheckPair>{CheckPair{request.checks->before, request.checks->after}}
                                 : checks_around(**visit);
    if (!checks) return failure(checks.error());
    const auto before = harp_knowledge(ledger, *request.harp, checks->before);
    if (!before) return failure(before.error());
    const auto after = db::check(ledger, checks->after);
    if (!after) return failure(after.error());
    if (after->header.harp_id != request.harp->id)
        return failure(ErrorCode::invalid_argument,
                       "that check belongs to another harp than " + request.harp->details.name);
    return report::visit_sheet(
        {.harp = *request.harp,
         .today = request.today,
         .visit = *visit,
         .before = before->check->header,
         .after = after->header,
         .tolerances = before->tolerances,
         .comparison = compare_visit(before->check->result.steps, after->result.steps, before->tolerances,
                                     comparison_settings(*before))});
}

Result<report::Document> history_report(const db::Ledger& ledger, const ReportRequest& request)
{
    const auto knowledge = knowledge_for(ledger, request);
    if (!knowledge) return failure(knowledge.error());
    report::HarpHistoryInput input{.harp = *request.harp,
                                   .today = request.today,
                                   .visits = knowledge->visits,
                                   .checks = knowledge->history,
                                   .tolerances = knowledge->tolerances,
                                   .evidence = harp_evidence(*knowledge, days_since_epoch(request.today)),
                                   .strings = knowledge->strings};
    for (const auto& problem : {take(room_of(ledger, request.harp->id, request.today), input.room),
                                take(db::loans_of(ledger, request.harp->id), input.loans)})
        if (problem) return failure(*problem);
    const auto events = db::timeline(ledger, request.harp->id);
    if (!events) return failure(events.error());
    for (const db::TimelineEntry& entry : *events)
        input.events.push_back({entry.on, entry.kind, entry.place, entry.words});
    return report::harp_history_sheet(input);
}

Result<report::Document> strings_report(const db::Ledger& ledger, const ReportRequest& request)
{
    const auto knowledge = knowledge_for(ledger, request);
    if (!knowledge) return failure(knowledge.error());
    auto stock = db::spare_stock(ledger);
    if (!stock) return failure(stock.error());
    return report::string_card({.harp = *request.harp,
                                .today = request.today,
                                .plan = knowledge->plan,
                                .strings = knowledge->strings,
                                .stock = std::move(*stock)});
}

Result<report::Document> tuning_report(const db::Ledger& ledger, const ReportRequest& request)
{
    const auto knowledge = knowledge_for(ledger, request);
    if (!knowledge) return failure(knowledge.error());
    const auto& wish = request.tuning;
    const auto& check = knowledge->check;
    report::TuningListInput input{.harp = *request.harp,
                                  .today = request.today,
                                  .occasion = wish.occasion,
                                  .a4_hz = wish.a4_hz.value_or(check ? check->result.a4_hz : 440.0),
                                  .temperament = wish.temperament,
                                  .settings = wish.settings};
    if (!wish.settings.empty()) {
        if (!check)
            return failure(
                ErrorCode::not_found,
                fmt::format("{} has no check yet, so nothing is known to tune around; leave the settings "
                            "out for a plain list",
                            request.harp->details.name));
        input.around =
            tune_around(request.harp->details.layout, check->result.steps, check->result.whole_steps,
                        {.settings = wish.settings,
                         .goal = wish.goal,
                         .temperament = wish.temperament,
                         .a4_hz = input.a4_hz});
        input.check_taken = check->header.taken;
    }
    return report::tuning_list(input);
}

} // namespace

std::string_view report_kind_name(ReportKind kind)
{
    return kind_names[static_cast<std::size_t>(kind)];
}

std::optional<ReportKind> report_kind_from_name(std::string_view name)
{
    for (const ReportKind kind : all_report_kinds)
        if (report_kind_name(kind) == name) return kind;
    return std::nullopt;
}

Result<report::Document> make_report(const db::Ledger& ledger, const ReportRequest& request,
                                     const ReportProgress& progress)
{
    HARPKEEP_EXPECTS(request.harp || request.kind == ReportKind::room);
    switch (request.kind) {
    case ReportKind::visit:
        return visit_report(ledger, request);
    case ReportKind::history:
        return history_report(ledger, request);
    case ReportKind::room:
        return room_report(ledger, request, progress);
    case ReportKind::strings:
        return strings_report(ledger, request);
    case ReportKind::tuning:
        return tuning_report(ledger, request);
    case ReportKind::technician:
        break;
    }
    return technician_report(ledger, request);
}

} // namespace harpkeep::ui
