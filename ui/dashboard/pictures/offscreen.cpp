// SPDX-License-Identifier: MIT
#define GL_GLEXT_PROTOTYPES
#include "ui/dashboard/pictures/offscreen.hpp"

#include <EGL/egl.h>
#include <EGL/eglext.h>
#include <GL/gl.h>
#include <GL/glext.h>
#include <backends/imgui_impl_opengl3.h>
#include <fmt/format.h>
#include <imgui.h>

#include <algorithm>
#include <chrono>
#include <cstring>

namespace harpkeep::dashboard {

struct Offscreen::Handles {
    EGLDisplay display = EGL_NO_DISPLAY;
    EGLContext context = EGL_NO_CONTEXT;
    GLuint framebuffer = 0;
    GLuint colour = 0;
    ImGuiContext* imgui = nullptr;
};

namespace {

Error egl_error(const char* what)
{
    return {
        ErrorCode::unavailable,
        fmt::format(
            "drawing without a screen: {} failed (EGL error {:#x}); install libegl-mesa0 and libgl1-mesa-dri",
            what, eglGetError())};
}

} // namespace

Result<std::unique_ptr<Offscreen>> Offscreen::open(const FontFiles& fonts)
{
    std::unique_ptr<Offscreen> out{new Offscreen};
    out->fonts_ = fonts;
    out->handles_ = std::make_unique<Handles>();
    auto& handles = *out->handles_;
    const auto get_display =
        reinterpret_cast<PFNEGLGETPLATFORMDISPLAYEXTPROC>(eglGetProcAddress("eglGetPlatformDisplayEXT"));
    if (get_display == nullptr) return failure(egl_error("eglGetPlatformDisplayEXT"));
    handles.display = get_display(EGL_PLATFORM_SURFACELESS_MESA, EGL_DEFAULT_DISPLAY, nullptr);
    if (handles.display == EGL_NO_DISPLAY || eglInitialize(handles.display, nullptr, nullptr) == EGL_FALSE)
        return failure(egl_error("eglInitialize"));
    eglBindAPI(EGL_OPENGL_API);
    constexpr std::array<EGLint, 5> wanted{EGL_SURFACE_TYPE, EGL_PBUFFER_BIT, EGL_RENDERABLE_TYPE,
                                           EGL_OPENGL_BIT, EGL_NONE};
    EGLConfig config = nullptr;
    EGLint count = 0;
    if (eglChooseConfig(handles.display, wanted.data(), &config, 1, &count) == EGL_FALSE || count < 1)
        return failure(egl_error("eglChooseConfig"));
    constexpr std::array<EGLint, 7> version{EGL_CONTEXT_MAJOR_VERSION,
                                            3,
                                            EGL_CONTEXT_MINOR_VERSION,
                                            2,
                                            EGL_CONTEXT_OPENGL_PROFILE_MASK,
                                            EGL_CONTEXT_OPENGL_CORE_PROFILE_BIT,
                                            EGL_NONE};
    handles.context = eglCreateContext(handles.display, config, EGL_NO_CONTEXT, version.data());
    if (handles.context == EGL_NO_CONTEXT) return failure(egl_error("eglCreateContext"));
    if (eglMakeCurrent(handles.display, EGL_NO_SURFACE, EGL_NO_SURFACE, handles.context) == EGL_FALSE)
        return failure(egl_error("eglMakeCurrent"));

    IMGUI_CHECKVERSION();
    handles.imgui = ImGui::CreateContext();
    ImGui::GetIO().IniFilename = nullptr;
    ImGui::GetIO().ConfigFlags |= ImGuiConfigFlags_NavEnableKeyboard;
    map_keys();
    ImGui_ImplOpenGL3_Init("#version 150");
    return out;
}

Offscreen::~Offscreen()
{
    if (!handles_) return;
    if (handles_->imgui != nullptr) {
        ImGui_ImplOpenGL3_Shutdown();
        ImGui::DestroyContext(handles_->imgui);
    }
    if (handles_->framebuffer != 0) glDeleteFramebuffers(1, &handles_->framebuffer);
    if (handles_->colour != 0) glDeleteRenderbuffers(1, &handles_->colour);
    if (handles_->display != EGL_NO_DISPLAY) {
        eglMakeCurrent(handles_->display, EGL_NO_SURFACE, EGL_NO_SURFACE, EGL_NO_CONTEXT);
        if (handles_->context != EGL_NO_CONTEXT) eglDestroyContext(handles_->display, handles_->context);
        eglTerminate(handles_->display);
    }
}

Result<void> Offscreen::size_to(int width, int height)
{
    if (width == width_ && height == height_) return {};
    if (handles_->framebuffer == 0) {
        glGenFramebuffers(1, &handles_->framebuffer);
        glGenRenderbuffers(1, &handles_->colour);
    }
    glBindFramebuffer(GL_FRAMEBUFFER, handles_->framebuffer);
    glBindRenderbuffer(GL_RENDERBUFFER, handles_->colour);
    glRenderbufferStorage(GL_RENDERBUFFER, GL_RGBA8, width, height);
    glFramebufferRenderbuffer(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_RENDERBUFFER, handles_->colour);
    if (glCheckFramebufferStatus(GL_FRAMEBUFFER) != GL_FRAMEBUFFER_COMPLETE)
        return failure(
            ErrorCode::unavailable,
            fmt::format("drawing without a screen: no framebuffer of {} by {} pixels", width, height));
    width_ = width;
    height_ = height;
    return {};
}

double Offscreen::frame(App& app)
{
    const auto begin = std::chrono::steady_clock::now();
    auto& io = ImGui::GetIO();
    app.set_window_size(static_cast<float>(width_), static_cast<float>(height_));
    if (const float wanted = app.wanted_scale(); wanted != loaded_scale_ || !app.has_fonts()) {
        const Fonts fonts = load_fonts(*io.Fonts, fonts_, wanted);
        ImGui_ImplOpenGL3_DestroyFontsTexture();
        ImGui_ImplOpenGL3_CreateFontsTexture();
        app.set_fonts(fonts, wanted);
        loaded_scale_ = wanted;
    }
    io.DisplaySize = {static_cast<float>(width_), static_cast<float>(height_)};
    io.DeltaTime = 1.0F / 60.0F;
    now_s_ += 1.0 / 60.0;
    app.before_frame(now_s_);
    ImGui_ImplOpenGL3_NewFrame();
    ImGui::NewFrame();
    app.draw_frame();
    ImGui::Render();
    const std::chrono::duration<double> laid_out = std::chrono::steady_clock::now() - begin;
    glViewport(0, 0, width_, height_);
    const ImVec4 ground = floats(app.ground());
    glClearColor(ground.x, ground.y, ground.z, 1.0F);
    glClear(GL_COLOR_BUFFER_BIT);
    ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
    return laid_out.count();
}

double Offscreen::draw_once(App& app, int width, int height)
{
    if (!size_to(width, height)) return 0.0;
    const double laid_out_s = frame(app);
    glFinish();
    return laid_out_s;
}

Result<std::vector<std::uint8_t>> Offscreen::draw(App& app, int width, int height)
{
    if (const auto sized = size_to(width, height); !sized) return failure(sized.error());
    // Layouts that look at the last frame settle within a few.
    for (int i = 0; i < 6; ++i) frame(app);
    const auto row = static_cast<std::size_t>(width) * 4;
    std::vector<std::uint8_t> rows(row * static_cast<std::size_t>(height));
    glPixelStorei(GL_PACK_ALIGNMENT, 1);
    glReadPixels(0, 0, width, height, GL_RGBA, GL_UNSIGNED_BYTE, rows.data());
    for (std::size_t y = 0; y < static_cast<std::size_t>(height) / 2; ++y)
        std::swap_ranges(rows.begin() + static_cast<std::ptrdiff_t>(y * row),
                         rows.begin() + static_cast<std::ptrdiff_t>((y + 1) * row),
                         rows.end() - static_cast<std::ptrdiff_t>((y + 1) * row));
    return rows;
}

} // namespace harpkeep::dashboard
