// SPDX-License-Identifier: MIT
#include "ui/dashboard/window/window.hpp"

#include "ui/dashboard/app.hpp"
#include "ui/dashboard/keys.hpp"
#include "ui/dashboard/text.hpp"
#include "ui/dashboard/window/settings_file.hpp"

#define GLFW_INCLUDE_NONE
#include <GL/gl.h>
#include <GLFW/glfw3.h>
#include <backends/imgui_impl_glfw.h>
#include <backends/imgui_impl_opengl3.h>
#include <fmt/format.h>
#include <imgui.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <ctime>

namespace harpkeep::dashboard {

namespace {

static_assert(key_space == GLFW_KEY_SPACE && key_comma == GLFW_KEY_COMMA && key_minus == GLFW_KEY_MINUS &&
              key_period == GLFW_KEY_PERIOD && key_0 == GLFW_KEY_0 && key_9 == GLFW_KEY_9 &&
              key_equal == GLFW_KEY_EQUAL && key_a == GLFW_KEY_A && key_z == GLFW_KEY_Z &&
              key_escape == GLFW_KEY_ESCAPE && key_enter == GLFW_KEY_ENTER && key_tab == GLFW_KEY_TAB &&
              key_backspace == GLFW_KEY_BACKSPACE && key_insert == GLFW_KEY_INSERT &&
              key_delete == GLFW_KEY_DELETE && key_right == GLFW_KEY_RIGHT && key_left == GLFW_KEY_LEFT &&
              key_down == GLFW_KEY_DOWN && key_up == GLFW_KEY_UP && key_page_up == GLFW_KEY_PAGE_UP &&
              key_page_down == GLFW_KEY_PAGE_DOWN && key_home == GLFW_KEY_HOME && key_end == GLFW_KEY_END &&
              key_f1 == GLFW_KEY_F1 && key_f5 == GLFW_KEY_F5 && key_keypad_enter == GLFW_KEY_KP_ENTER);

constexpr int frames_for_an_event = 3;
constexpr int least_width = 1024;
constexpr int least_height = 700;

/// What the callbacks of GLFW tell the loop.
struct Events {
    int frames_to_draw = frames_for_an_event;
    bool scale_changed = true;
    std::vector<std::string> dropped;
};

Events& events_of(GLFWwindow* window)
{
    return *static_cast<Events*>(glfwGetWindowUserPointer(window));
}

void stir(GLFWwindow* window)
{
    events_of(window).frames_to_draw = frames_for_an_event;
}

/// Installed before Dear ImGui's own, which calls them in turn.
void listen_to(GLFWwindow* window)
{
    glfwSetKeyCallback(window, [](GLFWwindow* w, int, int, int, int) { stir(w); });
    glfwSetCharCallback(window, [](GLFWwindow* w, unsigned) { stir(w); });
    glfwSetMouseButtonCallback(window, [](GLFWwindow* w, int, int, int) { stir(w); });
    glfwSetCursorPosCallback(window, [](GLFWwindow* w, double, double) { stir(w); });
    glfwSetScrollCallback(window, [](GLFWwindow* w, double, double) { stir(w); });
    glfwSetCursorEnterCallback(window, [](GLFWwindow* w, int) { stir(w); });
    glfwSetWindowFocusCallback(window, [](GLFWwindow* w, int) { stir(w); });
    glfwSetWindowRefreshCallback(window, [](GLFWwindow* w) { stir(w); });
    glfwSetFramebufferSizeCallback(window, [](GLFWwindow* w, int, int) { stir(w); });
    glfwSetWindowContentScaleCallback(window, [](GLFWwindow* w, float, float) {
        events_of(w).scale_changed = true;
        stir(w);
    });
    glfwSetDropCallback(window, [](GLFWwindow* w, int count, const char** paths) {
        for (int i = 0; i < count; ++i) events_of(w).dropped.emplace_back(paths[i]);
        stir(w);
    });
}

std::string last_glfw_error;

Error window_error(const char* what)
{
    return {
        ErrorCode::unavailable,
        fmt::format(
            "opening the window: {} ({}); every page's figures can also be had from the command line, see "
            "harpkeep --help",
            what, last_glfw_error.empty() ? "no more is known" : last_glfw_error)};
}

/// GLFW and Dear ImGui for the life of the window.
class Screen {
  public:
    static Result<std::unique_ptr<Screen>> open(const WindowOptions& options, const std::string& state_folder)
    {
        std::unique_ptr<Screen> screen{new Screen};
        glfwSetErrorCallback([](int, const char* message) { last_glfw_error = message; });
        if (glfwInit() == GLFW_FALSE) return failure(window_error("no display"));
        screen->initialised_ = true;
        glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
        glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 2);
        glfwWindowHint(GLFW_OPENGL_PROFILE, GLFW_OPENGL_CORE_PROFILE);
        glfwWindowHint(GLFW_OPENGL_FORWARD_COMPAT, GLFW_TRUE);
        glfwWindowHint(GLFW_SCALE_TO_MONITOR, GLFW_TRUE);
        screen->window_ = glfwCreateWindow(options.width, options.height, text::program, nullptr, nullptr);
        if (screen->window_ == nullptr) return failure(window_error("OpenGL 3.2 is needed"));
        glfwSetWindowSizeLimits(screen->window_, least_width, least_height, GLFW_DONT_CARE, GLFW_DONT_CARE);
        glfwMakeContextCurrent(screen->window_);
        glfwSwapInterval(1);
        glfwSetWindowUserPointer(screen->window_, &screen->events);
        listen_to(screen->window_);

        IMGUI_CHECKVERSION();
        ImGui::CreateContext();
        screen->imgui_ = true;
        auto& io = ImGui::GetIO();
        screen->ini_path_ = state_folder.empty() ? std::string{} : state_folder + "/imgui.ini";
        io.IniFilename = state_folder.empty() ? nullptr : screen->ini_path_.c_str();
        io.ConfigFlags |= ImGuiConfigFlags_NavEnableKeyboard;
        ImGui_ImplGlfw_InitForOpenGL(screen->window_, true);
        ImGui_ImplOpenGL3_Init("#version 150");
        map_keys();
        return screen;
    }
    ~Screen()
    {
        if (imgui_) {
            ImGui_ImplOpenGL3_Shutdown();
            ImGui_ImplGlfw_Shutdown();
            ImGui::DestroyContext();
        }
        if (window_ != nullptr) glfwDestroyWindow(window_);
        if (initialised_) glfwTerminate();
    }
    Screen(const Screen&) = delete;
    Screen& operator=(const Screen&) = delete;

    [[nodiscard]] GLFWwindow* window() const { return window_; }
    Events events;

  private:
    Screen() = default;
    GLFWwindow* window_ = nullptr;
    bool initialised_ = false;
    bool imgui_ = false;
    std::string ini_path_; ///< Dear ImGui keeps the pointer
};

void follow_scale(Screen& screen, App& app, const FontFiles& fonts, float& loaded)
{
    if (screen.events.scale_changed) {
        float x = 1.0F, y = 1.0F;
        glfwGetWindowContentScale(screen.window(), &x, &y);
        app.set_display_scale(std::max({x, y, 0.5F}));
        screen.events.scale_changed = false;
    }
    int width = 0, height = 0;
    glfwGetWindowSize(screen.window(), &width, &height);
    app.set_window_size(static_cast<float>(width), static_cast<float>(height));
    const float wanted = app.wanted_scale();
    if (wanted == loaded) return;
    const Fonts faces = load_fonts(*ImGui::GetIO().Fonts, fonts, wanted);
    ImGui_ImplOpenGL3_DestroyFontsTexture();
    ImGui_ImplOpenGL3_CreateFontsTexture();
    app.set_fonts(faces, wanted);
    loaded = wanted;
}

void draw(Screen& screen, App& app)
{
    ImGui_ImplOpenGL3_NewFrame();
    ImGui_ImplGlfw_NewFrame();
    ImGui::NewFrame();
    app.draw_frame();
    ImGui::Render();
    int width = 0, height = 0;
    glfwGetFramebufferSize(screen.window(), &width, &height);
    glViewport(0, 0, width, height);
    const ImVec4 ground = floats(app.ground());
    glClearColor(ground.x, ground.y, ground.z, 1.0F);
    glClear(GL_COLOR_BUFFER_BIT);
    ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
    glfwSwapBuffers(screen.window());
}

} // namespace

Result<void> run_window(WindowOptions options)
{
    using Clock = std::chrono::steady_clock;
    const auto begin = Clock::now();
    const auto seconds = [begin] { return std::chrono::duration<double>(Clock::now() - begin).count(); };
    const auto fonts = find_fonts();
    if (!fonts) return failure(fonts.error());
    const std::string folder = state_folder();
    auto opened = Screen::open(options, folder);
    if (!opened) return failure(opened.error());
    Screen& screen = **opened;

    App::Setup setup;
    setup.source = options.source;
    setup.settings = load_settings(folder);
    setup.wake = [] { glfwPostEmptyEvent(); };
    setup.remember = [folder](const Settings& settings) {
        if (const auto saved = save_settings(folder, settings); !saved)
            fmt::print(stderr, "harpkeep: {}\n", saved.error().message);
    };
    setup.open_ledger = std::move(options.open_ledger);
    setup.open_example = std::move(options.open_example);
    setup.version = options.version;
    App app{std::move(setup)};

    float loaded_scale = 0.0F;
    long drawn = 0;
    double first_frame_s = 0.0, first_frame_cpu_s = 0.0;
    while (glfwWindowShouldClose(screen.window()) == GLFW_FALSE) {
        if (options.close_after_s > 0.0 && seconds() > options.close_after_s) break;
        // Once a second the ledger is asked whether another program changed it.
        if (app.live() || screen.events.frames_to_draw > 0)
            glfwPollEvents();
        else
            glfwWaitEventsTimeout(app.restless() ? 0.1 : 1.0);
        if (!screen.events.dropped.empty()) app.files_dropped(std::exchange(screen.events.dropped, {}));
        const auto changes = app.changes();
        app.before_frame(seconds());
        if (app.changes() != changes || app.live() || app.settling()) stir(screen.window());
        if (screen.events.frames_to_draw == 0) continue;
        --screen.events.frames_to_draw;
        follow_scale(screen, app, *fonts, loaded_scale);
        draw(screen, app);
        if (drawn++ == 0) {
            first_frame_s = seconds();
            first_frame_cpu_s = static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
        }
    }
    if (options.report_timing)
        fmt::print("first frame after {:.3f} s ({:.3f} s CPU), {} frames in {:.1f} s ({:.1f} s CPU)\n",
                   first_frame_s, first_frame_cpu_s, drawn, seconds(),
                   static_cast<double>(std::clock()) / CLOCKS_PER_SEC);
    return {};
}

} // namespace harpkeep::dashboard
