// SPDX-License-Identifier: MIT
#pragma once

#include "db/records/checks.hpp"
#include "db/records/string_plans.hpp"
#include "db/records/strings.hpp"
#include "db/records/visits.hpp"
#include "tests/ui/cli/reason/school_ledger.hpp"

#include <catch2/catch.hpp>

namespace harpkeep::test {

/// A ledger in a file with one harp of the school, Heron, whose F pedal is off in the upper step.
class HeronLedger {
  public:
    HeronLedger() : path_((folder_ / "school.harpkeep"))
    {
        auto ledger = db::Ledger::open(path_, db::Access::create, an_evening).value();
        harp_id_ = db::add_harp(ledger, that_evening(), concert_harp("Heron")).value();
    }

    /// A check so many days before the evening, with the F sharps off by so much, and one string by 12 cents
    /// in its lower step.
    Uuid add_check(int days_before, double f_pedal_cents, const char* string_off = "")
    {
        Dice dice(static_cast<std::uint64_t>(1000 + days_before));
        auto harp = plant({.missing_share = 0.0}, dice);
        for (auto& step : harp.steps)
            if (step.place.letter == Letter::F && step.step == Step::upper) step.error_cents += f_pedal_cents;
        for (auto& whole : harp.whole_steps)
            if (whole.place.letter == Letter::F) whole.error_cents += f_pedal_cents;
        for (auto& step : harp.steps)
            if (harp_name(step.place) == string_off && step.step == Step::lower) step.error_cents += 12.0;
        for (auto& whole : harp.whole_steps)
            if (harp_name(whole.place) == string_off) whole.error_cents += 12.0;
        auto ledger = open();
        const Moment taken{an_evening.utc_ms - days_before * day_ms, an_evening.offset_minutes};
        return db::store_check(ledger, that_evening(), header_of(harp_id_, taken), check_result(harp))
            .value();
    }

    /// A check of these readings that evening, without steps.
    Uuid add_readings(const std::vector<Reading>& readings)
    {
        auto ledger = open();
        CheckResult result;
        result.readings = readings;
        return db::store_check(ledger, that_evening(), header_of(harp_id_, an_evening), result).value();
    }

    void plan(const PlannedString& planned)
    {
        auto ledger = open();
        PlannedString own = planned;
        own.harp_id = harp_id_;
        REQUIRE(db::plan_strings(ledger, that_evening(), {own}));
    }

    void add_visit(const char* day)
    {
        auto ledger = open();
        Visit visit{
            .harp_id = harp_id_, .visited_on = *date_from_iso(day), .technician = "visiting technician"};
        REQUIRE(db::add_visit(ledger, that_evening(), visit));
    }

    void put_on(const char* place, const char* day)
    {
        auto ledger = open();
        MountedString string{.harp_id = harp_id_, .place = *place_from_harp_name(place)};
        string.put_on = *date_from_iso(day);
        string.make.material = "gut";
        REQUIRE(db::put_on(ledger, that_evening(), string));
    }

    [[nodiscard]] Run run(std::vector<std::string> arguments) const { return run_harpkeep(path_, arguments); }
    [[nodiscard]] db::Ledger open() const
    {
        return db::Ledger::open(path_, db::Access::write, an_evening).value();
    }

  private:
    TemporaryFolder folder_;
    std::string path_;
    Uuid harp_id_;
};

inline const std::vector<std::string> as_of_that_day{"--as-of", "2026-03-04"};

inline std::vector<std::string> words(std::vector<std::string> first,
                                      const std::vector<std::string>& more = as_of_that_day)
{
    first.insert(first.end(), more.begin(), more.end());
    return first;
}

} // namespace harpkeep::test
