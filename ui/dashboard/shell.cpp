// SPDX-License-Identifier: MIT
#include "ui/dashboard/shell.hpp"

#include "ui/dashboard/guards.hpp"
#include "ui/dashboard/text.hpp"
#include "ui/dashboard/widgets/controls.hpp"
#include "ui/dashboard/widgets/marks.hpp"
#include "ui/dashboard/widgets/picture_view.hpp"

#include <fmt/format.h>
#include <imgui_internal.h>

#include <algorithm>

namespace harpkeep::dashboard {

namespace {

constexpr float wide_rail = 196.0F;
constexpr float narrow_rail = 52.0F;

/// A disc with its two pins on the string; turned by an eighth when it grips.
Picture disc_picture(bool grips, bool hovered, float height, const Palette& palette)
{
    Picture picture{28.0F, height, {}, {}};
    const Point centre{14.0F, 0.5F * height};
    const float pin = 4.6F;
    picture.shapes.push_back(DiscShape{centre, 9.0F,
                                       palette[grips     ? Tint::wood
                                               : hovered ? Tint::pressed
                                                         : Tint::raised],
                                       true, 1.0F});
    picture.shapes.push_back(
        DiscShape{centre, 9.0F, palette[grips ? Tint::wood : Tint::string_plain], false, 1.5F});
    const float dx = grips ? 0.62F * pin : pin, dy = grips ? 0.78F * pin : 0.0F;
    const Colour pins = palette[grips ? Tint::on_wood : Tint::quiet_ink];
    picture.shapes.push_back(DiscShape{{centre.x - dx, centre.y - dy}, 2.1F, pins, true, 1.0F});
    picture.shapes.push_back(DiscShape{{centre.x + dx, centre.y + dy}, 2.1F, pins, true, 1.0F});
    return picture;
}

/// A harp with its strings, and the wedge of a list that folds out.
Picture small_harp(const Palette& palette)
{
    Picture picture{32.0F, 32.0F, {}, {}};
    const Colour wood = palette[Tint::wood], string = palette[Tint::string_plain];
    constexpr std::array<Point, 4> neck{{{6.0F, 4.0F}, {13.0F, 9.0F}, {20.0F, 9.5F}, {26.0F, 7.0F}}};
    for (const auto& [x, top] :
         {std::pair{10.0F, 8.0F}, std::pair{14.0F, 9.5F}, std::pair{18.0F, 9.5F}, std::pair{22.0F, 8.5F}})
        picture.line({x, top}, {x, 27.0F - 0.9F * (x - 6.0F)}, x == 14.0F ? palette[Tint::string_c] : string,
                     1.5F);
    picture.shapes.push_back(LineShape{{neck.begin(), neck.end()}, wood, 3.0F, false, false});
    picture.line({6.0F, 3.0F}, {6.0F, 28.0F}, wood, 3.0F);
    picture.line({5.0F, 27.5F}, {26.0F, 8.0F}, wood, 2.0F);
    picture.shapes.push_back(AreaShape{{{20.0F, 23.0F}, {29.0F, 23.0F}, {24.5F, 28.0F}}, palette[Tint::ink]});
    return picture;
}

bool page_item(const Ui& ui, Page page, bool current, bool narrow, float height)
{
    const auto index = static_cast<std::size_t>(page);
    const std::string name = fmt::format("rail.{}", index);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float width = ImGui::GetContentRegionAvail().x;
    const bool pressed = ImGui::InvisibleButton(name.c_str(), {std::max(1.0F, width), ui.px(height)});
    ui.registry->note(name, WidgetKind::button, "rail.pages");
    const bool hovered = ImGui::IsItemHovered();
    auto* list = ImGui::GetWindowDrawList();
    const float string_x = at.x + ui.px(24.0F);
    list->AddLine({string_x, at.y}, {string_x, at.y + ui.px(height)}, packed(ui[Tint::string_plain]),
                  ui.px(1.5F));
    paint(ui, disc_picture(current, hovered, height, *ui.palette), {at.x + ui.px(10.0F), at.y});
    explain_last(ui, narrow ? fmt::format("{}: {}", text::page_names[index], text::page_why[index])
                            : std::string{text::page_why[index]});
    if (narrow) return pressed;
    const ImFont* font = current ? ui.fonts.bold : ui.fonts.body;
    list->AddText(font, font->FontSize, {at.x + ui.px(46.0F), at.y + 0.5F * (ui.px(height) - font->FontSize)},
                  packed(ui[Tint::ink]), text::page_names[index]);
    return pressed;
}

void group_label(const Ui& ui, const char* label, bool narrow)
{
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float height = narrow ? ui.px(8.0F) : ImGui::GetTextLineHeight() + ui.px(10.0F);
    ImGui::GetWindowDrawList()->AddLine({at.x + ui.px(24.0F), at.y}, {at.x + ui.px(24.0F), at.y + height},
                                        packed(ui[Tint::string_plain]), ui.px(1.5F));
    if (!narrow)
        ImGui::GetWindowDrawList()->AddText({at.x + ui.px(46.0F), at.y + ui.px(6.0F)},
                                            packed(ui[Tint::quiet_ink]), label);
    ImGui::Dummy({1.0F, height});
}

const HarpHeading* heading_of(const PageModel& model)
{
    return std::visit(
        [](const auto& page) -> const HarpHeading* {
            if constexpr (requires { page.harp; })
                return &page.harp;
            else
                return nullptr;
        },
        model);
}

void show_jobs(const Ui& ui, const std::vector<Jobs::Running>& jobs, FootWish& wish)
{
    for (const auto& job : jobs) {
        if (job.title.empty()) continue;
        ImGui::AlignTextToFramePadding();
        words(ui, fmt::format("{}  {:.0f} %", job.title, 100.0 * job.share));
        ImGui::SameLine();
        const ImVec2 at = ImGui::GetCursorScreenPos();
        ImGui::SetCursorScreenPos({at.x, at.y + ui.px(9.0F)});
        progress(ui, fmt::format("foot.job.{}", job.id), job.share, {}, 120.0F);
        ImGui::SameLine();
        ImGui::SetCursorScreenPos({at.x + ui.px(128.0F), at.y});
        if (button(ui, fmt::format("foot.cancel.{}", job.id), text::cancel, text::job_cancel_why))
            wish.cancel_job = job.id;
        ImGui::SameLine(0.0F, ui.px(24.0F));
    }
}

/// Which harp the pages speak of; folded into a small harp where the rail is narrow.
void choose_harp(const Ui& ui, const RailModel& model, bool narrow, Actions& actions)
{
    std::vector<std::string> names;
    int chosen = -1;
    for (std::size_t i = 0; i < model.harps.size(); ++i) {
        names.push_back(model.harps[i].name);
        if (model.harps[i].key == model.harp) chosen = static_cast<int>(i);
    }
    if (names.empty()) {
        if (narrow) return;
        const FontGuard font{ui.fonts.heading};
        words(ui, text::program, Tint::wood);
        return;
    }
    const FontGuard font{ui.fonts.bold};
    int wish = chosen;
    if (narrow) {
        const auto index = static_cast<std::size_t>(std::max(chosen, 0));
        wish = folded_list(ui, "rail.harp", names, chosen, small_harp(*ui.palette),
                           fmt::format("{}: {}", names[index], text::choose_harp_why));
    } else
        wish = drop_list(ui, "rail.harp", names, chosen, ImGui::GetContentRegionAvail().x / ui.scale - 10.0F,
                         text::choose_harp_why);
    if (wish != chosen) actions.push_back(ChooseHarp{model.harps[static_cast<std::size_t>(wish)].key});
}

} // namespace

float rail_width(const Ui& ui, float window_width_units)
{
    // Units shrink when letters grow: a rail of words needs the room of five of them.
    (void)ui;
    return window_width_units >= 820.0F ? wide_rail : narrow_rail;
}

Actions draw_rail(const Ui& ui, const RailModel& model, bool narrow)
{
    Actions actions;
    const float pad = ui.px(10.0F);
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2{ui.px(8.0F), 0.0F});
    ImGui::SetCursorPos({pad, ui.px(narrow ? 8.0F : 12.0F)});
    choose_harp(ui, model, narrow, actions);
    ImGui::SetCursorPos({0.0F, ui.px(narrow ? 46.0F : 54.0F)});
    // Eleven pages must fit the lowest window: rows give way before they scroll.
    const float free = ImGui::GetContentRegionAvail().y / ui.scale - (narrow ? 20.0F : 110.0F);
    const float row = std::clamp(free / 11.0F, 18.5F, 36.0F);
    for (const Page page : all_pages) {
        if (page == Page::today) group_label(ui, text::group_harp, narrow);
        if (page == Page::climate) group_label(ui, text::group_school, narrow);
        if (page_item(ui, page, page == model.page, narrow, row)) actions.push_back(GoTo{page});
    }
    ImGui::PopStyleVar();
    if (!narrow) {
        ImGui::SetCursorPos({pad, std::max(ImGui::GetCursorPosY() + ui.px(8.0F),
                                           ImGui::GetWindowHeight() - ui.px(model.example ? 92.0F : 46.0F))});
        paragraph(ui, model.ledger, Tint::quiet_ink);
        if (model.example && small_button(ui, "rail.back_to_own", text::back_to_own, text::back_to_own_why))
            actions.push_back(BackToOwnLedger{});
    }
    return actions;
}

void draw_page_head(const Ui& ui, Page page, const PageModel* model)
{
    const HarpHeading* harp = model != nullptr ? heading_of(*model) : nullptr;
    const bool named = harp != nullptr && !harp->name.empty() && page != Page::settings;
    const auto index = static_cast<std::size_t>(page);
    const auto title = [&](const char* of_page) {
        return named ? fmt::format("{}  ·  {}", harp->name, of_page) : std::string{of_page};
    };
    const auto fits = [&](const std::string& words) {
        const FontGuard font{ui.fonts.heading};
        return ImGui::CalcTextSize(words.c_str()).x <= ImGui::GetContentRegionAvail().x;
    };
    // Where the whole title finds no room, the page is called as in the rail.
    const std::string whole = title(text::page_titles[index]), brief = title(text::page_names[index]);
    heading(ui, fits(whole) ? whole : fits(brief) ? brief : std::string{text::page_names[index]});
    if (!named) return;
    const std::string detail = fmt::format("{}, {}", harp->description, harp->whereabouts);
    ImGui::SameLine(0.0F, ui.px(14.0F));
    if (ImGui::GetContentRegionAvail().x < ImGui::CalcTextSize(detail.c_str()).x) {
        ImGui::NewLine();
        return;
    }
    ImGui::SetCursorPosY(ImGui::GetCursorPosY() + ui.fonts.heading->Ascent - ui.fonts.body->Ascent);
    words(ui, detail, Tint::quiet_ink);
}

namespace {

constexpr float foot_left = 12.0F;
constexpr float message_mark = 22.0F;

float tools_width(const Ui& ui)
{
    return button_width(ui, text::all_messages) + button_width(ui, text::help) + ui.px(24.0F);
}

float message_buttons_width(const Ui& ui, const Message& message)
{
    return button_width(ui, text::put_away) + (message.undoable ? button_width(ui, text::undo) : 0.0F) +
           ui.px(32.0F);
}

/// The message itself, cut where its room in pixels ends.
void show_message(const Ui& ui, const Message& message, float pixels)
{
    const bool trouble = message.kind == MessageKind::trouble;
    // Trouble has its wedge, a thing done its dot; the words say the rest.
    const ImVec2 at = ImGui::GetCursorScreenPos();
    Picture mark;
    add_mark(mark, {8.0F, 0.5F * ImGui::GetFrameHeight() / ui.scale}, 6.0F,
             trouble ? State::out : State::fine, Lean::wide, *ui.palette);
    paint(ui, mark, at);
    ImGui::SetCursorScreenPos({at.x + ui.px(message_mark), at.y + ImGui::GetStyle().FramePadding.y});
    const float whole = ImGui::CalcTextSize(message.text.c_str()).x;
    if (whole <= pixels)
        words(ui, message.text);
    else
        cut_words(ui, message.text, pixels);
    explain_last(ui, message.text);
    ImGui::SetCursorScreenPos({at.x + ui.px(message_mark + 12.0F) + std::min(whole, pixels), at.y});
}

void show_message_buttons(const Ui& ui, const Message& message, FootWish& wish)
{
    if (message.undoable) {
        if (button(ui, "foot.undo", text::undo, text::undo_why)) wish.undo = true;
        ImGui::SameLine();
    }
    if (button(ui, "foot.put_away", text::put_away, text::put_away_why)) wish.put_away = true;
}

} // namespace

int foot_lines(const Ui& ui, const Message* message, float width)
{
    if (message == nullptr) return 1;
    const float wanted = ui.px(foot_left + message_mark) + ImGui::CalcTextSize(message->text.c_str()).x +
                         message_buttons_width(ui, *message) + tools_width(ui);
    return wanted <= width ? 1 : 2;
}

float foot_height(const Ui& ui, int lines)
{
    return static_cast<float>(lines) * (ui.fonts.body->FontSize + ui.px(12.0F)) + ui.px(12.0F) +
           static_cast<float>(lines - 1) * ui.px(4.0F);
}

FootWish draw_foot(const Ui& ui, const Message* message, const std::vector<Jobs::Running>& jobs, int lines)
{
    FootWish wish;
    ImGui::SetCursorPos({ui.px(foot_left), ui.px(6.0F)});
    show_jobs(ui, jobs, wish);
    const float tools = tools_width(ui);
    const float second = foot_height(ui, lines) - foot_height(ui, 1) + ui.px(6.0F);
    if (message != nullptr) {
        const float taken = lines > 1 ? ui.px(8.0F) : tools + message_buttons_width(ui, *message);
        show_message(ui, *message,
                     std::max(ImGui::GetContentRegionAvail().x - ui.px(message_mark) - taken, ui.px(60.0F)));
        if (lines > 1) ImGui::SetCursorPos({ui.px(foot_left), second});
        show_message_buttons(ui, *message, wish);
    }
    ImGui::SetCursorPos({ImGui::GetWindowWidth() - tools, second});
    if (button(ui, "foot.messages", text::all_messages, text::all_messages_why)) wish.show_all = true;
    ImGui::SameLine();
    if (button(ui, "foot.keys", text::help, text::help_why)) wish.show_keys = true;
    return wish;
}

} // namespace harpkeep::dashboard
