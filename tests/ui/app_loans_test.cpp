// SPDX-License-Identifier: MIT
#include "driver.hpp"

#include "ui/dashboard/keys.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;
using namespace harpkeep::dashboard;

namespace {

const RoomRow& row_named(const Driver& driver, const std::string& name)
{
    for (const auto& row : std::get<RoomModel>(*driver.app->model(Page::room)).rows)
        if (row.name == name) return row;
    throw std::runtime_error("no harp " + name);
}

void choose(Driver& driver, const std::string& name)
{
    REQUIRE(driver.click("room.rows.row." + row_named(driver, name).key));
}

void write(Driver& driver, const std::string& field, const std::string& words)
{
    driver.click(field);
    driver.press(key_a, true);
    driver.press(key_backspace);
    driver.type(words);
    driver.press(key_enter);
}

void lend_heron(Driver& driver)
{
    driver.go(Page::room);
    choose(driver, "Heron");
    REQUIRE(driver.click("room.lend"));
    write(driver, "room.loan_who", "orchestra");
    write(driver, "room.loan_from", "2026-11-20");
    write(driver, "room.loan_until", "2027-01-31");
    write(driver, "room.loan_condition", "all strings on");
    REQUIRE(driver.click("room.loan_save"));
}

} // namespace

TEST_CASE("loans: a harp is lent from the room, and that is taken back", "[ui]")
{
    Driver driver;
    lend_heron(driver);
    const auto& lent = row_named(driver, "Heron");
    REQUIRE_FALSE(lent.loans.empty());
    CHECK(lent.loans.front().borrower == "orchestra");
    CHECK(lent.loans.front().from == Date{2026, 11, 20});
    CHECK(lent.loans.front().until == Date{2027, 1, 31});
    CHECK(lent.loans.front().condition_out == "all strings on");
    CHECK(lent.loan.find("orchestra") != std::string::npos);
    CHECK(driver.find("room.lend") == nullptr); // it is out
    driver.press(key_z, true);
    CHECK(row_named(driver, "Heron").loan.empty());
    CHECK(driver.find("room.lend") != nullptr);
}

TEST_CASE("loans: a loan is made longer, the harp comes back, and each is taken back", "[ui]")
{
    Driver driver;
    lend_heron(driver);
    REQUIRE(driver.click("room.change_loan"));
    write(driver, "room.loan_until", "2027-07");
    REQUIRE(driver.click("room.loan_save"));
    CHECK(row_named(driver, "Heron").loans.front().until == Date{2027, 7, 0});
    CHECK(row_named(driver, "Heron").loans.front().condition_out == "all strings on");
    driver.press(key_z, true);
    CHECK(row_named(driver, "Heron").loans.front().until == Date{2027, 1, 31});
    REQUIRE(driver.click("room.give_back"));
    write(driver, "room.loan_condition", "2A broken");
    REQUIRE(driver.click("room.loan_save"));
    CHECK(row_named(driver, "Heron").loans.front().back == Date{2026, 11, 24});
    CHECK(row_named(driver, "Heron").loans.front().condition_back == "2A broken");
    CHECK(row_named(driver, "Heron").loan.empty());
    driver.press(key_z, true);
    CHECK_FALSE(row_named(driver, "Heron").loans.front().back.has_value());
}

TEST_CASE("loans: what cannot be noted is told in place, and what was typed stays", "[ui]")
{
    Driver driver;
    driver.go(Page::room);
    choose(driver, "Heron");
    REQUIRE(driver.click("room.lend"));
    REQUIRE(driver.click("room.loan_save"));
    CHECK_FALSE(driver.app->states().room.loan.trouble.empty()); // to whom?
    write(driver, "room.loan_who", "orchestra");
    write(driver, "room.loan_until", "next summer");
    REQUIRE(driver.click("room.loan_save"));
    CHECK(driver.app->states().room.loan.trouble.find("next summer") != std::string::npos);
    CHECK(driver.app->states().room.loan.borrower == "orchestra");
    REQUIRE(driver.click("room.loan_cancel"));
    CHECK(row_named(driver, "Heron").loan.empty());
}

TEST_CASE("loans: a rule of the ledger that forbids a loan is told", "[ui]")
{
    Driver driver;
    driver.go(Page::room);
    driver.app->apply(LendHarp{row_named(driver, "Heron").key, "orchestra", {2027, 1, 1}, {}, {}}); // not yet
    driver.frames(3);
    REQUIRE_FALSE(driver.app->messages().all().empty());
    CHECK(driver.app->messages().all().back().kind == MessageKind::trouble);
    CHECK(row_named(driver, "Heron").loan.empty());
}

TEST_CASE("loans: what is typed for one harp is not entered for another", "[ui]")
{
    Driver driver;
    driver.go(Page::room);
    choose(driver, "Heron");
    REQUIRE(driver.click("room.lend"));
    write(driver, "room.loan_who", "orchestra");
    driver.app->states().room.rows.chosen_key.clear();
    for (const auto& row : std::get<RoomModel>(*driver.app->model(Page::room)).rows)
        if (row.name != "Heron") driver.app->states().room.rows.chosen_key = row.key;
    driver.frames(2);
    CHECK(driver.app->states().room.loan.borrower.empty());
}
