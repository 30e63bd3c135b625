// SPDX-License-Identifier: MIT
#include "ui/cli/arguments.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/file_output.hpp"
#include "ui/cli/ledger_access.hpp"
#include "ui/cli/output.hpp"
#include "ui/cli/piece_words.hpp"
#include "ui/cli/verb.hpp"
#include "ui/support/harp_report.hpp"

#include <fmt/format.h>

namespace harpkeep::cli {

namespace {

struct ReportWords {
    std::string kind;
    std::string harp;
    std::string out;
    std::string paper{report::paper_name(report::Paper::a4)};
    bool csv = false;
    std::string table;
    std::string as_of;
    std::string check;
    std::string visit;
    std::string before;
    std::string after;
    std::string room;
    std::optional<int> year;
    std::string first_day;
    std::string last_day;
    std::string occasion;
    PieceWords piece;
};

Result<Date> full_date(const std::string& text, const char* option)
{
    const auto date = date_or_today(text);
    if (!date) return failure(date.error());
    if (!date->is_full())
        return failure(ErrorCode::invalid_argument,
                       fmt::format("{} wants a whole day, as 2026-03-04", option));
    return *date;
}

Result<std::optional<Uuid>> named_thing(const db::Ledger& ledger, const std::string& handle, const char* kind)
{
    if (handle.empty()) return std::optional<Uuid>{};
    const auto id = thing_of_kind(ledger, handle, kind);
    if (!id) return failure(id.error());
    return std::optional<Uuid>{*id};
}

/// The year that a room's sheet speaks of.
Result<void> fill_year(ui::ReportRequest& request, const ReportWords& words)
{
    const auto year = words.year ? ui::school_year(*words.year) : ui::school_year_of(request.today);
    request.from = year.from;
    request.until = year.until;
    for (const auto& [text, option, date] : {std::tuple{&words.first_day, "--first-day", &request.from},
                                             std::tuple{&words.last_day, "--last-day", &request.until}}) {
        if (text->empty()) continue;
        const auto day = full_date(*text, option);
        if (!day) return failure(day.error());
        *date = *day;
    }
    if (request.until < request.from)
        return failure(ErrorCode::invalid_argument, "--last-day lies before --first-day");
    return {};
}

Result<void> fill_things(ui::ReportRequest& request, const ReportWords& words, const db::Ledger& ledger)
{
    if (words.before.empty() != words.after.empty())
        return failure(ErrorCode::invalid_argument, "give both --before and --after, or neither");
    const auto check = named_thing(ledger, words.check, "check");
    if (!check) return failure(check.error());
    request.check_id = *check;
    const auto visit = named_thing(ledger, words.visit, "visit");
    if (!visit) return failure(visit.error());
    request.visit_id = *visit;
    const auto before = named_thing(ledger, words.before, "check");
    if (!before) return failure(before.error());
    const auto after = named_thing(ledger, words.after, "check");
    if (!after) return failure(after.error());
    if (*before) request.checks = ui::ChosenChecks{**before, **after};
    return {};
}

Result<ui::ReportRequest> request_from(const ReportWords& words, const db::Ledger& ledger)
{
    ui::ReportRequest request{.kind = *ui::report_kind_from_name(words.kind)}; // CLI11 allows no other
    const auto today = full_date(words.as_of, "--as-of");
    if (!today) return failure(today.error());
    request.today = *today;
    if (request.kind == ui::ReportKind::room) {
        request.room = words.room;
        if (const auto filled = fill_year(request, words); !filled) return failure(filled.error());
        return request;
    }
    auto harp = chosen_harp(ledger, words.harp);
    if (!harp) return failure(harp.error());
    request.harp = std::move(*harp);
    if (const auto filled = fill_things(request, words, ledger); !filled) return failure(filled.error());
    if (request.kind != ui::ReportKind::tuning) return request;
    request.tuning = {.occasion = words.occasion,
                      .goal = goal_of(words.piece),
                      .temperament = temperament_of(words.piece),
                      .a4_hz = words.piece.a4_hz};
    if (!words.piece.names_settings()) return request;
    auto settings = settings_of(words.piece);
    if (!settings) return failure(settings.error());
    request.tuning.settings = std::move(*settings);
    return request;
}

Result<ui::ReportOutput> output_from(const Common& common, const ReportWords& words)
{
    if (common.json && words.csv)
        return failure(ErrorCode::invalid_argument, "give --json or --csv, not both");
    if (!words.table.empty() && !words.csv)
        return failure(ErrorCode::invalid_argument, "--table goes with --csv");
    return ui::ReportOutput{.format = common.json ? ui::ReportFormat::json
                                      : words.csv ? ui::ReportFormat::csv
                                                  : ui::ReportFormat::pdf,
                            .paper = *report::paper_from_name(words.paper), // CLI11 allows no other
                            .table = words.table};
}

Result<void> report_on(const Common& common, const ReportWords& words)
{
    const auto output = output_from(common, words);
    if (!output) return failure(output.error());
    const auto ledger = open_ledger(common, db::Access::read);
    if (!ledger) return failure(ledger.error());
    const auto request = request_from(words, *ledger);
    if (!request) return failure(request.error());
    const auto document = ui::make_report(*ledger, *request);
    if (!document) return failure(document.error());
    if (words.out.empty() && output->format == ui::ReportFormat::pdf)
        return failure(ErrorCode::invalid_argument,
                       fmt::format("a PDF file needs a name: --out {} (- writes to the terminal's output)",
                                   ui::suggested_file_name(*document, output->format)));
    const auto bytes = ui::report_bytes(*document, *output);
    if (!bytes) return failure(bytes.error());
    if (const auto written = write_output(words.out, *bytes); !written) return failure(written.error());
    if (!words.out.empty() && words.out != "-") print_line(fmt::format("{}: {}", document->title, words.out));
    return {};
}

std::vector<std::string> kind_names()
{
    std::vector<std::string> names;
    for (const auto kind : ui::all_report_kinds) names.emplace_back(ui::report_kind_name(kind));
    return names;
}

} // namespace

void add_command_report(CLI::App& app, Common& common, Work& work)
{
    const auto verb =
        add_verb<ReportWords>(app, common, work, "report",
                              "sheets to print: for the technician, a visit, a harp's history, a room's "
                              "year, the strings in the case, a concert's tuning",
                              report_on);
    auto& words = *verb.words;
    auto& command = *verb.app;
    command.add_option("KIND", words.kind, "which sheet")->required()->check(CLI::IsMember(kind_names()));
    add_harp_option(command, words.harp);
    command.add_option("--out", words.out,
                       "file to write (- for the terminal; CSV and JSON go there anyway)");
    command.add_option("--paper", words.paper, "size of the paper")
        ->check(CLI::IsMember({"a4", "letter"}))
        ->capture_default_str();
    command.add_flag("--csv", words.csv, "the same contents as CSV for spreadsheets, one table");
    command.add_option("--table", words.table, "which table, with --csv (default: the sheet's main one)");
    command.add_option("--as-of", words.as_of,
                       "the day to speak of, also the date in the file, as 2026-03-04 (default: today)");
    command.add_option("--check", words.check,
                       "technician, tuning: handle of the check (default: the youngest)");
    command.add_option("--visit", words.visit, "visit: handle of the visit (default: the last one)");
    command.add_option("--before", words.before, "visit: handle of a check, instead of a visit");
    command.add_option("--after", words.after, "visit: handle of the check to compare with it");
    command.add_option("--room", words.room, "room: its name (default: the whole school)");
    command.add_option("--year", words.year, "room: the school year that begins in August of this year")
        ->check(CLI::Range(1, 9998));
    command.add_option("--first-day", words.first_day, "room: instead of a school year");
    command.add_option("--last-day", words.last_day, "room: instead of a school year");
    command.add_option("--for", words.occasion, "tuning: what it is for, as \"Spring concert\"");
    add_piece_options(command, words.piece);
}

} // namespace harpkeep::cli
