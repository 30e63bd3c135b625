// SPDX-License-Identifier: MIT
#include "report/pdf.hpp"
#include "report/technician_sheet.hpp"
#include "tests/ui/report/demo_reports.hpp"
#include "tests/ui/report/printed_pages.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cstdlib>
#include <regex>

using namespace harpkeep;
using namespace harpkeep::test;
using report::Paper;
using ui::ReportKind;

namespace {

std::string printed(ReportKind kind, Paper paper)
{
    return report::pdf_of(demo_document(kind), paper).value();
}

/// Words whose boxes lie on one another. Lines of one text touch: poppler's boxes are as tall as the font, so
/// that a tenth of a point shared is no overlap.
std::vector<std::string> overlaps(const PrintedPage& page)
{
    std::vector<std::string> found;
    for (std::size_t i = 0; i < page.words.size(); ++i)
        for (std::size_t j = i + 1; j < page.words.size(); ++j) {
            const auto& a = page.words[i];
            const auto& b = page.words[j];
            const double across = std::min(a.right, b.right) - std::max(a.left, b.left);
            const double down = std::min(a.bottom, b.bottom) - std::max(a.top, b.top);
            if (across > 0.3 && down > 0.3)
                found.push_back(a.word + " on " + b.word); // points; hair's breadth
        }
    return found;
}

/// Words that reach into the margins; 13 mm are less than 85 % of the sheets' side margin.
std::vector<std::string> beyond_margins(const PrintedPage& page)
{
    constexpr double margin = 13.0 / 25.4 * 72.0;
    std::vector<std::string> found;
    for (const auto& word : page.words)
        if (word.left < margin || word.right > page.width - margin || word.top < margin * 0.7 ||
            word.bottom > page.height - margin * 0.4)
            found.push_back(word.word);
    return found;
}

/// The text that is kept under tests/golden; with HARPKEEP_BLESS set it is written anew.
void check_golden(const std::string& name, const std::string& text)
{
    const std::string path = std::string{HARPKEEP_TESTS_FOLDER} + "/golden/" + name;
    if (std::getenv("HARPKEEP_BLESS") != nullptr) tests::write_bytes(path, text);
    CHECK(text == tests::read_bytes(path));
}

report::Document with_long_names(ReportKind kind)
{
    auto request = demo_request(kind);
    request.harp->details.name =
        "The harp of the third practice room which everybody calls the old grey Heron by the window";
    request.harp->details.maker =
        "an invented workshop whose name is so long that it cannot stand on any single line";
    request.harp->details.remarks = std::string(300, 'x') + " a word without any space in it";
    return ui::make_report(demo_ledger(), request).value();
}

} // namespace

TEST_CASE("reports: nothing overlaps and nothing leaves the page", "[paper][property]")
{
    const auto kind = GENERATE(from_range(ui::all_report_kinds));
    const auto paper = GENERATE(Paper::a4, Paper::letter);
    CAPTURE(ui::report_kind_name(kind), report::paper_name(paper));
    const auto pages = PrintedPages{printed(kind, paper)}.pages();
    for (const auto& page : pages) {
        CHECK(page.words.size() > 20);
        CHECK(overlaps(page) == std::vector<std::string>{});
        CHECK(beyond_margins(page) == std::vector<std::string>{});
    }
}

TEST_CASE("reports: long names and words without spaces wrap", "[paper]")
{
    const auto kind = GENERATE(ReportKind::technician, ReportKind::history, ReportKind::strings);
    CAPTURE(ui::report_kind_name(kind));
    const PrintedPages printed_pages{report::pdf_of(with_long_names(kind), Paper::a4).value()};
    for (const auto& page : printed_pages.pages()) {
        CHECK(overlaps(page) == std::vector<std::string>{});
        CHECK(beyond_margins(page) == std::vector<std::string>{});
    }
    CHECK(printed_pages.text().find("window") != std::string::npos);
}

TEST_CASE("reports: pages and paper are as asked for", "[paper]")
{
    struct Expected {
        ReportKind kind;
        int pages;
    };
    // The technician's sheet has one or two pages, the card for the case one. A list for two settings needs a
    // second.
    const auto expected = GENERATE(Expected{ReportKind::technician, 2}, Expected{ReportKind::visit, 2},
                                   Expected{ReportKind::history, 4}, Expected{ReportKind::room, 2},
                                   Expected{ReportKind::strings, 1}, Expected{ReportKind::tuning, 1});
    CAPTURE(ui::report_kind_name(expected.kind));
    for (const Paper paper : {Paper::a4, Paper::letter}) {
        if (paper == Paper::letter && expected.kind == ReportKind::visit)
            continue; // its table grows with the steps
        const auto info = PrintedPages{printed(expected.kind, paper)}.info();
        CAPTURE(info);
        CHECK(std::regex_search(info, std::regex{"Pages: +" + std::to_string(expected.pages) + "\n"}));
        CHECK(info.find(paper == Paper::a4 ? "595.276 x 841.89 pts (A4)" : "612 x 792 pts (letter)") !=
              std::string::npos);
    }
}

TEST_CASE("reports: the technician's sheet has two pages even for the worst of harps", "[paper]")
{
    auto request = demo_request(ReportKind::technician);
    report::TechnicianSheetInput input;
    input.harp = *request.harp;
    input.harp.details.remarks =
        "stood in an unheated hall for a winter, was restrung afterwards by several hands";
    input.today = demo_day;
    input.climate = {.from = demo_day, .until = demo_day};
    StoredCheck check;
    for (const HarpString& string : input.harp.details.layout.strings) {
        int sign = 1;
        for (const Step step : steps_of(HarpKind::pedal, string)) {
            const double cents = 12.0 + 0.1 * string.place.diatonic_index();
            check.result.steps.push_back({string.place, step, sign * cents, 0.4, 30.0});
            sign = -sign;
        }
        input.evidence.conditions.push_back({.kind = ConditionKind::false_string,
                                             .place = string.place,
                                             .value = 0.001,
                                             .rests_on = 3,
                                             .positions_affected = 3,
                                             .beat_rate_hz = 1.3,
                                             .irregular_cents = 4.0});
        input.evidence.conditions.push_back({.kind = ConditionKind::poor_ring,
                                             .place = string.place,
                                             .position = Position::sharp,
                                             .value = 0.3,
                                             .lower = 0.2,
                                             .upper = 0.4,
                                             .rests_on = 3});
    }
    input.check = check;
    input.evidence.steps_expected = 90;
    input.evidence.steps = judge_steps(check.result.steps, {}, {});
    input.evidence.causes = find_causes(input.harp.details.layout, check.result.steps, {});
    for (int i = 0; i < 20; ++i) {
        std::string words;
        for (int k = 0; k < 100; ++k) words += "buzzing ";
        input.notes.push_back({{}, {.noted_on = {2026, 2, 1}, .words = words}});
        VisitRecord visit;
        visit.visit.visited_on = {2020, 1, 1 + i};
        visit.visit.work = {
            {std::nullopt, std::nullopt, "felts, discs and rods seen to in all octaves", "21 felts"}};
        input.visits.push_back(visit);
    }
    const auto paper = GENERATE(Paper::a4, Paper::letter);
    const PrintedPages pages{report::pdf_of(report::technician_sheet(input), paper).value()};
    CHECK(pages.pages().size() == 2);
    for (const auto& page : pages.pages()) CHECK(overlaps(page) == std::vector<std::string>{});
}

TEST_CASE("reports: a plain tuning list is one page", "[paper]")
{
    auto request = demo_request(ReportKind::tuning);
    request.tuning.settings.clear();
    for (const Paper paper : {Paper::a4, Paper::letter}) {
        const auto document = ui::make_report(demo_ledger(), request).value();
        CHECK(PrintedPages{report::pdf_of(document, paper).value()}.pages().size() == 1);
    }
}

TEST_CASE("reports: no colour anywhere, so that they print in grey", "[paper]")
{
    const auto kind = GENERATE(from_range(ui::all_report_kinds));
    CAPTURE(ui::report_kind_name(kind));
    CHECK_FALSE(PrintedPages{printed(kind, Paper::a4)}.has_colour());
}

TEST_CASE("reports: the same day gives the same bytes, another day others", "[paper][property]")
{
    auto document = demo_document(ReportKind::technician);
    const auto once = report::pdf_of(document, Paper::a4).value();
    CHECK(once == printed(ReportKind::technician, Paper::a4));
    CHECK(PrintedPages{once}.info().find("CreationDate:    2026-03-04T12:00:00Z") != std::string::npos);
    document.day = {2026, 3, 5};
    CHECK(once != report::pdf_of(document, Paper::a4).value());
}

TEST_CASE("reports: the text of each can be taken out as it was", "[paper][golden]")
{
    const auto kind = GENERATE(from_range(ui::all_report_kinds));
    const std::string name{ui::report_kind_name(kind)};
    CAPTURE(name);
    check_golden("report_" + name + ".txt", PrintedPages{printed(kind, Paper::a4)}.text());
}

TEST_CASE("reports: a note longer than a page goes on over the page", "[paper]")
{
    report::Document document{.kind = "technician", .title = "For the technician", .day = demo_day};
    std::string words;
    for (int i = 0; i < 3000; ++i) words += "word" + std::to_string(i) + " ";
    document.sections = {{"noticed", "What the owner noticed", {report::Sentences{{words}}}}};
    const PrintedPages pages{report::pdf_of(document, Paper::a4).value()};
    CHECK(pages.pages().size() > 2);
    CHECK(pages.text().find("word2999") != std::string::npos);
    for (const auto& page : pages.pages()) CHECK(beyond_margins(page) == std::vector<std::string>{});
}

TEST_CASE("reports: a table that goes on repeats its headings", "[paper]")
{
    report::Document document{.kind = "history", .title = "History", .day = demo_day};
    report::Table table{.name = "events",
                        .columns = {{"Date"}, {"What happened", report::Align::left, true}}};
    for (int i = 0; i < 120; ++i)
        table.rows.push_back({.cells = {"2026-03-04", "event " + std::to_string(i)}, .fields = {}});
    document.sections = {{"events", "All that happened", {table}}};
    const auto pages = PrintedPages{report::pdf_of(document, Paper::a4).value()}.pages();
    REQUIRE(pages.size() > 1);
    for (const auto& page : pages)
        CHECK(std::count_if(page.words.begin(), page.words.end(), [](const PrintedWord& word) {
                  return word.word == "happened";
              }) == (&page == &pages[0] ? 2 : 1));
}

TEST_CASE("reports: JSON and CSV hold what stands on paper", "[paper]")
{
    const auto kind = GENERATE(from_range(ui::all_report_kinds));
    CAPTURE(ui::report_kind_name(kind));
    const auto document = demo_document(kind);
    const auto json = nlohmann::json::parse(ui::report_json(document));
    CHECK(json["report"] == ui::report_kind_name(kind));
    CHECK(json["as_of"] == "2026-03-04");
    for (const auto& table : report::data_tables(document)) {
        if (!json["tables"].contains(table.name)) continue; // facts
        CHECK(json["tables"][table.name].size() == table.rows.size());
    }
    const auto csv = ui::report_bytes(document, {.format = ui::ReportFormat::csv});
    REQUIRE(csv);
    const auto rows = static_cast<std::size_t>(std::count(csv->begin(), csv->end(), '\n'));
    CHECK(rows == json["tables"][document.main_table].size() + 1);
}

TEST_CASE("make_report: the sheet of a room tells how far it is, and can be stopped", "[paper]")
{
    std::vector<double> shares;
    const auto all = [&](double share) {
        shares.push_back(share);
        return true;
    };
    REQUIRE(ui::make_report(demo_ledger(), demo_request(ui::ReportKind::room), all));
    REQUIRE(shares.size() == demo_harps);
    CHECK(std::is_sorted(shares.begin(), shares.end()));
    CHECK(shares.back() < 1.0);
    const auto stopped = ui::make_report(demo_ledger(), demo_request(ui::ReportKind::room),
                                         [](double share) { return share < 0.3; });
    REQUIRE_FALSE(stopped);
    CHECK(stopped.error().code == ErrorCode::refused);
}

TEST_CASE("school_year_of: from August to July", "[paper]")
{
    CHECK(ui::school_year_of({2026, 3, 4}).from == Date{2025, 8, 1});
    CHECK(ui::school_year_of({2026, 3, 4}).until == Date{2026, 7, 31});
    CHECK(ui::school_year_of({2026, 8, 1}).from == Date{2026, 8, 1});
}

TEST_CASE("suggested_file_name: only letters, digits and hyphens of the name", "[paper]")
{
    report::Document document{.kind = "technician", .subject = "The \"Grey\" Heron / 2", .day = demo_day};
    CHECK(ui::suggested_file_name(document, ui::ReportFormat::pdf) ==
          "the-grey-heron-2-technician-2026-03-04.pdf");
}

TEST_CASE("make_report: says what is missing", "[paper]")
{
    auto request = demo_request(ReportKind::visit);
    request.harp = db::harp_named(demo_ledger(), "Kestrel").value();
    const auto none = ui::make_report(demo_ledger(), request);
    REQUIRE_FALSE(none);
    CHECK(none.error().code == ErrorCode::not_found);
    CHECK(none.error().message.find("no visit yet") != std::string::npos);
}
