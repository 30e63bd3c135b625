// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/history.hpp"
#include "db/ledger/things.hpp"
#include "db/records/checks.hpp"
#include "db/records/climate.hpp"
#include "db/records/loans.hpp"
#include "db/records/notes.hpp"
#include "db/records/reminders.hpp"
#include "db/records/rooms.hpp"
#include "db/records/settings.hpp"
#include "db/records/spares.hpp"
#include "db/records/string_plans.hpp"
#include "db/records/strings.hpp"
#include "db/records/visits.hpp"
#include "tests/support/example_ledger.hpp"

#include <random>
#include <string>

namespace harpkeep::test {

/// Does random things to a ledger, as people on one computer do: adds, corrects, voids, undoes. What the
/// ledger refuses is simply not done.
class RandomHistory {
  public:
    /// Given  clock_error_ms  how far the computer's clock is off
    RandomHistory(unsigned seed, std::string computer, std::int64_t clock_error_ms)
        : random_(seed), computer_(std::move(computer)), now_ms_(an_evening.utc_ms + clock_error_ms)
    {
    }

    void act(db::Ledger& ledger, int times)
    {
        for (int i = 0; i < times; ++i) act_once(ledger);
    }

  private:
    unsigned below(unsigned limit) { return static_cast<unsigned>(random_() % limit); }

    db::Author author()
    {
        now_ms_ += 1 + below(100'000);
        return {{now_ms_, 60}, computer_};
    }

    Date day() { return date_from_days(days_since_epoch({2025, 1, 1}) + static_cast<int>(below(365))); }

    std::string word()
    {
        static const std::vector<std::string> words{"Heron", "Wren", "Kestrel", "Linnet", "Dipper", "Curlew"};
        return words[below(6)];
    }

    std::optional<Uuid> any_of(const db::Ledger& ledger, const std::string& kind)
    {
        auto query = ledger.database().prepare("SELECT id FROM thing JOIN current_fact USING (thing_no) "
                                               "WHERE kind = :kind ORDER BY id");
        query.bind(":kind", kind);
        std::vector<Uuid> ids;
        while (query.step()) ids.push_back(query.uuid());
        if (ids.empty()) return std::nullopt;
        return ids[below(static_cast<unsigned>(ids.size()))];
    }

    StringPlace place() { return place_from_diatonic_index(24 + static_cast<int>(below(4))); }
    StringMake make() { return {.material = below(2) == 0 ? "gut" : "nylon"}; }

    void act_once(db::Ledger& ledger)
    {
        const auto harp = any_of(ledger, "harp");
        const unsigned choice = harp ? below(18) : 0;
        if (choice == 0) (void)db::add_harp(ledger, author(), concert_harp(word()));
        if (choice == 1) (void)db::add_room(ledger, author(), {word(), ""});
        if (choice == 2)
            (void)db::change_harp(ledger, author(), *harp, concert_harp(word() + " II"), "renamed");
        if (choice == 3)
            (void)db::put_on(ledger, author(),
                             {.harp_id = *harp, .place = place(), .make = make(), .put_on = day()});
        if (choice == 4)
            (void)db::take_off(ledger, author(), *harp, place(),
                               {.removed_on = day(), .reason = RemovalReason::broke});
        if (choice == 5)
            (void)db::plan_strings(ledger, author(), {{.harp_id = *harp, .place = place(), .make = make()}});
        if (choice == 6)
            (void)db::add_visit(
                ledger, author(),
                {.harp_id = *harp, .visited_on = day(), .work = {{.place = place(), .work = "nut"}}});
        if (choice == 7) (void)db::lend_harp(ledger, author(), {*harp, word(), day()});
        if (choice == 8) (void)db::return_harp(ledger, author(), *harp, {.returned_on = day()});
        if (choice == 9)
            (void)db::add_note(ledger, author(), {.about_id = harp, .noted_on = day(), .words = word()});
        if (choice == 10) (void)db::add_reminder(ledger, author(), {*harp, word(), DueOnDate{day()}});
        if (choice == 11) (void)db::place_harp(ledger, author(), {*harp, any_of(ledger, "room"), day()});
        if (choice == 12)
            (void)db::move_spares(ledger, author(),
                                  {.place = place(), .make = make(), .change = 1, .moved_on = day()});
        if (choice == 13)
            (void)db::change_setting(ledger, author(), "tolerance", harp, std::to_string(below(9)));
        if (choice == 14) store_small_check(ledger, *harp);
        if (choice == 15) void_something(ledger);
        if (choice == 16) (void)db::undo_last(ledger, author());
        if (choice == 17)
            (void)db::add_climate(
                ledger, author(),
                {.harp_id = harp, .source = "by hand", .samples = {{{now_ms_, 0}, Celsius{20.0}, {}}}});
    }

    void store_small_check(db::Ledger& ledger, const Uuid& harp)
    {
        CheckResult result;
        Reading reading{.place = place(), .position = Position::natural};
        reading.pluck.frequency_hz = 200.0 + below(1000);
        result.readings = {reading};
        result.steps = {{place(), Step::lower, 0.1 * below(100), 0.1, 20.0}};
        const db::Author writer = author();
        (void)db::store_check(ledger, writer, header_of(harp, writer.now), result);
    }

    void void_something(db::Ledger& ledger)
    {
        static const std::vector<std::string> kinds{"string", "visit",          "note", "loan",
                                                    "check",  "string_removal", "harp"};
        if (const auto thing = any_of(ledger, kinds[below(7)]))
            (void)db::make_void(ledger, author(), *thing, "random");
    }

    std::mt19937 random_;
    std::string computer_;
    std::int64_t now_ms_;
};

} // namespace harpkeep::test
