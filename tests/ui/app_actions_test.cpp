// SPDX-License-Identifier: MIT
#include "driver.hpp"

#include "audio/sound_writer.hpp"
#include "db/ledger/ledger.hpp"
#include "db/records/harps.hpp"
#include "db/records/strings.hpp"
#include "synth/synthetic_playing.hpp"
#include "ui/dashboard/keys.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>

using namespace harpkeep;
using namespace harpkeep::dashboard;

namespace {

const StringRow* string_row(const Driver& driver, const char* place)
{
    for (const auto& row : std::get<StringsModel>(*driver.app->model(Page::strings)).rows)
        if (row.place == place_from_harp_name(place)) return &row;
    return nullptr;
}

void filter(Driver& driver, const std::string& field, const std::string& words)
{
    driver.click(field);
    driver.type(words);
    driver.press(key_enter);
}

/// A lever harp of eight strings, every string open and then every string engaged.
void write_small_recording(const std::string& path)
{
    const auto layout = make_layout({.kind = HarpKind::lever, .string_count = 8}).value();
    const auto harp = make_synthetic_harp(layout, {.step_error_sd_cents = 2.0, .seed = 5});
    const auto performance =
        play(harp, plan_pass_by_pass(layout, Direction::low_to_high), {.gap_s = 1.5, .seed = 5});
    const auto recording = render_recording(harp, performance.events, {.snr_db = 45.0, .seed = 5});
    auto file = SoundWriter::create(path, {.sample_rate_hz = 48000, .bits_per_sample = 16}).value();
    REQUIRE(file.write(recording.samples));
    REQUIRE(file.finish());
}

} // namespace

TEST_CASE("actions: from nothing to the first check by buttons, keys and a dropped recording", "[ui]")
{
    Driver driver{{.school = {.harps = 0}}};
    driver.click("start.name");
    driver.type("Wren");
    driver.click("start.kind.2");
    for (int strings = 34; strings > 8; --strings) driver.click("start.strings.less");
    REQUIRE(driver.click("start.add_harp"));
    REQUIRE(std::get<EmptyPage>(*driver.app->model(Page::today)).why == EmptyPage::Why::no_check);

    const auto path = driver.folder() / "wren.wav";
    write_small_recording(path);
    driver.app->files_dropped({path});
    driver.frames(3);
    REQUIRE(driver.find("check.begin") != nullptr);
    REQUIRE(driver.click("check.begin"));
    const auto* today = std::get_if<TodayModel>(driver.app->model(Page::today));
    REQUIRE(today != nullptr);
    CHECK(today->strings.size() == 8);
    const auto measured = std::count_if(today->strings.begin(), today->strings.end(), [](const auto& string) {
        return string.lower.error_cents.has_value();
    });
    CHECK(measured == 8);
    CHECK(driver.app->page() == Page::today);
    CHECK(driver.find("foot.undo") != nullptr);
}

TEST_CASE("actions: a recording is named by a typed path, with completion", "[ui]")
{
    Driver driver{{.school = {.harps = 1}}};
    std::ofstream{driver.folder() / "no-sound.wav"} << "this is no sound";
    driver.press(key_o, true);
    REQUIRE(driver.focused() == "path.path");
    for (int i = 0; i < 2; ++i) driver.press(key_backspace);
    driver.type((driver.folder() / "no-s").c_str());
    driver.press(key_tab);
    driver.press(key_enter);
    REQUIRE(driver.find("check.begin") != nullptr);
    driver.click("check.pass.0");
    REQUIRE(driver.click("check.pass.0.1")); // every string flat
    driver.click("check.begin");
    REQUIRE_FALSE(driver.app->messages().all().empty());
    const auto& message = driver.app->messages().all().back();
    CHECK(message.kind == MessageKind::trouble);
    CHECK(message.text.find("no-sound.wav") != std::string::npos);
    CHECK(driver.find("foot.put_away") != nullptr);
    driver.click("foot.put_away");
    CHECK(driver.find("foot.put_away") == nullptr);
    CHECK(driver.app->messages().all().size() == 1); // put away, not lost
}

TEST_CASE("actions: a recording dropped by mistake is left out again", "[ui]")
{
    Driver driver{{.school = {.harps = 1}}};
    driver.app->files_dropped({"/music/heron-flats.m4a", "/music/other.m4a"});
    driver.frames(3);
    REQUIRE(driver.click("check.remove.1"));
    CHECK(driver.find("check.remove.1") == nullptr);
    REQUIRE(driver.click("check.cancel"));
    CHECK_FALSE(driver.app->dialog_open());
    driver.app->files_dropped({"/music/third.m4a"});
    driver.frames(3);
    CHECK(driver.find("check.remove.1") == nullptr); // nothing is left of the one that was cancelled
}

TEST_CASE("actions: a new string is on in two clicks, and each step is taken back by itself", "[ui]")
{
    Driver driver{{.school = {.harps = 1}}};
    driver.go(Page::strings);
    filter(driver, "strings.rows.filter", "2a");
    REQUIRE(driver.click("strings.rows.row.2A"));
    REQUIRE(driver.click("strings.broke"));
    REQUIRE(string_row(driver, "2A")->broken);
    REQUIRE(driver.click("strings.put_on"));
    CHECK_FALSE(string_row(driver, "2A")->broken);
    CHECK(string_row(driver, "2A")->age_days == 0.0);
    driver.press(key_z, true);
    CHECK(string_row(driver, "2A")->broken);
    driver.press(key_z, true);
    CHECK_FALSE(string_row(driver, "2A")->broken);
}

TEST_CASE("actions: a string that no plan names is put on by material and gauge", "[ui]")
{
    Driver driver{{.school = {.harps = 0}}};
    driver.click("start.name");
    driver.type("Wren");
    driver.click("start.add_harp");
    driver.go(Page::strings);
    filter(driver, "strings.rows.filter", "4c");
    REQUIRE(driver.click("strings.rows.row.4C"));
    REQUIRE(driver.click("strings.put_on")); // not told which: said in place, nothing written
    CHECK_FALSE(string_row(driver, "4C")->put_on.has_value());
    driver.click("strings.make.gauge");
    driver.type("1.02");
    driver.press(key_enter);
    REQUIRE(driver.click("strings.put_on"));
    CHECK(string_row(driver, "4C")->put_on.has_value());
    CHECK(string_row(driver, "4C")->gauge_mm == 1.02);
}

TEST_CASE("actions: a place is planned on the empty page of tension", "[ui]")
{
    Driver driver{{.school = {.harps = 0}}};
    driver.click("start.name");
    driver.type("Wren");
    driver.click("start.add_harp");
    driver.go(Page::tension);
    REQUIRE(std::get<EmptyPage>(*driver.app->model(Page::tension)).why == EmptyPage::Why::no_plan);
    driver.click("empty.plan.keep"); // nothing typed
    REQUIRE(std::holds_alternative<EmptyPage>(*driver.app->model(Page::tension)));
    driver.click("empty.plan.length");
    driver.type("75");
    driver.click("empty.plan.gauge");
    driver.type("0,6");
    REQUIRE(driver.click("empty.plan.keep"));
    const auto& tension = std::get<TensionModel>(*driver.app->model(Page::tension));
    REQUIRE(tension.rows.size() == 1);
    CHECK(harp_name(tension.rows.front().place) == "0G");
    CHECK(tension.rows.front().length_mm == 75.0);
}

TEST_CASE("actions: another gauge is tried without touching the ledger", "[ui]")
{
    Driver driver{{.school = {.harps = 1}}};
    driver.go(Page::tension);
    filter(driver, "tension.rows.filter", "4c");
    REQUIRE(driver.click("tension.rows.row.4C"));
    REQUIRE(driver.click("tension.gauge.more"));
    const auto& model = std::get<TensionModel>(*driver.app->model(Page::tension));
    REQUIRE(model.trial.has_value());
    CHECK(model.trial->tension_change_n > 0.0);
    CHECK(driver.app->messages().all().empty());
}

TEST_CASE("actions: a visit is added with its cost, and a wrong day is told in place", "[ui]")
{
    Driver driver{{.school = {.harps = 1}}};
    driver.go(Page::visits);
    const auto visits = [&] { return std::get<VisitsModel>(*driver.app->model(Page::visits)).visits; };
    const auto before = visits().size();
    driver.click("visits.add");
    driver.app->states().visits.day = "2026-13-01";
    driver.click("visits.form_save");
    CHECK(visits().size() == before);
    CHECK_FALSE(driver.app->states().visits.trouble.empty());
    driver.app->states().visits.day = "2026-11-20";
    driver.click("visits.form_work");
    driver.type("new felts");
    driver.click("visits.form_cost");
    driver.type("120.00 EUR");
    REQUIRE(driver.click("visits.form_save"));
    REQUIRE(visits().size() == before + 1);
    CHECK(visits().front().work == "new felts");
    CHECK(visits().front().cost.find("120") != std::string::npos);
    driver.press(key_z, true);
    CHECK(visits().size() == before);
}

TEST_CASE("actions: the room's table sorts, filters and opens a harp among 200", "[ui]")
{
    Driver driver{{.school = {.harps = 200}}};
    driver.go(Page::room);
    const auto& table = driver.app->states().room.rows;
    REQUIRE(table.order.size() == 200);
    driver.click("room.rows.head.0");
    driver.frames(2);
    CHECK(
        table.model.rows[static_cast<std::size_t>(table.order.front())].cells[0].text.starts_with("Avocet"));
    driver.click("room.rows.head.0");
    driver.frames(2);
    CHECK(table.model.rows[static_cast<std::size_t>(table.order.front())].cells[0].text.starts_with("Wren"));
    filter(driver, "room.rows.filter", "linnet");
    REQUIRE(table.order.size() == 1);
    const auto key = table.model.rows[static_cast<std::size_t>(table.order.front())].key;
    driver.click("room.rows.row." + key);
    REQUIRE(driver.click("room.open"));
    CHECK(driver.app->page() == Page::today);
    CHECK(driver.app->query().harp == key);
}

TEST_CASE("actions: every plot is saved as PNG and SVG, every table as CSV", "[ui]")
{
    Driver driver{{.school = {.harps = 4}, .width = 1600.0F, .height = 1000.0F}};
    int pictures = 0, tables = 0;
    for (const Page page : all_pages)
        for (int tab = 0; tab < (page == Page::strings ? 3 : 1); ++tab) {
            driver.app->states().strings.tab = tab;
            driver.app->apply(GoTo{page});
            driver.frames(3);
            for (const auto& name : driver.names()) {
                const auto at = name.find(".export_");
                if (at == std::string::npos) continue;
                CAPTURE(name);
                REQUIRE(driver.click(name));
                const auto path = driver.folder() / (std::to_string(pictures + tables) + name.substr(at + 8));
                driver.name_file(path);
                const auto bytes = tests::read_bytes(path);
                if (name.ends_with("png")) CHECK(bytes.starts_with("\x89PNG"));
                if (name.ends_with("svg")) CHECK(bytes.find("<svg") != std::string::npos);
                if (name.ends_with("csv")) CHECK(std::count(bytes.begin(), bytes.end(), '\n') > 1);
                ++(name.ends_with("csv") ? tables : pictures);
            }
        }
    CHECK(pictures == 2 * 8); // harp, history, risk, lives, tension, breaking, humidity, temperature
    CHECK(tables == 7);       // changes, strings, stock, tension, pedals, visits, room
}

TEST_CASE("actions: a file that cannot be written is told and nothing is left of it", "[ui]")
{
    Driver driver{{.school = {.harps = 1}}};
    driver.go(Page::room);
    driver.click("room.rows.export_csv");
    driver.name_file("/no-such-folder/room.csv");
    REQUIRE_FALSE(driver.app->messages().all().empty());
    CHECK(driver.app->messages().all().back().kind == MessageKind::trouble);
    CHECK(driver.app->messages().all().back().text.find("/no-such-folder/room.csv") != std::string::npos);
}

TEST_CASE("actions: what another program writes into the ledger is shown within a second or two", "[ui]")
{
    Driver driver{{.school = {.harps = 1}}};
    driver.go(Page::strings);
    REQUIRE_FALSE(string_row(driver, "2A")->broken);
    driver.frames(70); // the window knows the ledger as it is
    const db::Author author{{1'795'543'200'000, 60}, "other computer"};
    {
        auto ledger =
            db::Ledger::open(driver.folder() / "school/larkmoor.harpkeep", db::Access::write, author.now)
                .value();
        const auto heron = db::harp_named(ledger, "Heron").value();
        StringRemoval removal;
        removal.removed_on = {2026, 11, 24};
        removal.reason = RemovalReason::broke;
        REQUIRE(db::take_off(ledger, author, heron.id, *place_from_harp_name("2A"), removal));
    }
    driver.frames(130);
    CHECK(string_row(driver, "2A")->broken);
}

TEST_CASE("actions: the harp that was looked at is shown first at the next start", "[ui]")
{
    Settings kept;
    {
        Driver driver{{.school = {.harps = 4}}};
        CHECK(std::get<TodayModel>(*driver.app->model(Page::today)).harp.name == "Heron");
    }
    Driver driver{{.school = {.harps = 0}}};
    driver.click("start.name");
    driver.type("Wren");
    driver.click("start.add_harp");
    CHECK(driver.app->settings().last_harp == driver.app->query().harp);
}

TEST_CASE("actions: pedals are set by their notches and the list tunes around them", "[ui]")
{
    Driver driver{{.school = {.harps = 1}}};
    driver.go(Page::pedals);
    const auto model = [&] { return std::get<PedalsModel>(*driver.app->model(Page::pedals)); };
    REQUIRE(model().setting.alterations[static_cast<std::size_t>(Letter::F)] == -1);
    REQUIRE(driver.click("pedals.board.F.1")); // natural: the notch in the middle
    CHECK(model().setting.alterations[static_cast<std::size_t>(Letter::F)] == 0);
    CHECK(model().worst_after_cents <= model().worst_before_cents);
    CHECK_FALSE(model().ready.empty());
    REQUIRE(driver.click("pedals.ready.0"));
    REQUIRE(driver.click("pedals.to_tuning"));
    CHECK(driver.app->page() == Page::tuning);
}

TEST_CASE("actions: tolerance and A4 are set and used", "[ui]")
{
    Driver driver{{.school = {.harps = 1}}};
    driver.go(Page::settings);
    for (int i = 0; i < 4; ++i) REQUIRE(driver.click("settings.all.high.more"));
    REQUIRE(driver.click("settings.set_tolerance"));
    CHECK(std::get<SettingsModel>(*driver.app->model(Page::settings)).tolerance.high_cents == 7.0);
    REQUIRE(driver.click("settings.a4.more"));
    CHECK(driver.app->settings().a4_hz == 441.0);
    CHECK(driver.app->query().a4_hz == 441.0);
}

TEST_CASE("actions: a part is wanted at the next visit until it is there", "[ui]")
{
    Driver driver{{.school = {.harps = 1}}};
    driver.go(Page::visits);
    const auto wanted = [&] { return std::get<VisitsModel>(*driver.app->model(Page::visits)).wanted; };
    REQUIRE(wanted().empty());
    driver.click("visits.wanted_part");
    driver.type("felts for the F pedal");
    REQUIRE(driver.click("visits.wanted_add"));
    REQUIRE(wanted().size() == 1);
    CHECK(wanted().front().words == "felts for the F pedal");
    CHECK(driver.app->states().visits.wanted.empty());
    REQUIRE(driver.click("visits.wanted_drop.0"));
    CHECK(wanted().empty());
    driver.press(key_z, true);
    CHECK(wanted().size() == 1);
}
