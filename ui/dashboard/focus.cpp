// SPDX-License-Identifier: MIT
#include "ui/dashboard/focus.hpp"

#include "ui/dashboard/keys.hpp"

#include <imgui_internal.h>

#include <algorithm>

namespace harpkeep::dashboard {

namespace {

/// The window in front that takes all keys: the topmost popup, or none.
const ImGuiWindow* front_popup()
{
    const ImGuiContext& g = *ImGui::GetCurrentContext();
    for (int i = g.OpenPopupStack.Size - 1; i >= 0; --i) {
        const ImGuiWindow* window = g.OpenPopupStack[i].Window;
        if (window != nullptr && (window->Flags & ImGuiWindowFlags_Tooltip) == 0) return window;
    }
    return nullptr;
}

/// The first widget of each group, and each widget without one, that the keyboard can reach now.
std::vector<const WidgetNote*> stops(const WidgetRegistry& registry)
{
    const ImGuiWindow* popup = front_popup();
    std::vector<const WidgetNote*> out;
    for (const auto& note : registry.widgets()) {
        if (!note.enabled || note.id == 0 || note.high.x <= note.low.x) continue;
        if (popup != nullptr && note.window->RootWindow != popup) continue;
        if (!note.group.empty() && !out.empty() && out.back()->group == note.group) continue;
        out.push_back(&note);
    }
    return out;
}

} // namespace

void KeyStrokes::update()
{
    const ImGuiIO& io = ImGui::GetIO();
    for (int key = 0; key < 512; ++key) {
        went_down_[key] = io.KeysDown[key] && !was_down_[key];
        was_down_[key] = io.KeysDown[key];
    }
}

void map_keys()
{
    auto& map = ImGui::GetIO().KeyMap;
    map[ImGuiKey_Tab] = -1;
    map[ImGuiKey_LeftArrow] = key_left;
    map[ImGuiKey_RightArrow] = key_right;
    map[ImGuiKey_UpArrow] = key_up;
    map[ImGuiKey_DownArrow] = key_down;
    map[ImGuiKey_PageUp] = key_page_up;
    map[ImGuiKey_PageDown] = key_page_down;
    map[ImGuiKey_Home] = key_home;
    map[ImGuiKey_End] = key_end;
    map[ImGuiKey_Insert] = key_insert;
    map[ImGuiKey_Delete] = key_delete;
    map[ImGuiKey_Backspace] = key_backspace;
    map[ImGuiKey_Space] = key_space;
    map[ImGuiKey_Enter] = key_enter;
    map[ImGuiKey_Escape] = key_escape;
    map[ImGuiKey_KeyPadEnter] = key_keypad_enter;
    map[ImGuiKey_A] = key_a;
    map[ImGuiKey_C] = key_c;
    map[ImGuiKey_V] = key_v;
    map[ImGuiKey_X] = key_x;
    map[ImGuiKey_Y] = key_y;
    map[ImGuiKey_Z] = key_z;
}

bool typing()
{
    return ImGui::GetIO().WantTextInput;
}

void walk_by_keys(const KeyStrokes& keys, WidgetRegistry& registry)
{
    ImGuiContext& g = *ImGui::GetCurrentContext();
    if (keys.pressed(key_tab) && !g.IO.KeyCtrl && !g.IO.KeyAlt) {
        const auto order = stops(registry);
        if (order.empty()) return;
        const auto count = static_cast<int>(order.size());
        const auto* here = registry.find(g.NavId);
        const auto found = std::find_if(order.begin(), order.end(), [&](const WidgetNote* note) {
            return here != nullptr &&
                   (note->id == here->id || (!note->group.empty() && note->group == here->group));
        });
        int next = g.IO.KeyShift ? count - 1 : 0;
        if (found != order.end()) {
            const auto index = static_cast<int>(found - order.begin());
            next = (index + (g.IO.KeyShift ? count - 1 : 1)) % count;
        }
        registry.focus(order[static_cast<std::size_t>(next)]->name);
    }
    const bool enter = keys.pressed(key_enter) || keys.pressed(key_keypad_enter);
    if (enter && g.ActiveId == 0 && g.NavId != 0 && !g.NavDisableHighlight &&
        registry.find(g.NavId) != nullptr)
        ImGui::ActivateItem(g.NavId);
}

void draw_focus_ring(const Ui& ui)
{
    const ImGuiContext& g = *ImGui::GetCurrentContext();
    if (g.NavId == 0 || g.NavDisableHighlight) return;
    const auto* note = ui.registry->find(g.NavId);
    if (note == nullptr || !note->visible) return;
    auto* list = ImGui::GetForegroundDrawList();
    const float gap = ui.px(3.0F);
    ImRect clip = note->window->ClipRect;
    clip.Expand(gap);
    list->PushClipRect(clip.Min, clip.Max);
    // Light within dark, so that the ring shows on every ground.
    list->AddRect({note->low.x - gap, note->low.y - gap}, {note->high.x + gap, note->high.y + gap},
                  packed(ui[Tint::panel]), ui.px(5.0F), 0, ui.px(4.0F));
    list->AddRect({note->low.x - gap, note->low.y - gap}, {note->high.x + gap, note->high.y + gap},
                  packed(ui[Tint::ink]), ui.px(5.0F), 0, ui.px(2.0F));
    list->PopClipRect();
}

} // namespace harpkeep::dashboard
