// SPDX-License-Identifier: MIT
#pragma once

#include "tests/support/temporary_folder.hpp"
#include "ui/dashboard/app.hpp"
#include "ui/dashboard/staged/staged_source.hpp"

#include <imgui.h>

#include <memory>
#include <set>
#include <string>

namespace harpkeep::dashboard {

/// Drives the app without display and GL: moves the pointer to widgets found by name in the registry, presses
/// keys, types, and draws frames.
class Driver {
  public:
    struct Start {
        StagedSchool school{.harps = 5};
        std::shared_ptr<Source> source{}; ///< shown instead of the school
        Settings settings;
        float width = 1280.0F;
        float height = 800.0F;
    };
    explicit Driver(Start start);
    Driver();
    ~Driver();
    Driver(const Driver&) = delete;
    Driver& operator=(const Driver&) = delete;

    void frames(int count);
    /// Presses the widget with the pointer, scrolling it into view first. False when there is none of this
    /// name.
    bool click(const std::string& name);
    void hover(const std::string& name);
    void press(int key, bool ctrl = false, bool shift = false);
    void type(const std::string& text);
    void resize(float width, float height);
    void go(Page page);
    /// Types a whole path into the dialog that asks for one, and takes it.
    void name_file(const std::string& path);
    [[nodiscard]] const tests::TemporaryFolder& folder() const { return folder_; }

    [[nodiscard]] const WidgetNote* find(const std::string& name) const { return app->registry().find(name); }
    [[nodiscard]] std::set<std::string> names() const;
    /// Name of the widget that has the keyboard.
    [[nodiscard]] std::string focused() const;

    std::unique_ptr<App> app;

  private:
    void load();
    tests::TemporaryFolder folder_;
    ImGuiContext* context_;
    float loaded_ = 0.0F;
    double now_s_ = 0.0;
};

} // namespace harpkeep::dashboard
