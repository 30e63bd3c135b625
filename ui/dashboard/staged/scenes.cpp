// SPDX-License-Identifier: MIT
#include "ui/dashboard/staged/scenes.hpp"

#include "ui/dashboard/keys.hpp"

#include <algorithm>

namespace harpkeep::dashboard {

namespace {

std::function<void(App&)> at(Page page)
{
    return [page](App& app) { app.apply(GoTo{page}); };
}

StagedSchool live(LivePhase phase)
{
    return {.phase = phase};
}

void choose_harp(App& app, const char* name)
{
    const auto found = std::find_if(app.harps().begin(), app.harps().end(),
                                    [&](const HarpChoice& harp) { return harp.name == name; });
    if (found != app.harps().end()) app.apply(ChooseHarp{found->key});
}

void tune(App& app)
{
    app.apply(GoTo{Page::tuning});
    app.apply(StartTuning{});
}

void history(App& app, bool whole_pedal)
{
    app.apply(ChooseHistory{{whole_pedal, {Letter::F, 4}, Step::lower}});
    app.apply(GoTo{Page::history});
}

void strings(App& app, int tab)
{
    app.apply(GoTo{Page::strings});
    app.states().strings.tab = tab;
    app.states().strings.rows.chosen_key = "3B";
}

void tension(App& app)
{
    app.apply(GoTo{Page::tension});
    app.states().tension.rows.chosen_key = "4C";
    app.apply(TryGauge{{Letter::C, 4}, 1.36});
}

void pedals(App& app)
{
    app.apply(ChoosePedals{{{0, 0, -1, 0, 0, -1, -1}}}); // E-flat major
    app.apply(GoTo{Page::pedals});
}

void visits(App& app)
{
    app.apply(GoTo{Page::visits});
    app.states().visits.chosen = Day{std::chrono::year{2026} / 11 / 22}; // a check
}

void message(App& app)
{
    app.apply(GoTo{Page::strings});
    app.apply(StringBroke{*place_from_harp_name("2A")});
}

} // namespace

const std::vector<Scene>& all_scenes()
{
    static const std::vector<Scene> scenes{
        {"today", {}, at(Page::today), true},
        {"today-lever",
         {},
         [](App& app) {
             choose_harp(app, "Linnet");
             app.apply(GoTo{Page::today});
         }},
        {"guided-set-up", {}, at(Page::guided)},
        {"guided-listening", live(LivePhase::listening), at(Page::guided), true},
        {"guided-set-pedals", live(LivePhase::set_pedals), at(Page::guided)},
        {"guided-hearing", live(LivePhase::hearing), at(Page::guided)},
        {"guided-ask-again", live(LivePhase::ask_again), at(Page::guided)},
        {"guided-device-lost", live(LivePhase::device_lost), at(Page::guided)},
        {"guided-finished", live(LivePhase::finished), at(Page::guided)},
        {"tuning", {}, tune, true},
        {"tuning-silent", {}, at(Page::tuning)},
        {"history", {}, [](App& app) { history(app, false); }, true},
        {"history-pedal", {}, [](App& app) { history(app, true); }},
        {"strings", {}, [](App& app) { strings(app, 0); }, true},
        {"strings-lives", {}, [](App& app) { strings(app, 1); }, true},
        {"strings-stock", {}, [](App& app) { strings(app, 2); }},
        {"tension", {}, tension, true},
        {"pedals", {}, pedals, true},
        {"visits", {}, visits, true},
        {"climate", {}, at(Page::climate), true},
        {"room", {.harps = 200}, at(Page::room), true},
        {"room-lend",
         {},
         [](App& app) {
             app.apply(GoTo{Page::room});
             app.before_frame(0.1); // the room is read
             const auto* room = std::get_if<RoomModel>(app.model(Page::room));
             if (room == nullptr) return;
             app.states().room.rows.chosen_key = room->rows[2].key;
             app.states().room.loan = {.asks = LoanFormState::Asks::lend,
                                       .harp = room->rows[2].key,
                                       .borrower = "second-year pupil",
                                       .from = "2026-11-24"};
         }},
        {"settings", {}, at(Page::settings), true},
        {"first-start", {.harps = 0}, [](App&) {}, true},
        {"empty-check",
         {},
         [](App& app) {
             choose_harp(app, "Kestrel");
             app.apply(GoTo{Page::today});
         }},
        {"check-recordings",
         {},
         [](App& app) {
             app.apply(PrepareCheck{
                 {"/music/heron-flats.m4a", "/music/heron-naturals.m4a", "/music/heron-sharps.m4a"}});
         },
         true},
        {"sheet", {}, [](App& app) { app.apply(PrintSheet{.kind = ui::ReportKind::technician}); }, true},
        {"sheet-room",
         {},
         [](App& app) {
             app.apply(GoTo{Page::room});
             app.before_frame(0.1); // the room is read
             app.apply(PrintSheet{.kind = ui::ReportKind::room});
         }},
        {"sheet-tuning",
         {},
         [](App& app) {
             pedals(app);
             app.apply(PrintSheet{.kind = ui::ReportKind::tuning,
                                  .pedals = PedalSetting{{0, 0, -1, 0, 0, -1, -1}}});
         }},
        {"message", {}, message},
        {"save-as",
         {},
         [](App& app) {
             app.apply(ExportTable{"strings.csv", ""});
         }},
        {"keys", {}, [](App&) { ImGui::GetIO().KeysDown[key_f1] = true; }},
    };
    return scenes;
}

} // namespace harpkeep::dashboard
