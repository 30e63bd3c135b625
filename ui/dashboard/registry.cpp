// SPDX-License-Identifier: MIT
#include "ui/dashboard/registry.hpp"

#include <imgui_internal.h>

#include <algorithm>

namespace harpkeep::dashboard {

void WidgetRegistry::begin_frame()
{
    last_.swap(now_);
    now_.clear();
    last_overruns_.swap(now_overruns_);
    now_overruns_.clear();
}

void WidgetRegistry::note(std::string_view name, WidgetKind kind, std::string_view group)
{
    ImGuiContext& g = *ImGui::GetCurrentContext();
    ImGuiWindow* window = g.CurrentWindow;
    const ImGuiID id = g.LastItemData.ID;
    const ImRect rect = g.LastItemData.Rect;
    const bool enabled = (g.CurrentItemFlags & ImGuiItemFlags_Disabled) == 0;
    now_.push_back({.name = std::string{name},
                    .id = id,
                    .kind = kind,
                    .low = rect.Min,
                    .high = rect.Max,
                    .window = window,
                    .group = std::string{group},
                    .visible = window->ClipRect.Overlaps(rect) && !window->SkipItems,
                    .enabled = enabled});
    if (focus_wish_ == name && enabled && id != 0) {
        ImGui::ClearActiveID();
        ImGui::SetFocusID(id, window);
        g.NavDisableHighlight = false;
        g.NavDisableMouseHover = true;
        g.NavInputSource = ImGuiInputSource_Keyboard; // else a text field is focused but takes no letters
        ImGui::ScrollToBringRectIntoView(window, rect);
        if (kind == WidgetKind::text) ImGui::ActivateItem(id);
        focus_wish_.clear();
    }
    if (scroll_wish_ == name) {
        ImGui::ScrollToBringRectIntoView(window, rect);
        scroll_wish_.clear();
    }
}

void WidgetRegistry::note_explanation()
{
    if (!now_.empty() && now_.back().id == ImGui::GetCurrentContext()->LastItemData.ID)
        now_.back().explained = true;
}

void WidgetRegistry::note_overrun(std::string_view words)
{
    const ImGuiContext& g = *ImGui::GetCurrentContext();
    const ImGuiWindow* window = g.CurrentWindow;
    // A window that fits itself to its words, as explanations do, has its size from the frame before.
    if (window->SkipItems || window->Hidden || (window->Flags & ImGuiWindowFlags_Tooltip) != 0) return;
    if (g.LastItemData.Rect.Max.x > window->WorkRect.Max.x + 1.0F) now_overruns_.emplace_back(words);
}

const WidgetNote* WidgetRegistry::find(std::string_view name) const
{
    const auto found =
        std::find_if(last_.begin(), last_.end(), [&](const WidgetNote& note) { return note.name == name; });
    return found == last_.end() ? nullptr : &*found;
}

const WidgetNote* WidgetRegistry::find(ImGuiID id) const
{
    const auto found =
        std::find_if(last_.begin(), last_.end(), [&](const WidgetNote& note) { return note.id == id; });
    return found == last_.end() ? nullptr : &*found;
}

} // namespace harpkeep::dashboard
