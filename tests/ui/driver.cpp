// SPDX-License-Identifier: MIT
#include "driver.hpp"

#include "fresh_school.hpp"
#include "ui/dashboard/keys.hpp"
#include "ui/dashboard/ledger/ledger_source.hpp"

#include <imgui_internal.h>

#include <map>

namespace harpkeep::dashboard {

Driver::Driver() : Driver(Start{}) {}

namespace {

struct LoadedFaces {
    ImFontAtlas atlas;
    Fonts fonts;
};

/// The faces of a scale, loaded once for all drivers of a program: it takes longer than all frames of a test.
LoadedFaces& faces_at(float scale)
{
    static std::map<float, std::unique_ptr<LoadedFaces>> all;
    auto& faces = all[scale];
    if (!faces) {
        faces = std::make_unique<LoadedFaces>();
        faces->fonts = load_fonts(faces->atlas, find_fonts().value(), scale);
        faces->atlas.Build();
        faces->atlas.ClearTexData(); // nothing is painted
    }
    return *faces;
}

} // namespace

Driver::Driver(Start start) : context_(ImGui::CreateContext(&faces_at(1.0F).atlas))
{
    auto& io = ImGui::GetIO();
    io.IniFilename = nullptr;
    io.ConfigFlags |= ImGuiConfigFlags_NavEnableKeyboard;
    io.BackendFlags |= ImGuiBackendFlags_RendererHasVtxOffset;
    io.DisplaySize = {start.width, start.height};
    map_keys();
    App::Setup setup;
    setup.source = start.source ? start.source : fresh_school(folder_ / "school", start.school);
    setup.open_ledger = [](const std::string& path) {
        return LedgerSource::open(path, [] {
            return db::Author{{1'795'543'200'000, 60}, "example computer"};
        });
    };
    setup.open_example = [this](JobContext&) {
        return Result<std::shared_ptr<Source>>{fresh_school(folder_ / "example", {.harps = 5})};
    };
    setup.settings = start.settings;
    setup.jobs = Jobs::Mode::inline_;
    setup.version = "test";
    app = std::make_unique<App>(std::move(setup));
    frames(4);
}

Driver::~Driver()
{
    app.reset();
    ImGui::DestroyContext(context_);
}

void Driver::load()
{
    auto& io = ImGui::GetIO();
    app->set_window_size(io.DisplaySize.x, io.DisplaySize.y);
    if (app->wanted_scale() == loaded_) return;
    auto& faces = faces_at(app->wanted_scale());
    io.Fonts = &faces.atlas;
    app->set_fonts(faces.fonts, app->wanted_scale());
    loaded_ = app->wanted_scale();
}

void Driver::frames(int count)
{
    for (int i = 0; i < count; ++i) {
        ImGui::GetIO().DeltaTime = 1.0F / 60.0F;
        now_s_ += 1.0 / 60.0;
        load();
        app->before_frame(now_s_);
        ImGui::NewFrame();
        app->draw_frame();
        ImGui::Render();
    }
}

void Driver::hover(const std::string& name)
{
    app->registry().scroll_to(name);
    frames(3);
    if (const auto* note = find(name)) {
        // The part of it that the window shows.
        ImRect rect{note->low, note->high};
        rect.ClipWith(note->window->ClipRect);
        ImGui::GetIO().MousePos = rect.GetCenter();
    }
    frames(2);
}

bool Driver::click(const std::string& name)
{
    hover(name);
    if (find(name) == nullptr) return false;
    auto& io = ImGui::GetIO();
    io.MouseDown[0] = true;
    frames(2);
    io.MouseDown[0] = false;
    frames(3);
    return true;
}

void Driver::press(int key, bool ctrl, bool shift)
{
    auto& io = ImGui::GetIO();
    io.KeyCtrl = ctrl;
    io.KeyShift = shift;
    io.KeysDown[key] = true;
    frames(2);
    io.KeysDown[key] = false;
    io.KeyCtrl = io.KeyShift = false;
    frames(3);
}

void Driver::type(const std::string& text)
{
    ImGui::GetIO().AddInputCharactersUTF8(text.c_str());
    frames(3);
}

void Driver::resize(float width, float height)
{
    ImGui::GetIO().DisplaySize = {width, height};
    frames(4);
}

void Driver::go(Page page)
{
    click("rail." + std::to_string(static_cast<int>(page)));
}

void Driver::name_file(const std::string& path)
{
    click("path.path");
    press(key_a, true);
    press(key_backspace);
    type(path);
    press(key_enter);
}

std::set<std::string> Driver::names() const
{
    std::set<std::string> out;
    for (const auto& note : app->registry().widgets()) out.insert(note.name);
    return out;
}

std::string Driver::focused() const
{
    const auto* note = app->registry().find(ImGui::GetCurrentContext()->NavId);
    return note == nullptr ? "" : note->name;
}

} // namespace harpkeep::dashboard
