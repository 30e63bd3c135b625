// SPDX-License-Identifier: MIT
// The ledger as a file: out and in, several computers, several programs, and files that are none.
#include "tests/ui/cli/ledger/program.hpp"

#include <fmt/format.h>
#include <libical/ical.h>
#include <memory>

using namespace harpkeep::test;
using harpkeep::tests::read_bytes;
using harpkeep::tests::write_bytes;

namespace {

struct School : Program {
    School()
    {
        done("harp add Heron");
        done("string on 3A --harp Heron --material gut --date 2019-03");
        done("visit add --harp Heron --date 2020-05-06 --technician 'the technician' --work regulated");
    }
    /// Another ledger, in a folder of its own.
    [[nodiscard]] Run other(const std::string& name, const std::string& words) const
    {
        return run_shell(HARPKEEP_PROGRAM " --ledger " + quoted(file(name)) + " " + words);
    }
};

} // namespace

TEST_CASE("no ledger yet: every reading command says how to begin, and makes none", "[cli]")
{
    const Program program;
    for (const char* words : {"harp list", "due", "history", "string list", "ledger info", "ledger verify",
                              "csv list", "undo", "room list", "show x", "correct x a=b"}) {
        const auto run = program.run(words);
        CAPTURE(words, run.text);
        CHECK(run.code == 3);
        CHECK(run.says("harpkeep harp add"));
    }
    CHECK_FALSE(std::filesystem::exists(program.ledger()));
    const auto nowhere = run_shell(HARPKEEP_PROGRAM " harp add Heron --ledger /no/such/folder/ledger");
    CHECK(nowhere.code == 3);
    CHECK(nowhere.says("make it first"));
    const auto too_long =
        run_shell(HARPKEEP_PROGRAM " harp add Heron --ledger /tmp/" + std::string(300, 'x'));
    CHECK(too_long.code == 6);
}

TEST_CASE("the default ledger lies in the user's data folder", "[cli]")
{
    const TemporaryFolder folder;
    const std::string with_home = "HOME=" + quoted(folder / "ho me") + " XDG_DATA_HOME= " HARPKEEP_PROGRAM;
    CHECK(run_shell(with_home + " harp add Heron").code == 0);
    CHECK(std::filesystem::exists(folder / "ho me/.local/share/harpkeep/ledger.harpkeep"));
    CHECK(run_shell("env -u HOME -u XDG_DATA_HOME " HARPKEEP_PROGRAM " harp list").code == 6);
}

TEST_CASE("ledger export and import: the same ledger again", "[cli]")
{
    const School school;
    school.done("ledger export " + quoted(school.file("out.json")));
    school.done("ledger export --csv " + quoted(school.file("out")));
    CHECK(school.run("ledger export " + quoted(school.file("out.json"))).code == 5);
    for (const char* form : {"out.json", "out"}) {
        const std::string name = std::string{"again from "} + form;
        const auto imported = school.other(name, "ledger import " + quoted(school.file(form)) + " --json");
        CAPTURE(form, imported.text);
        REQUIRE(imported.code == 0);
        CHECK(imported.json()["new_facts"] == 3);
        CHECK(school.other(name, "history Heron --json").text == school.run("history Heron --json").text);
        CHECK(school.other(name, "ledger verify").code == 0);
        CHECK(school.other(name, "ledger import " + quoted(school.file(form))).says("Nothing new"));
    }
    write_bytes(school.file("bad.json"), "{\"format\": \"harpkeep ledger\", \"tables\": ");
    school.refused("ledger import " + quoted(school.file("bad.json")), 4, "");
    school.refused("ledger import " + quoted(school.file("none.json")), 3, "no such file");
}

TEST_CASE("csv: a table out, changed in a spreadsheet, and in again", "[cli]")
{
    const School school;
    CHECK(school.done("csv list").says("diameter_mm"));
    CHECK(school.json("csv list").size() > 20);
    auto table = school.done("csv export string").text;
    CHECK(table.substr(0, 4) == "key,");
    table.replace(table.find("2019-03"), 7, "2019-04");
    write_bytes(school.file("string.csv"), table);
    CHECK(school.done("csv import --try " + quoted(school.file("string.csv"))).says("1 corrected"));
    CHECK(school.json("string list")[0]["put_on"] == "2019-03");
    CHECK(school.json("csv import " + quoted(school.file("string.csv")))["files"][0]["corrected"] == 1);
    CHECK(school.json("string list")[0]["put_on"] == "2019-04");
    school.done("undo");
    CHECK(school.json("string list")[0]["put_on"] == "2019-03");

    write_bytes(school.file("my strings.csv"), "harp,place,material,put_on\nHeron,3B,gut,2020-02-30\n");
    school.refused("csv import --table string " + quoted(school.file("my strings.csv")), 4,
                   "my strings.csv, line 2, column 14");
    school.refused("csv import " + quoted(school.file("my strings.csv")), 2, "no table \"my strings\"");
    school.refused("csv export cheese", 2, "no table \"cheese\"");

    school.done("csv export --all --to " + quoted(school.file("tables")));
    CHECK(school.run("csv export --all --to " + quoted(school.file("tables"))).code ==
          5); // nothing is overwritten
    const auto again = school.other("again", "csv import " + quoted(school.file("tables")) + "/*.csv");
    CAPTURE(again.text);
    CHECK(again.code == 0);
    CHECK(school.other("again", "history Heron --json").text == school.run("history Heron --json").text);
}

TEST_CASE("due: a calendar that libical reads, with due work and visits", "[cli][twin]")
{
    const School school;
    school.done("reminder add 'insure; anew, please' --harp Heron --on 2020-07");
    school.done("due --ics " + quoted(school.file("due.ics")));
    const std::unique_ptr<icalcomponent, decltype(&icalcomponent_free)> calendar{
        icalparser_parse_string(read_bytes(school.file("due.ics")).c_str()), &icalcomponent_free};
    REQUIRE(calendar);
    CHECK(icalcomponent_count_errors(calendar.get()) == 0);
    CHECK(icalrestriction_check(calendar.get()) == 1);
    CHECK(icalcomponent_count_components(calendar.get(), ICAL_VEVENT_COMPONENT) == 1); // the visit
    bool found = false;
    for (auto* task = icalcomponent_get_first_component(calendar.get(), ICAL_VTODO_COMPONENT);
         task != nullptr; task = icalcomponent_get_next_component(calendar.get(), ICAL_VTODO_COMPONENT))
        found = found || std::string{icalcomponent_get_summary(task)} == "Heron: insure; anew, please";
    CHECK(found);
}

TEST_CASE("merge: two computers, what contradicts itself is listed and kept", "[cli]")
{
    const School school;
    school.done("ledger backup " + quoted(school.file("carried away")));
    CHECK(school.other("carried away", "harp add Wren").code == 0);
    CHECK(school.other("carried away", "string off 3A --harp Heron --reason broke --date 2020").code == 0);
    school.done("string off 3A --harp Heron --reason tone --date 2021");
    const Json report = school.json("ledger merge " + quoted(school.file("carried away")));
    CHECK(report["new_facts"] == 2);
    REQUIRE(report["conflicts"].size() == 1);
    CHECK(report["conflicts"][0]["kind"] == "a string taken off twice");
    CHECK(school.json("ledger merge " + quoted(school.file("carried away")))["new_facts"] == 0);
    const auto verified = school.done("ledger verify");
    CHECK(verified.says("taken off twice"));
    const Json removals = school.json("history Heron 3A");
    CHECK(school.json("ledger conflicts").size() == 1);
    const std::string wrong = report["conflicts"][0]["things"][1];
    school.done("void " + wrong + " --reason 'the other is right'");
    CHECK(school.done("ledger conflicts").says("No conflicts"));
}

TEST_CASE("backup, restore, verify: round a damage", "[cli]")
{
    const School school;
    school.done("ledger backup " + quoted(school.file("backup")));
    CHECK(school.run("ledger backup " + quoted(school.file("backup"))).code == 5);
    school.done("harp add Wren");
    const Json restored = school.json("ledger restore " + quoted(school.file("backup")));
    CHECK(school.json("harp list").size() == 1);
    CHECK(std::filesystem::exists(restored["before"].get<std::string>()));
    // Into a damage: verify tells, restore mends.
    auto bytes = read_bytes(school.ledger());
    for (std::size_t i = 8192; i < std::min<std::size_t>(bytes.size(), 40960); ++i) bytes[i] = 'x';
    write_bytes(school.ledger(), bytes);
    const auto verified = school.run("ledger verify");
    CAPTURE(verified.text);
    CHECK(verified.code == 7);
    CHECK(verified.says("ledger restore"));
    school.done("ledger restore " + quoted(school.file("backup")));
    school.done("ledger verify");
    CHECK(school.run("ledger restore " + quoted(school.file("none"))).code == 3);
    CHECK(school.done("ledger info").says("schema"));
}

TEST_CASE("rolling backups: one before the first change of a day", "[cli]")
{
    const School school;
    const Json info = school.json("ledger info");
    REQUIRE(info["backups"].size() == 1);
    CHECK(std::filesystem::exists(info["backups"][0].get<std::string>()));
}

TEST_CASE("several programs on one ledger at once: every write is there", "[cli]")
{
    const School school;
    std::string line;
    constexpr int programs = 8, each = 5;
    for (int program = 0; program < programs; ++program) {
        line += "( for i in 1 2 3 4 5; do " HARPKEEP_PROGRAM " --ledger " + quoted(school.ledger()) +
                fmt::format(" note add {}-$i --harp Heron || echo LOST; done ) >/dev/null & ", program);
    }
    const auto run = run_shell(line + "wait");
    CHECK(run.text == "");
    CHECK(school.json("note list").size() == programs * each);
    school.done("ledger verify");
}

TEST_CASE("files that are no ledger are refused by every command, and stay as they are", "[cli]")
{
    const School school;
    write_bytes(school.file("letter"), std::string(5000, 'x'));
    const auto before = read_bytes(school.file("letter"));
    for (const char* words : {"harp list", "harp add Wren", "ledger verify", "undo"}) {
        const auto run = school.other("letter", words);
        CAPTURE(words, run.text);
        CHECK(run.code == 7);
        CHECK(run.says("no ledger"));
    }
    CHECK(read_bytes(school.file("letter")) == before);
    CHECK(school.other(".", "harp add Wren").code == 6); // a folder
}
