// SPDX-License-Identifier: MIT
#include "db/ledger/backup.hpp"

#include "db/ledger/verify.hpp"
#include "tests/support/ledger_dump.hpp"
#include "tests/support/random_history.hpp"

#include <catch2/catch.hpp>

#include <fstream>
#include <map>
#include <sys/wait.h>
#include <unistd.h>

using namespace harpkeep;
using namespace harpkeep::test;

namespace {

db::Ledger open(const TemporaryFolder& folder, const std::string& name)
{
    return db::Ledger::open(folder / name, db::Access::create, an_evening).value();
}

constexpr std::int64_t ms_per_day = 86'400'000;

} // namespace

TEST_CASE("back_up: the copy holds the same facts, and no file is overwritten", "[db]")
{
    const TemporaryFolder folder;
    auto ledger = open(folder, "ledger");
    RandomHistory{5, "studio", 0}.act(ledger, 60);
    REQUIRE(db::back_up(ledger, folder / "copy"));
    CHECK(dump(open(folder, "copy")) == dump(ledger));
    CHECK(db::back_up(ledger, folder / "copy").error().code == ErrorCode::refused);
    CHECK_FALSE(std::filesystem::exists(folder / "copy.unfinished"));
}

TEST_CASE("restore: the backup takes the place, and the ledger is kept aside", "[db]")
{
    const TemporaryFolder folder;
    std::multiset<std::string> then, later;
    {
        auto ledger = open(folder, "ledger");
        RandomHistory history{6, "studio", 0};
        history.act(ledger, 30);
        REQUIRE(db::back_up(ledger, folder / "backup"));
        then = dump(ledger);
        history.act(ledger, 30);
        later = dump(ledger);
    }
    const auto aside = db::restore(folder / "backup", folder / "ledger", an_evening);
    REQUIRE(aside);
    REQUIRE(*aside);
    CHECK(dump(open(folder, "ledger")) == then);
    CHECK(dump(db::Ledger::open(**aside, db::Access::read, an_evening).value()) == later);
    CHECK(std::filesystem::exists(folder / "backup"));
}

TEST_CASE("restore: works where the ledger is gone or damaged", "[db]")
{
    const TemporaryFolder folder;
    std::multiset<std::string> then;
    {
        auto ledger = open(folder, "ledger");
        RandomHistory{7, "studio", 0}.act(ledger, 30);
        REQUIRE(db::back_up(ledger, folder / "backup"));
        then = dump(ledger);
    }
    CHECK(db::restore(folder / "backup", folder / "elsewhere", an_evening).value() == std::nullopt);
    CHECK(dump(open(folder, "elsewhere")) == then);
    std::ofstream{folder / "ledger", std::ios::binary | std::ios::trunc} << std::string(5000, 'x');
    const auto aside = db::restore(folder / "backup", folder / "ledger", an_evening);
    REQUIRE(aside);
    CHECK(std::filesystem::file_size(**aside) == 5000);
    CHECK(dump(open(folder, "ledger")) == then);
}

TEST_CASE("restore: a damaged backup is refused and nothing is changed", "[db]")
{
    const TemporaryFolder folder;
    {
        auto ledger = open(folder, "ledger");
        RandomHistory{8, "studio", 0}.act(ledger, 30);
        REQUIRE(db::back_up(ledger, folder / "backup"));
    }
    const auto before = dump(open(folder, "ledger"));
    {
        std::fstream file{folder / "backup", std::ios::in | std::ios::out | std::ios::binary};
        file.seekp(4096 * 6 + 8);
        file << std::string(4000, 'x');
    }
    CHECK(db::restore(folder / "backup", folder / "ledger", an_evening).error().code == ErrorCode::corrupt);
    CHECK(db::restore(folder / "none", folder / "ledger", an_evening).error().code == ErrorCode::not_found);
    CHECK(dump(open(folder, "ledger")) == before);
    for (const auto& entry : std::filesystem::directory_iterator{folder.path()})
        CHECK(entry.path().filename().string().find("restor") == std::string::npos);
}

TEST_CASE("restore: is refused while another program has the ledger open", "[db]")
{
    const TemporaryFolder folder;
    auto ledger = open(folder, "ledger");
    RandomHistory{9, "studio", 0}.act(ledger, 10);
    REQUIRE(db::back_up(ledger, folder / "backup"));
    const auto refused = db::restore(folder / "backup", folder / "ledger", an_evening);
    REQUIRE_FALSE(refused);
    CHECK(refused.error().code == ErrorCode::unavailable);
    CHECK(db::harps(ledger));
}

TEST_CASE("keep_rolling_backup: one a day, and the old ones thin out", "[db]")
{
    const TemporaryFolder folder;
    auto ledger = open(folder, "ledger");
    CHECK_FALSE(db::keep_rolling_backup(ledger, an_evening).value()); // nothing to lose yet
    RandomHistory{10, "studio", 0}.act(ledger, 10);
    for (int day = 0; day < 60; ++day) {
        const Moment now{an_evening.utc_ms + day * ms_per_day, 60};
        CHECK(db::keep_rolling_backup(ledger, now).value());
        CHECK_FALSE(db::keep_rolling_backup(ledger, now).value());
    }
    const auto kept = db::rolling_backups(ledger.path());
    CHECK(kept.size() < 20);
    CHECK(kept.front().day == local_date({an_evening.utc_ms + 59 * ms_per_day, 60}));
    CHECK(dump(db::Ledger::open(kept.back().path, db::Access::read, an_evening).value()) == dump(ledger));
}

TEST_CASE("keep_rolling_backup: of several programs at once, one makes it and none fails", "[db]")
{
    const TemporaryFolder folder;
    {
        auto ledger = open(folder, "ledger");
        RandomHistory{12, "studio", 0}.act(ledger, 60);
    }
    enum Outcome { made, there_already, failed };
    constexpr int programs = 12;
    for (int program = 0; program < programs; ++program) {
        if (fork() != 0) continue;
        const auto ledger = db::Ledger::open(folder / "ledger", db::Access::write, an_evening);
        const auto kept = db::keep_rolling_backup(ledger.value(), an_evening);
        _exit(!kept ? failed : *kept ? made : there_already);
    }
    std::map<int, int> outcomes;
    for (int program = 0; program < programs; ++program) {
        int status = 0;
        REQUIRE(wait(&status) > 0);
        REQUIRE(WIFEXITED(status));
        ++outcomes[WEXITSTATUS(status)];
    }
    CHECK(outcomes == std::map<int, int>{{made, 1}, {there_already, programs - 1}});
    const auto kept = db::rolling_backups(folder / "ledger");
    REQUIRE(kept.size() == 1);
    CHECK(dump(db::Ledger::open(kept[0].path, db::Access::read, an_evening).value()) ==
          dump(open(folder, "ledger")));
}

TEST_CASE("verify: a ledger of any history is sound", "[db][property]")
{
    const TemporaryFolder folder;
    auto ledger = open(folder, "ledger");
    RandomHistory{11, "studio", 0}.act(ledger, 200);
    const auto report = db::verify(ledger, {.look_at_recordings = false}).value();
    CHECK(report.problems.empty());
    CHECK(report.notices.empty()); // one computer alone makes no conflict
    CHECK(report.facts > 100);
}

TEST_CASE("verify: finds what was done behind the ledger's back", "[db]")
{
    const auto problems_after = [](const std::string& damage) {
        const TemporaryFolder folder;
        auto ledger = open(folder, "ledger");
        const auto harp = db::add_harp(ledger, at(an_evening), concert_harp("Heron")).value();
        std::ofstream{folder / "photo.jpg"} << "not really a picture";
        REQUIRE(db::add_note(ledger, at(an_evening), {.about_id = harp, .noted_on = {2026, 1, 1}},
                             {folder / "photo.jpg"}));
        REQUIRE(db::change_harp(ledger, at(an_evening), harp, concert_harp("Heron"), ""));
        REQUIRE(db::verify(ledger)->problems.empty());
        const db::Database raw{folder / "ledger", db::Access::write};
        raw.execute("PRAGMA foreign_keys = OFF; PRAGMA ignore_check_constraints = ON");
        auto triggers = raw.prepare("SELECT name FROM sqlite_schema WHERE type = 'trigger'");
        std::vector<std::string> names;
        while (triggers.step()) names.push_back(triggers.text());
        for (const auto& name : names) raw.execute("DROP TRIGGER " + name);
        raw.execute(damage);
        return db::verify(ledger).value().problems.size();
    };
    CHECK(problems_after("DELETE FROM harp WHERE fact_no = 1") > 0);
    CHECK(problems_after(
              "DELETE FROM fact WHERE thing_no = 1; DELETE FROM supersession; DELETE FROM harp; DELETE FROM "
              "harp_string") > 0);
    CHECK(problems_after("UPDATE attachment SET content = x'00'") > 0);
    CHECK(problems_after("UPDATE harp SET name = 'Wren' WHERE fact_no = 1") > 0);
    CHECK(problems_after("UPDATE note SET about_no = 99") > 0);
    CHECK(problems_after("UPDATE thing SET kind = 'room' WHERE thing_no = 1") > 0);
    CHECK(problems_after("INSERT INTO supersession (fact_no, superseded_no) VALUES (1, 3)") > 0);
    CHECK(problems_after("UPDATE fact SET id = zeroblob(16) WHERE fact_no = 1") > 0);
    CHECK(problems_after("UPDATE harp_string SET place = 99 WHERE place = 30") > 0);
    CHECK(problems_after("PRAGMA application_id = 7") > 0);
}

TEST_CASE("verify: tells of recordings that are gone or changed", "[db]")
{
    const TemporaryFolder folder;
    auto ledger = open(folder, "ledger");
    const auto harp = db::add_harp(ledger, at(an_evening), concert_harp("Heron")).value();
    std::ofstream{folder / "a.flac"} << "sound";
    CheckHeader header = header_of(harp, an_evening);
    header.recordings = {
        {folder / "a.flac", sha256_of(std::vector<std::uint8_t>{'s', 'o', 'u', 'n', 'd'}), Seconds{1.0}},
        {folder / "gone.flac", {}, Seconds{1.0}}};
    REQUIRE(db::store_check(ledger, at(an_evening), header, {}));
    auto report = db::verify(ledger).value();
    CHECK(report.is_sound());
    CHECK(report.recordings_checked == 2);
    REQUIRE(report.notices.size() == 1);
    CHECK(report.notices[0].find("gone.flac is not there any more") != std::string::npos);
    std::ofstream{folder / "a.flac"} << "other sound";
    CHECK(db::verify(ledger)->notices.size() == 2);
}
