// SPDX-License-Identifier: MIT
#include "db/exchange/whole_ledger.hpp"

#include "db/ledger/verify.hpp"
#include "db/records/harps.hpp"
#include "db/sqlite/migrate.hpp"
#include "tests/support/full_ledger.hpp"
#include "tests/support/ledger_dump.hpp"
#include "tests/support/random_history.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace harpkeep;
using namespace harpkeep::test;
using Json = nlohmann::ordered_json;

namespace {

db::Ledger open(const TemporaryFolder& folder, const std::string& name)
{
    return db::Ledger::open(folder / name, db::Access::create, an_evening).value();
}

Json document_of(const db::Ledger& ledger, const TemporaryFolder& folder, const std::string& name)
{
    REQUIRE(db::export_ledger(ledger, db::LedgerForm::json, folder / name, an_evening));
    return Json::parse(tests::read_bytes(folder / name));
}

std::string message_of(const Json& document, const TemporaryFolder& folder)
{
    tests::write_bytes(folder / "wrong.json", document.dump());
    auto ledger = open(folder, "target");
    const auto before = dump(ledger);
    const auto report = db::import_ledger(ledger, folder / "wrong.json", an_evening);
    CHECK(dump(ledger) == before);
    return report ? std::string{} : report.error().message;
}

bool has(const std::string& text, const std::string& part)
{
    CAPTURE(text, part);
    const bool found = text.find(part) != std::string::npos;
    CHECK(found);
    return found;
}

} // namespace

TEST_CASE("full ledger: every table of the schema has a row", "[db]")
{
    const TemporaryFolder folder;
    auto ledger = open(folder, "full");
    const FullLedger full{ledger, folder};
    for (const auto& table : db::catalogue(ledger.database())) {
        CAPTURE(table.name);
        CHECK(ledger.database().integer_of("SELECT count(*) FROM " + table.name) > 0);
    }
    CHECK(db::verify(ledger, {.look_at_recordings = false})->problems.empty());
    CHECK(db::conflicts(ledger)->empty());
}

TEST_CASE("ledger export: every row comes back, in either form", "[db][property]")
{
    const auto form = GENERATE(db::LedgerForm::json, db::LedgerForm::csv);
    const TemporaryFolder folder;
    auto ledger = open(folder, "full");
    const FullLedger full{ledger, folder};
    REQUIRE(db::export_ledger(ledger, form, folder / "out", an_evening));
    auto again = open(folder, "again");
    const auto report = db::import_ledger(again, folder / "out", an_evening);
    if (!report) FAIL(report.error().message);
    CHECK(report->conflicts.empty());
    CHECK(dump(again) == dump(ledger));
    CHECK(db::import_ledger(again, folder / "out", an_evening)->new_facts == 0); // idempotent
    CHECK(dump(again) == dump(ledger));
    CHECK(db::export_ledger(ledger, form, folder / "out", an_evening).error().code == ErrorCode::refused);
}

TEST_CASE("ledger export: any history comes back, in either form", "[db][property]")
{
    const unsigned seed = GENERATE(range(1U, 5U));
    CAPTURE(seed);
    const TemporaryFolder folder;
    auto ledger = open(folder, "ledger");
    RandomHistory{seed, "studio", 0}.act(ledger, 80);
    for (const auto form : {db::LedgerForm::json, db::LedgerForm::csv}) {
        const std::string name = form == db::LedgerForm::json ? "json" : "csv";
        REQUIRE(db::export_ledger(ledger, form, folder / name, an_evening));
        auto again = open(folder, name + ".harpkeep");
        REQUIRE(db::import_ledger(again, folder / name, an_evening));
        CHECK(dump(again) == dump(ledger));
    }
}

TEST_CASE("ledger export: the JSON names its format, and another program may write it anew", "[db]")
{
    const TemporaryFolder folder;
    auto ledger = open(folder, "full");
    const FullLedger full{ledger, folder};
    const Json document = document_of(ledger, folder, "out.json");
    CHECK(document["format"] == "harpkeep ledger");
    CHECK(document["version"] == 1);
    CHECK(document["schema_version"] == db::newest_schema_version());
    const Json& harp = document["tables"]["harp"][0];
    CHECK(harp["value"] == "21000.00 EUR");
    CHECK(harp["nickname"] == "=SUM(A1:A9)"); // no guard where no formula can be
    CHECK(document["tables"]["harp_check"][0]["taken"] == "2026-03-04T13:35:00.123-03:30");
    const Json& reading = document["tables"]["check_reading"][0];
    CHECK(reading["place"] == "7C");
    CHECK(reading["uncertainty_cents"].is_number());
    // Written by another library, which prints numbers in its own way.
    tests::write_bytes(folder / "other.json", Json::parse(document.dump()).dump(4));
    auto again = open(folder, "again");
    REQUIRE(db::import_ledger(again, folder / "other.json", an_evening));
    CHECK(dump(again) == dump(ledger));
}

TEST_CASE("ledger import: what is wrong is told with table, row and column, and nothing is taken", "[db]")
{
    const TemporaryFolder folder;
    auto ledger = open(folder, "full");
    const FullLedger full{ledger, folder};
    const Json right = document_of(ledger, folder, "out.json");
    const auto message = [&](const auto& spoil) {
        Json wrong = right;
        spoil(wrong);
        return message_of(wrong, folder);
    };
    has(message([](Json& doc) { doc["format"] = "cheese"; }), "does not begin with \"format\"");
    has(message([](Json& doc) { doc["version"] = 2; }), "version 2");
    has(message([](Json& doc) { doc["schema_version"] = 99; }), "a later version of harpkeep");
    has(message([](Json& doc) { doc["tables"].erase("harp"); }), "rule of the ledger");
    has(message([](Json& doc) { doc["tables"]["cheese"] = Json::array(); }),
        "cheese: the ledger has no such table");
    const auto two = message([](Json& doc) {
        doc["tables"]["harp"][1]["year_built"] = "soon";
        doc["tables"]["check_reading"][4]["place"] = "9X";
    });
    has(two, "table harp, row 2, year_built: \"soon\" is no whole number");
    has(two, "table check_reading, row 5, place: \"9X\" is no string place");
    has(message([](Json& doc) { doc["tables"]["visit"][0]["visited_on"] = "2026-02-30"; }), "visited_on");
    has(message([](Json& doc) { doc["tables"]["harp_check"][0]["a4_hz"] = 4.4; }), "row 1, a4_hz");
    has(message([](Json& doc) { doc["tables"]["harp"][0]["colour"] = "black"; }),
        "colour: the table has no such");
    has(message([](Json& doc) { doc["tables"]["attachment"][0]["content"] = "AAAA"; }), "breaks a rule");
}

TEST_CASE("ledger import: a document that ends too early is refused", "[db]")
{
    const TemporaryFolder folder;
    auto ledger = open(folder, "full");
    const FullLedger full{ledger, folder};
    REQUIRE(db::export_ledger(ledger, db::LedgerForm::json, folder / "out.json", an_evening));
    const std::string whole = tests::read_bytes(folder / "out.json");
    auto target = open(folder, "target");
    for (const double part : {0.0, 0.001, 0.1, 0.5, 0.999}) {
        tests::write_bytes(
            folder / "cut.json",
            whole.substr(0, static_cast<std::size_t>(part * static_cast<double>(whole.size()))));
        const auto report = db::import_ledger(target, folder / "cut.json", an_evening);
        REQUIRE_FALSE(report);
        CHECK(report.error().code == ErrorCode::unusable_input);
    }
    CHECK(db::import_ledger(target, folder / "none.json", an_evening).error().code == ErrorCode::not_found);
    CHECK(target.database().integer_of("SELECT count(*) FROM action") == 0);
    for (const auto& entry : std::filesystem::directory_iterator{folder.path()})
        CHECK(entry.path().string().find("importing") == std::string::npos);
}

TEST_CASE("ledger import: a bad cell of a CSV folder is told with file, line and column", "[db]")
{
    const TemporaryFolder folder;
    auto ledger = open(folder, "full");
    const FullLedger full{ledger, folder};
    REQUIRE(db::export_ledger(ledger, db::LedgerForm::csv, folder / "out", an_evening));
    std::string visits = tests::read_bytes(folder / "out/visit.csv");
    visits.replace(visits.find("2026-02-10"), 10, "2026-02-31");
    tests::write_bytes(folder / "out/visit.csv", visits);
    auto target = open(folder, "target");
    const auto report = db::import_ledger(target, folder / "out", an_evening);
    REQUIRE_FALSE(report);
    has(report.error().message, "visit.csv, line 2, column ");
    has(report.error().message, "\"2026-02-31\" is no date");
    CHECK(target.database().integer_of("SELECT count(*) FROM action") == 0);
}

TEST_CASE("ledger import: merges with what is there", "[db]")
{
    const TemporaryFolder folder;
    auto here = open(folder, "here"), there = open(folder, "there");
    REQUIRE(db::add_harp(here, at(an_evening), concert_harp("Heron")));
    REQUIRE(db::add_harp(there, at(an_evening), concert_harp("heron")));
    REQUIRE(db::export_ledger(there, db::LedgerForm::json, folder / "there.json", an_evening));
    const auto report = db::import_ledger(here, folder / "there.json", an_evening).value();
    CHECK(report.new_facts == 1);
    REQUIRE(report.conflicts.size() == 1);
    CHECK(report.conflicts[0].kind == "two harps of one name");
}
