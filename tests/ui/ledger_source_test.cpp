// SPDX-License-Identifier: MIT
#include "tests/support/example_ledger.hpp"

#include "db/records/checks.hpp"
#include "db/records/climate.hpp"
#include "db/records/harps.hpp"
#include "db/records/reminders.hpp"
#include "db/records/rooms.hpp"
#include "db/records/string_plans.hpp"
#include "db/records/strings.hpp"
#include "ui/dashboard/ledger/ledger_diary.hpp"
#include "ui/dashboard/ledger/ledger_intake.hpp"
#include "ui/dashboard/ledger/ledger_source.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <fmt/format.h>
#include <fstream>

using namespace harpkeep;
using namespace harpkeep::dashboard;

namespace {

/// A source on a ledger file of its own, seen on the evening of the examples.
struct Fixture {
    test::TemporaryFolder folder;
    std::string path = folder / "larkmoor.harpkeep";
    /// A clock that goes on by a second at each look, so that actions have an order across programs.
    std::int64_t looks = 0;
    std::shared_ptr<Source> source =
        LedgerSource::open(path, [this] {
            return test::at({test::an_evening.utc_ms + ++looks * 1000, test::an_evening.offset_minutes});
        }).value();
    JobContext context;
    Query query;

    template <class Wish>
    Result<Outcome> perform(const Wish& wish)
    {
        return source->perform(wish, query, context);
    }
    template <class Model>
    Model page(Page page)
    {
        auto model = source->load(page, query).value();
        return std::get<Model>(std::move(model));
    }
    void add_heron()
    {
        const auto added = perform(AddHarp{"Heron", HarpKind::pedal, 47}).value();
        query.harp = added.choose_harp.value();
    }
    db::Ledger other_program() const
    {
        return db::Ledger::open(path, db::Access::write, test::an_evening).value();
    }
    Uuid harp() const { return uuid_from_string(query.harp).value(); }
};

PlannedString gut(const Uuid& harp, StringPlace place)
{
    PlannedString planned;
    planned.harp_id = harp;
    planned.place = place;
    planned.make.material = "gut";
    planned.make.diameter = Millimetres{1.02};
    planned.length = Millimetres{500.0};
    return planned;
}

} // namespace

TEST_CASE("ledger source: an empty ledger says that there is no harp", "[ui]")
{
    Fixture f;
    CHECK(f.source->harps().value().empty());
    CHECK(std::get<EmptyPage>(f.source->load(Page::today, f.query).value()).why == EmptyPage::Why::no_harp);
    CHECK(f.source->ledger_name() == "larkmoor");
}

TEST_CASE("ledger source: a harp is added once, its page asks for a check", "[ui]")
{
    Fixture f;
    f.add_heron();
    CHECK(f.source->harps().value().front().name == "Heron");
    CHECK_FALSE(f.perform(AddHarp{"heron", HarpKind::pedal, 47}));
    CHECK_FALSE(f.perform(AddHarp{"  ", HarpKind::pedal, 47}));
    const auto empty = f.page<EmptyPage>(Page::today);
    CHECK(empty.why == EmptyPage::Why::no_check);
    CHECK(empty.harp.name == "Heron");
    CHECK(f.page<EmptyPage>(Page::climate).why == EmptyPage::Why::no_climate);
    CHECK(f.page<EmptyPage>(Page::tension).why == EmptyPage::Why::no_plan);
}

TEST_CASE("ledger source: a check stored by another program is seen and judged", "[ui]")
{
    Fixture f;
    f.add_heron();
    const auto before = f.source->revision();
    auto ledger = f.other_program();
    const auto layout = make_layout({}).value();
    const auto result = test::whole_check(layout, 7);
    REQUIRE(
        db::store_check(ledger, test::that_evening(), test::header_of(f.harp(), test::an_evening), result));
    CHECK(f.source->revision() != before);
    const auto today = f.page<TodayModel>(Page::today);
    REQUIRE(today.strings.size() == 47);
    int out = 0;
    for (const auto& string : today.strings) {
        // Errors are stored to 1e-6 cent, and judged against -5..+5 with 0.1 cent of uncertainty.
        if (string.place.harp_octave() > 1 && string.lower.error_cents &&
            std::abs(string.lower.error_cents->value) > 5.5)
            CHECK(string.lower.state == State::out);
        out += string.state() == State::out;
    }
    CHECK(out > 0);
    CHECK_FALSE(today.reasons.empty());
    const auto history = f.page<HistoryModel>(Page::history);
    CHECK(history.points.size() == 1);
    CHECK(f.page<PedalsModel>(Page::pedals).rows.size() == 47);
    const auto room = f.page<RoomModel>(Page::room);
    REQUIRE(room.rows.size() == 1);
    CHECK(room.rows.front().state == State::out);
}

TEST_CASE("ledger source: two checks are compared and drawn", "[ui]")
{
    Fixture f;
    f.add_heron();
    auto ledger = f.other_program();
    const auto layout = make_layout({}).value();
    for (int i = 0; i < 4; ++i) {
        const Moment taken{test::an_evening.utc_ms - (4 - i) * 90LL * 86'400'000LL, 60};
        REQUIRE(db::store_check(ledger, test::that_evening(), test::header_of(f.harp(), taken),
                                test::whole_check(layout, 20U + static_cast<unsigned>(i))));
    }
    const auto history = f.page<HistoryModel>(Page::history);
    CHECK(history.points.size() == 4);
    CHECK(history.checks.size() == 4);
    CHECK(history.changes.size() == 90); // 45 strings of two steps
    CHECK_FALSE(history.drift_text.empty());
    f.query.history.whole_pedal = true;
    CHECK(f.page<HistoryModel>(Page::history).points.size() == 4);
}

TEST_CASE("ledger source: a string goes on as planned, breaks, and each is taken back", "[ui]")
{
    Fixture f;
    f.add_heron();
    auto ledger = f.other_program();
    const StringPlace place{Letter::C, 4};
    CHECK_FALSE(f.perform(PutStringOn{place})); // nothing says which string
    REQUIRE(db::plan_strings(ledger, test::that_evening(), {gut(f.harp(), place)}));
    REQUIRE(f.perform(PutStringOn{place}));
    const auto row = [&] {
        for (const auto& r : f.page<StringsModel>(Page::strings).rows)
            if (r.place == place) return r;
        return StringRow{};
    };
    CHECK(row().put_on.has_value());
    CHECK_FALSE(row().broken);
    REQUIRE(f.perform(StringBroke{place}));
    CHECK(row().broken);
    CHECK_FALSE(f.perform(StringBroke{place})); // no string there
    REQUIRE(f.source->undo());
    CHECK_FALSE(row().broken);
    const auto tension = f.page<TensionModel>(Page::tension);
    REQUIRE(tension.rows.size() == 1);
    CHECK(tension.rows.front().tension_n.value > 50.0);
    f.query.trial = TryGauge{place, 1.2};
    CHECK(f.page<TensionModel>(Page::tension).trial->tension_change_n > 0.0);
}

TEST_CASE("ledger source: visits and tolerance are kept", "[ui]")
{
    Fixture f;
    f.add_heron();
    REQUIRE(f.perform(AddVisit{Day{std::chrono::year{2026} / 2 / 11}, "", "felts and intonation", ""}));
    CHECK_FALSE(f.perform(AddVisit{Day{std::chrono::year{2027} / 2 / 11}, "", "in the future", ""}));
    const auto visits = f.page<VisitsModel>(Page::visits);
    REQUIRE(visits.visits.size() == 1);
    CHECK(visits.visits.front().work == "felts and intonation");
    const ToleranceChoice choice{-4.0, 4.0, -2.0, 7.0};
    REQUIRE(f.perform(SetTolerance{choice}));
    CHECK(f.page<SettingsModel>(Page::settings).tolerance == choice);
}

TEST_CASE("ledger source: the air around a harp is drawn", "[ui]")
{
    Fixture f;
    f.add_heron();
    auto ledger = f.other_program();
    ClimateSeries series;
    series.harp_id = f.harp();
    series.source = "by hand";
    for (int i = 0; i < 10; ++i)
        series.samples.push_back({{test::an_evening.utc_ms - i * 86'400'000LL, 60},
                                  Celsius{21.0},
                                  i < 5 ? std::optional{RelativeHumidity{45.0}} : std::nullopt});
    REQUIRE(db::add_climate(ledger, test::that_evening(), series));
    const auto climate = f.page<ClimateModel>(Page::climate);
    CHECK(climate.points.size() == 10);
    CHECK(climate.share_inside == 1.0);
}

TEST_CASE("ledger source: a recording that is not there is told and changes nothing", "[ui]")
{
    Fixture f;
    f.add_heron();
    const auto checked = f.perform(CheckRecordings{{{f.folder / "no-such.wav", std::nullopt}}});
    REQUIRE_FALSE(checked);
    CHECK(checked.error().message.find("no-such.wav") != std::string::npos);
    CHECK(f.page<EmptyPage>(Page::today).why == EmptyPage::Why::no_check);
}

TEST_CASE("ledger source: a logger's table is read by its headings", "[ui]")
{
    Fixture f;
    f.add_heron();
    const auto path = f.folder / "logger.csv";
    std::ofstream{path} << "Time,Temperature,Humidity\n2026-03-01 12:00,21.5,44\n2026-03-02 12:00,21.0,46\n";
    REQUIRE(f.perform(ImportClimate{path}));
    CHECK(f.page<ClimateModel>(Page::climate).points.size() == 2);
    CHECK_FALSE(guessed_columns("a,b,c\n1,2,3\n"));
    CHECK(guessed_columns("\"Date/Time\";\"Temp (F)\";\"RH %\"\n")->temperature_unit ==
          TemperatureUnit::fahrenheit);
}

TEST_CASE("ledger source: what is due stands in the diary and in the room", "[ui]")
{
    Fixture f;
    f.add_heron();
    auto ledger = f.other_program();
    Reminder reminder;
    reminder.harp_id = f.harp();
    reminder.words = "winter concert";
    reminder.rule = DueOnDate{{2026, 4, 1}};
    REQUIRE(db::add_reminder(ledger, test::that_evening(), reminder));
    const auto visits = f.page<VisitsModel>(Page::visits);
    CHECK(std::any_of(visits.diary.begin(), visits.diary.end(), [](const DiaryEntry& entry) {
        return entry.due && entry.title.find("winter concert") != std::string::npos;
    }));
}

TEST_CASE("ledger source: in a fleet the page of strings learns from the harps of the harp's room", "[ui]")
{
    Fixture given;
    given.add_heron();
    const auto hall_strings = [&](int harps, const std::string& room_name) {
        auto ledger = given.other_program();
        const auto room = db::add_room(ledger, test::that_evening(), {room_name, ""}).value();
        for (int i = 0; i < harps; ++i) {
            const auto id = db::add_harp(ledger, test::that_evening(),
                                         test::concert_harp(fmt::format("{} {}", room_name, i)))
                                .value();
            test::done(db::place_harp(ledger, test::that_evening(), {id, room, {2025}}));
        }
        return room;
    };
    const auto hall = hall_strings(3, "Hall");
    test::done(db::place_harp(*std::make_unique<db::Ledger>(given.other_program()), test::that_evening(),
                              {given.harp(), hall, {2025}}));
    CHECK(given.page<StringsModel>(Page::strings).advice.empty());

    hall_strings(static_cast<int>(largest_school), "Store");
    const auto advice = given.page<StringsModel>(Page::strings).advice;
    REQUIRE(advice.size() == 1);
    CHECK_THAT(advice[0].headline, Catch::Matchers::Contains("strings of 4 harps"));
    CHECK(given.source->harps()->size() == 4 + largest_school);
    CHECK(given.page<RoomModel>(Page::room).rows.size() == 4 + largest_school);
}
