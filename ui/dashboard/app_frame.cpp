// SPDX-License-Identifier: MIT
#include "ui/dashboard/app.hpp"
#include "ui/dashboard/guards.hpp"
#include "ui/dashboard/keys.hpp"
#include "ui/dashboard/text.hpp"
#include "ui/dashboard/views/shared.hpp"
#include "ui/dashboard/widgets/controls.hpp"

#include <imgui_internal.h>

#include <algorithm>

namespace harpkeep::dashboard {

namespace {

constexpr auto bare = ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove |
                      ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoBringToFrontOnFocus;

template <class... Ts>
struct Overloaded : Ts... {
    using Ts::operator()...;
};
template <class... Ts>
Overloaded(Ts...) -> Overloaded<Ts...>;

} // namespace

Actions App::draw_page(const Ui& ui)
{
    if (first_start_) return draw_start(ui, states_.start);
    const auto& loaded = pages_[static_cast<std::size_t>(page_)];
    Actions actions;
    if (!loaded.trouble.empty()) {
        const Card card{ui, "page.trouble"};
        show_mark(ui, State::out);
        ImGui::SameLine();
        paragraph(ui, loaded.trouble);
        if (button(ui, "page.retry", text::retry)) actions.push_back(Refresh{});
    }
    if (!loaded.model) {
        if (loaded.trouble.empty()) words(ui, text::loading, Tint::quiet_ink);
        return actions;
    }
    Actions more =
        std::visit(Overloaded{[&](const EmptyPage& m) { return draw(ui, m, states_.empty); },
                              [&](const TodayModel& m) { return draw(ui, m, states_.today); },
                              [&](const GuidedModel& m) { return draw(ui, m, states_.guided); },
                              [&](const TuningModel& m) { return draw(ui, m, states_.tuning); },
                              [&](const HistoryModel& m) { return draw(ui, m, states_.history); },
                              [&](const StringsModel& m) { return draw(ui, m, states_.strings); },
                              [&](const TensionModel& m) { return draw(ui, m, states_.tension); },
                              [&](const PedalsModel& m) { return draw(ui, m, states_.pedals); },
                              [&](const VisitsModel& m) { return draw(ui, m, states_.visits); },
                              [&](const ClimateModel& m) { return draw(ui, m, states_.climate); },
                              [&](const RoomModel& m) { return draw(ui, m, states_.room); },
                              [&](const SettingsModel& m) { return draw(ui, m, states_.settings); }},
                   *loaded.model);
    actions.insert(actions.end(), more.begin(), more.end());
    return actions;
}

void App::draw_frame()
{
    registry_.begin_frame();
    const Ui ui = this->ui();
    const ImVec2 display = ImGui::GetIO().DisplaySize;
    const float window_units = display.x / ui.scale;
    const float rail = ui.px(rail_width(ui, window_units));
    const Message* message = messages_.current(now_s_);
    const int lines = foot_lines(ui, message, display.x - rail);
    const float foot = foot_height(ui, lines);
    Actions actions;
    {
        ImGui::SetNextWindowPos({0.0F, 0.0F});
        ImGui::SetNextWindowSize({std::max(rail, 1.0F), std::max(display.y, 1.0F)});
        ImGui::PushStyleColor(ImGuiCol_WindowBg, packed(ui[Tint::raised]));
        const WindowGuard window{"rail", bare};
        ImGui::PopStyleColor();
        const RailModel model{page_, harps_, query_.harp, source_->ledger_name(), own_source_ != nullptr};
        actions = draw_rail(ui, model, rail_width(ui, window_units) < 100.0F);
    }
    {
        ImGui::SetNextWindowPos({rail, 0.0F});
        ImGui::SetNextWindowSize({std::max(display.x - rail, 1.0F), std::max(display.y - foot, 1.0F)});
        ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2{ui.px(16.0F), ui.px(12.0F)});
        const WindowGuard window{"page",
                                 (bare & ~ImGuiWindowFlags_NoScrollbar) | ImGuiWindowFlags_NoBackground};
        ImGui::PopStyleVar();
        if (!first_start_) draw_page_head(ui, page_, model(page_));
        const auto page_actions = draw_page(ui);
        actions.insert(actions.end(), page_actions.begin(), page_actions.end());
    }
    FootWish wish;
    {
        ImGui::SetNextWindowPos({rail, display.y - foot});
        ImGui::SetNextWindowSize({std::max(display.x - rail, 1.0F), foot});
        ImGui::PushStyleColor(ImGuiCol_WindowBg, packed(ui[Tint::raised]));
        const WindowGuard window{"foot", bare};
        ImGui::PopStyleColor();
        wish = draw_foot(ui, message, jobs_.running(), lines);
    }
    draw_dialogs(ui);
    draw_focus_ring(ui);
    const ImGuiContext& g = *ImGui::GetCurrentContext();
    settling_ = g.HoveredId != 0 && g.HoveredIdTimer < 0.45F;

    for (const auto& action : actions) apply(action);
    if (wish.put_away) messages_.put_away();
    if (wish.undo) undo();
    if (wish.cancel_job != 0) jobs_.cancel(wish.cancel_job);
    if (wish.show_all || wish.show_keys) {
        dialog_ = wish.show_all ? Dialog::messages : Dialog::keys;
        dialog_opening_ = true;
    }
}

} // namespace harpkeep::dashboard
