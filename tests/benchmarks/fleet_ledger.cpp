// SPDX-License-Identifier: MIT
#include "tests/benchmarks/fleet_ledger.hpp"

#include "db/ledger/catalogue.hpp"
#include "db/records/checks.hpp"
#include "db/records/climate.hpp"
#include "db/records/loans.hpp"
#include "db/records/notes.hpp"
#include "db/records/rooms.hpp"
#include "db/records/string_plans.hpp"
#include "db/records/strings.hpp"
#include "db/records/visits.hpp"
#include "tests/support/example_ledger.hpp"
#include "tests/support/whole_harp.hpp"

#include <array>
#include <cmath>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <map>

namespace harpkeep::test {

namespace {

constexpr std::int64_t ms_per_day = 86'400'000;
constexpr int days_per_year = 365;
constexpr int first_day_of_ledger = 13'149; // 2006-01-01

HarpLayout layout_of_141()
{
    LayoutRequest request;
    request.without_discs = std::vector<StringPlace>{};
    return make_layout(request).value();
}

/// A recording of such a harp, pedals down for one pass after the other, as harpkeep measures it.
CheckResult measured_check(double snr_db, std::uint64_t seed)
{
    tests::WholeHarpCase settings;
    settings.layout.without_discs = std::vector<StringPlace>{};
    settings.mishaps = false;
    settings.snr_db = snr_db;
    settings.seed = seed;
    const auto whole = tests::make_whole_harp(settings);
    auto heard = tests::hear(whole.recording.samples, whole.recording.sample_rate_hz);
    return assemble_check(whole.harp.layout, heard.plucks, std::move(heard.ignored), {});
}

StringMake make_at(StringPlace place)
{
    const bool wire = place.harp_octave() >= 5;
    return {.material = wire ? "steel" : "gut",
            .diameter = Millimetres{0.5 + 0.04 * (52 - place.diatonic_index())}};
}

} // namespace

Fleet::Fleet(db::Ledger& ledger, const FleetSize& size)
    : ledger_(ledger),
      size_(size),
      measured_{measured_check(30.0, 1), measured_check(20.0, 2), measured_check(15.0, 3)}
{
    add_rooms();
}

Moment Fleet::end() const
{
    return {(first_day_of_ledger + size_.years * days_per_year) * ms_per_day, 60};
}

db::Author Fleet::at_day(int day) const
{
    return {{(first_day_of_ledger + day) * ms_per_day + 43'200'000, 60}, "workshop"};
}

void Fleet::add_rooms()
{
    for (int room = 0; room < size_.rooms; ++room) {
        rooms_.push_back(db::add_room(ledger_, at_day(0), {fmt::format("Room {}", room), ""}).value());
        ClimateSeries series{.room_id = rooms_.back(), .source = "logger.csv"};
        const int days = size_.years * days_per_year;
        for (int i = 0; i < days * size_.climate_samples_per_day; ++i) {
            const double day = static_cast<double>(i) / size_.climate_samples_per_day;
            const Moment taken{first_day_of_ledger * ms_per_day +
                                   static_cast<std::int64_t>(day * static_cast<double>(ms_per_day)),
                               60};
            series.samples.push_back(
                {taken, Celsius{20.0 + std::round(30.0 * std::sin(day / 58.0)) / 10.0},
                 RelativeHumidity{48.0 + std::round(100.0 * std::cos(day / 58.0)) / 10.0}});
        }
        done(db::add_climate(ledger_, {end(), "workshop"}, series));
    }
}

void Fleet::grow_to(int harps)
{
    while (static_cast<int>(harps_.size()) < harps) add_harp();
}

void Fleet::add_harp()
{
    HarpDetails details;
    details.name = fmt::format("Harp {:04}", harps_.size());
    details.layout = layout_of_141();
    details.year_built = 1990 + static_cast<int>(harps_.size() % 30);
    const Uuid harp = db::add_harp(ledger_, at_day(0), details).value();
    harps_.push_back(harp);
    done(db::place_harp(ledger_, at_day(0),
                        {harp, rooms_[harps_.size() % rooms_.size()], date_from_days(first_day_of_ledger)}));
    add_strings(harp);
    add_visits_and_loans(harp);
    add_checks(harp);
}

void Fleet::add_strings(const Uuid& harp)
{
    std::mt19937 random{static_cast<unsigned>(harps_.size())};
    const int days = size_.years * days_per_year;
    std::uniform_int_distribution<int> first_change{days / 10, days / 2}, second_change{days / 2 + 1, days};
    std::uniform_int_distribution<int> broke{0, 2};
    std::vector<PlannedString> plan;
    for (const HarpString& string : layout_of_141().strings) {
        const std::array changes{0, first_change(random), second_change(random)};
        for (std::size_t i = 0; i < changes.size(); ++i) {
            db::PutOnOptions options;
            if (i > 0)
                options.old_string = {broke(random) == 0 ? RemovalReason::broke : RemovalReason::schedule,
                                      {}};
            done(db::put_on(ledger_, at_day(changes[i]),
                            {.harp_id = harp,
                             .place = string.place,
                             .make = make_at(string.place),
                             .cost = Money{900, "EUR"},
                             .put_on = date_from_days(first_day_of_ledger + changes[i])},
                            options));
        }
        plan.push_back(
            {.harp_id = harp, .place = string.place, .make = make_at(string.place), .length = 500.0_mm});
    }
    done(db::plan_strings(ledger_, at_day(0), plan));
}

void Fleet::add_visits_and_loans(const Uuid& harp)
{
    for (int year = 0; year < size_.years; ++year) {
        const int day = year * days_per_year + 200;
        const Date date = date_from_days(first_day_of_ledger + day);
        done(db::add_visit(ledger_, at_day(day),
                           {.harp_id = harp,
                            .visited_on = date,
                            .technician = "technician",
                            .cost = Money{18'000, "EUR"},
                            .work = {{.work = "regulated"}, {.pedal = Letter::F, .work = "felt replaced"}}}));
        done(db::add_note(ledger_, at_day(day),
                          {.about_id = harp, .noted_on = date, .words = "play check done"}));
        if (year % 4 != 0) continue;
        done(db::lend_harp(ledger_, at_day(day), {harp, "a pupil", date}));
        done(db::return_harp(ledger_, at_day(day + 90), harp,
                             {.returned_on = date_from_days(first_day_of_ledger + day + 90)}));
    }
}

CheckResult Fleet::moved_check(std::mt19937& random) const
{
    std::normal_distribution<double> normal;
    CheckResult check = measured_[random() % measured_.size()];
    for (Reading& reading : check.readings) {
        const double moved = std::exp2(3.0 * normal(random) / 1200.0);
        reading.pluck.frequency_hz *= moved;
        for (Partial& partial : reading.pluck.partials) partial.frequency_hz *= moved;
    }
    for (StepError& step : check.steps) step.error_cents += 2.0 * normal(random);
    for (WholeStepError& whole : check.whole_steps) whole.error_cents += 2.0 * normal(random);
    return check;
}

void Fleet::add_checks(const Uuid& harp)
{
    const int count = size_.years * size_.checks_per_year;
    std::mt19937 random{static_cast<unsigned>(harps_.size()) + 1'000'000U};
    for (int check = 0; check < count; ++check) {
        const db::Author author = at_day(check * days_per_year / size_.checks_per_year);
        done(db::store_check(ledger_, author, header_of(harp, author.now), moved_check(random)));
    }
}

namespace {

/// Numbers up to these belong to what all harps share; those of copies lie a span further on for each copy.
struct Numbers {
    std::int64_t shared = 0, span = 0;
};

Numbers numbers_of(const db::Database& database, const std::string& table, const std::string& first_of_a_harp)
{
    Numbers numbers;
    numbers.shared = database.integer_of(first_of_a_harp) - 1;
    numbers.span = database.integer_of(fmt::format("SELECT max({0}_no) FROM {0}", table)) - numbers.shared;
    return numbers;
}

/// What selects a column for a copy: numbers moved, keys and names told apart.
std::string copied(const db::TableInfo& table, const db::Column& column,
                   const std::map<db::Points, Numbers>& numbers)
{
    db::Points points = column.points;
    for (const auto& [to, name] : {std::pair{db::Points::to_thing, "thing"},
                                   {db::Points::to_fact, "fact"},
                                   {db::Points::to_action, "action"}})
        if (table.name == name && column.name == std::string{name} + "_no") points = to;
    if (points != db::Points::nowhere) {
        const Numbers& moved = numbers.at(points);
        return fmt::format("{0} + iif({0} > {1}, {2} * :copy, 0)", column.name, moved.shared, moved.span);
    }
    // The last two bytes of a key are random ones; those of a copy hold its number.
    if (column.name == "id") return "CAST(substr(id, 1, 14) || :suffix AS BLOB)";
    if (table.name == "harp" && column.name.starts_with("name"))
        return fmt::format("{} || ' copy ' || :copy", column.name);
    return column.name;
}

} // namespace

void copy_harps(db::Ledger& ledger, int times)
{
    const db::Database& database = ledger.database();
    constexpr const char* first = "SELECT min({}) FROM fact JOIN thing USING (thing_no) WHERE kind = 'harp'";
    const std::map<db::Points, Numbers> numbers{
        {db::Points::to_thing, numbers_of(database, "thing", fmt::format(fmt::runtime(first), "thing_no"))},
        {db::Points::to_fact, numbers_of(database, "fact", fmt::format(fmt::runtime(first), "fact_no"))},
        {db::Points::to_action,
         numbers_of(database, "action", fmt::format(fmt::runtime(first), "action_no"))}};
    database.execute("PRAGMA foreign_keys = OFF"); // rows refer to rows that come later
    for (int copy = 1; copy <= times; ++copy) {
        database.execute("BEGIN");
        for (const db::TableInfo& table : db::catalogue(database)) {
            const bool has_key = table.name == "thing" || table.name == "action";
            if (!has_key && !table.has_facts()) continue;
            const auto points = table.name == "thing"    ? db::Points::to_thing
                                : table.name == "action" ? db::Points::to_action
                                                         : db::Points::to_fact;
            std::vector<std::string> names, values;
            for (const db::Column& column : table.columns) {
                names.push_back(column.name);
                values.push_back(copied(table, column, numbers));
            }
            const Numbers& own = numbers.at(points);
            auto insert = database.prepare(
                fmt::format("INSERT INTO {0} ({1}) SELECT {2} FROM {0} WHERE {3} > {4} AND {3} <= {5}",
                            table.name, fmt::join(names, ", "), fmt::join(values, ", "),
                            table.columns.front().name, own.shared, own.shared + own.span));
            for (const std::string& value : values) {
                if (value.find(":copy") != std::string::npos) insert.bind(":copy", std::int64_t{copy});
                if (value.find(":suffix") != std::string::npos)
                    insert.bind(":suffix", std::span<const std::uint8_t>{
                                               std::array{static_cast<std::uint8_t>(copy / 256),
                                                          static_cast<std::uint8_t>(copy % 256)}});
            }
            insert.run();
        }
        database.execute("COMMIT");
    }
    database.execute("PRAGMA foreign_keys = ON");
}

} // namespace harpkeep::test
