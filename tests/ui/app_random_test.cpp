// SPDX-License-Identifier: MIT
#include "driver.hpp"

#include "ui/dashboard/keys.hpp"

#include <catch2/catch.hpp>

#include <random>

using namespace harpkeep;
using namespace harpkeep::dashboard;

TEST_CASE("app: random input for 10,000 events ends nothing", "[ui]")
{
    Driver driver{{.school = {.harps = 3}}};
    std::mt19937 random{20261124}; // fixed seed
    const auto upto = [&](int n) { return static_cast<int>(random() % static_cast<unsigned>(n)); };
    const std::array<int, 20> keys{key_tab,       key_enter, key_escape, key_space,   key_left,
                                   key_right,     key_up,    key_down,   key_page_up, key_page_down,
                                   key_home,      key_end,   key_f1,     key_f5,      key_z,
                                   key_backspace, key_f,     key_0 + 1,  key_comma,   key_r};
    auto& io = ImGui::GetIO();
    for (int event = 0; event < 10'000; ++event) {
        switch (upto(9)) {
        case 0:
        case 1:
            io.MousePos = {static_cast<float>(upto(1400)) - 60.0F, static_cast<float>(upto(900)) - 50.0F};
            break;
        case 2:
        case 3: {
            const auto& widgets = driver.app->registry().widgets();
            if (widgets.empty()) break;
            const auto& note = widgets[static_cast<std::size_t>(upto(static_cast<int>(widgets.size())))];
            io.MousePos = {0.5F * (note.low.x + note.high.x), 0.5F * (note.low.y + note.high.y)};
            io.MouseDown[0] = true;
            break;
        }
        case 4:
            io.MouseDown[0] = !io.MouseDown[0];
            break;
        case 5: {
            const int key = keys[static_cast<std::size_t>(upto(static_cast<int>(keys.size())))];
            io.KeysDown[key] = !io.KeysDown[key];
            io.KeyCtrl = upto(4) == 0;
            io.KeyShift = upto(5) == 0;
            break;
        }
        case 6:
            io.AddInputCharactersUTF8(upto(3) == 0 ? "\u266d" : upto(2) == 0 ? "/tmp" : "a");
            break;
        case 7:
            io.MouseWheel = static_cast<float>(upto(7) - 3);
            break;
        case 8:
            if (upto(40) == 0)
                io.DisplaySize = {static_cast<float>(upto(2000)), static_cast<float>(upto(1400))};
            else
                driver.app->apply(GoTo{all_pages[static_cast<std::size_t>(upto(11))]});
            break;
        }
        driver.frames(1);
        if (upto(3) == 0) io.MouseDown[0] = false;
    }
    driver.resize(1280, 800);
    for (bool& down : io.KeysDown) down = false;
    io.MouseDown[0] = false;
    driver.frames(2);
    while (driver.app->dialog_open()) driver.press(key_escape);
    driver.go(Page::today);
    CHECK(driver.app->page() == Page::today);
}
