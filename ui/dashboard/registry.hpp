// SPDX-License-Identifier: MIT
#pragma once

#include <imgui.h>

#include <string>
#include <string_view>
#include <vector>

struct ImGuiWindow;

namespace harpkeep::dashboard {

enum class WidgetKind { button, toggle, choice, text, number, item };

/// A widget as it was drawn: what the keyboard walks over and what the tests find by name.
struct WidgetNote {
    std::string name; ///< "today.start_check", the same in every language
    ImGuiID id = 0;
    WidgetKind kind = WidgetKind::button;
    ImVec2 low;
    ImVec2 high;
    ImGuiWindow* window = nullptr;
    std::string group; ///< members of one group are walked by arrow keys; Tab passes from group to group
    bool visible = true;
    bool enabled = true;
    bool explained = false; ///< has words that tell what it does or means
};

/// Notes each widget right after it is drawn; holds this frame's and the last frame's.
class WidgetRegistry {
  public:
    /// Starts a new frame: what was noted becomes the last frame's.
    void begin_frame();

    /// Notes the last item drawn. Carries out a wish for focus or for scrolling that waits for this name.
    void note(std::string_view name, WidgetKind kind, std::string_view group = {});

    /// The last item drawn, if it was noted, has an explanation.
    void note_explanation();

    /// Notes the words of the last item when they reach beyond the right edge of their room, where they are
    /// cut or run over what stands there.
    void note_overrun(std::string_view words);
    /// The words of the last whole frame that found no room: none, if the layout is sound.
    [[nodiscard]] const std::vector<std::string>& overruns() const { return last_overruns_; }

    /// The widgets of the last whole frame, in the order of drawing.
    [[nodiscard]] const std::vector<WidgetNote>& widgets() const { return last_; }
    [[nodiscard]] const WidgetNote* find(std::string_view name) const;
    [[nodiscard]] const WidgetNote* find(ImGuiID id) const;

    /// When a widget of this name is drawn next, gives it the keyboard and scrolls it into view.
    void focus(std::string_view name) { focus_wish_ = name; }
    void scroll_to(std::string_view name) { scroll_wish_ = name; }

  private:
    std::vector<WidgetNote> now_;
    std::vector<WidgetNote> last_;
    std::vector<std::string> now_overruns_;
    std::vector<std::string> last_overruns_;
    std::string focus_wish_;
    std::string scroll_wish_;
};

} // namespace harpkeep::dashboard
