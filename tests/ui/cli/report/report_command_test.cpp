// SPDX-License-Identifier: MIT
#include "records/money.hpp"
#include "tests/support/temporary_folder.hpp"
#include "tests/ui/cli/reason/school_ledger.hpp"
#include "ui/support/demo_ledger.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <filesystem>

using namespace harpkeep;
using test::Run;
using test::run_harpkeep;

namespace {

/// A folder with the ledger of the invented school.
struct School {
    tests::TemporaryFolder folder;
    std::string ledger = folder / "larkmoor.harpkeep";

    School()
    {
        auto made = db::Ledger::open(ledger, db::Access::create, test::an_evening).value();
        REQUIRE(ui::fill_demo_ledger(made, test::that_evening(), 4));
    }
    [[nodiscard]] Run report(std::vector<std::string> arguments) const
    {
        arguments.insert(arguments.begin(), "report");
        arguments.insert(arguments.end(), {"--as-of", "2026-03-04"});
        return run_harpkeep(ledger, arguments);
    }
};

} // namespace

TEST_CASE("report: writes a PDF file, the same for the same day", "[ui]")
{
    const School school;
    for (const char* name : {"once.pdf", "again.pdf"}) {
        const auto run = school.report({"technician", "--harp", "Heron", "--out", school.folder / name});
        CAPTURE(run.output);
        CHECK(run.exit_code == 0);
        CHECK(run.says(name));
    }
    const auto once = tests::read_bytes(school.folder / "once.pdf");
    CHECK(once.starts_with("%PDF-"));
    CHECK(once == tests::read_bytes(school.folder / "again.pdf"));
    CHECK_FALSE(std::filesystem::exists(school.folder / "once.pdf.unfinished"));
}

TEST_CASE("report: a PDF without a name is refused, with a name to take", "[ui]")
{
    const auto run = School{}.report({"strings", "--harp", "Heron"});
    CHECK(run.exit_code == 2);
    CHECK(run.says("--out heron-strings-2026-03-04.pdf"));
}

TEST_CASE("report: a file that cannot be written leaves nothing behind", "[ui]")
{
    const School school;
    const auto run =
        school.report({"strings", "--harp", "Heron", "--out", school.folder / "not there/card.pdf"});
    CHECK(run.exit_code == 6);
    CHECK(run.says("not there/card.pdf"));
    CHECK_FALSE(std::filesystem::exists(school.folder / "not there"));
}

TEST_CASE("report: every kind as JSON and as CSV", "[ui]")
{
    const School school;
    for (const char* kind : {"technician", "visit", "history", "room", "strings", "tuning"}) {
        CAPTURE(kind);
        const auto json = school.report({kind, "--harp", "Heron", "--json"});
        REQUIRE(json.exit_code == 0);
        CHECK(json.json()["report"] == kind);
        CHECK_FALSE(json.json()["tables"].empty());
        const auto csv = school.report({kind, "--harp", "Heron", "--csv"});
        CHECK(csv.exit_code == 0);
        CHECK(csv.says(",")); // more than one column
    }
}

TEST_CASE("report: asks for one format, and for tables that there are", "[ui]")
{
    const School school;
    CHECK(school.report({"technician", "--harp", "Heron", "--csv", "--json"}).exit_code == 2);
    const auto none = school.report({"technician", "--harp", "Heron", "--csv", "--table", "felts"});
    CHECK(none.exit_code == 3);
    CHECK(none.says("strings"));
    CHECK(school.report({"technician", "--harp", "Heron", "--csv", "--table", "pedals"})
              .says("lower_mean_cents"));
    CHECK(school.report({"poster", "--harp", "Heron"}).exit_code == 2);
    CHECK(school.report({"technician", "--harp", "Bittern", "--json"}).exit_code == 3);
}

TEST_CASE("report: a room's year with what it cost", "[ui]")
{
    const School school;
    const auto run = school.report({"room", "--room", "Music room 2", "--year", "2024", "--json"});
    REQUIRE(run.exit_code == 0);
    const auto sheet = run.json();
    CHECK(sheet["facts"]["from"] == "2024-08-01");
    CHECK_FALSE(sheet["tables"]["harps"].empty());
    // The costs of the single visits make up the sum.
    int minor_units = 0;
    for (const auto& one : sheet["tables"]["happened"])
        if (!one["cost_minor_units"].is_null()) minor_units += one["cost_minor_units"].get<int>();
    REQUIRE(minor_units > 0);
    CHECK(sheet["facts"]["visit_cost"] == money_text({minor_units, "EUR"}));
    CHECK(school.report({"room", "--room", "Cellar", "--json"}).exit_code == 3);
    CHECK(school.report({"room", "--first-day", "2026-01-01", "--last-day", "2025-01-01", "--json"})
              .exit_code == 2);
}

TEST_CASE("report: a tuning list around the faults of the last check", "[ui]")
{
    const School school;
    const auto run = school.report(
        {"tuning", "--harp", "Heron", "--setting", "E flat major x 12", "--for", "Spring concert", "--json"});
    REQUIRE(run.exit_code == 0);
    CHECK(run.json()["facts"]["occasion"] == "Spring concert");
    CHECK(run.json()["tables"]["settings"][0]["weight"] == 12.0);
    CHECK(run.json()["tables"]["strings"].size() == 47);
}

TEST_CASE("report: help names the kinds", "[ui]")
{
    const auto help = run_harpkeep("unused", {"report", "--help"});
    for (const char* kind : {"technician", "visit", "history", "room", "strings", "tuning"})
        CHECK(help.says(kind));
}

TEST_CASE("report: a part that is wanted stands with the parts, not with what was noticed", "[ui]")
{
    const School school;
    const auto noted = run_harpkeep(school.ledger, {"note", "add", "felts for the F pedal", "--harp", "Heron",
                                                    "--wanted", "--date", "2026-03-01"});
    CAPTURE(noted.output);
    REQUIRE(noted.exit_code == 0);
    const auto run = school.report({"technician", "--harp", "Heron", "--json"});
    const auto json = nlohmann::json::parse(run.output);
    REQUIRE(json["tables"]["parts"].size() == 1);
    CHECK(json["tables"]["parts"][0]["part"] == "felts for the F pedal");
    for (const auto& words : json["text"]["noticed"])
        CHECK(words.get<std::string>().find("felts") == std::string::npos);
}

TEST_CASE("note: a part is wanted for a harp", "[ui]")
{
    const School school;
    const auto run = run_harpkeep(school.ledger, {"note", "add", "felts", "--wanted"});
    CHECK(run.exit_code == 2);
    CHECK(run.says("--harp"));
}
