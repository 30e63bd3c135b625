// SPDX-License-Identifier: MIT
#include "ui/dashboard/ledger/example_ledger.hpp"

#include "db/ledger/verify.hpp"
#include "db/records/harps.hpp"
#include "tests/support/example_ledger.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <memory>

using namespace harpkeep;
using namespace harpkeep::dashboard;

TEST_CASE("example ledger: is made once, whole, and opened again as it was left", "[ui]")
{
    tests::TemporaryFolder folder;
    const auto author = [] { return test::that_evening(); };
    JobContext context;
    const auto made = open_example_ledger(folder / "example", author, 6, context);
    REQUIRE(made);
    CHECK((*made)->example());
    CHECK((*made)->harps().value().size() == 6);
    CHECK(context.share() > 0.5); // the last harp was told before it was made
    const auto path = folder / "example/larkmoor.harpkeep";
    auto ledger = db::Ledger::open(path, db::Access::write, test::an_evening).value();
    CHECK(db::verify(ledger).value().is_sound());
    REQUIRE(db::add_harp(ledger, test::that_evening(), test::concert_harp("Robin")));
    const auto again = open_example_ledger(folder / "example", author, 6, context);
    REQUIRE(again);
    CHECK((*again)->harps().value().size() == 7);
}

TEST_CASE("example ledger: stopped while it is made, it leaves nothing half made", "[ui]")
{
    tests::TemporaryFolder folder;
    std::unique_ptr<Jobs> jobs;
    // The first word of progress is answered by a press on Cancel.
    jobs = std::make_unique<Jobs>(Jobs::Mode::threaded, [&] {
        if (jobs) jobs->cancel(1);
    });
    std::optional<bool> opened;
    std::string message;
    jobs->start("making", [&](JobContext& context) -> Jobs::Finish {
        const auto made =
            open_example_ledger(folder / "example", [] { return test::that_evening(); }, 6, context);
        return [&, ok = made.has_value(), why = made ? std::string{} : made.error().message] {
            opened = ok;
            message = why;
        };
    });
    while (!opened) {
        jobs->collect();
        std::this_thread::sleep_for(std::chrono::milliseconds{2});
    }
    CHECK_FALSE(*opened);
    CHECK(message.find("stopped") != std::string::npos);
    CHECK(std::filesystem::is_empty(folder / "example"));
}
