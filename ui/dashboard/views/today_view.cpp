// SPDX-License-Identifier: MIT
#include "ui/dashboard/views/today_view.hpp"

#include "ui/dashboard/figures.hpp"
#include "ui/dashboard/guards.hpp"
#include "ui/dashboard/text.hpp"
#include "ui/dashboard/views/shared.hpp"
#include "ui/dashboard/widgets/accidentals.hpp"
#include "ui/dashboard/widgets/controls.hpp"
#include "ui/dashboard/widgets/line_breaks.hpp"
#include "ui/dashboard/widgets/picture_view.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace harpkeep::dashboard {

namespace {

Lean lean_of(const StepToday& step)
{
    if (!step.error_cents) return Lean::level;
    return step.error_cents->value < 0.0 ? Lean::narrow : Lean::wide;
}

DrawnStep drawn(const StepToday& step)
{
    return {step.state, step.error_cents, step.low_cents, step.high_cents};
}

const char* verdict_headline(Verdict verdict)
{
    switch (verdict) {
    case Verdict::call_now:
        return text::verdict_call_now;
    case Verdict::next_visit:
        return text::verdict_next_visit;
    case Verdict::not_needed:
        return text::verdict_not_needed;
    case Verdict::too_little_data:
        break;
    }
    return text::verdict_too_little;
}

State verdict_state(Verdict verdict)
{
    switch (verdict) {
    case Verdict::call_now:
        return State::out;
    case Verdict::next_visit:
        return State::watch;
    case Verdict::not_needed:
        return State::fine;
    case Verdict::too_little_data:
        break;
    }
    return State::unsure;
}

const StringToday* chosen_string(const TodayModel& model, const TodayState& state)
{
    const auto found =
        std::find_if(model.strings.begin(), model.strings.end(), [&](const StringToday& string) {
            return state.chosen && string.place == *state.chosen;
        });
    return found == model.strings.end() ? nullptr : &*found;
}

void show_verdict(const Ui& ui, const TodayModel& model, Actions& actions)
{
    const Card card{ui, "today.verdict", 0.0F, model.verdict == Verdict::call_now};
    show_mark(ui, verdict_state(model.verdict), 10.0F);
    ImGui::SameLine();
    {
        const FontGuard font{ui.fonts.heading};
        paragraph(ui, verdict_headline(model.verdict));
    }
    for (const auto& reason : model.reasons) show_advice(ui, reason);
    if (button(ui, "today.start_check", text::start_check, text::start_check_why,
               model.verdict == Verdict::too_little_data ? Weight::chief : Weight::plain))
        actions.push_back(GoTo{Page::guided});
    flow(ui, text::check_a_recording);
    if (button(ui, "today.check_recording", text::check_a_recording, text::check_a_recording_why))
        actions.push_back(ChooseFile{ChooseFile::Purpose::recording});
    flow(ui, text::sheet_buttons[0]);
    sheet_button(ui, "today.sheet", {.kind = ui::ReportKind::technician}, actions);
}

void show_to_do(const Ui& ui, const TodayModel& model)
{
    if (model.to_do.empty()) return;
    const Card card{ui, "today.to_do"};
    subheading(ui, text::what_to_do);
    int number = 0;
    for (const auto& advice : model.to_do) show_numbered_advice(ui, ++number, advice);
}

/// The next text goes on in this line where it fits.
void beside_or_below(const std::string& text)
{
    ImGui::SameLine();
    if (ImGui::GetContentRegionAvail().x < ImGui::CalcTextSize(text.c_str()).x) ImGui::NewLine();
}

void show_step(const Ui& ui, HarpKind kind, Step step, const StepToday& today)
{
    if (today.state == State::none) return;
    show_mark(ui, today.state, 6.0F, lean_of(today));
    ImGui::SameLine();
    words(ui, step_text(kind, step));
    const FontGuard bold{ui.fonts.bold};
    const std::string figure = today.error_cents
                                   ? fmt::format(text::cents_format, figure_text(*today.error_cents))
                                   : std::string{text::not_measured};
    beside_or_below(figure);
    words(ui, figure, today.error_cents ? tint_of(today.state) : Tint::unsure);
    const FontGuard plain{ui.fonts.body};
    explain_last(ui, text::step_why);
    if (!today.why.empty()) paragraph(ui, today.why, Tint::quiet_ink);
}

void show_string(const Ui& ui, const TodayModel& model, const StringToday& string, Actions& actions)
{
    const Card card{ui, "today.string"};
    {
        const FontGuard font{ui.fonts.heading};
        words(ui, name_of(ui, string.place, model.strings.back().place));
    }
    beside_or_below(string.string_now);
    paragraph(ui, string.string_now, Tint::quiet_ink);
    show_step(ui, model.kind, Step::lower, string.lower);
    show_step(ui, model.kind, Step::upper, string.upper);
    for (const auto& cause : string.causes) paragraph(ui, cause);
    if (button(ui, "today.string_history", text::its_history, text::its_history_why)) {
        actions.push_back(ChooseHistory{{false, string.place, Step::lower}});
        actions.push_back(GoTo{Page::history});
    }
    flow(ui, text::it_broke);
    if (button(ui, "today.string_broke", text::it_broke, text::it_broke_why))
        actions.push_back(StringBroke{string.place});
}

void show_pedals(const Ui& ui, const TodayModel& model, Actions& actions)
{
    if (model.pedals.empty()) return;
    const Card card{ui, "today.pedals"};
    subheading(ui, text::pedals_together);
    explain_last(ui, text::pedals_together_why);
    const float heads = 44.0F; // the signs of the two steps
    const float slot = (card.inner_width() - heads) / 7.6F;
    const float begin = ImGui::GetCursorPosX() + ui.px(heads);
    {
        const GroupGuard group;
        Picture signs{heads, 1.0F, {}, {}};
        const float line = ImGui::GetTextLineHeight(), gap = ImGui::GetStyle().ItemSpacing.y;
        // Button, mark, then the two figures.
        const float first =
            (line + ui.px(6.0F) + gap + std::max(line, ui.px(12.0F)) + gap + 0.5F * line) / ui.scale;
        for (const auto& [y, low, high] :
             {std::tuple{first, Position::flat, Position::natural},
              std::tuple{first + (line + gap) / ui.scale, Position::natural, Position::sharp}}) {
            add_accidental(signs, {6.0F, y}, 15.0F, low, ui[Tint::quiet_ink]);
            signs.line({13.0F, y}, {19.0F, y}, ui[Tint::quiet_ink], 1.2F);
            add_accidental(signs, {27.0F, y}, 15.0F, high, ui[Tint::quiet_ink]);
        }
        paint(ui, signs, ImGui::GetCursorScreenPos());
        ImGui::Dummy({1.0F, 1.0F});
    }
    ImGui::SameLine();
    for (std::size_t i = 0; i < model.pedals.size(); ++i) {
        const auto& pedal = model.pedals[i];
        // The gap after B parts the left foot's pedals from the right foot's.
        const float shift = static_cast<float>(i) * slot + (i >= 3 ? 0.6F * slot : 0.0F);
        if (i > 0) ImGui::SameLine();
        ImGui::SetCursorPosX(begin + ui.px(shift));
        const GroupGuard group;
        const std::string letter(1, letter_name(pedal.letter));
        if (small_button(ui, "today.pedal." + letter, letter, text::pedal_history_why)) {
            actions.push_back(ChooseHistory{{true, {pedal.letter, 4}, Step::lower}});
            actions.push_back(GoTo{Page::history});
        }
        show_mark(ui, pedal.state, 6.0F,
                  pedal.lower_cents && pedal.lower_cents->value < 0.0 ? Lean::narrow : Lean::wide);
        if (pedal.lower_cents) words(ui, signed_figure(pedal.lower_cents->value));
        if (pedal.upper_cents) words(ui, signed_figure(pedal.upper_cents->value));
    }
}

void show_counts(const Ui& ui, const TodayModel& model)
{
    const auto counts = count_states(model);
    bool first = true;
    const auto one = [&](State state, int count, const char* label) {
        const std::string both = fmt::format("{} {}", count, label);
        if (!std::exchange(first, false)) {
            ImGui::SameLine(0.0F, ui.px(16.0F));
            const float wanted = ui.px(20.0F) + ImGui::CalcTextSize(both.c_str()).x;
            if (ImGui::GetContentRegionAvail().x < wanted) ImGui::NewLine();
        }
        show_mark(ui, state, 6.0F);
        ImGui::SameLine(0.0F, ui.px(4.0F));
        words(ui, both, Tint::quiet_ink);
    };
    one(State::out, counts.out, text::state_out);
    one(State::unsure, counts.unsure, text::state_unsure);
    one(State::watch, counts.watch, text::state_watch);
    one(State::fine, counts.fine, text::state_fine);
    if (counts.not_measured > 0) one(State::not_measured, counts.not_measured, text::state_not_measured);
}

void show_harp_card(const Ui& ui, const TodayModel& model, TodayState& state, float height, Actions& actions)
{
    const Card card{ui, "today.harp"};
    const float head = ImGui::GetCursorPosY();
    show_counts(ui, model);
    const auto drawing = today_drawing(model, state, ui.settings);
    const float tools =
        small_button_width(ui, text::export_svg) + small_button_width(ui, text::export_png) + ui.px(16.0F);
    const float note_width = std::max(card.inner_width() - tools / ui.scale, 80.0F);
    const float note_height =
        ImGui::CalcTextSize(broken_at_spaces(model.check_note, ui.px(note_width)).c_str()).y;
    const float used =
        (ImGui::GetCursorPosY() - head + std::max(note_height, ImGui::GetFrameHeight())) / ui.scale;
    const float tall = std::max(height - used - 44.0F, 330.0F);
    const auto hit = show_harp(ui, "today.strings", drawing, card.inner_width(), tall);
    if (hit.pressed) state.chosen = model.strings[static_cast<std::size_t>(*hit.pressed)].place;
    if (hit.under) {
        const auto& string = model.strings[static_cast<std::size_t>(*hit.under)];
        explain(ui, string_summary(ui, model, string));
    }
    const auto wish = [&](const char* file) {
        actions.push_back(ExportPicture{file, [drawing](const Palette& palette, const TextMeasure& measure) {
                                            return harp_picture(drawing, 1100.0F, 720.0F, palette, measure);
                                        }});
    };
    const ImVec2 foot = ImGui::GetCursorScreenPos();
    paragraph(ui, model.check_note, Tint::quiet_ink, note_width);
    ImGui::SetCursorScreenPos({foot.x + ui.px(card.inner_width()) - tools + ui.px(8.0F), foot.y});
    if (small_button(ui, "today.strings.export_svg", text::export_svg, text::export_svg_why))
        wish("harp.svg");
    ImGui::SameLine();
    if (small_button(ui, "today.strings.export_png", text::export_png, text::export_png_why))
        wish("harp.png");
}

} // namespace

HarpDrawing today_drawing(const TodayModel& model, const TodayState& state, const Settings& settings)
{
    HarpDrawing drawing;
    drawing.dark_f = settings.dark_f;
    if (model.strings.empty()) return drawing;
    const StringPlace top = model.strings.back().place;
    DrawnStrip lower{fmt::format(text::strip_title_format, step_text(model.kind, Step::lower)), {}};
    DrawnStrip upper{fmt::format(text::strip_title_format, step_text(model.kind, Step::upper)), {}};
    for (std::size_t i = 0; i < model.strings.size(); ++i) {
        const auto& string = model.strings[i];
        if (state.chosen == string.place) drawing.chosen = static_cast<int>(i);
        drawing.strings.push_back({.place = string.place,
                                   .label = place_name(string.place, settings.names, top),
                                   .lower = string.lower.state,
                                   .upper = string.upper.state,
                                   .lower_lean = lean_of(string.lower),
                                   .upper_lean = lean_of(string.upper)});
        lower.steps.push_back(drawn(string.lower));
        upper.steps.push_back(drawn(string.upper));
    }
    drawing.strips.push_back(std::move(lower));
    if (model.kind == HarpKind::pedal) drawing.strips.push_back(std::move(upper));
    return drawing;
}

void prepare(const TodayModel& model, const Settings&, TodayState& state)
{
    if (!state.chosen && !model.strings.empty())
        state.chosen = model.strings[worst_first(model).front()].place;
}

Actions draw(const Ui& ui, const TodayModel& model, TodayState& state)
{
    Actions actions;
    const float height = ImGui::GetContentRegionAvail().y / ui.scale;
    const float whole = room(ui);
    const bool two_columns = whole >= 760.0F;
    const float side = two_columns ? std::clamp(0.34F * whole, 300.0F, 460.0F) : 0.0F;
    {
        const Column left{ui, "today.left", two_columns ? whole - side - 12.0F : 0.0F, two_columns};
        if (!two_columns) show_verdict(ui, model, actions);
        show_harp_card(ui, model, state, two_columns ? height : 620.0F, actions);
    }
    if (two_columns) ImGui::SameLine(0.0F, ui.px(12.0F));
    const Column right{ui, "today.right", 0.0F, two_columns};
    if (two_columns) show_verdict(ui, model, actions);
    show_to_do(ui, model);
    if (const auto* string = chosen_string(model, state)) show_string(ui, model, *string, actions);
    show_pedals(ui, model, actions);
    return actions;
}

} // namespace harpkeep::dashboard
