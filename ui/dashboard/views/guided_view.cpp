// SPDX-License-Identifier: MIT
#include "ui/dashboard/figures.hpp"
#include "ui/dashboard/guards.hpp"
#include "ui/dashboard/text.hpp"
#include "ui/dashboard/views/live_views.hpp"
#include "ui/dashboard/views/shared.hpp"
#include "ui/dashboard/widgets/accidentals.hpp"
#include "ui/dashboard/widgets/controls.hpp"
#include "ui/dashboard/widgets/pedal_board.hpp"
#include "ui/dashboard/widgets/picture_view.hpp"
#include "units/format.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cfloat>

namespace harpkeep::dashboard {

namespace {

std::size_t slot_of(Position position)
{
    return static_cast<std::size_t>(semitones_above_open(position));
}

/// The one used last when it is there, else the first that is fit.
int remembered_device(const Ui& ui, const GuidedModel& model)
{
    for (std::size_t i = 0; i < model.devices.size(); ++i)
        if (model.devices[i].name == ui.settings.input_device) return static_cast<int>(i);
    return std::max(model.device, 0);
}

void show_set_up(const Ui& ui, const GuidedModel& model, GuidedState& state, Actions& actions)
{
    const float width = std::min(room(ui), 760.0F);
    {
        const Card card{ui, "guided.way_card", width};
        subheading(ui, text::choose_way);
        const std::vector<std::string> labels{text::ways.begin(), text::ways.end()};
        state.way = choice(ui, "guided.way", labels, state.way);
        paragraph(ui, text::ways_why[static_cast<std::size_t>(state.way)], Tint::quiet_ink);
    }
    {
        const Card card{ui, "guided.device_card", width};
        subheading(ui, text::choose_device);
        if (model.devices.empty())
            paragraph(ui, model.device_trouble.empty() ? text::no_device : model.device_trouble.c_str(),
                      Tint::out);
        else {
            std::vector<std::string> labels;
            for (const auto& device : model.devices)
                labels.push_back(device.fit_for_measurement
                                     ? device.name
                                     : fmt::format(text::device_unfit_format, device.name));
            if (state.device < 0 || state.device >= static_cast<int>(labels.size()))
                state.device = remembered_device(ui, model);
            state.device = drop_list(ui, "guided.device", labels, state.device, card.inner_width() * 0.8F,
                                     text::device_why);
            paragraph(ui, model.devices[static_cast<std::size_t>(state.device)].advice, Tint::quiet_ink);
        }
        subheading(ui, text::the_room);
        paragraph(ui, text::room_before, Tint::quiet_ink);
    }
    if (!model.ended.empty()) paragraph(ui, model.ended, Tint::out);
    if (!model.stopped.empty()) {
        paragraph(ui, model.stopped);
        toggle(ui, "guided.anew", text::begin_anew, state.anew, text::begin_anew_why);
    }
    const DisabledGuard disabled{model.devices.empty()};
    const FontGuard font{ui.fonts.heading};
    if (button(ui, "guided.begin", text::begin_check, text::begin_check_why, Weight::chief)) {
        actions.push_back(StartGuided{
            all_ways[static_cast<std::size_t>(state.way)],
            model.devices.empty() ? ""
                                  : model.devices[static_cast<std::size_t>(std::max(state.device, 0))].name,
            state.anew && !model.stopped.empty()});
        state.anew = false;
    }
}

constexpr float sign_room = 0.64F; ///< of flat, natural or sharp, as a share of the name's height

/// The name of the string as large as the room allows, with the sign of its position.
void show_call(const Ui& ui, const GuidedModel& model, float width, float height)
{
    const Card card{ui, "guided.call", width, true};
    const float top = ImGui::GetCursorPosY();
    // In a wide card the block stands in the middle, and stays there whatever the sentence.
    const float inner = card.inner_width();
    const float block = std::max(std::min(inner, 760.0F), 0.72F * inner);
    const float margin = ui.px(0.5F * (inner - block)) + 1.0F;
    const bool over = model.phase == LivePhase::finished || model.phase == LivePhase::opening ||
                      model.phase == LivePhase::judging_room;
    // Name and sentence stand in the middle of the card, where the eye looks for them.
    const float sentence = 2.2F * ui.fonts.display->FontSize / ui.scale;
    const float content = over ? sentence : std::min(0.5F * height, 360.0F) + 1.5F * sentence;
    ImGui::Dummy({1.0F, ui.px(std::max(0.4F * (height - 28.0F - content), 0.0F))});
    ImGui::Indent(margin);
    if (!over) {
        const StringPlace highest = model.strings.empty() ? model.place : model.strings.back().place;
        const std::string name = name_of(ui, model.place, highest);
        const auto measure = measure_for_screen(ui);
        // As large as fits beside the sign and the word for the position.
        const std::string word{position_name(model.position)};
        const float word_width =
            ui.fonts.display->CalcTextSizeA(ui.fonts.display->FontSize, FLT_MAX, 0.0F, word.c_str()).x /
            ui.scale;
        const float widest = measure(name, 100.0F, true) / 100.0F + sign_room;
        const float size = std::clamp(std::min(0.5F * height, (block - word_width) / widest), 60.0F, 360.0F);
        Picture picture{block, size, {}, {}};
        const bool coloured = model.place.letter == Letter::C || model.place.letter == Letter::F;
        const Colour ink =
            coloured ? string_colour(model.place.letter, *ui.palette, ui.settings.dark_f) : ui[Tint::ink];
        const float name_width = measure(name, size, true);
        picture.text({0.0F, 0.5F * size}, name, ink, size, Across::left, true);
        add_accidental(picture, {name_width + 0.5F * sign_room * size, 0.45F * size}, 0.62F * size,
                       model.position, ui[Tint::ink]);
        const ImVec2 at = ImGui::GetCursorScreenPos();
        show_picture(ui, "guided.string", picture);
        ImGui::GetWindowDrawList()->AddText(ui.fonts.display, ui.fonts.display->FontSize,
                                            {at.x + ui.px(name_width + sign_room * size),
                                             at.y + ui.px(0.5F * size) - 0.5F * ui.fonts.display->FontSize},
                                            packed(ui[Tint::quiet_ink]), word.c_str());
    }
    {
        const FontGuard font{ui.fonts.display};
        paragraph(ui, model.instruction, Tint::ink, block);
    }
    if (!model.reason.empty()) {
        const FontGuard font{ui.fonts.heading};
        paragraph(ui, model.reason, Tint::watch, block);
    }
    if (model.heard_cents) {
        const FontGuard font{ui.fonts.display};
        paragraph(ui,
                  fmt::format("{} {}", figure_text(*model.heard_cents),
                              model.heard_is_step ? text::from_semitone : text::from_expected),
                  Tint::quiet_ink, block);
    }
    ImGui::Unindent(margin);
    const float used = (ImGui::GetCursorPosY() - top) / ui.scale;
    if (used < height - 28.0F) ImGui::Dummy({1.0F, ui.px(height - 28.0F - used)});
}

void show_recent(const Ui& ui, const GuidedModel& model)
{
    if (model.recent.empty()) return;
    const Card card{ui, "guided.recent"};
    subheading(ui, text::just_measured);
    const StringPlace highest = model.strings.empty() ? model.place : model.strings.back().place;
    for (std::size_t i = 0; i < std::min<std::size_t>(model.recent.size(), 4); ++i) {
        const auto& reading = model.recent[i];
        show_mark(ui, reading.state, 6.0F, reading.step_cents.value < 0.0 ? Lean::narrow : Lean::wide);
        ImGui::SameLine();
        words(ui, fmt::format("{} {}", name_of(ui, reading.place, highest), position_name(reading.position)));
        if (!reading.closes_step) continue;
        ImGui::SameLine();
        words(ui, fmt::format(text::cents_format, figure_text(reading.step_cents)), Tint::quiet_ink);
    }
}

void show_room(const Ui& ui, const GuidedModel& model)
{
    if (!model.room) return;
    const Card card{ui, "guided.room"};
    subheading(ui, text::the_room);
    show_mark(ui, model.room->state);
    ImGui::SameLine();
    paragraph(ui, model.room->advice);
    paragraph(ui,
              fmt::format(text::level_format, format_decibels(Decibels{model.room->level_db}),
                          format_decibels(Decibels{model.room->noise_db})),
              Tint::quiet_ink);
}

void show_pedals(const Ui& ui, const GuidedModel& model)
{
    if (model.kind == HarpKind::lever) return;
    const Card card{ui, "guided.pedals", 0.0F, model.phase == LivePhase::set_pedals};
    subheading(ui, text::pedals_now);
    show_picture(ui, "guided.pedal_board",
                 pedal_picture(model.pedals, card.inner_width(),
                               std::clamp(0.45F * card.inner_width(), 150.0F, 220.0F), *ui.palette));
}

void show_buttons(const Ui& ui, const GuidedModel& model, Actions& actions)
{
    if (model.phase == LivePhase::finished) {
        if (button(ui, "guided.see_result", text::see_result, {}, Weight::chief)) {
            actions.push_back(StopGuided{});
            actions.push_back(GoTo{Page::today});
        }
        return;
    }
    const bool paused = model.phase == LivePhase::paused;
    if (paused) {
        if (button(ui, "guided.resume", text::resume, text::resume_why, Weight::chief))
            actions.push_back(ResumeGuided{});
    } else if (button(ui, "guided.pause", text::pause, text::pause_why))
        actions.push_back(PauseGuided{});
    flow(ui, text::repeat_string);
    if (button(ui, "guided.repeat", text::repeat_string, text::repeat_string_why))
        actions.push_back(RepeatString{});
    flow(ui, text::skip_string);
    if (button(ui, "guided.skip", text::skip_string, text::skip_string_why)) actions.push_back(SkipString{});
    flow(ui, text::stop_check);
    if (button(ui, "guided.stop", text::stop_check, text::stop_check_why)) actions.push_back(StopGuided{});
}

} // namespace

HarpDrawing guided_drawing(const GuidedModel& model, const Settings& settings)
{
    HarpDrawing drawing;
    drawing.dark_f = settings.dark_f;
    const auto slot = slot_of(model.position);
    for (std::size_t i = 0; i < model.strings.size(); ++i) {
        const auto& string = model.strings[i];
        const auto progress = string.positions[slot];
        if (string.place == model.place) drawing.chosen = static_cast<int>(i);
        drawing.strings.push_back(
            {.place = string.place,
             .label = place_name(string.place, settings.names, model.strings.back().place),
             .lower = progress == ReadingProgress::doubtful ? State::unsure : State::none,
             .faint = progress != ReadingProgress::done,
             .strong = progress == ReadingProgress::done});
    }
    return drawing;
}

Actions draw(const Ui& ui, const GuidedModel& model, GuidedState& state)
{
    Actions actions;
    if (model.phase == LivePhase::setting_up) {
        show_set_up(ui, model, state, actions);
        return actions;
    }
    const float height = ImGui::GetContentRegionAvail().y / ui.scale;
    const float whole = room(ui);
    const bool two_columns = whole >= 700.0F;
    const float side = two_columns ? std::clamp(0.3F * whole, 260.0F, 480.0F) : 0.0F;
    const float foot = std::clamp(0.3F * height, 170.0F, 340.0F);
    const float call = std::max(height - foot - 8.0F, 300.0F);
    const auto label =
        model.phase == LivePhase::finished ? fmt::format(text::all_done_format, model.done)
        : model.seconds_left
            ? fmt::format(text::done_of_format, model.done, model.total, duration_text(*model.seconds_left))
            : fmt::format(text::done_of_short_format, model.done, model.total);
    const double share = model.total > 0 ? static_cast<double>(model.done) / model.total : 0.0;
    {
        const GroupGuard left;
        const float width = two_columns ? whole - side - 12.0F : whole;
        show_call(ui, model, width, call);
        if (!two_columns) {
            progress(ui, "guided.progress", share, label, whole);
            show_buttons(ui, model, actions);
            show_pedals(ui, model);
        }
        show_harp_picture(ui, "guided.harp", guided_drawing(model, ui.settings), width, foot - 16.0F);
    }
    if (!two_columns) return actions;
    ImGui::SameLine(0.0F, ui.px(12.0F));
    const Column right{ui, "guided.right", side, false};
    show_pedals(ui, model);
    show_recent(ui, model);
    // A good room needs no words where there is little room for them.
    if (height > 760.0F || (model.room && model.room->state != State::fine)) show_room(ui, model);
    progress(ui, "guided.progress", share, label, side);
    show_buttons(ui, model, actions);
    return actions;
}

} // namespace harpkeep::dashboard
