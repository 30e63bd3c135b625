// SPDX-License-Identifier: MIT
#include "ui/dashboard/example/example_source.hpp"
#include "ui/dashboard/figures.hpp"
#include "ui/dashboard/views/care_views.hpp"
#include "ui/dashboard/views/history_view.hpp"
#include "ui/dashboard/views/office_views.hpp"
#include "ui/dashboard/views/today_view.hpp"
#include "ui/dashboard/window/settings_file.hpp"

#include <catch2/catch.hpp>

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
    const auto model = example::today();
    const auto drawing = today_drawing(model, {.chosen = place_from_harp_name("2A")}, {});
    REQUIRE(drawing.strings.size() == 47);
    CHECK(drawing.strips.size() == 2);
    CHECK(drawing.strings[static_cast<std::size_t>(drawing.chosen)].label == "2A");
    CHECK(drawing.strings.front().lower == State::none); // 7C has no discs
}

TEST_CASE("example: the planted faults are what the page of today shows as out", "[ui]")
{
    const auto model = example::today();
    for (const auto& string : model.strings) {
        CAPTURE(harp_name(string.place));
        const bool named = string.place == place_from_harp_name("2A") ||
                           string.place == place_from_harp_name("4G") || string.place.letter == Letter::F;
        if (string.state() == State::out) CHECK(named);
    }
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
    CHECK(day_text(std::chrono::year{2026} / 3 / 9) == "2026-03-09");
}

TEST_CASE("figures: a place is called as its owner calls it", "[ui]")
{
    const StringPlace middle_c{Letter::C, 4}, top{Letter::G, 7};
    CHECK(place_name(middle_c, NameStyle::harp_octave, top) == "4C");
    CHECK(place_name(middle_c, NameStyle::scientific, top) == "C4");
    CHECK(place_name(middle_c, NameStyle::number_from_top, top) == "26 C");
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
    PedalSetting flat;
    for (const auto& table :
         {strings_table(example::strings(90), {}), stock_table(example::strings(90)),
          tension_table(example::tension({}), {}), around_table(example::pedals(flat), {}),
          room_table(example::room(200)), visits_table(example::visits()),
          changes_table(example::history({}, -1, -1), {})}) {
        CHECK_FALSE(table.rows.empty());
        for (const auto& row : table.rows) CHECK(row.cells.size() == table.columns.size());
    }
}

TEST_CASE("history: a plot holds each check once and marks visits and string changes", "[ui]")
{
    const auto model = example::history({false, {Letter::F, 4}, Step::lower}, -1, -1);
    const auto plot = history_plot(model, {});
    CHECK(plot.series.back().points.size() == model.points.size());
    CHECK(plot.events.size() == model.events.size());
    CHECK(plot.title == "3F, flat to natural");
}

TEST_CASE("settings: what is written is read back", "[ui][property]")
{
    Settings settings{ThemeKind::dark, 1.7, NameStyle::scientific, true, 442.0, "Room microphone"};
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
