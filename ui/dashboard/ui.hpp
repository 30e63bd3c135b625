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

/// Measures text in units of design as the screen draws it.
[[nodiscard]] TextMeasure measure_for_screen(const Ui& ui);

} // namespace harpkeep::dashboard
