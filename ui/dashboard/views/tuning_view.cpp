// SPDX-License-Identifier: MIT
#include "ui/dashboard/figures.hpp"
#include "ui/dashboard/guards.hpp"
#include "ui/dashboard/text.hpp"
#include "ui/dashboard/views/live_views.hpp"
#include "ui/dashboard/views/shared.hpp"
#include "ui/dashboard/widgets/bent_string.hpp"
#include "ui/dashboard/widgets/controls.hpp"
#include "ui/dashboard/widgets/picture_view.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace harpkeep::dashboard {

namespace {

/// What is chosen before the first string sounds.
void show_wishes(const Ui& ui, const TuningModel& model, TuningState& state)
{
    if (!model.temperaments.empty()) {
        std::vector<std::string> titles;
        for (const auto& temperament : model.temperaments) titles.push_back(temperament.title);
        flow(ui, std::string{text::temperament_label} + "000000000000000000");
        ImGui::AlignTextToFramePadding();
        words(ui, text::temperament_label);
        ImGui::SameLine();
        state.temperament =
            drop_list(ui, "tuning.temperament", titles, state.temperament, 190.0F, text::temperament_why);
    }
    if (model.kind == HarpKind::pedal) {
        flow(ui, std::string{"     "} + text::naturals_label);
        toggle(ui, "tuning.naturals", text::naturals_label, state.naturals, text::naturals_why);
    }
    state.around = state.around && model.can_tune_around;
    if (model.can_tune_around) {
        flow(ui, std::string{"     "} + text::around_label);
        toggle(ui, "tuning.around", text::around_label, state.around, text::around_why_tuning);
    }
}

void show_controls(const Ui& ui, const TuningModel& model, TuningState& state, Actions& actions)
{
    if (model.listening) {
        if (button(ui, "tuning.stop", text::stop_tuning, text::stop_tuning_why))
            actions.push_back(StopTuning{});
        flow(ui, text::nearest_string);
        {
            const DisabledGuard disabled{!model.place_fixed};
            if (button(ui, "tuning.nearest", text::nearest_string, text::nearest_string_why))
                actions.push_back(TunePlace{});
        }
        flow(ui, text::next_pass);
        if (button(ui, "tuning.next_pass", text::next_pass, text::next_pass_why))
            actions.push_back(NextTuningPass{});
        flow(ui, text::take_a4);
        if (button(ui, "tuning.take_a4", text::take_a4, text::take_a4_why))
            actions.push_back(TakeA4FromTone{});
        paragraph(
            ui,
            fmt::format(text::tuned_in_format, model.a4_hz, model.tuned_in, model.temperament, model.pass),
            Tint::quiet_ink);
        return;
    }
    // Another source may know fewer temperaments.
    state.temperament =
        std::clamp(state.temperament, 0, std::max(0, static_cast<int>(model.temperaments.size()) - 1));
    if (button(ui, "tuning.start", text::start_tuning, text::start_tuning_why, Weight::chief)) {
        StartTuning start{.naturals = state.naturals, .around = state.around};
        if (!model.temperaments.empty())
            start.temperament = model.temperaments[static_cast<std::size_t>(state.temperament)].name;
        start.device = ui.settings.input_device;
        actions.push_back(start);
    }
    PrintSheet list{.kind = ui::ReportKind::tuning};
    if (!model.temperaments.empty())
        list.temperament = model.temperaments[static_cast<std::size_t>(state.temperament)].name;
    flow(ui, text::sheet_buttons[5]);
    sheet_button(ui, "tuning.sheet", list, actions);
    flow(ui, fmt::format("{}  \u2212  00000.00  +   ", text::a4_label));
    double a4_hz = model.a4_hz;
    if (number_field(ui, "tuning.a4", text::a4_label, a4_hz, 1.0, 392.0, 466.0, 0, text::a4_why))
        actions.push_back(SetA4{a4_hz});
    show_wishes(ui, model, state);
}

void show_string(const Ui& ui, const TuningModel& model, float height)
{
    const Card card{ui, "tuning.string", 0.0F, true};
    const bool known = model.place && !model.strings.empty();
    const auto measure = measure_for_screen(ui);
    const std::string name = known ? name_of(ui, *model.place, model.strings.back().place) : std::string{};
    // As large as the height allows and name and figure beside one another.
    const float widest = measure(name + " \u221200.0", 100.0F, true) / 100.0F;
    const float name_size = std::clamp(std::min(0.18F * height, card.inner_width() / widest), 30.0F, 110.0F);
    Picture head{card.inner_width(), name_size, {}, {}};
    if (known) {
        const Letter letter = model.place->letter;
        const Colour ink = letter == Letter::C || letter == Letter::F
                               ? string_colour(letter, *ui.palette, ui.settings.dark_f)
                               : ui[Tint::ink];
        head.text({0.0F, 0.5F * name_size}, name, ink, name_size, Across::left, true);
    }
    bool uncertainty_below = false;
    if (model.off_cents) {
        const bool good = std::abs(model.off_cents->value) <= model.good_within_cents;
        head.text({card.inner_width(), 0.5F * name_size}, signed_figure(model.off_cents->value),
                  ui[good ? Tint::fine : Tint::ink], name_size, Across::right, true);
        const std::string note = fmt::format(text::uncertainty_format, model.off_cents->uncertainty);
        const float right =
            card.inner_width() - measure(signed_figure(model.off_cents->value), name_size, true) - 16.0F;
        uncertainty_below = right - measure(note, 16.0F, false) < measure(name, name_size, true) + 16.0F;
        if (!uncertainty_below)
            head.text({right, 0.5F * name_size}, note, ui[Tint::quiet_ink], 16.0F, Across::right);
    }
    show_picture(ui, "tuning.name", head);
    if (uncertainty_below)
        words(ui, fmt::format(text::uncertainty_format, model.off_cents->uncertainty), Tint::quiet_ink);
    const Colour string =
        known ? string_colour(model.place->letter, *ui.palette, ui.settings.dark_f) : ui[Tint::string_plain];
    const float bent = std::max(height - name_size - 100.0F, 150.0F);
    // A string is taller than wide; the sides tell what each bend means, from above where they are narrow.
    const float word = ImGui::CalcTextSize(text::too_high).x / ui.scale;
    const bool beside = card.inner_width() - 2.0F * word - 24.0F >= 200.0F;
    const float stage = std::min(card.inner_width() - (beside ? 2.0F * word + 24.0F : 0.0F), 2.1F * bent);
    const ImVec2 top = ImGui::GetCursorScreenPos();
    const float left = 0.5F * (card.inner_width() - stage);
    const float middle =
        top.y + (beside ? ui.px(0.5F * (bent - 30.0F)) - 0.5F * ImGui::GetTextLineHeight() : 0.0F);
    const float low_at = beside ? left - 8.0F - ImGui::CalcTextSize(text::too_low).x / ui.scale : 0.0F;
    const float high_at = beside ? left + stage + 8.0F : card.inner_width() - word;
    ImGui::SetCursorScreenPos({top.x + ui.px(low_at), middle});
    words(ui, text::too_low, Tint::quiet_ink);
    ImGui::SetCursorScreenPos({top.x + ui.px(high_at), middle});
    words(ui, text::too_high, Tint::quiet_ink);
    const ImVec2 origin{top.x, top.y + (beside ? 0.0F : ImGui::GetTextLineHeight() + ui.px(14.0F))};
    ImGui::SetCursorScreenPos({origin.x + ui.px(left), origin.y});
    const float zoom = drawing_zoom(stage, bent, 700.0F, 340.0F);
    show_picture(zoomed(ui, zoom), "tuning.bent_string",
                 bent_string_picture(model.off_cents, model.good_within_cents, string, stage / zoom,
                                     bent / zoom, *ui.palette));
    explain_last(ui, text::tuning_picture_why);
    const FontGuard font{ui.fonts.display};
    paragraph(ui, !model.listening            ? text::tuning_off
                  : model.instruction.empty() ? text::silent
                                              : model.instruction.c_str());
}

} // namespace

HarpDrawing tuning_drawing(const TuningModel& model, const Settings& settings)
{
    HarpDrawing drawing;
    drawing.dark_f = settings.dark_f;
    for (std::size_t i = 0; i < model.strings.size(); ++i) {
        const auto& string = model.strings[i];
        if (model.place == string.place) drawing.chosen = static_cast<int>(i);
        drawing.strings.push_back(
            {.place = string.place,
             .label = place_name(string.place, settings.names, model.strings.back().place),
             .lower = string.mark == TuningMark::sank ? State::out : State::none,
             .lower_lean = Lean::narrow,
             .faint = string.mark == TuningMark::open,
             .strong = string.mark == TuningMark::done});
    }
    return drawing;
}

Actions draw(const Ui& ui, const TuningModel& model, TuningState& state)
{
    Actions actions;
    show_controls(ui, model, state, actions);
    const float height = ImGui::GetContentRegionAvail().y / ui.scale;
    const float harp = std::clamp(0.26F * height, 130.0F, 240.0F);
    show_string(ui, model, std::max(height - harp - 60.0F, 330.0F));
    const auto drawing = tuning_drawing(model, ui.settings);
    const auto hit = show_harp(ui, "tuning.strings", drawing, room(ui), harp);
    if (hit.pressed)
        actions.push_back(TunePlace{model.strings[static_cast<std::size_t>(*hit.pressed)].place});
    if (hit.under) {
        const auto& string = model.strings[static_cast<std::size_t>(*hit.under)];
        std::string note = name_of(ui, string.place, model.strings.back().place);
        if (string.last_cents)
            note += fmt::format(": {}", fmt::format(text::cents_format, figure_text(*string.last_cents)));
        if (string.target_offset_cents != 0.0)
            note += "\n" + fmt::format(text::target_offset_format, signed_figure(string.target_offset_cents));
        explain(ui, note);
    }
    const auto count = [&](TuningMark mark) {
        return std::count_if(model.strings.begin(), model.strings.end(),
                             [&](const auto& s) { return s.mark == mark; });
    };
    words(ui,
          fmt::format(text::tuned_counts_format, count(TuningMark::done), count(TuningMark::sank),
                      count(TuningMark::open)),
          Tint::quiet_ink);
    return actions;
}

} // namespace harpkeep::dashboard
