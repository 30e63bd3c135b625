// SPDX-License-Identifier: MIT
#include "ui/dashboard/figures.hpp"
#include "ui/dashboard/guards.hpp"
#include "ui/dashboard/text.hpp"
#include "ui/dashboard/views/office_views.hpp"
#include "ui/dashboard/views/shared.hpp"
#include "ui/dashboard/widgets/controls.hpp"
#include "ui/dashboard/widgets/picture_view.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <utility>

namespace harpkeep::dashboard {

namespace {

using namespace std::chrono;

/// Entries of the calendar have a shape for each kind: visit a disc with two pins, check a dot, string change
/// an upright stroke, reminder a ring, loan a bar.
void add_diary_mark(Picture& picture, Point at, DiaryKind kind, bool due, const Palette& palette)
{
    const Colour colour = palette[due ? Tint::watch : Tint::ink];
    switch (kind) {
    case DiaryKind::visit:
        picture.shapes.push_back(DiscShape{at, 6.0F, palette[Tint::wood], false, 2.0F});
        picture.shapes.push_back(
            DiscShape{{at.x - 2.0F, at.y - 2.0F}, 1.6F, palette[Tint::wood], true, 1.0F});
        picture.shapes.push_back(
            DiscShape{{at.x + 2.0F, at.y + 2.0F}, 1.6F, palette[Tint::wood], true, 1.0F});
        break;
    case DiaryKind::check:
        picture.shapes.push_back(DiscShape{at, 4.0F, palette[Tint::fine], true, 1.0F});
        break;
    case DiaryKind::string_change:
        picture.line({at.x, at.y - 6.0F}, {at.x, at.y + 6.0F}, palette[Tint::string_c], 3.0F);
        break;
    case DiaryKind::reminder:
        picture.shapes.push_back(DiscShape{at, 4.5F, colour, false, 2.0F});
        break;
    case DiaryKind::loan:
        picture.line({at.x - 5.0F, at.y}, {at.x + 5.0F, at.y}, colour, 3.0F);
        break;
    }
}

void show_diary_mark(const Ui& ui, const DiaryEntry& entry)
{
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float line = ImGui::GetTextLineHeight();
    Picture picture;
    add_diary_mark(picture, {8.0F, 0.5F * line / ui.scale}, entry.kind, entry.due, *ui.palette);
    paint(ui, picture, at);
    ImGui::Dummy({ui.px(16.0F), line});
    ImGui::SameLine(0.0F, ui.px(4.0F));
}

void show_day(const Ui& ui, const VisitsModel& model, VisitsState& state, Day day, float width, float height)
{
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const std::string name = "visits.day." + day_text(day);
    if (ImGui::InvisibleButton(name.c_str(), {ui.px(width - 3.0F), ui.px(height - 3.0F)})) state.chosen = day;
    ui.registry->note(name, WidgetKind::item, "visits.days");
    const bool chosen = state.chosen == day, today = day == model.today;
    Picture cell{width - 3.0F, height - 3.0F, {}, {}};
    const bool hovered = ImGui::IsItemHovered();
    cell.box({0.0F, 0.0F}, {cell.width, cell.height},
             (*ui.palette)[chosen || hovered ? Tint::pressed : Tint::raised], 3.0F);
    const year_month_day date{day};
    cell.text({6.0F, 11.0F}, fmt::format("{}", static_cast<unsigned>(date.day())),
              ui[today ? Tint::wood : Tint::ink], today ? 15.0F : 13.0F, Across::left, today);
    if (today) cell.line({5.0F, 20.0F}, {22.0F, 20.0F}, ui[Tint::wood], 2.0F);
    std::vector<const DiaryEntry*> entries;
    for (const auto& entry : model.diary)
        if (entry.day == day) entries.push_back(&entry);
    constexpr float step = 17.0F;
    const auto room_for = static_cast<std::size_t>(std::max(1.0F, (cell.width - 6.0F) / step));
    const bool all = entries.size() <= room_for;
    float x = 12.0F;
    for (std::size_t i = 0; i < (all ? entries.size() : room_for - 1); ++i) {
        add_diary_mark(cell, {x, cell.height - 11.0F}, entries[i]->kind, entries[i]->due, *ui.palette);
        x += step;
    }
    if (!all)
        cell.text({x - 6.0F, cell.height - 11.0F}, fmt::format("+{}", entries.size() + 1 - room_for),
                  ui[Tint::quiet_ink], 12.0F);
    paint(ui, cell, at);
}

void show_calendar(const Ui& ui, const VisitsModel& model, VisitsState& state)
{
    const Card card{ui, "visits.calendar"};
    const year_month_day today{model.today};
    const year_month month = state.month.value_or(year_month{today.year(), today.month()});
    subheading(ui, fmt::format("{} {}", text::months[static_cast<unsigned>(month.month()) - 1],
                               static_cast<int>(month.year())));
    const float tools =
        small_button_width(ui, text::month_back) + small_button_width(ui, text::month_on) + ui.px(12.0F);
    ImGui::SameLine();
    const float free = ImGui::GetContentRegionAvail().x - tools;
    if (free >= 0.0F)
        ImGui::SetCursorPosX(ImGui::GetCursorPosX() + free);
    else
        ImGui::NewLine();
    if (small_button(ui, "visits.month_back", text::month_back, text::month_why))
        state.month = month - months{1};
    ImGui::SameLine();
    if (small_button(ui, "visits.month_on", text::month_on, text::month_why)) state.month = month + months{1};

    const float cell = card.inner_width() / 7.0F;
    const float tall = std::clamp(0.36F * cell, 44.0F, 72.0F);
    const ImVec2 origin = ImGui::GetCursorScreenPos();
    const float head = ImGui::GetTextLineHeight() + ui.px(6.0F);
    for (int i = 0; i < 7; ++i) {
        ImGui::SetCursorScreenPos({origin.x + ui.px(cell * static_cast<float>(i) + 5.0F), origin.y});
        words(ui, text::weekdays[static_cast<std::size_t>(i)], Tint::quiet_ink);
    }
    const Day first{month / std::chrono::day{1}};
    const auto lead = static_cast<int>(weekday{first}.iso_encoding()) - 1;
    const auto last = static_cast<unsigned>((month / std::chrono::last).day());
    for (int i = 0; i < static_cast<int>(last); ++i) {
        const int slot = lead + i;
        ImGui::SetCursorScreenPos({origin.x + ui.px(cell * static_cast<float>(slot % 7)),
                                   origin.y + head + ui.px(tall * static_cast<float>(slot / 7))});
        show_day(ui, model, state, first + days{i}, cell, tall);
    }
    const int rows = (lead + static_cast<int>(last) + 6) / 7;
    ImGui::SetCursorScreenPos(origin);
    ImGui::Dummy({1.0F, head + ui.px(tall * static_cast<float>(rows))});
}

void show_entry(const Ui& ui, const DiaryEntry& entry)
{
    show_diary_mark(ui, entry);
    const GroupGuard group;
    {
        const FontGuard bold{ui.fonts.bold};
        paragraph(ui, day_text(entry.day) + "  " + entry.title);
    }
    if (entry.detail.empty()) return;
    ImGui::SetCursorPosY(ImGui::GetCursorPosY() - ui.px(5.0F));
    paragraph(ui, entry.detail, Tint::quiet_ink);
}

void show_chosen_day(const Ui& ui, const VisitsModel& model, const VisitsState& state)
{
    if (!state.chosen) return;
    const Card card{ui, "visits.chosen_day"};
    subheading(ui, fmt::format("{} {}", text::on_this_day, day_text(*state.chosen)));
    for (const auto& entry : model.diary)
        if (entry.day == *state.chosen) show_entry(ui, entry);
}

void show_due(const Ui& ui, const VisitsModel& model)
{
    const Card card{ui, "visits.due"};
    subheading(ui, text::due_next);
    bool any = false;
    for (const auto& entry : model.diary)
        if (entry.due) {
            show_entry(ui, entry);
            any = true;
        }
    if (!any) paragraph(ui, text::nothing_due, Tint::quiet_ink);
}

void show_adding(const Ui& ui, const VisitsModel& model, VisitsState& state, Actions& actions)
{
    if (!state.adding) {
        if (button(ui, "visits.add", text::add_visit, text::add_visit_why)) {
            state.adding = true;
            state.day = day_text(model.today);
            state.trouble.clear();
        }
        return;
    }
    const Card card{ui, "visits.form", 0.0F, true};
    subheading(ui, text::visit_day);
    text_field(ui, "visits.form_day", state.day, 140.0F, text::day_hint, text::visit_day_why);
    subheading(ui, text::visit_who);
    text_field(ui, "visits.form_who", state.who, card.inner_width(), text::visiting_technician,
               text::visit_who_why);
    subheading(ui, text::visit_work);
    text_field(ui, "visits.form_work", state.work, card.inner_width(), text::visit_work_hint,
               text::visit_work_why);
    subheading(ui, text::visit_cost);
    text_field(ui, "visits.form_cost", state.cost, 140.0F, text::visit_cost_hint, text::visit_cost_why);
    if (!state.trouble.empty()) paragraph(ui, state.trouble, Tint::out);
    if (button(ui, "visits.form_save", text::save, {}, Weight::chief)) {
        const auto day = day_from_text(state.day);
        if (!day)
            state.trouble = text::day_wrong;
        else {
            actions.push_back(AddVisit{*day, state.who, state.work, state.cost});
            state.adding = false;
            state.work.clear();
            state.cost.clear();
            state.trouble.clear();
        }
    }
    ImGui::SameLine();
    if (button(ui, "visits.form_cancel", text::cancel)) state.adding = false;
}

/// Parts other than strings that are to be there at the next visit.
void show_wanted(const Ui& ui, const VisitsModel& model, VisitsState& state, Actions& actions)
{
    const Card card{ui, "visits.wanted"};
    subheading(ui, text::wanted_title);
    for (std::size_t i = 0; i < model.wanted.size(); ++i) {
        if (small_button(ui, fmt::format("visits.wanted_drop.{}", i), text::wanted_drop,
                         text::wanted_drop_why))
            actions.push_back(DropPart{model.wanted[i].key});
        ImGui::SameLine();
        paragraph(ui, model.wanted[i].words);
    }
    text_field(ui, "visits.wanted_part", state.wanted,
               card.inner_width() - button_width(ui, text::wanted_add) / ui.scale - 8.0F, text::wanted_hint,
               text::wanted_why);
    ImGui::SameLine();
    const DisabledGuard disabled{state.wanted.find_first_not_of(' ') == std::string::npos};
    if (button(ui, "visits.wanted_add", text::wanted_add, text::wanted_why))
        actions.push_back(WantPart{std::exchange(state.wanted, {})});
}

} // namespace

std::optional<Day> day_from_text(std::string_view text)
{
    if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
    const auto number = [&](std::size_t from, std::size_t count) -> std::optional<int> {
        int value = 0;
        const auto* end = text.data() + from + count;
        const auto [rest, error] = std::from_chars(text.data() + from, end, value);
        if (error != std::errc{} || rest != end || value < 0) return std::nullopt;
        return value;
    };
    const auto y = number(0, 4), m = number(5, 2), d = number(8, 2);
    if (!y || !m || !d) return std::nullopt;
    const year_month_day date{year{*y}, month{static_cast<unsigned>(*m)},
                              std::chrono::day{static_cast<unsigned>(*d)}};
    if (!date.ok()) return std::nullopt;
    return Day{date};
}

TableModel visits_table(const VisitsModel& model)
{
    TableModel table;
    constexpr std::array<float, 6> widths{92.0F, 128.0F, 170.0F, 92.0F, 124.0F, 90.0F};
    constexpr std::array<int, 6> leaves{0, 4, 0, 5, 6, 7};
    for (std::size_t c = 0; c < widths.size(); ++c)
        table.columns.push_back(
            {text::visit_columns[c], text::visit_columns_why[c], widths[c], c == 2, c == 3, leaves[c]});
    for (const auto& visit : model.visits) {
        const bool both = visit.steps_out_before && visit.steps_out_after;
        const auto by_day = static_cast<double>(visit.day.time_since_epoch().count());
        table.rows.push_back(
            {visit.key,
             {{day_text(visit.day), by_day},
              {visit.who, {}},
              {visit.work, {}},
              {visit.cost, {}},
              {both ? fmt::format(text::steps_out_format, *visit.steps_out_before, *visit.steps_out_after)
                    : "",
               both ? std::optional<double>{*visit.steps_out_after} : std::nullopt},
              {visit.result, {}}}});
    }
    return table;
}

void prepare(const VisitsModel& model, const Settings&, VisitsState& state)
{
    state.visits.show(visits_table(model));
}

Actions draw(const Ui& ui, const VisitsModel& model, VisitsState& state)
{
    Actions actions;
    const float whole = room(ui);
    const bool two_columns = whole >= 820.0F;
    const float side = std::clamp(0.38F * whole, 320.0F, 520.0F);
    {
        const Column left{ui, "visits.left", two_columns ? whole - side - 12.0F : 0.0F, two_columns};
        show_calendar(ui, model, state);
        show_chosen_day(ui, model, state);
        subheading(ui, text::visits_so_far);
        flow(ui, text::sheet_buttons[1]);
        {
            const DisabledGuard disabled{model.visits.empty()};
            sheet_button(ui, "visits.visit_sheet",
                         {.kind = ui::ReportKind::visit, .visit = state.visits.chosen_key}, actions);
        }
        const auto rows = static_cast<float>(model.visits.size());
        show_table(ui, "visits.rows", state.visits, std::clamp(80.0F + 28.0F * rows, 140.0F, 400.0F),
                   actions);
    }
    if (two_columns) ImGui::SameLine(0.0F, ui.px(12.0F));
    const Column right{ui, "visits.right", 0.0F, two_columns};
    show_adding(ui, model, state, actions);
    show_due(ui, model);
    show_wanted(ui, model, state, actions);
    if (model.preparation.empty()) return actions;
    const Card card{ui, "visits.preparation"};
    subheading(ui, text::before_visit);
    for (const auto& advice : model.preparation) show_advice(ui, advice);
    sheet_button(ui, "visits.sheet", {.kind = ui::ReportKind::technician}, actions);
    return actions;
}

} // namespace harpkeep::dashboard
