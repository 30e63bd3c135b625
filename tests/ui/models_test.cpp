// SPDX-License-Identifier: MIT
#include "school.hpp"

#include "ui/dashboard/check_files.hpp"
#include "ui/dashboard/figures.hpp"
#include "ui/dashboard/views/care_views.hpp"
#include "ui/dashboard/views/history_view.hpp"
#include "ui/dashboard/views/office_views.hpp"
#include "ui/dashboard/views/today_view.hpp"
#include "ui/dashboard/window/settings_file.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace harpkeep;
using namespace harpkeep::dashboard;

TEST_CASE("today: counts the strings by their worse step", "[ui]")
{
    TodayModel model;
    StringToday string;
    string.lower.state = State::fine;
    string.upper.state = State::out;
    model.strings.push_back(string);
    string.upper.state = State::none;
    model.strings.push_back(string);
    string.lower.state = State::none;
    model.strings.push_back(string);
    CHECK(count_states(model) == Counts{.fine = 1, .out = 1});
}

TEST_CASE("today: the worst string comes first, then the larger error", "[ui]")
{
    TodayModel model;
    for (const auto& [state, cents] :
         {std::pair{State::fine, 3.0}, std::pair{State::out, -6.0}, std::pair{State::out, 11.0}}) {
        StringToday string;
        string.lower = {state, Figure{cents, 0.2}};
        model.strings.push_back(string);
    }
    CHECK(worst_first(model) == std::vector<std::size_t>{2, 1, 0});
}

TEST_CASE("today: strings of the drawing follow the strings of the harp", "[ui]")
{
    const auto model = SchoolPages{}.page<TodayModel>(Page::today);
    const auto drawing = today_drawing(model, {.chosen = place_from_harp_name("2A")}, {});
    REQUIRE(drawing.strings.size() == 47);
    CHECK(drawing.strips.size() == 2);
    CHECK(drawing.strings[static_cast<std::size_t>(drawing.chosen)].label == "2A");
    CHECK(drawing.strings.front().lower == State::none); // 7C has no discs
}

TEST_CASE("school: the planted faults are what the page of today finds", "[ui]")
{
    const auto model = SchoolPages{}.page<TodayModel>(Page::today);
    CHECK(model.verdict == Verdict::call_now);
    for (const auto& string : model.strings) {
        CAPTURE(harp_name(string.place));
        const bool planted =
            string.place == place_from_harp_name("2A") || string.place == place_from_harp_name("4G");
        if (planted) CHECK(string.upper.state == State::out);
    }
    const auto f = std::find_if(model.pedals.begin(), model.pedals.end(),
                                [](const PedalToday& pedal) { return pedal.letter == Letter::F; });
    REQUIRE(f != model.pedals.end());
    CHECK(f->state == State::out);
    CHECK(f->lower_cents->value < -4.0); // planted: 5.5 cents a year over 14 months
}

TEST_CASE("figures: signs, uncertainties, ages and days read as people write them", "[ui]")
{
    CHECK(signed_figure(-0.04) == "0.0");
    CHECK(signed_figure(-3.26) == "\u22123.3");
    CHECK(figure_text({2.0, 0.21}) == "+2.0 ± 0.2");
    CHECK(age_text(1.0) == "1 day");
    CHECK(age_text(45.0) == "45 days");
    CHECK(age_text(305.0) == "10 months");
    CHECK(age_text(1000.0) == "2.7 years");
    CHECK(chance_text(0.004) == "under 1 in 100");
    CHECK(chance_text(1.0) == "over 99 in 100");
    CHECK(day_text(std::chrono::year{2026} / 3 / 9) == "2026-03-09");
}

TEST_CASE("figures: a place is called as its owner calls it", "[ui]")
{
    const StringPlace middle_c{Letter::C, 4}, top{Letter::G, 7};
    CHECK(place_name(middle_c, NameStyle::harp_octave, top) == "4C");
    CHECK(place_name(middle_c, NameStyle::scientific, top) == "C4");
    CHECK(place_name(middle_c, NameStyle::number, top) == "24 C"); // 1E is 1 (common practice, no source)
    CHECK(place_name(top, NameStyle::number, top) == "0G");        // above 1E
}

TEST_CASE("visits: a day is read strictly", "[ui]")
{
    CHECK(day_from_text("2024-02-29") == Day{std::chrono::year{2024} / 2 / 29});
    for (const char* wrong :
         {"", "2026-02-29", "2026-13-01", "26-01-01", "2026/01/01", "2026-1-01 ", "2026-00-10", "-026-01-01"})
        CHECK_FALSE(day_from_text(wrong));
}

TEST_CASE("tables: each page's rows have a cell for each column", "[ui]")
{
    SchoolPages school;
    const auto strings = school.page<StringsModel>(Page::strings);
    for (const auto& table : {strings_table(strings, {}), stock_table(strings),
                              tension_table(school.page<TensionModel>(Page::tension), {}),
                              around_table(school.page<PedalsModel>(Page::pedals), {}),
                              room_table(school.page<RoomModel>(Page::room)),
                              visits_table(school.page<VisitsModel>(Page::visits)),
                              changes_table(school.page<HistoryModel>(Page::history), {})}) {
        CHECK_FALSE(table.rows.empty());
        for (const auto& row : table.rows) CHECK(row.cells.size() == table.columns.size());
        for (const auto& column : table.columns) {
            CAPTURE(column.title);
            CHECK_FALSE(column.why.empty()); // every figure is explained
        }
    }
}

TEST_CASE("tables: each finds room in the smallest window", "[ui]")
{
    SchoolPages school;
    const auto strings = school.page<StringsModel>(Page::strings);
    constexpr float room = 1024.0F - 196.0F - 32.0F; // the window without rail and margins
    for (const auto& table : {strings_table(strings, {}), stock_table(strings),
                              tension_table(school.page<TensionModel>(Page::tension), {}),
                              around_table(school.page<PedalsModel>(Page::pedals), {}),
                              room_table(school.page<RoomModel>(Page::room)),
                              visits_table(school.page<VisitsModel>(Page::visits)),
                              changes_table(school.page<HistoryModel>(Page::history), {})}) {
        float wanted = 0.0F;
        for (const auto column : columns_with_room(table, room))
            wanted += table.columns[column].width + 16.0F;
        CAPTURE(table.columns.front().title, table.columns.size(), wanted);
        CHECK(wanted <= room);
    }
}

TEST_CASE("history: a plot holds each check once and marks visits and string changes", "[ui]")
{
    SchoolPages school;
    school.query.history = {false, {Letter::F, 4}, Step::lower};
    const auto model = school.page<HistoryModel>(Page::history);
    CHECK(model.points.size() == 13);
    CHECK_FALSE(model.forecast.empty());
    CHECK_FALSE(model.season_text.empty());
    const auto plot = history_plot(model, {});
    CHECK(plot.series.back().points.size() == model.points.size());
    CHECK(plot.events.size() == model.events.size());
    CHECK(plot.title == "3F, flat to natural");
}

TEST_CASE("history: a pedal has a mean, a trend and a forecast of its own", "[ui]")
{
    SchoolPages school;
    school.query.history = {true, {Letter::F, 4}, Step::lower};
    const auto model = school.page<HistoryModel>(Page::history);
    REQUIRE(model.points.size() == 13);
    REQUIRE(model.fitted.size() > 1);
    REQUIRE(model.forecast.size() > 1);
    // Planted: the F pedal narrows by 5.5 cents a year, each string by 0.3 more; the band holds the mean.
    CHECK(model.forecast.back().expected_cents < model.fitted.back().expected_cents);
    for (const auto& point : model.forecast) {
        CHECK(point.low_cents < point.expected_cents);
        CHECK(point.high_cents > point.expected_cents);
    }
}

TEST_CASE("history: one check against another shows what the visit changed", "[ui]")
{
    SchoolPages school;
    const auto newest = school.page<HistoryModel>(Page::history);
    REQUIRE(newest.checks.size() == 13);
    school.query.compare_before = 6; // two days before the visit of 430 days ago
    school.query.compare_after = 5;  // three days after it
    const auto model = school.page<HistoryModel>(Page::history);
    const auto better = std::count_if(model.changes.begin(), model.changes.end(), [](const auto& change) {
        return change.beyond_uncertainty && change.better;
    });
    CHECK(better >= 7); // the seven strings of the worn pedal
    CHECK_FALSE(model.changes_text.empty());
}

TEST_CASE("strings: a place whose strings break often is named", "[ui]")
{
    const auto model = SchoolPages{}.page<StringsModel>(Page::strings);
    CHECK(std::any_of(model.advice.begin(), model.advice.end(),
                      [](const Advice& advice) { return advice.headline.find("3B") != std::string::npos; }));
    CHECK_FALSE(model.curves.empty());
    CHECK_FALSE(model.stock.empty());
}

TEST_CASE("plan form: lengths and gauges are read as people write them", "[ui]")
{
    CHECK(positive_number("1.02") == 1.02);
    CHECK(positive_number(" 1,02 ") == 1.02);
    for (const char* wrong : {"", " ", "0", "-1", "nan", "inf", "1e9", "1.0.2", "1 mm", "abc"}) {
        CAPTURE(wrong);
        CHECK_FALSE(positive_number(wrong));
    }
    MakeFormState form{.gauge_mm = "0.9"};
    CHECK(make_choice(form).has_value());
    form.wrap = 1;
    form.wrap_outer_mm = "0.8"; // a wrap is outside its core
    CHECK_FALSE(make_choice(form));
    form.wrap_outer_mm = "1.6";
    CHECK(make_choice(form)->wrap_outer_mm == 1.6);
}

TEST_CASE("check files: a name that tells one position tells the pass", "[ui]")
{
    CHECK(pass_from_name("/music/Heron-Flats.M4A", HarpKind::pedal) == Position::flat);
    CHECK(pass_from_name("naturals.wav", HarpKind::pedal) == Position::natural);
    CHECK(pass_from_name("engaged.wav", HarpKind::lever) == Position::engaged);
    CHECK_FALSE(pass_from_name("flat and sharp.wav", HarpKind::pedal));
    CHECK_FALSE(pass_from_name("/flat/heron.wav", HarpKind::pedal)); // folders do not count
    CHECK_FALSE(pass_from_name("flat.wav", HarpKind::lever));
}

TEST_CASE("settings: what is written is read back", "[ui][property]")
{
    Settings settings{ThemeKind::dark,   1.7,         false, NameStyle::scientific, true, 442.0,
                      "Room microphone", "0192-heron"};
    CHECK(settings_from_text(text_of(settings)) == settings);
    CHECK(settings_from_text(text_of({})) == Settings{});
}

TEST_CASE("settings: lines without sense leave the usual setting", "[ui]")
{
    CHECK(settings_from_text(
              "theme purple\nfont_scale nan\nnames\n\n\xff\xfe\na4_hz 9000\nfont_scale abc\n") == Settings{});
    CHECK(settings_from_text("font_scale 99\n").font_scale == 2.5);
}

TEST_CASE("fonts: a face with all signs is found", "[ui]")
{
    const auto fonts = find_fonts();
    REQUIRE(fonts);
    CHECK_FALSE(fonts->regular.empty());
    CHECK_FALSE(fonts->bold.empty());
}
