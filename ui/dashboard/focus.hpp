// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/registry.hpp"
#include "ui/dashboard/ui.hpp"

namespace harpkeep::dashboard {

/// Which keys went down since the last frame, with their modifiers; Dear ImGui 1.86 names only 22 keys.
class KeyStrokes {
  public:
    /// Reads ImGuiIO::KeysDown; call once a frame before NewFrame.
    void update();
    [[nodiscard]] bool pressed(int key) const { return key >= 0 && key < 512 && went_down_[key]; }

  private:
    bool was_down_[512] = {};
    bool went_down_[512] = {};
};

/// Tells Dear ImGui which keys are which, and takes Tab from it: walk_by_keys() sees to that one. Call after
/// any backend has set its own.
void map_keys();

/// Moves the keyboard by Tab and Shift+Tab through the widgets of the front window, and lets Enter do what
/// Space does. Call before NewFrame.
///
/// Notes  Dear ImGui 1.86 lets Tab visit text inputs only, and Enter does not press buttons.
void walk_by_keys(const KeyStrokes& keys, WidgetRegistry& registry);

/// Draws the ring around the widget that has the keyboard, over everything else.
void draw_focus_ring(const Ui& ui);

/// True while a text input takes the keys, so that single letters are no commands.
[[nodiscard]] bool typing();

} // namespace harpkeep::dashboard
