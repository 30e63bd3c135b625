// SPDX-License-Identifier: MIT
#include "ui/dashboard/widgets/controls.hpp"

#include "ui/dashboard/guards.hpp"
#include "ui/dashboard/widgets/line_breaks.hpp"
#include "ui/dashboard/widgets/picture_view.hpp"

#include <fmt/format.h>
#include <imgui_internal.h>
#include <imgui_stdlib.h>

#include <algorithm>
#include <cmath>

namespace harpkeep::dashboard {

namespace {

class Colours {
  public:
    Colours() = default;
    ~Colours() { ImGui::PopStyleColor(count_); }
    Colours(const Colours&) = delete;
    Colours& operator=(const Colours&) = delete;
    void set(ImGuiCol index, Colour colour)
    {
        ImGui::PushStyleColor(index, packed(colour));
        ++count_;
    }

  private:
    int count_ = 0;
};

std::string labelled(std::string_view label, std::string_view name)
{
    return fmt::format("{}###{}", label, name);
}

/// One line where it fits, else several.
void title_words(const Ui& ui, std::string_view text)
{
    if (ImGui::CalcTextSize(text.data(), text.data() + text.size()).x <= ImGui::GetContentRegionAvail().x)
        words(ui, text);
    else
        paragraph(ui, text);
}

constexpr float card_padding = 14.0F;
constexpr float widest_line_ems = 50.0F; // about 95 letters

float within_room(const Ui& ui, float width)
{
    constexpr float least = 48.0F;
    return std::max(std::min(width, room(ui)), least);
}

/// What an open list offers; ends it. Returns the new choice.
int offered(const Ui& ui, std::string_view name, std::span<const std::string> labels, int chosen)
{
    int out = chosen;
    for (int i = 0; i < static_cast<int>(labels.size()); ++i) {
        const std::string item = fmt::format("{}.{}", name, i);
        if (ImGui::Selectable(labelled(labels[static_cast<std::size_t>(i)], item).c_str(), i == chosen))
            out = i;
        if (i == chosen && ImGui::IsWindowAppearing()) ImGui::SetItemDefaultFocus();
        ui.registry->note(item, WidgetKind::item);
    }
    ImGui::EndCombo();
    return out;
}

} // namespace

void heading(const Ui& ui, std::string_view text)
{
    const FontGuard font{ui.fonts.heading};
    title_words(ui, text);
}

void subheading(const Ui& ui, std::string_view text)
{
    const FontGuard font{ui.fonts.bold};
    ImGui::AlignTextToFramePadding();
    title_words(ui, text);
}

void words(const Ui& ui, std::string_view text, Tint tint)
{
    Colours colours;
    colours.set(ImGuiCol_Text, ui[tint]);
    ImGui::TextUnformatted(text.data(), text.data() + text.size());
    ui.registry->note_overrun(text);
}

void cut_words(const Ui& ui, std::string_view text, float pixels, Tint tint)
{
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const ImVec2 size = ImGui::CalcTextSize(text.data(), text.data() + text.size());
    const float right = at.x + std::max(pixels, 1.0F);
    {
        Colours colours;
        colours.set(ImGuiCol_Text, ui[tint]);
        ImGui::RenderTextEllipsis(ImGui::GetWindowDrawList(), at, {right, at.y + size.y}, right, right,
                                  text.data(), text.data() + text.size(), &size);
    }
    ImGui::Dummy({std::max(pixels, 1.0F), size.y});
}

void paragraph(const Ui& ui, std::string_view text, Tint tint, float width)
{
    // Longer lines are hard to come back from.
    if (width <= 0.0F) width = std::min(room(ui), widest_line_ems * ImGui::GetFontSize() / ui.scale);
    const float line = ui.px(std::max(width, 40.0F));
    const WrapGuard wrap{ImGui::GetCursorPosX() + line};
    words(ui, broken_at_spaces(text, line), tint);
}

void explain(const Ui& ui, std::string_view text)
{
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2{ui.px(10.0F), ui.px(8.0F)});
    ImGui::BeginTooltip();
    {
        const float line = ui.px(360.0F);
        const WrapGuard wrap{line};
        words(ui, broken_at_spaces(text, line - ImGui::GetCursorPosX()));
    }
    ImGui::EndTooltip();
    ImGui::PopStyleVar();
}

void explain_last(const Ui& ui, std::string_view text)
{
    if (text.empty()) return;
    ui.registry->note_explanation();
    const ImGuiContext& g = *ImGui::GetCurrentContext();
    const bool by_keys = g.NavId != 0 && g.NavId == g.LastItemData.ID && !g.NavDisableHighlight;
    if (ImGui::IsItemHovered(ImGuiHoveredFlags_AllowWhenDisabled) && !by_keys) {
        if (g.HoveredIdTimer > 0.35F || g.HoveredId == 0) explain(ui, text);
        return;
    }
    if (!by_keys || g.ActiveId != 0 || g.OpenPopupStack.Size > 1) return;
    ImGui::SetNextWindowPos({g.LastItemData.Rect.Min.x, g.LastItemData.Rect.Max.y + ui.px(6.0F)});
    explain(ui, text);
}

bool button(const Ui& ui, std::string_view name, std::string_view label, std::string_view why, Weight weight)
{
    bool pressed = false;
    {
        Colours colours;
        if (weight == Weight::chief) {
            colours.set(ImGuiCol_Button, ui[Tint::wood]);
            colours.set(ImGuiCol_ButtonHovered, ui[Tint::wood]);
            colours.set(ImGuiCol_ButtonActive, ui[Tint::wood]);
            colours.set(ImGuiCol_Text, ui[Tint::on_wood]);
            colours.set(ImGuiCol_Border, ui[Tint::wood]);
        }
        pressed = ImGui::Button(labelled(label, name).c_str());
    }
    ui.registry->note(name, WidgetKind::button);
    ui.registry->note_overrun(label);
    explain_last(ui, why);
    return pressed;
}

bool small_button(const Ui& ui, std::string_view name, std::string_view label, std::string_view why)
{
    ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, ImVec2{ui.px(7.0F), ui.px(3.0F)});
    const bool pressed = ImGui::Button(labelled(label, name).c_str());
    ImGui::PopStyleVar();
    ui.registry->note(name, WidgetKind::button);
    ui.registry->note_overrun(label);
    explain_last(ui, why);
    return pressed;
}

float small_button_width(const Ui& ui, std::string_view label)
{
    return ImGui::CalcTextSize(label.data(), label.data() + label.size()).x + ui.px(14.0F);
}

float button_width(const Ui& ui, std::string_view label)
{
    return ImGui::CalcTextSize(label.data(), label.data() + label.size()).x + ui.px(20.0F);
}

bool toggle(const Ui& ui, std::string_view name, std::string_view label, bool& value, std::string_view why)
{
    const bool changed = ImGui::Checkbox(labelled(label, name).c_str(), &value);
    ui.registry->note(name, WidgetKind::toggle);
    ui.registry->note_overrun(label);
    explain_last(ui, why);
    return changed;
}

int choice(const Ui& ui, std::string_view name, std::span<const std::string> labels, int chosen,
           std::string_view why)
{
    const float begin = ImGui::GetCursorPosX();
    const float right = begin + ImGui::GetContentRegionAvail().x;
    int out = chosen;
    for (int i = 0; i < static_cast<int>(labels.size()); ++i) {
        const auto& label = labels[static_cast<std::size_t>(i)];
        const float width = button_width(ui, label) + ui.px(6.0F);
        if (i > 0) {
            ImGui::SameLine(0.0F, ui.px(4.0F));
            if (ImGui::GetCursorPosX() + width > right) {
                ImGui::NewLine();
                ImGui::SetCursorPosX(begin);
            }
        }
        const std::string item = fmt::format("{}.{}", name, i);
        if (button(ui, item, label, why, i == chosen ? Weight::chief : Weight::plain)) out = i;
    }
    return out;
}

int drop_list(const Ui& ui, std::string_view name, std::span<const std::string> labels, int chosen,
              float width, std::string_view why)
{
    const bool known = chosen >= 0 && chosen < static_cast<int>(labels.size());
    ImGui::SetNextItemWidth(ui.px(within_room(ui, width)));
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2{ui.px(8.0F), ui.px(8.0F)});
    const bool open = ImGui::BeginCombo(labelled("", name).c_str(),
                                        known ? labels[static_cast<std::size_t>(chosen)].c_str() : "",
                                        ImGuiComboFlags_HeightLarge);
    if (!open) {
        ui.registry->note(name, WidgetKind::choice);
        explain_last(ui, why);
    }
    const int out = open ? offered(ui, name, labels, chosen) : chosen;
    ImGui::PopStyleVar();
    return out;
}

int folded_list(const Ui& ui, std::string_view name, std::span<const std::string> labels, int chosen,
                const Picture& picture, std::string_view why)
{
    const float side = ui.px(32.0F);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    ImGui::PushStyleVar(ImGuiStyleVar_FramePadding,
                        ImVec2{ui.px(4.0F), 0.5F * (side - ImGui::GetFontSize())});
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2{ui.px(8.0F), ui.px(8.0F)});
    ImGui::SetNextItemWidth(side);
    const bool open = ImGui::BeginCombo(labelled("", name).c_str(), "",
                                        ImGuiComboFlags_HeightLarge | ImGuiComboFlags_NoArrowButton);
    if (!open) {
        ui.registry->note(name, WidgetKind::choice);
        paint(ui, picture, at);
        explain_last(ui, why);
    }
    ImGui::PopStyleVar(2);
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2{ui.px(8.0F), ui.px(8.0F)});
    const int out = open ? offered(ui, name, labels, chosen) : chosen;
    ImGui::PopStyleVar();
    return out;
}

bool text_field(const Ui& ui, std::string_view name, std::string& value, float width, std::string_view hint,
                std::string_view why)
{
    ImGui::SetNextItemWidth(ui.px(within_room(ui, width)));
    const bool changed =
        ImGui::InputTextWithHint(labelled("", name).c_str(), std::string{hint}.c_str(), &value);
    ui.registry->note(name, WidgetKind::text);
    ui.registry->note_overrun(name);
    explain_last(ui, why);
    return changed;
}

bool number_field(const Ui& ui, std::string_view name, std::string_view label, double& value, double step,
                  double low, double high, int decimals, std::string_view why)
{
    const double before = value;
    const std::string base{name};
    const GroupGuard group;
    if (!label.empty()) {
        ImGui::AlignTextToFramePadding();
        words(ui, label);
        ImGui::SameLine();
    }
    if (button(ui, base + ".less", "\u2212", why)) value -= step;
    ImGui::SameLine(0.0F, ui.px(4.0F));
    const std::string shown =
        fmt::format("{}{:.{}f}", value < 0.0 ? "\u2212" : "", std::abs(value), decimals);
    const float cell = std::max(ImGui::CalcTextSize("00000.00").x, ImGui::CalcTextSize(shown.c_str()).x);
    const float left = ImGui::GetCursorPosX();
    ImGui::SetCursorPosX(left + 0.5F * (cell - ImGui::CalcTextSize(shown.c_str()).x));
    ImGui::AlignTextToFramePadding();
    words(ui, shown);
    ImGui::SameLine();
    ImGui::SetCursorPosX(left + cell + ui.px(4.0F));
    if (button(ui, base + ".more", "+", why)) value += step;
    value = std::clamp(value, low, high);
    return value != before;
}

Card::Card(const Ui& ui, std::string_view name, float width, bool accent)
    : ui_(ui), origin_(ImGui::GetCursorScreenPos()), accent_(accent), name_(name)
{
    auto* window = ImGui::GetCurrentWindow();
    width_pixels_ = width > 0.0F ? ui.px(width) : ImGui::GetContentRegionAvail().x;
    width_pixels_ = std::max(width_pixels_, ui.px(4.0F * card_padding));
    inner_ = width_pixels_ / ui.scale - 2.0F * card_padding;
    splitter_.Split(window->DrawList, 2);
    splitter_.SetCurrentChannel(window->DrawList, 1);
    ImGui::SetCursorScreenPos({origin_.x + ui.px(card_padding), origin_.y + ui.px(card_padding)});
    // The room that what follows sees ends at the card's inner edge.
    outer_content_right_ = window->ContentRegionRect.Max.x;
    outer_work_right_ = window->WorkRect.Max.x;
    window->ContentRegionRect.Max.x = window->WorkRect.Max.x =
        origin_.x + width_pixels_ - ui.px(card_padding);
    ImGui::BeginGroup();
}

Card::~Card()
{
    auto* window = ImGui::GetCurrentWindow();
    ImGui::EndGroup();
    window->ContentRegionRect.Max.x = outer_content_right_;
    window->WorkRect.Max.x = outer_work_right_;
    const float bottom = ImGui::GetItemRectMax().y + ui_.px(card_padding);
    splitter_.SetCurrentChannel(window->DrawList, 0);
    const ImVec2 end{origin_.x + width_pixels_, bottom};
    window->DrawList->AddRectFilled(origin_, end, packed(ui_[Tint::panel]), ui_.px(6.0F));
    window->DrawList->AddRect(origin_, end, packed(ui_[accent_ ? Tint::wood : Tint::line]), ui_.px(6.0F), 0,
                              ui_.px(accent_ ? 2.0F : 1.0F));
    splitter_.Merge(window->DrawList);
    ImGui::SetCursorScreenPos(origin_);
    ImGui::Dummy({width_pixels_, bottom - origin_.y});
}

void progress(const Ui& ui, std::string_view name, double share, std::string_view label, float width)
{
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float height = ui.px(10.0F);
    const float full = std::max(ui.px(width), ui.px(20.0F));
    ImGui::Dummy({full, height});
    ui.registry->note(name, WidgetKind::item);
    auto* list = ImGui::GetWindowDrawList();
    list->AddRectFilled(at, {at.x + full, at.y + height}, packed(ui[Tint::raised]), ui.px(5.0F));
    const auto done = static_cast<float>(std::clamp(share, 0.0, 1.0)) * full;
    if (done > ui.px(2.0F))
        list->AddRectFilled(at, {at.x + done, at.y + height}, packed(ui[Tint::wood]), ui.px(5.0F));
    if (!label.empty()) words(ui, label, Tint::quiet_ink);
}

float room(const Ui& ui)
{
    return ImGui::GetContentRegionAvail().x / ui.scale;
}

} // namespace harpkeep::dashboard
