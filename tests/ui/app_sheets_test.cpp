// SPDX-License-Identifier: MIT
#include "driver.hpp"

#include "db/ledger/ledger.hpp"
#include "db/records/harps.hpp"
#include "ui/dashboard/keys.hpp"
#include "ui/support/harp_report.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;
using namespace harpkeep::dashboard;

namespace {

/// A button and the sheet that it asks for.
struct Way {
    Page page;
    const char* button;
    ui::ReportKind kind;
};

constexpr std::array ways{Way{Page::today, "today.sheet", ui::ReportKind::technician},
                          Way{Page::visits, "visits.sheet", ui::ReportKind::technician},
                          Way{Page::visits, "visits.visit_sheet", ui::ReportKind::visit},
                          Way{Page::history, "history.compare_sheet", ui::ReportKind::visit},
                          Way{Page::history, "history.sheet", ui::ReportKind::history},
                          Way{Page::room, "room.sheet", ui::ReportKind::room},
                          Way{Page::strings, "strings.sheet", ui::ReportKind::strings},
                          Way{Page::tuning, "tuning.sheet", ui::ReportKind::tuning},
                          Way{Page::pedals, "pedals.sheet", ui::ReportKind::tuning}};

/// Presses the button, chooses the kind of file, and saves it. Returns what was written.
std::string saved(Driver& driver, const Way& way, int format)
{
    driver.go(way.page);
    REQUIRE(driver.click(way.button));
    REQUIRE(driver.click("sheet.format." + std::to_string(format)));
    REQUIRE(driver.click("sheet.make"));
    REQUIRE(driver.app->sheet_trouble().empty());
    REQUIRE(driver.find("path.path") != nullptr);
    const std::string path = driver.folder() / (std::string{way.button} + std::to_string(format));
    driver.name_file(path);
    return tests::read_bytes(path);
}

} // namespace

TEST_CASE("sheets: each is a button away from where it is looked for, and saved as a PDF", "[ui]")
{
    const auto way = GENERATE(from_range(ways));
    CAPTURE(way.button);
    Driver driver;
    CHECK(saved(driver, way, 0).starts_with("%PDF-"));
    CHECK(driver.app->messages().all().back().kind == MessageKind::done);
    CHECK_FALSE(driver.app->dialog_open());
}

TEST_CASE("sheets: what the window saves is what the command line prints", "[ui]")
{
    const auto way = GENERATE(from_range(ways));
    if (way.kind == ui::ReportKind::visit || way.kind == ui::ReportKind::tuning)
        return; // chosen in the window
    CAPTURE(way.button);
    Driver driver;
    const auto json = saved(driver, way, 2);
    const auto ledger = db::Ledger::open(driver.folder() / "school/larkmoor.harpkeep", db::Access::read,
                                         Moment{1'795'543'200'000, 60})
                            .value();
    ui::ReportRequest request{.kind = way.kind, .today = {2026, 11, 24}};
    request.harp = db::harp_named(ledger, "Heron").value();
    request.from = ui::school_year(2026).from;
    request.until = ui::school_year(2026).until;
    CHECK(json == ui::report_json(ui::make_report(ledger, request).value()));
}

TEST_CASE("sheets: two checks that were chosen are the before and after on paper", "[ui]")
{
    Driver driver;
    driver.app->apply(CompareChecks{6, 5});
    const auto json = saved(driver, ways[3], 2);
    const auto& checks = std::get<HistoryModel>(*driver.app->model(Page::history)).checks;
    for (const auto i : {5, 6}) {
        const std::chrono::year_month_day day{checks[static_cast<std::size_t>(i)].day};
        CAPTURE(static_cast<unsigned>(day.month()), static_cast<unsigned>(day.day()));
        const std::string text = std::to_string(static_cast<int>(day.year()));
        CHECK(json.find(text) != std::string::npos);
    }
    CHECK(json.find("\"improved\"") != std::string::npos);
}

TEST_CASE("sheets: a tuning list goes around the setting that the page of pedals shows", "[ui]")
{
    Driver driver;
    driver.app->apply(ChoosePedals{{{0, 0, -1, 0, 0, -1, -1}}}); // E flat major
    const auto plain = saved(driver, ways[7], 2), around = saved(driver, ways[8], 2);
    CHECK(plain.find("diagram") == std::string::npos);
    CHECK(around.find(R"("diagram": "--^|^--^")") != std::string::npos);
}

TEST_CASE("sheets: the school year of one room, as a table", "[ui]")
{
    Driver driver;
    driver.go(Page::room);
    REQUIRE(driver.click("room.sheet"));
    driver.click("sheet.room");
    REQUIRE(driver.click("sheet.room.1"));
    driver.click("sheet.year");
    REQUIRE(driver.click("sheet.year.1"));
    REQUIRE(driver.click("sheet.format.1"));
    CHECK(driver.find("sheet.paper.0") == nullptr); // a table has no paper
    REQUIRE(driver.click("sheet.make"));
    const auto path = driver.folder() / "year.csv";
    driver.name_file(path);
    const auto csv = tests::read_bytes(path);
    CHECK(std::count(csv.begin(), csv.end(), '\n') > 1);
}

TEST_CASE("sheets: the paper is remembered", "[ui]")
{
    Driver driver;
    REQUIRE(driver.click("today.sheet"));
    REQUIRE(driver.click("sheet.paper.1"));
    CHECK(driver.app->settings().paper == report::Paper::letter);
    REQUIRE(driver.click("sheet.cancel"));
    CHECK_FALSE(driver.app->dialog_open());
}

TEST_CASE("sheets: what is missing for one is told in its dialog, and nothing is lost", "[ui]")
{
    Driver driver{{.school = {.harps = 0}}};
    driver.click("start.name");
    driver.type("Wren");
    driver.click("start.add_harp");
    driver.app->apply(PrintSheet{.kind = ui::ReportKind::visit});
    driver.frames(3);
    REQUIRE(driver.click("sheet.make"));
    CHECK(driver.app->sheet_trouble().find("Wren") != std::string::npos);
    CHECK(driver.find("sheet.make") != nullptr); // still there to be tried again
    driver.press(key_escape);
    CHECK_FALSE(driver.app->dialog_open());
}
