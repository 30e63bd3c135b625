// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"
#include "ui/dashboard/app.hpp"

#include <memory>

namespace harpkeep::dashboard {

/// A window that is never shown: an EGL surfaceless context and a framebuffer object. Needs no X server.
class Offscreen {
  public:
    [[nodiscard]] static Result<std::unique_ptr<Offscreen>> open(const FontFiles& fonts);
    ~Offscreen();
    Offscreen(const Offscreen&) = delete;
    Offscreen& operator=(const Offscreen&) = delete;

    /// Draws the app until nothing is left to load, and returns the rows of RGBA bytes, top row first.
    [[nodiscard]] Result<std::vector<std::uint8_t>> draw(App& app, int width, int height);

    /// Draws one frame without reading it back; waits until it is drawn. For measuring.
    /// Returns the seconds spent before the first pixel: model, layout and lists of shapes.
    double draw_once(App& app, int width, int height);

  private:
    Offscreen() = default;
    Result<void> size_to(int width, int height);
    double frame(App& app);

    struct Handles;
    std::unique_ptr<Handles> handles_;
    FontFiles fonts_;
    float loaded_scale_ = 0.0F;
    int width_ = 0;
    int height_ = 0;
    double now_s_ = 0.0;
};

} // namespace harpkeep::dashboard
