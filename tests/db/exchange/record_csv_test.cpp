// SPDX-License-Identifier: MIT
#include "db/exchange/record_import.hpp"
#include "db/exchange/record_tables.hpp"
#include "db/ledger/conflicts.hpp"
#include "db/ledger/verify.hpp"
#include "exchange/csv.hpp"
#include "tests/support/full_ledger.hpp"
#include "tests/support/ledger_dump.hpp"

#include <catch2/catch.hpp>

#include <sstream>

using namespace harpkeep;
using namespace harpkeep::test;

namespace {

db::Ledger open(const TemporaryFolder& folder, const std::string& name)
{
    return db::Ledger::open(folder / name, db::Access::create, an_evening).value();
}

std::map<std::string, std::string> exported(const db::Ledger& ledger)
{
    std::map<std::string, std::string> texts;
    const auto tables = db::record_tables(ledger).value();
    for (const auto& table : tables) {
        std::ostringstream stream;
        REQUIRE(db::write_records(ledger, table, stream));
        texts[table.name] = stream.str();
    }
    return texts;
}

std::vector<db::RecordFile> files_of(const std::map<std::string, std::string>& texts)
{
    std::vector<db::RecordFile> files;
    for (const auto& [table, text] : texts) files.push_back({table + ".csv", table, text});
    return files;
}

Result<std::vector<db::RecordImport>> import(db::Ledger& ledger, const std::string& table,
                                             const std::string& text)
{
    return db::import_records(ledger, that_evening(), {{table + ".csv", table, text}});
}

/// What is wrong with the file; the ledger must be as before.
std::string refusal(db::Ledger& ledger, const std::string& table, const std::string& text)
{
    const auto before = dump(ledger);
    const auto report = import(ledger, table, text);
    CHECK(dump(ledger) == before);
    CHECK_FALSE(report);
    return report ? std::string{} : report.error().message;
}

void has(const std::string& text, const std::string& part)
{
    CAPTURE(text, part);
    CHECK(text.find(part) != std::string::npos);
}

struct Filled {
    TemporaryFolder folder;
    db::Ledger ledger = open(folder, "full");
    FullLedger full{ledger, folder};
};

} // namespace

TEST_CASE("record csv: every table comes back into the ledger it came from, and nothing changes",
          "[db][property]")
{
    Filled given;
    const auto before = dump(given.ledger);
    const auto texts = exported(given.ledger);
    CHECK(texts.size() > 20);
    for (const auto& [table, text] : texts) {
        CAPTURE(table, text.substr(0, 300));
        CHECK(read_csv(text)->rows.size() > 1); // each has a row to speak of
        const auto report = import(given.ledger, table, text);
        if (!report) FAIL(report.error().message);
        CHECK(report->front().added + report->front().corrected == 0);
        CHECK(report->front().unchanged > 0);
    }
    CHECK(dump(given.ledger) == before);
}

TEST_CASE("record csv: all tables make a new ledger that says the same", "[db][property]")
{
    Filled given;
    const auto texts = exported(given.ledger);
    auto again = open(given.folder, "again");
    const auto report = db::import_records(again, that_evening(), files_of(texts));
    if (!report) FAIL(report.error().message);
    CHECK(exported(again) == texts);
    CHECK(db::verify(again, {.look_at_recordings = false})->problems.empty());
    CHECK(db::conflicts(again)->empty());
    REQUIRE(db::undo_last(again, that_evening()));
    CHECK(db::harps(again)->empty());
}

TEST_CASE("record csv: no cell that is written can be a formula", "[db]")
{
    Filled given;
    for (const auto& [table, text] : exported(given.ledger)) {
        const auto rows = read_csv(text).value().rows;
        for (const auto& row : rows)
            for (const auto& cell : row) {
                const bool begins_a_formula =
                    std::string_view{"=+-@\t\r\n"}.find((cell.text + " ")[0]) != std::string_view::npos;
                if (!begins_a_formula) continue;
                CAPTURE(table, cell.text);
                CHECK(cell.text.find_first_not_of("+-.0123456789e") == std::string::npos); // a number
            }
    }
}

TEST_CASE("record csv: every heading that measures something names its unit", "[db]")
{
    auto ledger = ledger_in_memory();
    const std::set<std::string> counts{"inharmonicity", "only_row", "change",     "year_built",
                                       "every_months",  "ordinal",  "file_index", "open_alteration",
                                       "repeat",        "encoding"}; // numbers that have none, or are named
                                                                     // for it
    const auto tables = db::record_tables(ledger).value();
    for (const auto& table : tables)
        for (const auto& column : table.columns) {
            if (!column.is_numeric() || counts.contains(column.name)) continue;
            if (column.name.ends_with("degrees_of_freedom")) continue;
            CAPTURE(table.name, column.name);
            const auto end = column.name.substr(column.name.rfind('_') + 1);
            CHECK(std::set<std::string>{"hz", "cents", "s", "db", "c", "percent", "mm", "m"}.contains(end));
        }
}

TEST_CASE("record csv: a person's own table of strings is taken with names and few columns", "[db]")
{
    auto ledger = ledger_in_memory();
    REQUIRE(db::add_harp(ledger, that_evening(), concert_harp("Heron")));
    const auto report = import(ledger, "string",
                               "harp;place;material;diameter_mm;put_on;cost\r\n"
                               "heron;3A;gut;1.2;2025-03;4.80 EUR\r\n"
                               "HERON;C4;nylon;;2025;\r\n");
    if (!report) FAIL(report.error().message);
    CHECK(report->front().added == 2);
    const auto lives = db::all_string_lives(ledger).value();
    REQUIRE(lives.size() == 2);
    CHECK(lives[0].string.make.diameter == 1.2_mm);
    CHECK(lives[0].string.cost == Money{480, "EUR"});
    CHECK(lives[1].string.place == *place_from_harp_name("4C"));
    CHECK(db::undo_last(ledger, that_evening())->what == "imported string.csv");
    CHECK(db::all_string_lives(ledger)->empty());
}

TEST_CASE("record csv: a broken rule is told in words, at its cell", "[db]")
{
    auto ledger = ledger_in_memory();
    REQUIRE(db::add_harp(ledger, that_evening(), concert_harp("Heron")));
    const auto told = [&](const std::string& table, const std::string& text) {
        const auto report = import(ledger, table, text);
        return report ? std::string{} : report.error().message;
    };
    using Catch::Matchers::Contains;
    CHECK_THAT(told("string", "harp,place,material,diameter_mm,put_on\nHeron,3A,gut,200,2025\n"),
               Contains("line 2, column 14: ") && Contains("diameter_mm must be above 0 and below 20"));
    CHECK_THAT(told("loan", "harp,borrower,from_on\nHeron,,2025\n"), Contains("borrower must not be empty"));
    CHECK_THAT(told("harp", "name,kind\nLinnet,gold\n"),
               Contains("kind must be one of pedal, single, lever"));
    CHECK_THAT(told("harp", "name,kind\n" + std::string(3000, 'n') + ",lever\n"),
               Contains("the name has 3000 letters, and at most 100 fit"));
    CHECK(db::harps(ledger)->size() == 1);
}

TEST_CASE("record csv: labels tie new rows together", "[db]")
{
    auto ledger = ledger_in_memory();
    const auto report =
        db::import_records(ledger, that_evening(),
                           {{"w.csv", "visit_work", "visit,work,place\n#v,new disc,3A\n#v,regulated,\n"},
                            {"h.csv", "harp", "name,kind\nHeron,pedal\nLinnet,lever\n"},
                            {"v.csv", "visit", "key,harp,visited_on\n#v,Heron,2026-01-02\n"}});
    if (!report) FAIL(report.error().message);
    const auto heron = db::harp_named(ledger, "Heron").value();
    CHECK(heron.details.layout == make_layout({}).value());
    CHECK(db::harp_named(ledger, "Linnet")->details.layout.strings.size() == 34);
    const auto visits = db::visits_of(ledger, heron.id).value();
    REQUIRE(visits.size() == 1);
    REQUIRE(visits[0].visit.work.size() == 2);
    CHECK(visits[0].visit.work[0].place == *place_from_harp_name("3A"));
    CHECK(visits[0].visit.work[1].work == "regulated");
    CHECK(db::verify(ledger)->is_sound());
}

TEST_CASE("record csv: a changed cell corrects the thing, and what belongs to it stays", "[db]")
{
    Filled given;
    std::string text = exported(given.ledger)["visit"];
    text.replace(text.find("180.00 EUR"), 10, "190.00 EUR");
    const auto report = import(given.ledger, "visit", text).value();
    CHECK(report.front().corrected == 1);
    const auto visit = db::visits_of(given.ledger, given.full.heron)->front();
    CHECK(visit.visit.cost == Money{19'000, "EUR"});
    CHECK(visit.visit.work.size() == 3);
    CHECK(db::facts_of(given.ledger, visit.id)->size() == 2);
    const auto work =
        import(given.ledger, "visit_work", "visit,work\n" + to_string(visit.id) + ",=regulated all over\n");
    REQUIRE(work);
    const auto after = db::visits_of(given.ledger, given.full.heron)->front();
    REQUIRE(after.visit.work.size() == 1);
    CHECK(after.visit.cost == Money{19'000, "EUR"});
    CHECK(db::verify(given.ledger, {.look_at_recordings = false})->is_sound());
}

TEST_CASE("record csv: correcting a check keeps its readings", "[db]")
{
    Filled given;
    std::string text = exported(given.ledger)["check"];
    text.replace(text.find("20.3"), 4, "21.5");
    REQUIRE(import(given.ledger, "check", text));
    const auto check = db::latest_check(given.ledger, given.full.heron).value();
    CHECK(check->header.temperature == Celsius{21.5});
    CHECK(check->result.readings.size() == 137);
    CHECK(
        db::check(given.ledger, check->id, db::WithPartials::yes)->result.readings[0].pluck.partials.size() ==
        10);
}

TEST_CASE("record csv: bad cells are told with line and column, all of them", "[db]")
{
    Filled given;
    const auto message = refusal(given.ledger, "string",
                                 "harp,place,material,put_on,diameter_mm\n"
                                 "Heron,3B,gut,2025-13,thick\n"
                                 "Egret,9Z,gut,2025-01,0.6\n"
                                 "Heron,3C,,2025-01,0.6\n"
                                 "Heron,3D,gut,2025-01,-0.6\n");
    has(message, "string.csv, line 2, column 14: \"2025-13\" is no date");
    has(message, "string.csv, line 2, column 22: \"thick\" is no number");
    has(message, "string.csv, line 3, column 1: there is no harp \"Egret\"");
    has(message, "string.csv, line 3, column 7: \"9Z\" is no string place");
    has(message, "string.csv, line 4, column 10: "); // the material
    has(message, "string.csv, line 5, column 22: "); // the diameter
    has(refusal(given.ledger, "string", "harp,plaice\nHeron,3B\n"),
        "line 1, column 6: the table string has no column \"plaice\"");
    has(refusal(given.ledger, "string", "harp,place\nHeron,3B,gut\n"),
        "line 2, column 1: 3 cells where the first line has 2");
    has(refusal(given.ledger, "string", ""), "is empty");
    has(refusal(given.ledger, "string", "harp,\xFFplace\n"), "line 1, column 6: not UTF-8");
    has(refusal(given.ledger, "string", "harp,harp\nHeron,Heron\n"), "is there twice");
    has(refusal(given.ledger, "visit_work", "work,ordinal\nnut,0\n"), "\"visit\" must say");
    has(refusal(given.ledger, "cheese", "a\n"), "no table \"cheese\"");
}

TEST_CASE("record csv: the rules of the ledger hold for rows too", "[db]")
{
    Filled given;
    const auto string = [&](const std::string& rows) {
        return refusal(given.ledger, "string", "harp,place,material,put_on\n" + rows);
    };
    has(string("Heron,3A,gut,2025-07-01\n"), "line 2, column 1: 3A carries two strings at one time");
    has(string("Heron,3B,gut,2026-03-05\n"), "lies in the future");
    has(string("Linnet,0G,gut,2025-07-01\n"), "there is no harp \"Linnet\""); // its name is longer
    has(string("\"Linnet, the \"\"small\"\" one\",7C,gut,2025-01-01\n"),
        "speaks of 7C, which its harp does not have");
    has(refusal(given.ledger, "harp", "name,kind\nHERON,pedal\n"), "two harps are called");
    has(refusal(given.ledger, "harp", "name,kind\n\"  \",pedal\n"), "cannot be a name");
    has(refusal(given.ledger, "harp", "name,kind\nEgret,grand\n"), "line 2, column 7: ");
    const auto lives = db::string_lives(given.ledger, given.full.heron, *place_from_harp_name("6C")).value();
    has(refusal(given.ledger, "string_removal",
                "string,removed_on,reason\n" + db::handle_of(lives[0].id) + ",2025-12-01,tone\n"),
        "a string came off on 2025-12-01, before it was put on");
    has(refusal(given.ledger, "spare_movement",
                "place,material,change,cause,moved_on\n3A,gut,-5,used,2025-06-01\n"),
        "were used than there were");
    has(refusal(given.ledger, "loan", "harp,borrower,from_on\nHeron,somebody,2025-06\n"),
        "one harp is lent to two people");
    has(refusal(given.ledger, "attachment", "sha256,content\n" + std::string(64, '0') + ",AAAA\n"),
        "is not that of the content");
}

TEST_CASE("record csv: keys that cannot be are told", "[db]")
{
    Filled given;
    const auto note = [&](const std::string& key) {
        return refusal(given.ledger, "note", "key,noted_on,words\n" + key + ",2026-01-01,x\n");
    };
    has(note("abc"), "is no handle, key or label");
    has(note("919108f7-52d1-4320-9bac-f847db4148a8"),
        "leave the key out"); // RFC 9562, A.3: a key of version 4
    has(note(to_string(given.full.heron)), "is a harp, not a note");
    const auto notes = db::notes(given.ledger).value();
    REQUIRE(db::make_void(given.ledger, that_evening(), notes[0].id, "test"));
    has(note(to_string(notes[0].id)), "was voided");
    const auto twice = to_string(notes[1].id);
    has(refusal(given.ledger, "note", "key,words\n" + twice + ",x\n" + twice + ",y\n"), "line 3, column 1: ");
    CHECK(import(given.ledger, "note",
                 "key,noted_on,words\n017F22E2-79B0-7CC3-98C4-DC0C0C07398F,2026-01-01,x\n"));
    CHECK(db::thing_with_handle(given.ledger, "017f22e2-79b0-7cc3-98c4-dc0c0c07398f")); // RFC 9562, A.6
}

TEST_CASE("record csv: trying keeps nothing", "[db]")
{
    Filled given;
    const auto before = dump(given.ledger);
    const auto report = db::import_records(
        given.ledger, that_evening(), {{"n.csv", "note", "noted_on,words\n2026,x\n"}}, {.only_try = true});
    CHECK(report->front().added == 1);
    CHECK(dump(given.ledger) == before);
}
