// SPDX-License-Identifier: MIT
#include "driver.hpp"

#include "ui/dashboard/keys.hpp"
#include "ui/dashboard/staged/scenes.hpp"
#include "ui/dashboard/widgets/bent_string.hpp"
#include "ui/dashboard/widgets/harp_drawing.hpp"
#include "ui/dashboard/widgets/plot.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>

using namespace harpkeep;
using namespace harpkeep::dashboard;

namespace {

const TextMeasure by_letters = [](std::string_view text, float size, bool bold) {
    const auto letters = std::count_if(
        text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; });
    return static_cast<float>(letters) * size * (bold ? 0.68F : 0.6F); // about as wide as DejaVu Sans
};

struct WindowSize {
    float width, height;
    double font_scale;
};
constexpr std::array<WindowSize, 11> sizes{{{1024.0F, 700.0F, 0.8},
                                            {1024.0F, 700.0F, 1.0},
                                            {1024.0F, 700.0F, 1.2},
                                            {1024.0F, 700.0F, 1.6},
                                            {1024.0F, 700.0F, 2.5},
                                            {1280.0F, 800.0F, 2.0},
                                            {1280.0F, 800.0F, 2.5},
                                            {1600.0F, 1000.0F, 1.0},
                                            {3840.0F, 2160.0F, 0.8},
                                            {3840.0F, 2160.0F, 1.0},
                                            {3840.0F, 2160.0F, 2.5}}};

struct Box {
    Point low, high;
    std::string words;
};

std::vector<Box> words_of(const Picture& picture)
{
    std::vector<Box> out;
    for (const auto& shape : picture.shapes)
        if (const auto* text = std::get_if<TextShape>(&shape)) {
            const float width = by_letters(text->text, text->size, text->bold);
            const float shift = text->across == Across::left     ? 0.0F
                                : text->across == Across::centre ? 0.5F
                                                                 : 1.0F;
            const float x = text->at.x - shift * width;
            // Letters without their leading stand within 0.72 of the size.
            out.push_back({{x, text->at.y - 0.36F * text->size},
                           {x + width, text->at.y + 0.36F * text->size},
                           text->text});
        }
    return out;
}

/// Pairs of words of a picture that run into one another, and words that leave it.
std::vector<std::string> faults_of(const Picture& picture)
{
    std::vector<std::string> faults;
    const auto boxes = words_of(picture);
    for (std::size_t i = 0; i < boxes.size(); ++i) {
        const auto& a = boxes[i];
        if (a.low.x < -1.0F || a.high.x > picture.width + 1.0F || a.low.y < -1.0F ||
            a.high.y > picture.height + 1.0F)
            faults.push_back("leaves the picture: " + a.words);
        for (std::size_t k = i + 1; k < boxes.size(); ++k) {
            const auto& b = boxes[k];
            if (a.low.x < b.high.x && b.low.x < a.high.x && a.low.y < b.high.y && b.low.y < a.high.y)
                faults.push_back(a.words + " runs into " + b.words);
        }
    }
    return faults;
}

PlotModel busy_plot()
{
    PlotModel plot;
    plot.x.kind = AxisKind::date;
    plot.x.title = "day";
    plot.y.title = "error in cents from 100";
    for (const auto* name : {"trend and season", "expected (95 of 100 within the shade)", "checks"}) {
        PlotSeries series{name, SeriesLook::line, Tint::wood, false, {}};
        for (int i = 0; i < 30; ++i) series.points.push_back({.x = 20000.0 + 31.0 * i, .y = 0.7 * i});
        plot.series.push_back(std::move(series));
    }
    for (int i = 0; i < 5; ++i) plot.events.push_back({20040.0 + 190.0 * i, "new string", {}, i % 2 == 0});
    return plot;
}

HarpDrawing harp_of(int strings, int strips)
{
    HarpDrawing drawing;
    const StringPlace place{Letter::C, 1}; // 7C
    for (int i = 0; i < strings; ++i) {
        const auto here = place_from_diatonic_index(place.diatonic_index() + i);
        drawing.strings.push_back({.place = here, .label = harp_name(here), .lower = State::out});
    }
    for (int s = 0; s < strips; ++s)
        drawing.strips.push_back({"flat to natural: cents from 100",
                                  std::vector<DrawnStep>(static_cast<std::size_t>(strings),
                                                         {State::fine, Figure{1.0, 0.3}, -5.0, 5.0})});
    drawing.chosen = strings / 2;
    return drawing;
}

} // namespace

// 284 units is the narrowest card: 1024 pixels at 2.5 without rail and margins.
TEST_CASE("layout: the words of a plot keep apart at every size", "[ui]")
{
    for (const float width : {284.0F, 320.0F, 400.0F, 560.0F, 800.0F, 1600.0F})
        for (const float height : {160.0F, 200.0F, 300.0F, 900.0F}) {
            CAPTURE(width, height);
            CHECK(faults_of(plot_picture(busy_plot(), width, height, palette_of(ThemeKind::light),
                                         by_letters)) == std::vector<std::string>{});
        }
}

TEST_CASE("layout: the words of a harp drawing keep apart at every size", "[ui]")
{
    for (const int strings : {22, 34, 47})
        for (const int strips : {0, 1, 2})
            for (const float width : {284.0F, 340.0F, 500.0F, 900.0F, 1600.0F})
                for (const float height : {330.0F, 420.0F, 700.0F, 1100.0F}) {
                    CAPTURE(strings, strips, width, height);
                    CHECK(faults_of(harp_picture(harp_of(strings, strips), width, height,
                                                 palette_of(ThemeKind::light), by_letters)) ==
                          std::vector<std::string>{});
                }
}

TEST_CASE("layout: the figures under a bent string keep apart at every size", "[ui]")
{
    for (const float width : {200.0F, 260.0F, 340.0F, 500.0F, 900.0F, 1600.0F}) {
        CAPTURE(width);
        CHECK(faults_of(bent_string_picture(Figure{-5.9, 0.3}, 1.0, {}, width, 300.0F,
                                            palette_of(ThemeKind::light))) == std::vector<std::string>{});
    }
}

TEST_CASE("layout: a drawing grows in whole thirds where it has the room", "[ui]")
{
    CHECK(drawing_zoom(900.0F, 640.0F, 900.0F, 640.0F) == 1.0F);
    CHECK(drawing_zoom(100.0F, 640.0F, 900.0F, 640.0F) == 1.0F);
    CHECK(drawing_zoom(4000.0F, 640.0F, 900.0F, 640.0F) == 1.0F); // wide and flat
    CHECK(drawing_zoom(1200.0F, 860.0F, 900.0F, 640.0F) == Approx(4.0 / 3.0));
    CHECK(drawing_zoom(9000.0F, 6400.0F, 900.0F, 640.0F) == Approx(5.0 / 3.0));
}

TEST_CASE("layout: everything grows in a window larger than a desk's", "[ui]")
{
    CHECK(window_growth(1024.0F, 700.0F, 1.0F) == 1.0F);
    CHECK(window_growth(1920.0F, 1080.0F, 1.0F) == 1.0F);
    CHECK(window_growth(3440.0F, 1440.0F, 1.0F) == 1.0F); // wide and low
    CHECK(window_growth(3840.0F, 2160.0F, 1.0F) == 1.75F);
    CHECK(window_growth(3840.0F, 2160.0F, 2.0F) == 1.0F); // the display says itself how fine it is
    CHECK(window_growth(0.0F, 0.0F, 1.0F) == 1.0F);
    CHECK(window_growth(20000.0F, 20000.0F, 1.0F) == 2.0F);
    Driver driver{{.width = 3840.0F, .height = 2160.0F}};
    CHECK(driver.app->wanted_scale() == 1.75F);
    auto settings = driver.app->settings();
    settings.grow = false;
    driver.app->apply(ChangeSettings{settings});
    CHECK(driver.app->wanted_scale() == 1.0F);
}

TEST_CASE("layout: no words are cut in any state of any page from 1024x700 to 3840x2160", "[ui]")
{
    for (const auto& scene : all_scenes()) {
        StagedSchool school = scene.school;
        school.harps = std::min(school.harps, 5);
        Driver driver{{.school = school}};
        scene.arrange(*driver.app);
        for (const auto& [width, height, scale] : sizes) {
            auto settings = driver.app->settings();
            settings.font_scale = scale;
            driver.app->apply(ChangeSettings{settings});
            driver.resize(width, height);
            driver.frames(4);
            CAPTURE(scene.name, width, height, scale);
            CHECK(driver.app->registry().overruns() == std::vector<std::string>{});
        }
    }
}

TEST_CASE("layout: where the rail is narrow a harp is chosen by pointer and by keyboard", "[ui]")
{
    Driver driver{{.settings = {.font_scale = 1.5}, .width = 1024.0F, .height = 700.0F}};
    REQUIRE(driver.app->harps().size() > 2);
    const auto key_of = [&](std::size_t i) { return driver.app->harps()[i].key; };
    const auto list = driver.find("rail.harp");
    REQUIRE(list != nullptr);
    CHECK(list->high.x - list->low.x < 60.0F); // folded
    REQUIRE(driver.click("rail.harp"));
    REQUIRE(driver.click("rail.harp.2"));
    CHECK(driver.app->query().harp == key_of(2));

    driver.app->registry().focus("rail.harp");
    driver.frames(3);
    REQUIRE(driver.focused() == "rail.harp");
    driver.press(key_enter);
    driver.press(key_up);
    driver.press(key_enter);
    CHECK(driver.app->query().harp == key_of(1));
}

TEST_CASE("layout: at the lowest window and the largest letters every page stands in the rail", "[ui]")
{
    Driver driver{{.settings = {.font_scale = 2.5}, .width = 1024.0F, .height = 700.0F}};
    for (const Page page : all_pages) {
        const auto* note = driver.find("rail." + std::to_string(static_cast<int>(page)));
        REQUIRE(note != nullptr);
        CHECK(note->high.y <= 700.0F);
    }
}

TEST_CASE("layout: a message that is too long for the foot stands above its buttons", "[ui]")
{
    Driver driver{{.settings = {.font_scale = 2.5}, .width = 1024.0F, .height = 700.0F}};
    driver.app->apply(StringBroke{*place_from_harp_name("2A")});
    driver.frames(3);
    const auto* undo = driver.find("foot.undo");
    const auto* keys = driver.find("foot.keys");
    const auto* put_away = driver.find("foot.put_away");
    const auto* messages = driver.find("foot.messages");
    REQUIRE(undo != nullptr);
    REQUIRE(keys != nullptr);
    REQUIRE(put_away != nullptr);
    REQUIRE(messages != nullptr);
    CHECK(put_away->high.x <= messages->low.x);
    CHECK(keys->high.x <= 1024.0F);
    CHECK(keys->high.y <= 700.0F);
    REQUIRE(driver.click("foot.undo"));
    CHECK(driver.find("foot.undo") == nullptr);
}
