// SPDX-License-Identifier: MIT
#include "db/ledger/backup.hpp"
#include "db/ledger/merge.hpp"
#include "db/ledger/verify.hpp"
#include "db/records/harps.hpp"
#include "db/records/notes.hpp"
#include "tests/support/ledger_dump.hpp"
#include "tests/support/random_history.hpp"

#include <catch2/catch.hpp>
#include <sys/stat.h>
#include <unistd.h>

using namespace harpkeep;
using namespace harpkeep::test;
using tests::read_bytes;
using tests::write_bytes;

namespace {

void make_ledger(const std::string& path, int actions)
{
    auto ledger = db::Ledger::open(path, db::Access::create, an_evening).value();
    RandomHistory{17, "studio", 0}.act(ledger, actions);
    ledger.database().execute("PRAGMA wal_checkpoint(TRUNCATE)");
}

Result<db::Ledger> open(const std::string& path, db::Access access)
{
    return db::Ledger::open(path, access, an_evening);
}

/// Permissions bind as they bind a user; root would be let through everywhere.
class AsUser {
  public:
    AsUser() : was_root_(geteuid() == 0)
    {
        if (was_root_ && seteuid(nobody) != 0) throw std::runtime_error("another user could not be taken on");
    }
    AsUser(const AsUser&) = delete;
    AsUser& operator=(const AsUser&) = delete;
    ~AsUser()
    {
        if (was_root_ && seteuid(0) != 0) std::abort();
    }
    static constexpr uid_t nobody = 65534;

  private:
    bool was_root_;
};

void give_to_user(const TemporaryFolder& folder)
{
    if (geteuid() != 0) return;
    REQUIRE(chown(folder.path().c_str(), AsUser::nobody, static_cast<gid_t>(-1)) == 0);
    for (const auto& entry : std::filesystem::recursive_directory_iterator{folder.path()})
        REQUIRE(chown(entry.path().c_str(), AsUser::nobody, static_cast<gid_t>(-1)) == 0);
}

constexpr auto every_access = {db::Access::read, db::Access::write, db::Access::create};

/// However it is opened, the only file of the folder is refused and keeps every byte.
void check_refused_as_it_is(const TemporaryFolder& folder, const std::filesystem::path& path, ErrorCode code,
                            const char* words)
{
    const auto before = read_bytes(path);
    for (const auto access : every_access) {
        const auto ledger = open(path, access);
        REQUIRE_FALSE(ledger);
        CHECK(ledger.error().code == code);
        CHECK(ledger.error().message.find(words) != std::string::npos);
    }
    CHECK(read_bytes(path) == before);
    CHECK(std::distance(std::filesystem::directory_iterator{folder.path()}, {}) == 1);
}

} // namespace

TEST_CASE("a database of another program is refused, and not a byte of it changes", "[db][faults]")
{
    const TemporaryFolder folder;
    const auto path = folder / "addresses.db";
    db::Database{path, db::Access::create}.execute(
        "CREATE TABLE person (name TEXT); INSERT INTO person VALUES ('x')");
    check_refused_as_it_is(folder, path, ErrorCode::unusable_input, "belongs to another program");
}

TEST_CASE("a ledger of a later version is refused, and not a byte of it changes", "[db][faults]")
{
    const TemporaryFolder folder;
    const auto path = folder / "ledger";
    make_ledger(path, 20);
    db::Database{path, db::Access::write}.execute("PRAGMA journal_mode = DELETE; PRAGMA user_version = 1000");
    check_refused_as_it_is(folder, path, ErrorCode::refused, "later version of harpkeep (schema 1000");
}

TEST_CASE("files that are no ledger are refused as they are", "[db][faults]")
{
    const TemporaryFolder folder;
    write_bytes(folder / "letter.txt", std::string(5000, 'x'));
    write_bytes(folder / "short.txt", "SQLite format 3"); // the mark of such a file, and nothing more
    for (const char* name : {"letter.txt", "short.txt"})
        for (const auto access : every_access) {
            CAPTURE(name);
            const auto before = read_bytes(folder / name);
            const auto ledger = open(folder / name, access);
            REQUIRE_FALSE(ledger);
            CHECK(ledger.error().code == ErrorCode::corrupt);
            CHECK(read_bytes(folder / name) == before);
        }
    CHECK(open(folder.path().string(), db::Access::create).error().message.find("is a folder") !=
          std::string::npos);
    write_bytes(folder / "empty", "");
    CHECK(open(folder / "empty", db::Access::write).error().code == ErrorCode::unusable_input);
    CHECK(open(folder / "empty", db::Access::create)); // begins one in it
}

TEST_CASE("a damaged ledger: the damage is told, and brings nobody down", "[db][faults][property]")
{
    const TemporaryFolder folder;
    make_ledger(folder / "whole", 120);
    const auto whole = read_bytes(folder / "whole");
    std::mt19937 random{4096};
    int seen = 0, seen_cut = 0;
    constexpr int rounds = 60;
    for (int round = 0; round < rounds; ++round) {
        CAPTURE(round);
        auto bytes = whole;
        const bool cut = round % 3 == 0;
        if (cut) {
            bytes.resize(1 + random() % (bytes.size() - 1));
        } else {
            const std::size_t at = 100 + random() % (bytes.size() - 700);
            for (std::size_t i = 0; i < 600; ++i) bytes[at + i] = static_cast<char>(random());
        }
        write_bytes(folder / "damaged", bytes);
        std::error_code ignored;
        std::filesystem::remove(folder / "damaged-wal", ignored);
        const auto ledger = open(folder / "damaged", db::Access::read);
        if (!ledger) {
            ++(cut ? seen_cut : seen);
            CHECK((ledger.error().code == ErrorCode::corrupt ||
                   ledger.error().code == ErrorCode::unusable_input));
            continue;
        }
        const auto report = db::verify(*ledger, {.look_at_recordings = false});
        (cut ? seen_cut : seen) += !report || !report->is_sound();
        if (!report) CHECK(report.error().code == ErrorCode::corrupt);
        (void)db::harps(*ledger);
        (void)db::notes(*ledger);
    }
    CHECK(seen_cut == rounds / 3);
    CHECK(seen >
          rounds / 6); // a quarter of the others: most fall on free space, or on numbers that may be any
}

TEST_CASE("a ledger that may only be read: reading works, writing says why not", "[db][faults]")
{
    const TemporaryFolder folder;
    make_ledger(folder / "ledger", 30);
    give_to_user(folder);
    REQUIRE(chmod((folder / "ledger").c_str(), 0444) == 0);
    const AsUser user;
    const auto reader = open(folder / "ledger", db::Access::read);
    REQUIRE(reader);
    CHECK(!db::harps(*reader)->empty());
    for (const auto access : {db::Access::write, db::Access::create}) {
        auto writer = open(folder / "ledger", access);
        const auto refused = writer
                                 ? db::add_note(*writer, that_evening(), {.noted_on = {2026}, .words = "x"})
                                       .map([](const Uuid&) {})
                                 : writer.map([](const db::Ledger&) {});
        REQUIRE_FALSE(refused);
        CHECK(refused.error().code == ErrorCode::unavailable);
        CHECK(refused.error().message.find("permissions") != std::string::npos);
    }
}

TEST_CASE("a ledger in a folder that may only be read: reading works, writing says why not", "[db][faults]")
{
    const TemporaryFolder folder;
    make_ledger(folder / "ledger", 30);
    give_to_user(folder);
    REQUIRE(chmod(folder.path().c_str(), 0555) == 0);
    {
        const AsUser user;
        const auto reader = open(folder / "ledger", db::Access::read);
        REQUIRE(reader);
        CHECK(!db::harps(*reader)->empty());
        auto writer = open(folder / "ledger", db::Access::write);
        const auto refused = writer
                                 ? db::add_note(*writer, that_evening(), {.noted_on = {2026}, .words = "x"})
                                       .map([](const Uuid&) {})
                                 : writer.map([](const db::Ledger&) {});
        REQUIRE_FALSE(refused);
        CHECK(refused.error().code == ErrorCode::unavailable);
        const auto made = open(folder / "new", db::Access::create);
        REQUIRE_FALSE(made);
        CHECK(made.error().code == ErrorCode::unavailable);
    }
    CHECK(chmod(folder.path().c_str(), 0755) == 0);
}

TEST_CASE("a ledger that may not be read at all: told as that", "[db][faults]")
{
    const TemporaryFolder folder;
    make_ledger(folder / "ledger", 5);
    give_to_user(folder);
    REQUIRE(chmod((folder / "ledger").c_str(), 0) == 0);
    const AsUser user;
    for (const auto access : every_access) {
        const auto ledger = open(folder / "ledger", access);
        REQUIRE_FALSE(ledger);
        CHECK(ledger.error().code == ErrorCode::unavailable);
    }
}

TEST_CASE("a symbolic link: its files lie beside the ledger, and both names are one ledger", "[db][faults]")
{
    const TemporaryFolder folder;
    std::filesystem::create_directory(folder / "real");
    std::filesystem::create_directory(folder / "links");
    make_ledger(folder / "real/ledger", 10);
    std::filesystem::create_symlink("../real/ledger", folder / "links/ledger");
    auto by_link = open(folder / "links/ledger", db::Access::write).value();
    auto by_name = open(folder / "real/ledger", db::Access::write).value();
    const auto before = db::notes(by_name)->size();
    REQUIRE(db::add_note(by_link, that_evening(), {.noted_on = {2026}, .words = "through the link"}));
    CHECK(db::notes(by_name)->size() == before + 1);
    REQUIRE(db::keep_rolling_backup(by_link, an_evening));
    CHECK(std::filesystem::exists(folder / "real/ledger.backups"));
    CHECK(std::distance(std::filesystem::directory_iterator{folder / "links"}, {}) == 1);
    std::filesystem::create_symlink("nowhere", folder / "links/broken");
    CHECK(open(folder / "links/broken", db::Access::read).error().code == ErrorCode::not_found);
    std::filesystem::create_symlink("self", folder / "links/self");
    CHECK_FALSE(open(folder / "links/self", db::Access::create));
}

TEST_CASE("odd names of files: any can hold a ledger", "[db][faults]")
{
    const TemporaryFolder folder;
    for (const char* name : {"with space", "quo'te", "per%41cent", "que?ry=1", "ha#sh",
                             "\u00FCml\u00E4ut \u266D", "file:x", "a&b", "-dash", "new\nline"}) {
        CAPTURE(name);
        {
            auto ledger = open(folder / name, db::Access::create);
            REQUIRE(ledger);
            REQUIRE(db::add_note(*ledger, that_evening(), {.noted_on = {2026}, .words = name}));
        }
        CHECK(std::filesystem::exists(folder / name));
        const auto reader = open(folder / name, db::Access::read).value();
        CHECK(db::notes(reader)->front().details.words == name);
        auto other = open(folder / "other", db::Access::create).value();
        CHECK(db::merge_from(other, folder / name, an_evening)->new_facts == 1);
    }
}
