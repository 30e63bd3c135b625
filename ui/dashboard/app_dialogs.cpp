// SPDX-License-Identifier: MIT
#include "ui/dashboard/app.hpp"
#include "ui/dashboard/check_files.hpp"
#include "ui/dashboard/guards.hpp"
#include "ui/dashboard/keys.hpp"
#include "ui/dashboard/text.hpp"
#include "ui/dashboard/views/shared.hpp"
#include "ui/dashboard/widgets/controls.hpp"

#include <fmt/format.h>
#include <imgui_internal.h>

#include <algorithm>

namespace harpkeep::dashboard {

void App::draw_dialogs(const Ui& ui)
{
    constexpr const char* name = "dialog";
    if (dialog_opening_) {
        ImGui::OpenPopup(name);
        dialog_opening_ = false;
    }
    const ImVec2 display = ImGui::GetIO().DisplaySize;
    ImGui::SetNextWindowPos({0.5F * display.x, 0.5F * display.y}, ImGuiCond_Always, {0.5F, 0.5F});
    const float width = std::min(ui.px(620.0F), display.x - ui.px(16.0F));
    ImGui::SetNextWindowSizeConstraints({std::max(width, 1.0F), 1.0F},
                                        {std::max(width, 1.0F), std::max(display.y - ui.px(16.0F), 1.0F)});
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2{ui.px(16.0F), ui.px(14.0F)});
    const bool open =
        ImGui::BeginPopupModal(name, nullptr,
                               ImGuiWindowFlags_NoTitleBar | ImGuiWindowFlags_NoMove |
                                   ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_AlwaysAutoResize);
    ImGui::PopStyleVar();
    if (!open) return;
    switch (dialog_) {
    case Dialog::path:
        draw_path_dialog(ui);
        break;
    case Dialog::check:
        draw_check_dialog(ui);
        break;
    case Dialog::sheet:
        draw_sheet_dialog(ui);
        break;
    case Dialog::keys:
        draw_keys_dialog(ui);
        break;
    case Dialog::messages:
        draw_messages_dialog(ui);
        break;
    case Dialog::none:
        break;
    }
    if (dialog_ == Dialog::none) ImGui::CloseCurrentPopup();
    ImGui::EndPopup();
}

void App::draw_path_dialog(const Ui& ui)
{
    const auto& wanted = path_.extensions;
    const bool recording = wanted.size() > 2, climate = wanted.size() == 2;
    heading(ui, path_.save  ? text::path_title_save
                : recording ? text::path_title_recording
                : climate   ? text::path_title_climate
                            : text::path_title_ledger);
    const auto answer = show_path_entry(ui, "path", path_, keys_.pressed(key_tab), keys_.pressed(key_enter));
    const bool cancelled = button(ui, "path.cancel", text::cancel);
    if (recording) paragraph(ui, text::path_drop, Tint::quiet_ink);
    if (answer == PathAnswer::taken) {
        dialog_ = Dialog::none;
        path_then_(expanded_path(path_.path));
    } else if (cancelled)
        dialog_ = Dialog::none;
}

void App::draw_check_dialog(const Ui& ui)
{
    auto& files = pending_check_.recordings;
    heading(ui, text::check_title);
    paragraph(ui, text::check_how, Tint::quiet_ink);
    const auto positions = check_positions(harp_kind());
    std::vector<std::string> passes{text::pass_in_order};
    for (const Position position : positions)
        passes.push_back(fmt::format(text::pass_format, position_name(position)));
    std::optional<std::size_t> unwanted;
    for (std::size_t i = 0; i < files.size(); ++i) {
        auto& file = files[i];
        int chosen = 0;
        for (std::size_t p = 0; p < positions.size(); ++p)
            if (file.pass == positions[p]) chosen = static_cast<int>(p) + 1;
        const int wish =
            drop_list(ui, fmt::format("check.pass.{}", i), passes, chosen, 190.0F, text::pass_why);
        file.pass = wish > 0 ? std::optional{positions[static_cast<std::size_t>(wish - 1)]} : std::nullopt;
        ImGui::SameLine();
        if (button(ui, fmt::format("check.remove.{}", i), text::leave_out, text::leave_out_why)) unwanted = i;
        ImGui::SameLine();
        const std::string name = file_name(file.path);
        if (ImGui::GetContentRegionAvail().x < ImGui::CalcTextSize(name.c_str()).x) ImGui::NewLine();
        ImGui::AlignTextToFramePadding();
        words(ui, name);
        explain_last(ui, file.path);
    }
    if (unwanted) files.erase(files.begin() + static_cast<std::ptrdiff_t>(*unwanted));
    if (button(ui, "check.add", text::add_recording, text::check_a_recording_why))
        apply(ChooseFile{ChooseFile::Purpose::recording});
    double a4_hz = settings_.a4_hz;
    if (number_field(ui, "check.a4", text::a4_label, a4_hz, 1.0, 392.0, 466.0, 1, text::a4_why)) {
        auto settings = settings_;
        settings.a4_hz = a4_hz;
        change_settings(settings);
    }
    {
        const DisabledGuard disabled{files.empty()};
        if (button(ui, "check.begin", text::check_begin, text::check_begin_why, Weight::chief)) {
            dialog_ = Dialog::none;
            perform(std::exchange(pending_check_, {}));
            return;
        }
    }
    ImGui::SameLine();
    if (button(ui, "check.cancel", text::cancel)) {
        dialog_ = Dialog::none;
        pending_check_ = {};
    }
}

void App::draw_keys_dialog(const Ui& ui)
{
    heading(ui, text::keys_title);
    const float whole = ImGui::GetContentRegionAvail().x;
    for (const auto& [key, what] : text::keys) {
        const float begin = ImGui::GetCursorPosX();
        {
            const FontGuard bold{ui.fonts.bold};
            words(ui, key);
        }
        ImGui::SameLine();
        const float column = std::min(ui.px(210.0F), 0.4F * whole);
        if (ImGui::GetCursorPosX() - begin > column && whole < ui.px(400.0F)) ImGui::NewLine();
        ImGui::SetCursorPosX(begin + std::max(column, ImGui::GetCursorPosX() - begin));
        paragraph(ui, what, Tint::quiet_ink);
    }
    if (button(ui, "keys.close", text::close, {}, Weight::chief)) dialog_ = Dialog::none;
}

void App::draw_messages_dialog(const Ui& ui)
{
    heading(ui, text::all_messages);
    {
        const float tall =
            std::clamp(ImGui::GetIO().DisplaySize.y - ui.px(140.0F), ui.px(80.0F), ui.px(300.0F));
        const ChildGuard list{"messages.list", {0.0F, tall}, true};
        if (messages_.all().empty()) paragraph(ui, text::no_messages, Tint::quiet_ink);
        for (auto message = messages_.all().rbegin(); message != messages_.all().rend(); ++message) {
            show_mark(ui, message->kind == MessageKind::trouble ? State::out : State::fine);
            ImGui::SameLine();
            paragraph(ui, message->text);
        }
    }
    if (button(ui, "messages.close", text::close, {}, Weight::chief)) dialog_ = Dialog::none;
}

} // namespace harpkeep::dashboard
