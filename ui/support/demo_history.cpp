// SPDX-License-Identifier: MIT
#include "ui/support/demo_history.hpp"

#include "db/records/checks.hpp"
#include "db/records/climate.hpp"
#include "db/records/loans.hpp"
#include "db/records/notes.hpp"
#include "db/records/reminders.hpp"
#include "db/records/rooms.hpp"
#include "db/records/spares.hpp"
#include "db/records/string_plans.hpp"
#include "db/records/strings.hpp"
#include "db/records/visits.hpp"
#include "reason/stringing_records.hpp"
#include "strings/example_stringing.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

namespace harpkeep::ui {

namespace {

constexpr double reading_uncertainty_cents = 0.15;
constexpr std::uint64_t seed = 1125;

/// Random numbers that are the same on every machine.
class Chance {
  public:
    double normal()
    {
        double sum = 0.0; // of twelve uniform numbers: near enough to normal for an invented harp
        for (int i = 0; i < 12; ++i) sum += static_cast<double>(engine_() >> 11) * 0x1.0p-53;
        return sum - 6.0;
    }

  private:
    std::mt19937_64 engine_{seed};
};

/// Writes the invented facts; the first that is refused ends it.
class Demo {
  public:
    Demo(db::Ledger& ledger, const db::Author& author) : ledger_(ledger), author_(author) {}

    [[nodiscard]] const std::optional<Error>& problem() const { return problem_; }
    [[nodiscard]] Date months_ago(int months, int day = 12) const
    {
        const Date then = plus_months(local_date(author_.now), -months);
        const Date date{then.year, then.month, day};
        return std::min(date, local_date(author_.now));
    }

    void plan(const DemoHarp& harp)
    {
        keep(db::plan_strings(ledger_, author_,
                              as_records(example_stringing(harp.layout, Hertz{440.0}), harp.id)));
    }

    /// Every string as planned, on since the ledger began or put on so many months ago by what it is.
    void string_all(const DemoHarp& harp, int treble_months, int middle_months, int wire_months)
    {
        std::vector<MountedString> strings;
        for (const PlannedString& planned :
             as_records(example_stringing(harp.layout, Hertz{440.0}), harp.id)) {
            const bool wound = !planned.make.wrap_material.empty();
            const int months = wound                              ? wire_months
                               : planned.place.harp_octave() <= 2 ? treble_months
                                                                  : middle_months;
            strings.push_back({.harp_id = harp.id,
                               .place = planned.place,
                               .make = planned.make,
                               .cost = price_of(planned.place, wound),
                               .put_on = months_ago(months)});
        }
        keep(db::put_on_all(ledger_, author_, strings));
    }

    void break_and_replace(const DemoHarp& harp, StringPlace place, int months, int day, BreakPoint at)
    {
        for (const PlannedString& planned : as_records(example_stringing(harp.layout, Hertz{440.0}), harp.id))
            if (planned.place == place)
                keep(db::put_on(ledger_, author_,
                                {.harp_id = harp.id,
                                 .place = place,
                                 .make = planned.make,
                                 .cost = price_of(place, false),
                                 .put_on = months_ago(months, day)},
                                {.old_string = db::OldString{RemovalReason::broke, at}}));
    }

    void break_only(const DemoHarp& harp, StringPlace place, Date day, BreakPoint at)
    {
        StringRemoval removal;
        removal.removed_on = day;
        removal.reason = RemovalReason::broke;
        removal.broke_at = at;
        keep(db::take_off(ledger_, author_, harp.id, place, removal));
    }

    void buy_spares(const DemoHarp& harp, std::vector<StringPlace> places, int months, int count)
    {
        for (const PlannedString& planned :
             as_records(example_stringing(harp.layout, Hertz{440.0}), harp.id)) {
            if (std::find(places.begin(), places.end(), planned.place) == places.end()) continue;
            const Money each = price_of(planned.place, false);
            keep(db::move_spares(ledger_, author_,
                                 {.place = planned.place,
                                  .make = planned.make,
                                  .change = count,
                                  .moved_on = months_ago(months),
                                  .cost = Money{each.minor_units * count, each.currency}}));
        }
    }

    void visit(const DemoHarp& harp, Date day, std::int64_t cost_minor_units, std::vector<VisitWork> work)
    {
        keep(db::add_visit(ledger_, author_,
                           {.harp_id = harp.id,
                            .visited_on = day,
                            .technician = "visiting technician",
                            .cost = Money{cost_minor_units, "EUR"},
                            .work = std::move(work)}));
    }

    void check(const DemoHarp& harp, const SyntheticHarp& truth, Date day)
    {
        CheckHeader header;
        header.harp_id = harp.id;
        header.taken = moment_at(day, 17, 30, author_.now.offset_minutes);
        header.temperature = Celsius{std::round(air_celsius(day))};
        header.humidity = RelativeHumidity{std::round(air_percent(day))};
        header.remarks = "invented for the demonstration";
        keep(db::store_check(ledger_, author_, header, sounded(truth)));
    }

    std::optional<Uuid> room(const char* name, const char* remarks)
    {
        return kept(db::add_room(ledger_, author_, {name, remarks}));
    }

    void place(const DemoHarp& harp, const std::optional<Uuid>& room, Date since)
    {
        keep(db::place_harp(ledger_, author_, {harp.id, room, since}));
    }

    /// Twice a day, damp in late summer and dry in the heating season.
    void log_air(const std::optional<Uuid>& room, int months)
    {
        ClimateSeries series{.room_id = room, .source = "logger.csv"};
        const int last = days_since_epoch(local_date(author_.now)) - 1;
        for (int day = days_since_epoch(months_ago(months)); day <= last; ++day)
            for (const int hour : {8, 20}) {
                const Date date = date_from_days(day);
                series.samples.push_back(
                    {moment_at(date, hour, 0, author_.now.offset_minutes),
                     Celsius{0.1 * std::round(10.0 * (air_celsius(date) + 0.6 * chance_.normal()))},
                     RelativeHumidity{0.1 *
                                      std::round(10.0 * (air_percent(date) + 2.0 * chance_.normal()))}});
            }
        keep(db::add_climate(ledger_, author_, series));
    }

    void note(const DemoHarp& harp, Date day, std::optional<StringPlace> place, const char* words)
    {
        keep(db::add_note(
            ledger_, author_,
            {.about_id = harp.id, .place = place, .noted_on = day, .words = words, .attachments = {}}));
    }

    void lend(const Loan& loan, const std::optional<LoanReturn>& back)
    {
        keep(db::lend_harp(ledger_, author_, loan));
        if (back) keep(db::return_harp(ledger_, author_, loan.harp_id, *back));
    }

    void remind(const DemoHarp& harp, const char* words, int months)
    {
        keep(db::add_reminder(
            ledger_, author_,
            {harp.id, words, DueAfterMonths{months, CountedFrom::done, months_ago(months)}}));
    }

    Chance& chance() { return chance_; }

  private:
    [[nodiscard]] static Money price_of(StringPlace place, bool wound)
    {
        // Invented prices: longer strings cost more, wires most.
        return {(wound ? 1800 : 300) + 120 * place.harp_octave(), "EUR"};
    }
    [[nodiscard]] static double season(Date day, double top_day_of_year)
    {
        const double of_year = days_since_epoch(day) - days_since_epoch({day.year, 1, 1});
        return std::cos(2.0 * std::numbers::pi * (of_year - top_day_of_year) / 365.25);
    }
    [[nodiscard]] static double air_percent(Date day) { return 46.0 + 9.0 * season(day, 235.0); }
    [[nodiscard]] static double air_celsius(Date day) { return 20.5 + 2.0 * season(day, 205.0); }

    /// What a check of this harp measures: the truth and a little noise.
    CheckResult sounded(const SyntheticHarp& truth)
    {
        CheckResult result;
        double start_s = 1.0;
        for (std::size_t i = 0; i < truth.layout.strings.size(); ++i) {
            const HarpString& string = truth.layout.strings[i];
            std::vector<double> noise;
            for (const Position position : positions_of(truth.layout.kind, string)) {
                noise.push_back(reading_uncertainty_cents * chance_.normal());
                Reading reading{.place = string.place, .position = position};
                reading.pluck.start_s = start_s += 2.0;
                reading.pluck.frequency_hz =
                    true_frequency_hz(truth, i, position) * std::exp2(noise.back() / 1200.0);
                reading.pluck.uncertainty_cents = reading_uncertainty_cents;
                reading.pluck.degrees_of_freedom = 30.0;
                result.readings.push_back(std::move(reading));
            }
            const double uncertainty = std::numbers::sqrt2 * reading_uncertainty_cents;
            const auto steps = steps_of(truth.layout.kind, string);
            for (std::size_t s = 0; s < steps.size(); ++s)
                result.steps.push_back({string.place, steps[s],
                                        true_step_error_cents(truth, i, steps[s]) + noise[s + 1] - noise[s],
                                        uncertainty, 60.0});
            if (steps.size() == 2)
                result.whole_steps.push_back(
                    {string.place,
                     result.steps[result.steps.size() - 2].error_cents + result.steps.back().error_cents,
                     uncertainty});
        }
        return result;
    }

    template <class T>
    void keep(const Result<T>& result)
    {
        if (!result && !problem_) problem_ = result.error();
    }
    template <class T>
    std::optional<T> kept(const Result<T>& result)
    {
        keep(result);
        return result ? std::optional{*result} : std::nullopt;
    }

    db::Ledger& ledger_;
    const db::Author& author_;
    Chance chance_;
    std::optional<Error> problem_;
};

/// The harp as it was before a visit: every step looser, a few strings far off.
SyntheticHarp before_visit(SyntheticHarp harp, Chance& chance)
{
    for (std::size_t i = 0; i < harp.strings.size(); ++i) {
        const bool far = i % 11 == 3;
        harp.strings[i].lower_error_cents += 2.2 * chance.normal() + (far ? 8.0 : 1.0);
        harp.strings[i].upper_error_cents += 2.6 * chance.normal() - (far ? 6.0 : 0.0);
    }
    return harp;
}

/// The harp while the upper step of its F strings widens.
SyntheticHarp with_wide_f(SyntheticHarp harp, double cents)
{
    for (std::size_t i = 0; i < harp.strings.size(); ++i)
        if (harp.layout.strings[i].place.letter == Letter::F) harp.strings[i].upper_error_cents += cents;
    return harp;
}

void fill_heron(Demo& demo, const DemoHarp& harp, const SyntheticHarp& truth)
{
    constexpr StringPlace a_3a{Letter::A, 4};
    constexpr StringPlace a_2c{Letter::C, 6};
    constexpr StringPlace a_3f{Letter::F, 4};
    demo.plan(harp);
    demo.string_all(harp, 25, 31, 38);
    demo.break_and_replace(harp, a_3a, 16, 3, BreakPoint::disc);
    demo.break_and_replace(harp, a_2c, 9, 21, BreakPoint::nut);
    demo.break_and_replace(harp, a_3a, 5, 6, BreakPoint::disc);
    demo.check(harp, before_visit(truth, demo.chance()), demo.months_ago(15, 2));
    demo.visit(harp, demo.months_ago(14, 9), 22000,
               {{std::nullopt, std::nullopt, "regulated", ""},
                {std::nullopt, Letter::D, "felt replaced", "1 felt"},
                {a_3f, std::nullopt, "disc replaced", "1 disc"}});
    demo.check(harp, truth, demo.months_ago(13, 4));
    demo.check(harp, with_wide_f(truth, 2.0), demo.months_ago(8, 15));
    demo.check(harp, with_wide_f(truth, 3.6), demo.months_ago(3, 19));
    demo.note(harp, demo.months_ago(4, 8), a_3a, "broke at the disc again, the second time in a year");
    demo.note(harp, demo.months_ago(2, 17), std::nullopt,
              "F pedal: sharps sound high in the middle of the harp");
    demo.note(harp, demo.months_ago(1, 5), StringPlace{Letter::G, 3},
              "buzzes in sharp when it is played loud, not in natural");
    demo.remind(harp, "fill the humidifier", 2);
}

void fill_others(Demo& demo, const std::vector<DemoHarp>& harps)
{
    const auto truth = [](const DemoHarp& harp, double spread_cents, std::uint64_t of) {
        return make_synthetic_harp(harp.layout, {.step_error_sd_cents = spread_cents, .seed = of});
    };
    const DemoHarp& wren = harps[1];
    const DemoHarp& linnet = harps[2];
    const DemoHarp& kestrel = harps[3];
    demo.plan(wren);
    demo.string_all(wren, 30, 34, 40);
    demo.visit(wren, demo.months_ago(26, 20), 18000, {{std::nullopt, std::nullopt, "regulated", ""}});
    demo.check(wren, truth(wren, 3.6, 7), demo.months_ago(2, 11));
    demo.visit(wren, demo.months_ago(1, 9), 6500, {{std::nullopt, Letter::C, "felt replaced", "1 felt"}});
    demo.break_and_replace(wren, {Letter::E, 6}, 6, 14, BreakPoint::knot);
    demo.break_only(wren, {Letter::B, 5}, demo.months_ago(1, 2), BreakPoint::disc);
    demo.plan(linnet);
    demo.string_all(linnet, 11, 11, 24);
    demo.visit(linnet, demo.months_ago(10, 16), 9500,
               {{std::nullopt, std::nullopt, "levers regulated", ""},
                {StringPlace{Letter::G, 5}, std::nullopt, "lever replaced", "1 lever"}});
    demo.check(linnet, truth(linnet, 1.5, 11), demo.months_ago(9, 8));
    demo.plan(kestrel);
    demo.string_all(kestrel, 14, 14, 20);
    demo.check(kestrel, truth(kestrel, 2.0, 13), demo.months_ago(11, 27));
}

void fill_school(Demo& demo, const std::vector<DemoHarp>& harps)
{
    const auto music = demo.room("Music room 2", "Larkmoor Community Music School");
    const auto practice = demo.room("Practice room 1", "Larkmoor Community Music School");
    demo.place(harps[0], music, demo.months_ago(36));
    demo.place(harps[1], music, demo.months_ago(36));
    demo.place(harps[2], practice, demo.months_ago(30));
    demo.place(harps[3], practice, demo.months_ago(30));
    demo.log_air(music, 15);
    demo.lend({.harp_id = harps[2].id,
               .borrower = "a first-year pupil",
               .from = demo.months_ago(17, 3),
               .until = demo.months_ago(13, 1),
               .condition_out = "good, cover and tuning key with it",
               .remarks = ""},
              LoanReturn{{}, demo.months_ago(13, 1), "good; 1E missing"});
    demo.lend({.harp_id = harps[3].id,
               .borrower = "a second-year pupil",
               .from = demo.months_ago(10, 28),
               .until = demo.months_ago(-2, 15),
               .condition_out = "good, one scratch on the left side of the body",
               .remarks = ""},
              std::nullopt);
    demo.buy_spares(
        harps[0],
        {{Letter::E, 6}, {Letter::D, 6}, {Letter::C, 6}, {Letter::A, 4}, {Letter::F, 4}, {Letter::C, 4}}, 7,
        2);
}

} // namespace

Result<void> add_demo_history(db::Ledger& ledger, const db::Author& author,
                              const std::vector<DemoHarp>& harps, const SyntheticHarp& heron)
{
    Demo demo{ledger, author};
    fill_school(demo, harps);
    fill_heron(demo, harps.front(), heron);
    fill_others(demo, harps);
    if (const auto& problem = demo.problem())
        return failure(problem->within("making the history of the demonstration"));
    return {};
}

} // namespace harpkeep::ui
