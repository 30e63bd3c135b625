// SPDX-License-Identifier: MIT
// Everything that a ledger holds, added, listed, shown, corrected, voided and taken back by the program
// itself.
#include "tests/ui/cli/ledger/program.hpp"

using namespace harpkeep::test;

namespace {

std::string handle_in(const Json& record)
{
    const std::string id = record["id"];
    return id.substr(id.size() - 8);
}

/// A thing of any kind: shown, corrected with a reason, voided, and back again by undo.
void walk_through(const Program& program, const std::string& handle, const std::string& kind,
                  const std::string& column, const std::string& value)
{
    CAPTURE(handle, kind, column, value);
    const Json before = program.json("show " + handle);
    CHECK(before["thing"] == kind);
    const Json after =
        program.json("correct " + handle + " " + quoted(column + "=" + value) + " --why 'misread'");
    CHECK(after[column] == value);
    CHECK(after[column] != before[column]);
    CHECK(program.json("show " + handle) == after);
    const Json facts = program.json("history --of " + handle)["facts"];
    REQUIRE(facts.size() >= 2);
    CHECK(facts.back()["reason"] == "misread");
    CHECK(facts.back()["holds"] == true);
    program.done("undo");
    CHECK(program.json("show " + handle) == before);
    program.done("void " + handle + " --reason 'noted twice'");
    CHECK(program.run("show " + handle).code == 3);
    CHECK(program.json("history --of " + before["id"].get<std::string>())["facts"].back()["reason"] == "noted twice");
    program.done("undo");
    CHECK(program.json("show " + handle) == before);
}

struct School : Program {
    School() { done("harp add Heron"); }
};

} // namespace

TEST_CASE("harps: kind, range, discs, year, nickname, serial, value, photo", "[cli]")
{
    const Program program;
    const Json heron =
        program.json("harp add Heron --kind pedal --strings 46 --without-discs 7D --year 2009 "
                     "--nickname 'the tall one' --serial 007 --value '21000.00 EUR' --photo heron.jpg");
    CHECK(program.json("harp show heron") == heron);
    CHECK(program.done("harp show Heron").says("21000.00 EUR"));
    program.done("harp add Linnet --kind lever --lowest 5C --highest 1A --tuning e-flat");
    CHECK(program.json("harp list").size() == 2);
    program.refused("harp add HERON", 5, "a harp named Heron already");
    program.refused("harp add '  '", 2, "cannot be the name");
    program.refused("harp add Egret --strings 61", 2, "");
    program.refused("harp add Egret --value '12 euros'", 2, "1250.00 EUR");
    program.refused("harp add Egret --year 20009", 2, "");
    program.done("harp change Heron --name 'Grey Heron' --value '19500 EUR' --why valued");
    CHECK(program.json("harp show 'grey heron'")["value"] != heron["value"]);
    program.done("harp change Linnet --left 2020-06");
    CHECK(program.json("harp list").size() == 1);
    CHECK(program.json("harp list --all").size() == 2);
    walk_through(program, "'Grey Heron'", "harp", "serial_number", "008");
}

TEST_CASE("rooms: where harps stand and stood", "[cli]")
{
    const School school;
    school.done("room add 'Music room 2' --remarks draughty");
    school.done("room add Hall");
    school.refused("room add hall", 5, "named Hall already");
    walk_through(school, "Hall", "room", "remarks", "cold in winter");
    school.done("room move --harp Heron --to Hall --date 2019");
    const Json placement = school.json("room move --harp Heron --to 'music room 2' --date 2020-03");
    CHECK(school.done("room list").says("Heron"));
    school.refused("room move --harp Heron --to Attic", 3, "the ledger has Hall, Music room 2");
    school.refused("room move --harp Heron --to Hall --date 2999-01-01", 5, "future");
    walk_through(school, handle_in(placement), "placement", "since_on", "2020-04");
    school.refused("void Hall --reason closed", 5, "still needed by 1 placement;");
    school.done("room change Hall --name Aula");
    school.done("room move --harp Heron --to nowhere --date 2021");
    CHECK(school.json("show Heron")["thing"] == "harp");
}

TEST_CASE("loans: who, from, until, condition at hand-over and on return", "[cli]")
{
    const School school;
    const Json loan = school.json("loan add --harp Heron --to 'A pupil' --from 2020-09-01 --until 2021-06 "
                                  "--condition 'a scratch on the pillar'");
    school.refused("loan add --harp Heron --to 'Another pupil'", 5, "bring it back first");
    school.refused("loan return --harp Heron --date 2020-08-01", 5, "lies before");
    walk_through(school, handle_in(loan), "loan", "condition_out", "a scratch on the column");
    const Json back = school.json("loan return --harp Heron --date 2021-06-30 --condition 'as before'");
    walk_through(school, handle_in(back), "loan_return", "returned_on", "2021-07-01");
    CHECK(school.json("loan list --open").empty());
    CHECK(school.done("loan list").says("back 2021-06-30"));
    school.refused("loan return --harp Heron", 5, "not out on loan");
    school.refused("correct " + handle_in(back) + " returned_on=2019", 4, "before it was lent");
}

TEST_CASE("strings: put on, taken off, planned, listed by age", "[cli]")
{
    const School school;
    school.done(
        "plan set 3A,3B --harp Heron --material gut --diameter 1.02 --length 612.5 --supplier 'the usual'");
    CHECK(school.json("plan list --harp Heron").size() == 2);
    const Json first = school.json("string on 3A --harp Heron --material gut --date 2019-03");
    school.refused("string on 3A --harp Heron --material gut --date 2020-01-01", 5, "take it off first");
    school.refused("string on 9X --harp Heron --material gut", 2, "names no string");
    school.refused("string on 7B --harp Heron --material gut --date 2020", 5,
                   "no string of Heron, which goes from 7C");
    school.refused("string on 3C --harp Heron --material gut --date 2999-12-31", 5, "lies in the future");
    school.refused("string on 3C --harp Heron --material gut --date 2021-02-30", 2, "no date");
    school.refused("string off 3A --harp Heron --reason broke --date 2018", 5,
                   "lies before the day it was put on");
    school.refused("string off 3B --harp Heron --reason broke", 5, "put it on first");
    school.refused("string off 3A --harp Heron --reason bored", 2, "broke");
    const Json off = school.json("string off 3A --harp Heron --reason broke --where disc --date 2020-05-06");
    CHECK(off["removal"]["broke_at"] == "disc");
    const std::string removal = handle_in(off["removal"]);
    walk_through(school, removal, "string_removal", "removed_on", "2020-05-07");
    school.done("string on 3A --harp Heron --date 2020-05-06 --batch B7 --cost '4.80 EUR'"); // as planned
    school.done("string on 3B --harp Heron --already-on --date 2015");
    CHECK(school.json("string list --harp Heron").size() == 2);
    CHECK(school.json("string list --harp Heron --all").size() == 3);
    CHECK(school.json("string list --older-than 1d").size() == 2);
    CHECK(school.json("string list --older-than 900y").empty());
    school.refused("string list --older-than soon", 2, "90d");
    school.done("string change " + handle_in(first) + " --material nylon --why 'was nylon'");
    walk_through(school, handle_in(first), "string", "batch", "B6");
    const Json plan = school.json("plan list --harp Heron");
    walk_through(school, handle_in(plan[0]), "planned_string", "supplier", "another");
    CHECK(school.done("plan list --harp Heron").says(handle_in(plan[0]))); // so that it can be corrected
    // a whole set, with the old ones off on the same day
    school.done("string on 3A,3B --harp Heron --old set --date 2021-01-02");
    CHECK(school.json("string list --harp Heron --all").size() == 5);
    school.done("undo");
    CHECK(school.json("string list --harp Heron --all").size() == 3);
}

TEST_CASE("visits: work by pedal and string, parts, cost, notes", "[cli]")
{
    const School school;
    const Json visit =
        school.json("visit add --harp Heron --date 2020-03-04 --technician 'the technician' --cost "
                    "'180.00 EUR' --work '3A: new disc [1 disc]' --work 'pedal F: felt replaced' --work "
                    "regulated --remarks 'play check'");
    CHECK(school.done("visit show " + handle_in(visit)).says("pedal F: felt replaced"));
    CHECK(school.json("visit list --harp Heron").size() == 1);
    school.refused("visit add --harp Heron --work '7B: new disc'", 5, "no string of Heron");
    school.refused("visit add --harp Heron --date 2999", 5, "future");
    walk_through(school, handle_in(visit), "visit", "cost", "190.00 EUR");
    CHECK(school.json("show " + handle_in(visit))["visit_work"].size() == 3);
    school.done("visit change " + handle_in(visit) + " --work 'regulated again'");
    CHECK(school.json("visit show " + handle_in(visit))["work"].size() == 1);
}

TEST_CASE("climate: by hand and from a logger's file with its own columns and units", "[cli]")
{
    const School school;
    school.done("room add Hall");
    school.done("climate add --room Hall --temperature 20.5 --humidity 45 --time '2020-03-04 18:05'");
    harpkeep::tests::write_bytes(school.file("logger.csv"),
                                 "Logger 7\nWhen;Temp (F);rel\n04.03.2020 19:00;68;0.5\n"
                                 "04.03.2020 20:00;69,8;0.48\n");
    school.done("climate import " + quoted(school.file("logger.csv")) +
                " --room Hall --time-column When --temperature-column 'Temp (F)' --temperature-unit F "
                "--humidity-column 3 --humidity-unit "
                "fraction --date-order dmy --skip-lines 1");
    const Json samples = school.json("climate list --room Hall");
    REQUIRE(samples.size() == 3);
    CHECK(samples[2]["temperature_c"] == Approx(21.0)); // 69.8 F
    CHECK(samples[2]["humidity_percent"] == Approx(48.0));
    CHECK(samples[0]["taken"] == "2020-03-04T18:05:00+01:00"); // the offset of that day is kept
    harpkeep::tests::write_bytes(school.file("bad.csv"),
                                 "time,t\n2020-03-04 19:00,warm\n2020-13-04 19:00,20\n");
    const auto bad = school.run("climate import " + quoted(school.file("bad.csv")) +
                                " --room Hall --time-column time --temperature-column t");
    CHECK(bad.code == 4);
    CHECK(bad.says("line 2, column 18"));
    CHECK(bad.says("line 3, column 1"));
    CHECK(school.json("climate list --room Hall").size() == 3);
    school.refused("climate add --room Hall --temperature 200", 5, "cannot be");
    const Json sources = school.json("climate sources");
    walk_through(school, handle_in(sources[0]), "climate_series", "source", "the old logger");
}

TEST_CASE("spares: bought, used, lost, counted", "[cli]")
{
    const School school;
    school.done("spare add 3A --material gut --diameter 1.02 --count 3 --cost '14.40 EUR' --date 2020-01");
    CHECK(school.json("spare list")[0]["count"] == 3);
    school.refused("spare remove 3A --material gut --diameter 1.02 --count 4", 5, "only 3");
    school.done("string on 3A --harp Heron --material gut --from-spares --date 2020-02-03");
    CHECK(school.json("spare list")[0]["count"] == 2);
    school.done("spare count 3A --material gut --diameter 1.02 --found 5");
    const Json movements = school.json("spare list --movements");
    CHECK(movements.size() == 3);
    walk_through(school, handle_in(movements[0]), "spare_movement", "moved_on", "2020-01-15");
    school.refused("correct " + handle_in(movements[0]) + " change=0", 4, "change");
    school.refused("spare add 3A --material gut --count 999999999999", 2, "");
}

TEST_CASE("notes: with files, about anything", "[cli]")
{
    const School school;
    const std::string picture("\x89PNG\r\n\x1a\n\0x", 10);
    harpkeep::tests::write_bytes(school.file("odd name.png"), picture);
    const Json note = school.json("note add 'see picture' --harp Heron --place 3A --date 2020 --file " +
                                  quoted(school.file("odd name.png")));
    CHECK(school.json("note list --harp Heron --place 3A")[0]["attachments"][0]["file_name"] ==
          "odd name.png");
    std::filesystem::create_directory(school.file("out"));
    school.done("note files " + handle_in(note) + " --to " + quoted(school.file("out")));
    CHECK(harpkeep::tests::read_bytes(school.file("out/odd name.png")) == picture);
    walk_through(school, handle_in(note), "note", "words", "see the picture");
    CHECK(school.json("show " + handle_in(note))["note_attachment"].size() == 1);
    school.refused("note add x --harp Heron --file " + quoted(school.file("none.png")), 3, "none.png");
    school.refused("note add '' --harp Heron", 2, "needs words");
    school.done("note add 'about the note' --about " + handle_in(note));
}

TEST_CASE("reminders and due: by date, by months, by drift, and why", "[cli]")
{
    const School school;
    const Json insure = school.json("reminder add 'insure it anew' --harp Heron --on 2020-07");
    school.done("reminder add 'order strings' --every 6 --from 2020-01");
    CHECK(school.done("reminder add 'renew the felts' --every 2y").says("every 24 months"));
    school.refused("reminder add 'renew the felts' --every 2w", 2, "--every");
    school.done("reminder add 'call the technician' --harp Heron --drift 4.5");
    school.refused("reminder add nothing", 2, "--on DATE");
    school.refused("reminder add 'both' --on 2020 --every 3", 2, "one of the three");
    school.refused("reminder add 'far' --drift 500 --harp Heron", 2, "cents");
    CHECK(school.json("reminder list").size() == 4);
    const auto due = school.done("due");
    CHECK(due.says("insure it anew"));
    CHECK(due.says("order strings"));
    const Json items = school.json("due --harp Heron");
    for (const Json& item : items) CHECK(item["why"].get<std::string>().size() > 5);
    walk_through(school, handle_in(insure), "reminder", "words", "insure it again");
    const Json done = school.json("reminder done " + handle_in(insure) + " --date 2020-07-03");
    CHECK_FALSE(school.done("due").says("insure it anew"));
    walk_through(school, handle_in(done), "reminder_done", "done_on", "2020-07-04");
}

TEST_CASE("history: of a harp, of one string place, and of the ledger", "[cli]")
{
    const School school;
    school.done("string on 3A --harp Heron --material gut --date 2019-03");
    school.done("string off 3A --harp Heron --reason tone --date 2020");
    school.done("string on 3B --harp Heron --material gut --date 2019-04");
    school.done("visit add --harp Heron --date 2019-05-06 --work 'pedal A: felt replaced' --work '3B: disc'");
    school.done("note add 'buzzes' --harp Heron --place 3A --date 2019-07-08");
    school.done("loan add --harp Heron --to 'A pupil' --from 2019-09");
    const Json all = school.json("history Heron");
    CHECK(all.size() == 6);
    const Json place = school.json("history Heron 3A");
    REQUIRE(place.size() == 4);
    CHECK(place[1]["words"].get<std::string>().find("felt replaced") != std::string::npos);
    CHECK(place[1]["words"].get<std::string>().find("disc") == std::string::npos);
    CHECK(school.done("history Heron 3A").says("buzzes"));
    CHECK(school.json("history --actions 3").size() == 3);
    CHECK(school.run("history Egret").code == 3);
    CHECK(school.run("history Heron 9X").code == 2);
}

TEST_CASE("undo: as far back as there is something to take back", "[cli]")
{
    const School school;
    school.done("string on 3A,3B --harp Heron --material gut --date 2019-03");
    CHECK(school.done("undo").says("put 2 strings on"));
    CHECK(school.json("string list --all").empty());
    CHECK(school.done("undo").says("added the harp Heron"));
    CHECK(school.run("undo").code == 5);
    CHECK(school.run("undo").says("nothing is left to undo"));
}

TEST_CASE("show and correct: what cannot be is told", "[cli]")
{
    const School school;
    school.refused("show Egret", 3, "");
    school.refused("show 00000000", 3, "handle");
    school.refused("correct Heron colour=black", 4, "no column \"colour\"");
    school.refused("correct Heron name", 2, "COLUMN=VALUE");
    school.refused("correct Heron name=", 4, "cannot be a name");
    school.refused("correct Heron kind=grand", 4, "kind");
    school.refused("correct Heron year_built=soon", 4, "no whole number");
    school.done("correct Heron 'remarks==SUM(A1)'");
    CHECK(school.json("show Heron")["remarks"] == "=SUM(A1)");
}
