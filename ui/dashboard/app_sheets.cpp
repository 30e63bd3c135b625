// SPDX-License-Identifier: MIT
#include "ui/dashboard/app.hpp"
#include "ui/dashboard/guards.hpp"
#include "ui/dashboard/text.hpp"
#include "ui/dashboard/widgets/controls.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace harpkeep::dashboard {

namespace {

constexpr int years_offered = 6;

ui::ReportFormat format_of(int chosen)
{
    constexpr std::array formats{ui::ReportFormat::pdf, ui::ReportFormat::csv, ui::ReportFormat::json};
    return formats[static_cast<std::size_t>(chosen)];
}

/// The label of a field, and the field after it in the same line.
void label(const Ui& ui, const char* words_of_it)
{
    ImGui::AlignTextToFramePadding();
    words(ui, words_of_it);
    ImGui::SameLine();
}

} // namespace

void App::ask_sheet(const PrintSheet& wish)
{
    sheet_ = {.wish = wish, .format = sheet_.format, .serial = sheet_.serial + 1};
    if (const auto* room = model(Page::room))
        if (const auto* school = std::get_if<RoomModel>(room)) {
            sheet_.rooms = school->rooms;
            sheet_.this_year = school->school_year;
        }
    dialog_ = Dialog::sheet;
    dialog_opening_ = true;
}

void App::make_sheet()
{
    sheet_.trouble.clear();
    const ui::ReportOutput output{.format = format_of(sheet_.format), .paper = settings_.paper};
    sheet_.job = jobs_.start(
        text::job_sheet,
        [this, source = source_, wish = sheet_.wish, query = query_, output,
         serial = sheet_.serial](JobContext& context) -> Jobs::Finish {
            auto made = source->sheet(wish, query, context);
            return [this, output, serial, made = std::move(made)] {
                if (serial != sheet_.serial || dialog_ != Dialog::sheet) return; // no longer wanted
                sheet_.job = 0;
                if (!made) {
                    sheet_.trouble = made.error().message;
                    return;
                }
                ask_save(ui::suggested_file_name(*made, output.format),
                         [document = *made, output] { return ui::report_bytes(document, output); });
            };
        });
}

void App::draw_sheet_choices(const Ui& ui)
{
    auto& wish = sheet_.wish;
    if (wish.kind == ui::ReportKind::tuning) {
        paragraph(ui, wish.pedals ? fmt::format(text::sheet_around_format, pedal_names(*wish.pedals))
                                  : std::string{text::sheet_plain});
        label(ui, text::sheet_occasion);
        text_field(ui, "sheet.occasion", wish.occasion, room(ui), text::sheet_occasion_hint,
                   text::sheet_occasion_why);
    }
    if (wish.kind == ui::ReportKind::room) {
        std::vector<std::string> names{text::sheet_whole_school};
        names.insert(names.end(), sheet_.rooms.begin(), sheet_.rooms.end());
        label(ui, text::sheet_room);
        sheet_.room = drop_list(ui, "sheet.room", names, sheet_.room, 240.0F, text::sheet_room_why);
        wish.room = sheet_.room > 0 ? names[static_cast<std::size_t>(sheet_.room)] : std::string{};
        if (sheet_.this_year != 0) { // else the room is not read yet, and the year is that of today
            std::vector<std::string> years;
            for (int i = 0; i < years_offered; ++i)
                years.push_back(
                    fmt::format(text::sheet_year_format, sheet_.this_year - i, sheet_.this_year - i + 1));
            label(ui, text::sheet_year);
            sheet_.year = drop_list(ui, "sheet.year", years, sheet_.year, 160.0F, text::sheet_year_why);
            wish.year = sheet_.this_year - sheet_.year;
        }
    }
    subheading(ui, text::sheet_format);
    const std::vector<std::string> formats{text::sheet_formats.begin(), text::sheet_formats.end()};
    sheet_.format = choice(ui, "sheet.format", formats, sheet_.format, text::sheet_format_why);
    if (format_of(sheet_.format) != ui::ReportFormat::pdf) return;
    subheading(ui, text::sheet_paper);
    const std::vector<std::string> papers{text::sheet_papers.begin(), text::sheet_papers.end()};
    const auto paper = static_cast<report::Paper>(
        choice(ui, "sheet.paper", papers, static_cast<int>(settings_.paper), text::sheet_paper_why));
    if (paper == settings_.paper) return;
    auto settings = settings_;
    settings.paper = paper;
    change_settings(settings);
}

void App::draw_sheet_dialog(const Ui& ui)
{
    const auto kind = static_cast<std::size_t>(sheet_.wish.kind);
    const auto harp = std::find_if(harps_.begin(), harps_.end(),
                                   [&](const HarpChoice& one) { return one.key == query_.harp; });
    const bool of_harp = sheet_.wish.kind != ui::ReportKind::room && harp != harps_.end();
    heading(ui, of_harp ? fmt::format(text::sheet_whose_format, harp->name, text::sheet_titles[kind])
                        : std::string{text::sheet_titles[kind]});
    paragraph(ui, text::sheet_holds[kind], Tint::quiet_ink);
    const bool making = sheet_.job != 0;
    {
        const DisabledGuard disabled{making};
        draw_sheet_choices(ui);
    }
    if (!sheet_.trouble.empty()) paragraph(ui, sheet_.trouble, Tint::out);
    for (const auto& job : jobs_.running())
        if (job.id == sheet_.job)
            progress(ui, "sheet.progress", job.share,
                     fmt::format(text::sheet_making_format, 100.0 * job.share), 240.0F);
    {
        const DisabledGuard disabled{making};
        if (button(ui, "sheet.make", text::sheet_make, text::sheet_make_why, Weight::chief)) make_sheet();
    }
    ImGui::SameLine();
    if (button(ui, "sheet.cancel", text::cancel)) dialog_ = Dialog::none;
}

} // namespace harpkeep::dashboard
