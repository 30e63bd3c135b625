// SPDX-License-Identifier: MIT
#include "player.hpp"
#include "ui/cli/terminal/check_page.hpp"
#include "ui/cli/terminal/tuning_page.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;
using namespace harpkeep::cli;

namespace {

HarpLayout concert_harp()
{
    return *make_layout({.kind = HarpKind::pedal, .string_count = 47});
}

std::string text_of(const Canvas& canvas)
{
    std::string text;
    for (int row = 0; row < canvas.rows(); ++row) text += canvas.text_of(row) + "\n";
    return text;
}

} // namespace

TEST_CASE("check page: shows the setting, the next string and how far it is", "[terminal]")
{
    const auto layout = concert_harp();
    auto check = *GuidedCheck::begin(layout, {});
    test::Player player{layout, 1};
    player.play_on(check, 47);
    Canvas canvas{24, 80};
    draw_check(canvas, check.view(), layout, {.harp_name = "Heron"});
    const std::string text = text_of(canvas);
    CHECK_THAT(text, Catch::Contains("Heron   part 2 of 4   47 of 142 sounded"));
    CHECK_THAT(text, Catch::Contains("Pedals  D\u266E C\u266E B\u266E | E\u266E F\u266E G\u266E A\u266E"));
    CHECK_THAT(text, Catch::Contains("Pedals to natural: D C B E F G A"));
    CHECK_THAT(text, Catch::Contains("7E natural"));
    CHECK_THAT(text, Catch::Contains("\u2588\u2588")); // block letters
}

TEST_CASE("check page: trouble with the microphone comes before anything else", "[terminal]")
{
    const auto layout = concert_harp();
    auto check = *GuidedCheck::begin(layout, {});
    Canvas canvas{24, 80};
    draw_check(canvas, check.view(), layout, {.harp_name = "Heron", .trouble = "no sound comes any more"});
    CHECK_THAT(text_of(canvas), Catch::Contains("no sound comes any more") && !Catch::Contains("new part"));
}

TEST_CASE("check page: every size of terminal is survived", "[terminal]")
{
    const int rows = GENERATE(0, 1, 5, 24, 60);
    const int columns = GENERATE(0, 1, 20, 80, 200);
    const auto layout = concert_harp();
    auto check = *GuidedCheck::begin(layout, {});
    test::Player player{layout, 1};
    player.play_on(check, 3);
    Canvas canvas{rows, columns};
    draw_check(canvas, check.view(), layout, {.harp_name = "Heron"});
    CHECK(canvas.rows() == rows);
}

TEST_CASE("tuning page: a string in tune is straight, a flat one bows to the left", "[terminal]")
{
    const auto layout = concert_harp();
    TuningAid aid{*tuning_targets(layout, {})};
    const auto target = aid.targets()[20];
    const double cents = GENERATE(0.0, -15.0, 15.0);
    aid.handle(PluckBegan{0, 0_s});
    PluckMeasurement estimate;
    estimate.frequency_hz = raised(target.frequency, Cents{cents}).value();
    estimate.uncertainty_cents = 0.05;
    aid.handle(PluckEstimated{0, Seconds{0.3}, estimate});

    Canvas canvas{24, 100};
    draw_tuning(canvas, aid.view(), layout, {.harp_name = "Wren", .tuned_to = "A4 440.0 Hz"});

    // the column of the string in its middle row
    const auto middle = characters_of(canvas.text_of(9));
    const char32_t sign = cents == 0.0 ? U'\u2588' : U'\u2503';
    const auto column = static_cast<int>(middle.rfind(sign));
    const auto neck = characters_of(canvas.text_of(1));
    const int centre = static_cast<int>(neck.find(U'\u2550') + neck.rfind(U'\u2550')) / 2;
    CHECK((cents < 0.0) == (column < centre));
    CHECK((cents > 0.0) == (column > centre));
}

TEST_CASE("tuning page: the row of strings speaks the same language", "[terminal]")
{
    const std::vector<StringTuning> strings{{.place = {Letter::D, 4}, .deviation = Cents{-4.0}},
                                           {.place = {Letter::E, 4}, .deviation = Cents{3.0}},
                                           {.place = {Letter::F, 4}, .deviation = Cents{0.2}, .done = true},
                                           {.place = {Letter::G, 4}}};
    CHECK(string_row(strings) == "() |\u00B7");
}
