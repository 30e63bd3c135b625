// SPDX-License-Identifier: MIT
#include "db/ledger/history.hpp"
#include "db/ledger/verify.hpp"
#include "db/records/notes.hpp"
#include "db/sqlite/transaction.hpp"
#include "tests/support/child_process.hpp"
#include "tests/support/example_ledger.hpp"

#include <catch2/catch.hpp>
#include <chrono>
#include <fmt/format.h>
#include <set>
#include <thread>

using namespace harpkeep;
using namespace harpkeep::test;

TEST_CASE("several programs write at once: no write is lost, and none is refused", "[db][faults]")
{
    constexpr int programs = 4, each = 25;
    const TemporaryFolder folder;
    std::vector<ChildProcess> writers;
    for (int program = 0; program < programs; ++program)
        writers.emplace_back([&folder, program] {
            // All make the file, if the others have not.
            auto ledger = db::Ledger::open(folder / "ledger", db::Access::create, an_evening);
            if (!ledger) return 1;
            for (int i = 0; i < each; ++i)
                if (!db::add_note(*ledger, that_evening(),
                                  {.noted_on = {2026}, .words = fmt::format("{}-{}", program, i)}))
                    return 2;
            return 0;
        });
    for (ChildProcess& writer : writers) CHECK(writer.wait() == 0);
    const auto ledger = db::Ledger::open(folder / "ledger", db::Access::read, an_evening).value();
    const auto notes = db::notes(ledger).value();
    std::set<std::string> words;
    for (const NoteRecord& note : notes) words.insert(note.details.words);
    CHECK(words.size() == programs * each);
    CHECK(db::verify(ledger)->is_sound());
    CHECK(ledger.database().integer_of("SELECT count(*) FROM ledger") == 1);
}

TEST_CASE("a program waits for another that is writing", "[db][faults]")
{
    const TemporaryFolder folder;
    auto ledger = db::Ledger::open(folder / "ledger", db::Access::create, an_evening).value();
    NumberPipe told;
    ChildProcess other{[&] {
        const db::Database database{folder / "ledger", db::Access::write};
        const db::Transaction transaction{database, db::Transaction::Kind::write};
        told.tell(1);
        std::this_thread::sleep_for(std::chrono::milliseconds{300});
        return 0;
    }};
    REQUIRE(told.next() == 1);
    CHECK(db::add_note(ledger, that_evening(), {.noted_on = {2026}, .words = "patient"}));
    CHECK(other.wait() == 0);
}

TEST_CASE("undo by several programs at once: each takes another action back, the youngest ones",
          "[db][faults]")
{
    constexpr int programs = 4, notes_there = 10;
    const TemporaryFolder folder;
    {
        auto ledger = db::Ledger::open(folder / "ledger", db::Access::create, an_evening).value();
        for (int i = 0; i < notes_there; ++i)
            REQUIRE(db::add_note(ledger, that_evening(), {.noted_on = {2026}, .words = std::to_string(i)}));
    }
    std::vector<ChildProcess> undoers;
    for (int program = 0; program < programs; ++program)
        undoers.emplace_back([&folder] {
            auto ledger = db::Ledger::open(folder / "ledger", db::Access::write, an_evening);
            return ledger && db::undo_last(*ledger, that_evening()) ? 0 : 1;
        });
    for (ChildProcess& undoer : undoers) CHECK(undoer.wait() == 0);
    const auto ledger = db::Ledger::open(folder / "ledger", db::Access::read, an_evening).value();
    const auto left = db::notes(ledger).value();
    REQUIRE(left.size() == notes_there - programs);
    for (const NoteRecord& note : left) CHECK(std::stoi(note.details.words) < notes_there - programs);
}

// Keys of one millisecond from two programs sort by chance; what was done last is told by the file itself.
TEST_CASE("undo: takes back what was done last, also when two programs wrote within one millisecond",
          "[db][regression]")
{
    for (int round = 0; round < 20; ++round) {
        const TemporaryFolder folder;
        auto first = db::Ledger::open(folder / "ledger", db::Access::create, an_evening).value();
        auto second = db::Ledger::open(folder / "ledger", db::Access::write, an_evening).value();
        std::vector<std::string> done;
        for (int i = 0; i < 6; ++i) {
            auto& ledger = i % 2 == 0 ? first : second;
            REQUIRE(db::add_note(ledger, that_evening(), {.noted_on = {2026}, .words = std::to_string(i)}));
        }
        for (int left = 5; left >= 0; --left) {
            REQUIRE(db::undo_last(left % 2 == 0 ? first : second, that_evening()));
            const auto notes = db::notes(first).value();
            std::set<std::string> words;
            for (const NoteRecord& note : notes) words.insert(note.details.words);
            CHECK(words.size() == static_cast<std::size_t>(left));
            CHECK_FALSE(words.contains(std::to_string(left)));
        }
    }
}
