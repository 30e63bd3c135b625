// SPDX-License-Identifier: MIT
#include "driver.hpp"

#include "ui/dashboard/keys.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;
using namespace harpkeep::dashboard;

namespace {

/// Every control of a page that the last frame showed, but the window's own frame around it.
std::vector<std::string> controls_of_page(const Driver& driver)
{
    std::vector<std::string> out;
    for (const auto& name : driver.names())
        if (!name.starts_with("rail.") && !name.starts_with("foot.")) out.push_back(name);
    return out;
}

void close_dialogs(Driver& driver)
{
    while (driver.app->dialog_open()) driver.press(key_escape);
}

} // namespace

TEST_CASE("app: each page opens from the rail and shows its model", "[ui]")
{
    Driver driver;
    for (const Page page : all_pages) {
        driver.go(page);
        CHECK(driver.app->page() == page);
        REQUIRE(driver.app->model(page) != nullptr);
        CHECK_FALSE(std::holds_alternative<EmptyPage>(*driver.app->model(page)));
        CHECK(controls_of_page(driver).size() > 1);
    }
}

TEST_CASE("app: each control of each page can be pressed, light and dark, large and small", "[ui]")
{
    const auto [width, height, scale] =
        GENERATE(std::tuple{1024.0F, 700.0F, 1.0}, std::tuple{1024.0F, 700.0F, 2.5},
                 std::tuple{3840.0F, 2160.0F, 1.5});
    Driver driver{
        {.settings = {.theme = scale > 2.0 ? ThemeKind::dark : ThemeKind::light, .font_scale = scale},
         .width = width,
         .height = height}};
    for (const Page page : all_pages) {
        driver.app->apply(GoTo{page});
        driver.frames(4);
        int pressed = 0;
        for (const auto& name : controls_of_page(driver)) {
            if (name.find(".row.") != std::string::npos && pressed % 7 != 0) continue; // rows are alike
            driver.app->apply(GoTo{page});
            driver.frames(2);
            driver.click(name);
            close_dialogs(driver);
            ++pressed;
            if (name.starts_with("settings.font") || name.starts_with("settings.theme")) {
                auto settings = driver.app->settings();
                settings.font_scale = scale;
                driver.app->apply(ChangeSettings{settings});
            }
        }
        CHECK(pressed > 0);
    }
}

TEST_CASE("app: live pages draw in every phase", "[ui]")
{
    const auto phase = GENERATE(LivePhase::setting_up, LivePhase::set_pedals, LivePhase::listening,
                                LivePhase::hearing, LivePhase::accepted, LivePhase::ask_again,
                                LivePhase::paused, LivePhase::device_lost, LivePhase::finished);
    Driver driver{{.school = {.harps = 1, .phase = phase}}};
    driver.go(Page::guided);
    driver.frames(3);
    const auto* model = std::get_if<GuidedModel>(driver.app->model(Page::guided));
    REQUIRE(model != nullptr);
    CHECK(model->phase == phase);
    CHECK(controls_of_page(driver).size() >= 3);
}

TEST_CASE("app: a guided check is begun, paused, resumed and stopped", "[ui]")
{
    Driver driver;
    const auto phase = [&] { return std::get<GuidedModel>(*driver.app->model(Page::guided)).phase; };
    driver.go(Page::guided);
    REQUIRE(driver.click("guided.begin"));
    CHECK(phase() == LivePhase::set_pedals);
    REQUIRE(driver.click("guided.pause"));
    CHECK(phase() == LivePhase::paused);
    REQUIRE(driver.click("guided.resume"));
    CHECK(phase() == LivePhase::listening);
    driver.press(key_r);
    CHECK(phase() == LivePhase::ask_again);
    REQUIRE(driver.click("guided.stop"));
    CHECK(phase() == LivePhase::setting_up);
}

TEST_CASE("app: every control tells what it does", "[ui]")
{
    const auto page = GENERATE(from_range(all_pages.begin(), all_pages.end()));
    const auto phase = page == Page::guided ? LivePhase::listening : LivePhase::setting_up;
    Driver driver{{.school = {.harps = 4, .phase = phase}}};
    driver.go(page);
    int seen = 0;
    for (const auto& note : driver.app->registry().widgets()) {
        // Rows, strings and days speak for themselves or show what they hold under the pointer.
        if (note.kind == WidgetKind::item) continue;
        CAPTURE(static_cast<int>(page), note.name);
        CHECK(note.explained);
        ++seen;
    }
    CHECK(seen > 11); // the rail alone has eleven
}

TEST_CASE("app: a broken string takes two clicks, and one takes it back", "[ui]")
{
    Driver driver;
    driver.go(Page::strings);
    const auto broken = [&] {
        for (const auto& row : std::get<StringsModel>(*driver.app->model(Page::strings)).rows)
            if (row.place == place_from_harp_name("2A")) return row.broken;
        return false;
    };
    driver.app->states().strings.rows.filter = "2A";
    driver.app->states().strings.rows.arranged = false;
    driver.frames(2);
    REQUIRE(driver.click("strings.rows.row.2A"));
    REQUIRE(driver.app->states().strings.rows.chosen_key == "2A");
    REQUIRE(driver.click("strings.broke"));
    CHECK(broken());
    REQUIRE(driver.find("foot.undo") != nullptr);
    REQUIRE(driver.click("foot.undo"));
    CHECK_FALSE(broken());
    CHECK(driver.find("foot.undo") == nullptr);
}

TEST_CASE("app: a string of the drawing is chosen by pointer and by arrow keys", "[ui]")
{
    Driver driver;
    REQUIRE(driver.click("today.strings.4C"));
    CHECK(driver.app->states().today.chosen == place_from_harp_name("4C"));
    driver.app->registry().focus("today.strings.4C");
    driver.frames(3);
    driver.press(key_right);
    CHECK(driver.app->states().today.chosen == place_from_harp_name("4D"));
    driver.press(key_left);
    driver.press(key_left);
    CHECK(driver.app->states().today.chosen == place_from_harp_name("4B"));
}

TEST_CASE("app: Tab reaches every control of every page, Enter presses it", "[ui]")
{
    const auto page = GENERATE(from_range(all_pages.begin(), all_pages.end()));
    Driver driver;
    driver.go(page);
    std::set<std::string> wanted, reached;
    for (const auto& note : driver.app->registry().widgets())
        if (note.enabled && note.id != 0) wanted.insert(note.group.empty() ? note.name : note.group);
    for (std::size_t i = 0; i < wanted.size() + 8; ++i) {
        driver.press(key_tab);
        const auto name = driver.focused();
        const auto* note = driver.find(name);
        if (note != nullptr) reached.insert(note->group.empty() ? note->name : note->group);
    }
    for (const auto& name : wanted) {
        CAPTURE(static_cast<int>(page), name);
        CHECK(reached.contains(name));
    }
}

TEST_CASE("app: Enter presses the button that has the keyboard", "[ui]")
{
    Driver driver;
    driver.app->registry().focus("today.start_check");
    driver.frames(3);
    REQUIRE(driver.focused() == "today.start_check");
    driver.press(key_enter);
    CHECK(driver.app->page() == Page::guided);
}

TEST_CASE("app: shortcuts", "[ui]")
{
    Driver driver;
    driver.press(key_0 + 4, true);
    CHECK(driver.app->page() == Page::history);
    driver.press(key_comma, true);
    CHECK(driver.app->page() == Page::settings);
    driver.press('T', true);
    CHECK(driver.app->settings().theme == ThemeKind::dark);
    driver.press(key_equal, true);
    CHECK(driver.app->settings().font_scale == Approx(1.1));
    for (int i = 0; i < 20; ++i) driver.press(key_equal, true);
    CHECK(driver.app->settings().font_scale == Approx(2.5));
    driver.press(key_0, true, true);
    CHECK(driver.app->settings().font_scale == 1.0);
    driver.press(key_f1);
    CHECK(driver.app->dialog_open());
    driver.press(key_escape);
    CHECK_FALSE(driver.app->dialog_open());
    driver.press(key_o, true);
    CHECK(driver.find("path.path") != nullptr);
}

TEST_CASE("app: first start leads from nothing to a harp and its empty page", "[ui]")
{
    Driver driver{{.school = {.harps = 0}}};
    REQUIRE(driver.find("start.add_harp") != nullptr);
    driver.click("start.add_harp"); // without a name: told in place, nothing lost
    REQUIRE_FALSE(driver.app->messages().all().empty());
    CHECK(driver.app->messages().all().back().kind == MessageKind::trouble);
    driver.click("start.name");
    driver.type("Wren");
    driver.click("start.kind.2");
    REQUIRE(driver.click("start.add_harp"));
    CHECK(driver.app->page() == Page::today);
    const auto* empty = std::get_if<EmptyPage>(driver.app->model(Page::today));
    REQUIRE(empty != nullptr);
    CHECK(empty->harp.name == "Wren");
    REQUIRE(driver.click("empty.start_check"));
    CHECK(driver.app->page() == Page::guided);
}

TEST_CASE("app: the example is one click away from the first start", "[ui]")
{
    Driver driver{{.school = {.harps = 0}}};
    REQUIRE(driver.click("start.open_example"));
    driver.frames(6); // the ledger is opened, then its harps are read, then the page
    CHECK(driver.find("today.start_check") != nullptr);
}

TEST_CASE("app: from the example one button leads back to the own ledger", "[ui]")
{
    Driver driver{{.school = {.harps = 0}}};
    driver.click("start.open_example");
    REQUIRE(driver.click("rail.back_to_own"));
    CHECK(driver.find("start.add_harp") != nullptr);
    CHECK(driver.find("rail.back_to_own") == nullptr);
}
