// SPDX-License-Identifier: MIT
#include "ui/dashboard/ui.hpp"

#include <algorithm>
#include <cfloat>
#include <cmath>

namespace harpkeep::dashboard {

namespace {

void apply_sizes(ImGuiStyle& style)
{
    style.WindowPadding = {0.0F, 0.0F};
    style.FramePadding = {10.0F, 6.0F};
    style.ItemSpacing = {8.0F, 8.0F};
    style.ItemInnerSpacing = {6.0F, 6.0F};
    style.CellPadding = {8.0F, 5.0F};
    style.WindowRounding = 0.0F;
    style.ChildRounding = 6.0F;
    style.FrameRounding = 4.0F;
    style.PopupRounding = 6.0F;
    style.ScrollbarRounding = 4.0F;
    style.GrabRounding = 4.0F;
    style.ScrollbarSize = 13.0F;
    style.GrabMinSize = 16.0F;
    style.WindowBorderSize = 0.0F;
    style.ChildBorderSize = 1.0F;
    style.PopupBorderSize = 1.0F;
    style.FrameBorderSize = 1.0F;
    style.DisabledAlpha = 0.55F;
}

} // namespace

void apply_theme(const Palette& palette, float scale)
{
    ImGuiStyle style;
    apply_sizes(style);
    style.ScaleAllSizes(scale);
    style.WindowMinSize = {1.0F, 1.0F}; // scaled down, it would be 0, which aborts
    const auto set = [&](ImGuiCol index, Colour colour) { style.Colors[index] = floats(colour); };
    const Colour clear = with_alpha(palette[Tint::panel], 0);
    for (int i = 0; i < ImGuiCol_COUNT; ++i) set(i, palette[Tint::raised]);
    set(ImGuiCol_Text, palette[Tint::ink]);
    set(ImGuiCol_TextDisabled, palette[Tint::quiet_ink]);
    set(ImGuiCol_WindowBg, palette[Tint::paper]);
    set(ImGuiCol_ChildBg, clear);
    set(ImGuiCol_PopupBg, palette[Tint::panel]);
    set(ImGuiCol_Border, palette[Tint::line]);
    set(ImGuiCol_BorderShadow, clear);
    set(ImGuiCol_FrameBg, palette[Tint::panel]);
    set(ImGuiCol_FrameBgHovered, palette[Tint::raised]);
    set(ImGuiCol_FrameBgActive, palette[Tint::raised]);
    set(ImGuiCol_CheckMark, palette[Tint::wood]);
    set(ImGuiCol_SliderGrab, palette[Tint::wood]);
    set(ImGuiCol_SliderGrabActive, palette[Tint::wood]);
    set(ImGuiCol_Button, palette[Tint::raised]);
    set(ImGuiCol_ButtonHovered, palette[Tint::pressed]);
    set(ImGuiCol_ButtonActive, palette[Tint::pressed]);
    set(ImGuiCol_Header, palette[Tint::raised]);
    set(ImGuiCol_HeaderHovered, palette[Tint::raised]);
    set(ImGuiCol_HeaderActive, palette[Tint::pressed]);
    set(ImGuiCol_ScrollbarBg, clear);
    set(ImGuiCol_ScrollbarGrab, palette[Tint::line]);
    set(ImGuiCol_ScrollbarGrabHovered, palette[Tint::string_plain]);
    set(ImGuiCol_ScrollbarGrabActive, palette[Tint::wood]);
    set(ImGuiCol_TableHeaderBg, palette[Tint::raised]);
    set(ImGuiCol_TableBorderStrong, palette[Tint::line]);
    set(ImGuiCol_TableBorderLight, with_alpha(palette[Tint::line], 120));
    set(ImGuiCol_TableRowBg, clear);
    set(ImGuiCol_TableRowBgAlt, with_alpha(palette[Tint::raised], 90));
    set(ImGuiCol_TextSelectedBg, with_alpha(palette[Tint::wood], 90));
    set(ImGuiCol_NavHighlight, clear);                    // the ring is drawn by focus.cpp
    set(ImGuiCol_ModalWindowDimBg, Colour{0, 0, 0, 110}); // what lies behind goes back in either theme
    ImGui::GetStyle() = style;
}

Ui zoomed(const Ui& ui, float zoom)
{
    Ui out = ui;
    out.scale *= zoom;
    return out;
}

float drawing_zoom(float width, float height, float usual_width, float usual_height)
{
    constexpr float early = 0.08F; // a drawing a little too small for the next step may take it
    const float fits = std::min(width / usual_width, height / usual_height);
    return std::clamp(std::floor(3.0F * (fits + early)) / 3.0F, 1.0F, 5.0F / 3.0F);
}

float window_growth(float width, float height, float display_scale)
{
    // Whole at 1920 by 1200: about the largest window in which letters of 16 pixels are not lost.
    const float fits = std::min(width / 1920.0F, height / 1200.0F) / display_scale;
    return std::clamp(std::floor(4.0F * fits) / 4.0F, 1.0F, 2.0F);
}

TextMeasure measure_for_screen(const Ui& ui)
{
    const Fonts fonts = ui.fonts;
    const float scale = ui.scale;
    return [fonts, scale](std::string_view text, float size, bool bold) {
        const ImFont* font = bold                                         ? fonts.bold
                             : size * scale < 0.9F * fonts.body->FontSize ? fonts.small
                                                                          : fonts.body;
        return font->CalcTextSizeA(size * scale, FLT_MAX, 0.0F, text.data(), text.data() + text.size()).x /
               scale;
    };
}

} // namespace harpkeep::dashboard
