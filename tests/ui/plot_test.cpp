// SPDX-License-Identifier: MIT
#include "ui/dashboard/widgets/bent_string.hpp"
#include "ui/dashboard/widgets/harp_drawing.hpp"
#include "ui/dashboard/widgets/picture_png.hpp"
#include "ui/dashboard/widgets/plot.hpp"
#include "ui/dashboard/widgets/ticks.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace harpkeep;
using namespace harpkeep::dashboard;

namespace {

const TextMeasure six_units_a_letter = [](std::string_view text, float, bool) {
    return 6.0F * static_cast<float>(text.size());
};

PlotModel line_of(int points)
{
    PlotModel plot;
    PlotSeries series;
    for (int i = 0; i < points; ++i) series.points.push_back({.x = i * 1.0, .y = std::sin(0.1 * i)});
    plot.series.push_back(std::move(series));
    return plot;
}

double day_number(int y, unsigned m, unsigned d)
{
    using namespace std::chrono;
    return static_cast<double>(sys_days{year{y} / month{m} / day{d}}.time_since_epoch().count());
}

} // namespace

TEST_CASE("ticks: numbers are round and few", "[ui]")
{
    const auto ticks = number_ticks(-7.3, 6.1, 8);
    REQUIRE(ticks.size() == 7);
    CHECK(ticks.front().label == "\u22126");
    CHECK(ticks[3].label == "0");
    CHECK(ticks.back().at == Approx(6.0));
    CHECK(number_ticks(0.0, 0.05, 6).back().label == "0.05");
}

TEST_CASE("ticks: dates fall on months and years", "[ui]")
{
    const auto years = date_ticks(day_number(2021, 3, 6), day_number(2026, 11, 22), 8);
    REQUIRE(years.size() == 5);
    CHECK(years.front().label == "2022");
    CHECK(years.front().at == day_number(2022, 1, 1));
    const auto months = date_ticks(day_number(2025, 11, 20), day_number(2026, 3, 4), 6);
    REQUIRE(months.size() == 4);
    CHECK(months[1].label == "Jan 2026");
    const auto days = date_ticks(day_number(2026, 11, 20), day_number(2026, 11, 24), 6);
    CHECK(days.front().label == "20 Nov");
}

TEST_CASE("plot: the same model gives the same picture", "[ui][property]")
{
    const auto& palette = palette_of(ThemeKind::light);
    const auto a =
        svg_of(plot_picture(line_of(50), 400, 200, palette, six_units_a_letter), palette[Tint::panel]);
    CHECK(a ==
          svg_of(plot_picture(line_of(50), 400, 200, palette, six_units_a_letter), palette[Tint::panel]));
    CHECK(a.find("<polyline") != std::string::npos);
}

TEST_CASE("plot: points that are no numbers are left out, sizes are kept usable", "[ui]")
{
    PlotModel plot = line_of(10);
    const double nan = std::numeric_limits<double>::quiet_NaN();
    plot.series.front().points.push_back({.x = nan, .y = 1.0});
    plot.series.front().points.push_back({.x = 3.0, .y = std::numeric_limits<double>::infinity()});
    plot.series.push_back({"marks", SeriesLook::marks, Tint::ink, false, {{.x = 2.0, .y = nan}}});
    const auto picture = plot_picture(plot, -5.0F, 0.0F, palette_of(ThemeKind::light), six_units_a_letter);
    CHECK(picture.width == 160.0F);
    CHECK(picture.height == 120.0F);
    CHECK(svg_of(picture, rgb(0xFFFFFF)).find("nan") == std::string::npos);
    CHECK(svg_of(picture, rgb(0xFFFFFF)).find("inf\"") == std::string::npos);
}

TEST_CASE("plot: no data at all still draws its axes", "[ui]")
{
    CHECK(plot_picture({}, 300, 200, palette_of(ThemeKind::dark), six_units_a_letter).shapes.size() > 4);
}

TEST_CASE("plot: a million points cost no more shapes than the picture has columns", "[ui]")
{
    const auto picture =
        plot_picture(line_of(1'000'000), 800, 300, palette_of(ThemeKind::light), six_units_a_letter);
    CHECK(picture.shapes.size() < 900);
}

TEST_CASE("plot: an export is the picture of the screen", "[ui]")
{
    // Same function, other palette and measure: the marks stay where the data are.
    PlotModel plot;
    plot.series.push_back(
        {"checks", SeriesLook::marks, Tint::ink, false, {{.x = 0.0, .y = 0.0}, {.x = 1.0, .y = 1.0}}});
    const auto light = plot_picture(plot, 400, 300, palette_of(ThemeKind::light), six_units_a_letter);
    const auto dark = plot_picture(plot, 400, 300, palette_of(ThemeKind::dark), six_units_a_letter);
    REQUIRE(light.shapes.size() == dark.shapes.size());
    for (std::size_t i = 0; i < light.shapes.size(); ++i)
        CHECK(light.shapes[i].index() == dark.shapes[i].index());
}

TEST_CASE("svg: text is escaped", "[ui]")
{
    Picture picture{100, 50, {}, {}};
    picture.text({1, 1}, "a < b & \"c\"", rgb(0), 12);
    CHECK(svg_of(picture, rgb(0xFFFFFF)).find("a &lt; b &amp; &quot;c&quot;") != std::string::npos);
}

TEST_CASE("png: a picture becomes a PNG file of its size", "[ui]")
{
    Picture picture{30, 20, {}, {}};
    picture.box({0, 0}, {30, 20}, rgb(0x102030));
    const auto png = png_of(picture, rgb(0xFFFFFF), 2.0).value();
    REQUIRE(png.size() > 33);
    CHECK(png.substr(1, 3) == "PNG");
    CHECK(static_cast<unsigned char>(png[19]) == 60); // width, PNG (ISO/IEC 15948) IHDR
    CHECK(static_cast<unsigned char>(png[23]) == 40); // height
}

TEST_CASE("harp drawing: strings stand side by side, the lowest left", "[ui]")
{
    for (int i = 1; i < 47; ++i) CHECK(string_x(i, 47, 600) > string_x(i - 1, 47, 600));
    CHECK(string_x(46, 47, 600) < 600.0F);
}

TEST_CASE("harp drawing: C strings are red, F strings blue or black", "[ui]")
{
    CHECK(string_tint(Letter::C, false) == Tint::string_c);
    CHECK(string_tint(Letter::F, false) == Tint::string_f);
    CHECK(string_tint(Letter::F, true) == Tint::ink);
    CHECK(string_tint(Letter::D, false) == Tint::string_plain);
}

TEST_CASE("bent string: bends to the side it is off, straight when true", "[ui][property]")
{
    CHECK(bend_of(0.0) == 0.0F);
    for (double cents = 0.1; cents < 60.0; cents *= 1.7) {
        CHECK(bend_of(cents) == -bend_of(-cents));
        CHECK(bend_of(1.7 * cents) >= bend_of(cents));
        CHECK(bend_of(cents) <= 1.0F);
    }
}

TEST_CASE("plot: words of crowded events cover neither each other nor the next mark", "[ui]")
{
    auto model = line_of(100);
    const std::vector<double> days{2.0, 9.0, 14.0, 15.0, 40.0, 47.0, 97.0};
    for (const double day : days) model.events.push_back({day, "new string", "", false});
    const auto picture =
        plot_picture(model, 640.0F, 320.0F, palette_of(ThemeKind::light), six_units_a_letter);
    std::vector<float> marks;
    for (const auto& spot : picture.hot_spots)
        if (spot.reach == 9.0F) marks.push_back(spot.centre.x);
    REQUIRE(marks.size() == days.size());
    std::vector<std::pair<float, float>> words;
    for (const auto& shape : picture.shapes)
        if (const auto* text = std::get_if<TextShape>(&shape); text != nullptr && text->text == "new string")
            words.emplace_back(text->at.x, text->at.x + 60.0F);
    REQUIRE(words.size() >= 2); // where there is room they are written
    for (const auto& [begin, end] : words) {
        for (const float mark : marks)
            CHECK((mark <= begin - 5.0F || mark >= end + 5.0F)); // half a mark's width
        for (const auto& [other, other_end] : words)
            if (other != begin) CHECK((other_end <= begin || other >= end));
    }
}
