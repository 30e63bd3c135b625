// SPDX-License-Identifier: MIT
#include "db/ledger/verify.hpp"
#include "db/records/checks.hpp"
#include "db/records/notes.hpp"
#include "tests/support/child_process.hpp"
#include "tests/support/example_ledger.hpp"

#include <catch2/catch.hpp>
#include <chrono>
#include <filesystem>
#include <fmt/format.h>
#include <random>
#include <thread>
#include <unistd.h>

using namespace harpkeep;
using namespace harpkeep::test;

namespace {

/// Writes notes and checks until it is killed, and tells after each commit how many there are.
int write_for_ever(const std::string& path, const Uuid& harp, const NumberPipe& told)
{
    auto ledger = db::Ledger::open(path, db::Access::write, an_evening);
    if (!ledger) return 1;
    const auto check = whole_check(concert_harp("").layout, 3);
    for (int number = 1;; ++number) {
        const db::Author author = at({an_evening.utc_ms + number, 60});
        const bool written =
            number % 3 == 0
                ? db::store_check(*ledger, author, header_of(harp, an_evening), check).has_value()
                : db::add_note(*ledger, author, {.noted_on = {2026}, .words = std::to_string(number)})
                      .has_value();
        if (!written) return 2;
        told.tell(number);
    }
}

/// In memory where the system has such a folder with room: a killed process leaves the same files there,
/// sooner. Elsewhere each commit waits for the disk, and the test takes minutes instead of seconds.
std::filesystem::path quick_folder()
{
    constexpr std::uintmax_t wanted_bytes = 64U << 20U; // a ledger of a few hundred checks and its log
    const std::filesystem::path memory = "/dev/shm";
    std::error_code code;
    const auto space = std::filesystem::space(memory, code);
    const bool usable = !code && space.available > wanted_bytes && ::access(memory.c_str(), W_OK | X_OK) == 0;
    return usable ? memory : std::filesystem::temp_directory_path();
}

} // namespace

TEST_CASE("kill -9 at random moments: what was committed is there, and nothing by half", "[db][faults]")
{
    constexpr int runs = 200;
    std::mt19937 random{9};
    std::uniform_int_distribution<int> pause_us{0, 40'000}; // some commits of a few milliseconds each
    int commits = 0;
    const auto quick = quick_folder();
    const TemporaryFolder begun{quick};
    Uuid harp;
    {
        auto ledger = db::Ledger::open(begun / "ledger", db::Access::create, an_evening).value();
        harp = db::add_harp(ledger, that_evening(), concert_harp("Heron")).value();
    }
    for (int run = 0; run < runs; ++run) {
        CAPTURE(run);
        const TemporaryFolder folder{quick};
        std::filesystem::copy_file(begun / "ledger", folder / "ledger");
        NumberPipe told;
        ChildProcess writer{[&] { return write_for_ever(folder / "ledger", harp, told); }};
        int last = told.next(); // it has begun
        REQUIRE(last == 1);
        std::this_thread::sleep_for(std::chrono::microseconds{pause_us(random)});
        writer.kill();
        CHECK(writer.wait() == -1 - SIGKILL);
        for (int number = told.next(); number > 0; number = told.next()) last = number;

        const auto ledger = db::Ledger::open(folder / "ledger", db::Access::write, an_evening).value();
        const auto written = ledger.database().integer_of("SELECT count(*) FROM action") - 1; // the harp's
        // The last one may have been committed without a word.
        CHECK((written == last || written == last + 1));
        const auto whole_checks = ledger.database().integer_of(
            "SELECT count(*) FROM (SELECT 1 FROM check_reading GROUP BY fact_no HAVING count(*) = 137)");
        CHECK(whole_checks == written / 3);
        CHECK(db::verify(ledger, {.look_at_recordings = false})->problems.empty());
        commits += last;
    }
    CHECK(commits > 3 * runs / 2); // they were killed at work, not before it, also on a busy machine
}
