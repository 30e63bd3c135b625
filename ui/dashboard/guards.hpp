// SPDX-License-Identifier: MIT
#pragma once

#include <imgui.h>

namespace harpkeep::dashboard {

/// Calls that must come in pairs, held by an object: the second call runs when the guard leaves its block,
/// by whatever way. An unbalanced pair aborts inside Dear ImGui.
class WindowGuard {
  public:
    WindowGuard(const char* name, ImGuiWindowFlags flags) : open_(ImGui::Begin(name, nullptr, flags)) {}
    ~WindowGuard() { ImGui::End(); }
    WindowGuard(const WindowGuard&) = delete;
    WindowGuard& operator=(const WindowGuard&) = delete;
    explicit operator bool() const { return open_; }

  private:
    bool open_;
};

class ChildGuard {
  public:
    ChildGuard(const char* name, ImVec2 size, bool border = false, ImGuiWindowFlags flags = 0)
        : open_(ImGui::BeginChild(name, size, border, flags))
    {
    }
    ~ChildGuard() { ImGui::EndChild(); }
    ChildGuard(const ChildGuard&) = delete;
    ChildGuard& operator=(const ChildGuard&) = delete;
    explicit operator bool() const { return open_; }

  private:
    bool open_;
};

class TableGuard {
  public:
    TableGuard(const char* name, int columns, ImGuiTableFlags flags, ImVec2 size = {})
        : open_(ImGui::BeginTable(name, columns, flags, size))
    {
    }
    ~TableGuard()
    {
        if (open_) ImGui::EndTable();
    }
    TableGuard(const TableGuard&) = delete;
    TableGuard& operator=(const TableGuard&) = delete;
    explicit operator bool() const { return open_; }

  private:
    bool open_;
};

class IdGuard {
  public:
    explicit IdGuard(const char* id) { ImGui::PushID(id); }
    explicit IdGuard(int id) { ImGui::PushID(id); }
    ~IdGuard() { ImGui::PopID(); }
    IdGuard(const IdGuard&) = delete;
    IdGuard& operator=(const IdGuard&) = delete;
};

class FontGuard {
  public:
    explicit FontGuard(ImFont* font) { ImGui::PushFont(font); }
    ~FontGuard() { ImGui::PopFont(); }
    FontGuard(const FontGuard&) = delete;
    FontGuard& operator=(const FontGuard&) = delete;
};

class DisabledGuard {
  public:
    explicit DisabledGuard(bool disabled) { ImGui::BeginDisabled(disabled); }
    ~DisabledGuard() { ImGui::EndDisabled(); }
    DisabledGuard(const DisabledGuard&) = delete;
    DisabledGuard& operator=(const DisabledGuard&) = delete;
};

class WrapGuard {
  public:
    explicit WrapGuard(float position) { ImGui::PushTextWrapPos(position); }
    ~WrapGuard() { ImGui::PopTextWrapPos(); }
    WrapGuard(const WrapGuard&) = delete;
    WrapGuard& operator=(const WrapGuard&) = delete;
};

/// Items drawn while it lives count as one for the layout.
class GroupGuard {
  public:
    GroupGuard() { ImGui::BeginGroup(); }
    ~GroupGuard() { ImGui::EndGroup(); }
    GroupGuard(const GroupGuard&) = delete;
    GroupGuard& operator=(const GroupGuard&) = delete;
};

} // namespace harpkeep::dashboard
