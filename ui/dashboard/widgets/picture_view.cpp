// SPDX-License-Identifier: MIT
#include "ui/dashboard/widgets/picture_view.hpp"

#include "ui/dashboard/text.hpp"
#include "ui/dashboard/widgets/controls.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep::dashboard {

namespace {

struct Painter {
    const Ui& ui;
    ImDrawList* list;
    ImVec2 origin;

    [[nodiscard]] ImVec2 at(Point p) const { return {origin.x + ui.px(p.x), origin.y + ui.px(p.y)}; }

    void dashes(const LineShape& s) const
    {
        const float on = ui.px(5.0F), off = ui.px(4.0F);
        for (std::size_t i = 1; i < s.points.size(); ++i) {
            const ImVec2 a = at(s.points[i - 1]), b = at(s.points[i]);
            const float length = std::hypot(b.x - a.x, b.y - a.y);
            for (float from = 0.0F; from < length; from += on + off) {
                const float to = std::min(from + on, length);
                list->AddLine({a.x + (b.x - a.x) * from / length, a.y + (b.y - a.y) * from / length},
                              {a.x + (b.x - a.x) * to / length, a.y + (b.y - a.y) * to / length},
                              packed(s.colour), ui.px(s.width));
            }
        }
    }
    void operator()(const LineShape& s) const
    {
        if (s.dashed) return dashes(s);
        if (s.points.size() == 2) {
            list->AddLine(at(s.points[0]), at(s.points[1]), packed(s.colour), ui.px(s.width));
            return;
        }
        for (const Point p : s.points) list->PathLineTo(at(p));
        list->PathStroke(packed(s.colour), s.closed ? ImDrawFlags_Closed : ImDrawFlags_None, ui.px(s.width));
    }
    void operator()(const AreaShape& s) const
    {
        for (const Point p : s.points) list->PathLineTo(at(p));
        // Neighbouring areas of a band would show seams where their smoothed edges meet.
        const auto flags = list->Flags;
        if (s.points.size() == 4 && s.points[0].x == s.points[3].x)
            list->Flags &= ~ImDrawListFlags_AntiAliasedFill;
        list->PathFillConvex(packed(s.colour));
        list->Flags = flags;
    }
    void operator()(const BoxShape& s) const
    {
        list->AddRectFilled(at(s.low), at(s.high), packed(s.colour), ui.px(s.rounding));
    }
    void operator()(const DiscShape& s) const
    {
        if (s.filled)
            list->AddCircleFilled(at(s.centre), ui.px(s.radius), packed(s.colour));
        else
            list->AddCircle(at(s.centre), ui.px(s.radius), packed(s.colour), 0, ui.px(s.width));
    }
    void operator()(const TextShape& s) const
    {
        ImFont* font = s.bold ? ui.fonts.bold : ui.fonts.body;
        const float size = ui.px(s.size);
        if (!s.bold && size < 0.9F * ui.fonts.body->FontSize) font = ui.fonts.small;
        if (s.bold && size > 1.6F * ui.fonts.heading->FontSize)
            font = ui.fonts.large;
        else if (s.bold && size > 1.15F * ui.fonts.body->FontSize)
            font = ui.fonts.heading;
        const float width = font->CalcTextSizeA(size, FLT_MAX, 0.0F, s.text.c_str()).x;
        const float shift = s.across == Across::left ? 0.0F : s.across == Across::centre ? 0.5F : 1.0F;
        const ImVec2 p = at(s.at);
        list->AddText(font, size, {std::round(p.x - shift * width), std::round(p.y - 0.5F * size)},
                      packed(s.colour), s.text.c_str());
    }
};

} // namespace

void paint(const Ui& ui, const Picture& picture, ImVec2 origin)
{
    const Painter painter{ui, ImGui::GetWindowDrawList(), origin};
    for (const auto& shape : picture.shapes) std::visit(painter, shape);
}

void show_picture(const Ui& ui, std::string_view name, const Picture& picture)
{
    const ImVec2 origin = ImGui::GetCursorScreenPos();
    const ImVec2 size{std::max(1.0F, ui.px(picture.width)), std::max(1.0F, ui.px(picture.height))};
    ImGui::Dummy(size);
    ui.registry->note(name, WidgetKind::item);
    if (!ImGui::IsItemVisible()) return;
    paint(ui, picture, origin);
    if (!ImGui::IsItemHovered()) return;
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    const HotSpot* nearest = nullptr;
    float best = 1e9F;
    for (const auto& spot : picture.hot_spots) {
        const float away = std::hypot((mouse.x - origin.x) / ui.scale - spot.centre.x,
                                      (mouse.y - origin.y) / ui.scale - spot.centre.y);
        if (away <= spot.reach && away < best) {
            nearest = &spot;
            best = away;
        }
    }
    if (nearest != nullptr) explain(ui, nearest->text);
}

void show_plot(const Ui& ui, std::string_view name, ShownPlot& plot, float width, float height,
               Actions& actions)
{
    const std::string base{name};
    const PlotModel& model = plot.model();
    const float begin = ImGui::GetCursorPosX();
    const float head = ImGui::GetCursorPosY();
    subheading(ui, model.title);
    const float export_width = small_button_width(ui, text::export_svg) +
                               small_button_width(ui, text::export_png) + ImGui::GetStyle().ItemSpacing.x;
    ImGui::SameLine();
    if (ImGui::GetContentRegionAvail().x < export_width) ImGui::NewLine();
    ImGui::SetCursorPosX(std::max(ImGui::GetCursorPosX(), begin + ui.px(width) - export_width));
    const auto wish = [&](const char* extension) {
        actions.push_back(
            ExportPicture{base + extension, [model](const Palette& palette, const TextMeasure& measure) {
                              Picture picture = plot_picture(model, 960.0F, 520.0F, palette, measure);
                              return picture;
                          }});
    };
    if (small_button(ui, base + ".export_svg", text::export_svg, text::export_svg_why)) wish(".svg");
    ImGui::SameLine();
    if (small_button(ui, base + ".export_png", text::export_png, text::export_png_why)) wish(".png");
    const float used = (ImGui::GetCursorPosY() - head) / ui.scale;
    const float tall = height - used;
    // Letters, marks and strokes grow with a large plot, up to the size of the text around it.
    const float zoom = std::min(drawing_zoom(width, tall, 680.0F, 340.0F), 4.0F / 3.0F);
    const Ui larger = zoomed(ui, zoom);
    show_picture(larger, name, plot.picture(larger, width / zoom, tall / zoom));
}

} // namespace harpkeep::dashboard
