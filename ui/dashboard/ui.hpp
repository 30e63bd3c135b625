// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/fonts.hpp"
#include "ui/dashboard/models/settings_model.hpp"
#include "ui/dashboard/palette.hpp"
#include "ui/dashboard/registry.hpp"
#include "ui/dashboard/widgets/picture.hpp"

#include <imgui.h>

namespace harpkeep::dashboard {

/// What a view draws with: colours, faces, scale and the registry of widgets. Made anew for each frame.
struct Ui {
    const Palette* palette = nullptr;
    Fonts fonts;
    float scale = 1.0F; ///< pixels for each unit of design
    Settings settings;
    WidgetRegistry* registry = nullptr;

    [[nodiscard]] float px(float units) const { return units * scale; }
    [[nodiscard]] Colour operator[](Tint tint) const { return (*palette)[tint]; }
};

[[nodiscard]] constexpr ImU32 packed(Colour c)
{
    return IM_COL32(c.red, c.green, c.blue, c.alpha);
}

[[nodiscard]] inline ImVec4 floats(Colour c)
{
    return ImGui::ColorConvertU32ToFloat4(packed(c));
}

/// Sets every colour and size of Dear ImGui's style from the palette and the scale; starts from its defaults,
/// so that calling it again does not scale twice.
void apply_theme(const Palette& palette, float scale);

/// The same with each unit of design as many times larger: for a drawing that has more room than it needs.
[[nodiscard]] Ui zoomed(const Ui& ui, float zoom);

/// How much larger a drawing is to be drawn so that its letters, marks and strokes grow with it.
///
/// Given    width, height              room for it, units of design
///          usual_width, usual_height  room in which it is drawn at its own size
/// Returns  1, 4/3 or 5/3: whole thirds, for which letters of 12 units find a face of their own size
[[nodiscard]] float drawing_zoom(float width, float height, float usual_width, float usual_height);

/// How much larger than usual everything is drawn because the window is larger than most desks have.
///
/// Given    width, height  of the window in pixels; display_scale  1 for about 96 dots an inch
/// Returns  1 up to 2400 by 1500 at scale 1, then by quarters up to 2
[[nodiscard]] float window_growth(float width, float height, float display_scale);

/// Measures text in units of design as the screen draws it.
[[nodiscard]] TextMeasure measure_for_screen(const Ui& ui);

} // namespace harpkeep::dashboard
