// SPDX-License-Identifier: MIT
#include "db/ledger/merge.hpp"

#include "db/ledger/verify.hpp"
#include "tests/support/ledger_dump.hpp"
#include "tests/support/random_history.hpp"

#include <catch2/catch.hpp>

#include <fstream>

using namespace harpkeep;
using namespace harpkeep::test;

namespace {

constexpr std::int64_t ms_per_hour = 3'600'000;

db::Ledger open(const TemporaryFolder& folder, const std::string& name)
{
    return db::Ledger::open(folder / name, db::Access::create, an_evening).value();
}

/// A copy of a ledger file, as somebody carries it to another computer.
db::Ledger copy_of(const db::Ledger& ledger, const TemporaryFolder& folder, const std::string& name)
{
    ledger.database().copy_to(folder / name);
    return db::Ledger::open(folder / name, db::Access::write, an_evening).value();
}

db::MergeReport merge(db::Ledger& into, const db::Ledger& from)
{
    return db::merge_from(into, from.path(), an_evening).value();
}

/// Three computers begin with one ledger, then each goes its own way; their clocks differ by hours.
struct ThreeComputers {
    TemporaryFolder folder;
    db::Ledger common = open(folder, "common");
    std::vector<db::Ledger> ledgers;

    explicit ThreeComputers(unsigned seed, int actions)
    {
        RandomHistory{seed, "studio", 0}.act(common, actions);
        const std::int64_t clock_errors_ms[]{-5 * ms_per_hour, 0, 30 * ms_per_hour};
        for (unsigned i = 0; i < 3; ++i) {
            ledgers.push_back(copy_of(common, folder, fmt::format("computer{}", i)));
            RandomHistory{100 * seed + i, fmt::format("computer {}", i), clock_errors_ms[i]}.act(ledgers[i],
                                                                                                 actions);
        }
    }
};

} // namespace

TEST_CASE("merge: takes over what is missing, and the other ledger is left as it was", "[db]")
{
    const TemporaryFolder folder;
    auto here = open(folder, "here"), there = open(folder, "there");
    const auto wren = db::add_harp(there, at(an_evening), concert_harp("Wren")).value();
    REQUIRE(db::store_check(there, at(an_evening), header_of(wren, an_evening),
                            whole_check(concert_harp("").layout, 1)));
    REQUIRE(db::add_harp(here, at(an_evening), concert_harp("Heron")));
    const auto before = dump(there);
    const auto report = merge(here, there);
    CHECK(report.new_things == 2);
    CHECK(report.new_facts == 2);
    CHECK(report.new_actions == 2);
    CHECK(report.conflicts.empty());
    CHECK(db::harps(here)->size() == 2);
    CHECK(db::latest_check(here, wren).value()->result.readings.size() == 137);
    CHECK(dump(there) == before);
}

TEST_CASE("merge: is idempotent, order-free and associative over random histories", "[db][property]")
{
    const unsigned seed = GENERATE(range(1U, 13U));
    CAPTURE(seed);
    ThreeComputers given{seed, 40};
    auto &a = given.ledgers[0], &b = given.ledgers[1], &c = given.ledgers[2];

    auto ab_c = copy_of(a, given.folder, "ab_c");
    merge(ab_c, b);
    const auto ab = dump(ab_c);
    CHECK(merge(ab_c, b).new_facts == 0); // idempotent
    CHECK(dump(ab_c) == ab);
    merge(ab_c, c);

    auto ba = copy_of(b, given.folder, "ba");
    merge(ba, a);
    CHECK(dump(ba) == ab); // commutative

    auto bc = copy_of(b, given.folder, "bc");
    merge(bc, c);
    auto a_bc = copy_of(a, given.folder, "a_bc");
    merge(a_bc, bc);
    CHECK(dump(a_bc) == dump(ab_c)); // associative

    CHECK(db::verify(ab_c, {.look_at_recordings = false})->is_sound());
    const auto words = [](const db::Ledger& ledger) {
        std::vector<std::string> all;
        const auto found = db::conflicts(ledger).value();
        for (const auto& conflict : found) all.push_back(conflict.words);
        return all;
    };
    CHECK(words(ab_c) == words(a_bc)); // everybody sees the same conflicts
    CHECK(db::actions(ab_c, 1000)->size() == db::actions(a_bc, 1000)->size());
}

TEST_CASE("merge: what holds afterwards is the same for everybody", "[db][property]")
{
    const unsigned seed = GENERATE(range(20U, 26U));
    CAPTURE(seed);
    ThreeComputers given{seed, 40};
    const auto current = [](const db::Ledger& ledger) {
        std::set<std::string> rows;
        auto query =
            ledger.database().prepare("SELECT hex(t.id) || hex(f.id) FROM current_fact c JOIN thing t USING "
                                      "(thing_no) JOIN fact f ON f.fact_no = c.content_no");
        while (query.step()) rows.insert(query.text());
        return rows;
    };
    for (int round = 0; round < 2; ++round) // twice round, as news travels
        for (std::size_t i = 0; i < 3; ++i) merge(given.ledgers[i], given.ledgers[(i + 1) % 3]);
    CHECK(current(given.ledgers[0]) == current(given.ledgers[1]));
    CHECK(current(given.ledgers[1]) == current(given.ledgers[2]));
}

TEST_CASE("merge: two corrections of one fact are both kept and listed", "[db]")
{
    const TemporaryFolder folder;
    auto here = open(folder, "here");
    const auto heron = db::add_harp(here, at(an_evening), concert_harp("Heron")).value();
    auto there = copy_of(here, folder, "there");
    // The other computer's clock is a day behind: its statement is older by its own account.
    REQUIRE(db::change_harp(here, at(an_evening), heron, concert_harp("Grey Heron"), "full name"));
    REQUIRE(db::change_harp(there, at({an_evening.utc_ms - 24 * ms_per_hour, 60}), heron,
                            concert_harp("Night Heron"), ""));
    const auto report = merge(here, there);
    REQUIRE(report.conflicts.size() == 1);
    CHECK(report.conflicts[0].kind == "two statements");
    CHECK(db::facts_of(here, heron)->size() == 3);
    CHECK(db::harp_with_id(here, heron)->details.name == "Grey Heron");
    merge(there, here);
    CHECK(db::harp_with_id(there, heron)->details.name == "Grey Heron");
    REQUIRE(db::change_harp(there, at(an_evening), heron, concert_harp("Night Heron"), "settled"));
    CHECK(db::conflicts(there)->empty());
    CHECK(merge(here, there).conflicts.empty());
    CHECK(db::harp_with_id(here, heron)->details.name == "Night Heron");
}

TEST_CASE("merge: a correction made with a slow clock still holds", "[db]")
{
    const TemporaryFolder folder;
    auto here = open(folder, "here");
    const auto heron = db::add_harp(here, at(an_evening), concert_harp("Heron")).value();
    auto there = copy_of(here, folder, "there");
    const Moment year_before{an_evening.utc_ms - 365 * 24 * ms_per_hour, 60};
    REQUIRE(db::change_harp(there, at(year_before), heron, concert_harp("Night Heron"), ""));
    CHECK(merge(here, there).conflicts.empty());
    CHECK(db::harp_with_id(here, heron)->details.name == "Night Heron");
}

TEST_CASE("merge: what contradicts itself is listed, with what to do", "[db]")
{
    const TemporaryFolder folder;
    auto here = open(folder, "here");
    const auto heron = db::add_harp(here, at(an_evening), concert_harp("Heron")).value();
    const StringPlace place = *place_from_harp_name("3A");
    const MountedString gut{
        .harp_id = heron, .place = place, .make = {.material = "gut"}, .put_on = Date{2025, 1}};
    REQUIRE(db::put_on(here, at(an_evening), gut));
    auto there = copy_of(here, folder, "there");
    const auto both = [&](const auto& act) {
        for (db::Ledger* ledger : {&here, &there}) REQUIRE(act(*ledger));
    };
    both([&](auto& ledger) { return db::add_harp(ledger, at(an_evening), concert_harp("Wren")); });
    both([&](auto& ledger) {
        return db::take_off(ledger, at(an_evening), heron, place, {.removed_on = {2025, 6}});
    });
    both([&](auto& ledger) {
        MountedString next = gut;
        next.put_on = Date{2025, 7};
        return db::put_on(ledger, at(an_evening), next);
    });
    both([&](auto& ledger) { return db::lend_harp(ledger, at(an_evening), {heron, "pupil", {2025, 1, 1}}); });
    both([&](auto& ledger) {
        return db::plan_strings(ledger, at(an_evening),
                                {{.harp_id = heron, .place = place, .make = {.material = "gut"}}});
    });
    std::set<std::string> kinds;
    const auto report = merge(here, there);
    for (const auto& conflict : report.conflicts) kinds.insert(conflict.kind);
    CHECK(kinds == std::set<std::string>{"two harps of one name", "a string taken off twice",
                                         "two strings on one place", "two loans of one harp",
                                         "two plans for one place"});
    const auto wren = db::harp_named(here, "wren");
    REQUIRE_FALSE(wren);
    CHECK(wren.error().message.find("2 harps of that name") != std::string::npos);
}

TEST_CASE("merge: something of a thing that was voided elsewhere is listed", "[db]")
{
    const TemporaryFolder folder;
    auto here = open(folder, "here");
    const auto heron = db::add_harp(here, at(an_evening), concert_harp("Heron")).value();
    auto there = copy_of(here, folder, "there");
    REQUIRE(db::make_void(here, at(an_evening), heron, "sold"));
    REQUIRE(db::add_visit(there, at(an_evening), {.harp_id = heron, .visited_on = {2026, 1, 1}}));
    const auto report = merge(here, there);
    REQUIRE(report.conflicts.size() == 1);
    CHECK(report.conflicts[0].kind == "something of a void thing");
}

TEST_CASE("merge: attachments come along, each once", "[db]")
{
    const TemporaryFolder folder;
    auto here = open(folder, "here"), there = open(folder, "there");
    std::ofstream{folder / "photo.jpg"} << "not really a picture";
    const Note note{.noted_on = {2026, 1, 1}, .words = "see picture"};
    for (db::Ledger* ledger : {&here, &there})
        REQUIRE(db::add_note(*ledger, at(an_evening), note, {folder / "photo.jpg"}));
    merge(here, there);
    const auto notes = db::notes(here).value();
    REQUIRE(notes.size() == 2);
    for (const auto& one : notes)
        CHECK(db::attachment(here, one.details.attachments[0].sha256)->size() == 20);
    CHECK(here.database().integer_of("SELECT count(*) FROM attachment") == 1);
}

TEST_CASE("merge: what is no ledger is refused", "[db]")
{
    const TemporaryFolder folder;
    auto here = open(folder, "here");
    CHECK(db::merge_from(here, folder / "none", an_evening).error().code == ErrorCode::not_found);
    CHECK(db::merge_from(here, here.path(), an_evening).error().code == ErrorCode::invalid_argument);
    db::Database{folder / "other.db", db::Access::create}.execute("CREATE TABLE t (x)");
    CHECK(db::merge_from(here, folder / "other.db", an_evening).error().code == ErrorCode::unusable_input);
    std::ofstream{folder / "text"} << std::string(2000, 'x');
    CHECK(db::merge_from(here, folder / "text", an_evening).error().code == ErrorCode::corrupt);
    CHECK(dump(here).size() == dump(open(folder, "fresh")).size());
}
