// SPDX-License-Identifier: MIT
#include "ui/dashboard/guards.hpp"
#include "ui/dashboard/text.hpp"
#include "ui/dashboard/views/office_views.hpp"
#include "ui/dashboard/views/shared.hpp"
#include "ui/dashboard/widgets/controls.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace harpkeep::dashboard {

namespace {

void show_look(const Ui& ui, Actions& actions)
{
    const Card card{ui, "settings.look"};
    Settings wish = ui.settings;
    subheading(ui, text::theme);
    const std::vector<std::string> themes{text::themes.begin(), text::themes.end()};
    wish.theme = static_cast<ThemeKind>(
        choice(ui, "settings.theme", themes, static_cast<int>(wish.theme), text::theme_why));
    subheading(ui, text::font_size);
    number_field(ui, "settings.font_scale", "", wish.font_scale, 0.1, smallest_font_scale, largest_font_scale,
                 1, text::font_size_why);
    toggle(ui, "settings.grow", text::grow, wish.grow, text::grow_why);
    subheading(ui, text::name_style);
    const std::vector<std::string> styles{text::name_styles.begin(), text::name_styles.end()};
    wish.names = static_cast<NameStyle>(
        choice(ui, "settings.names", styles, static_cast<int>(wish.names), text::name_styles_why));
    toggle(ui, "settings.dark_f", text::dark_f, wish.dark_f, text::dark_f_why);
    subheading(ui, text::a4_title);
    number_field(ui, "settings.a4", "", wish.a4_hz, 1.0, 392.0, 466.0, 0, text::a4_why);
    if (!(wish == ui.settings)) actions.push_back(ChangeSettings{wish});
}

void show_band(const Ui& ui, const char* name, const char* label, double& low_cents, double& high_cents)
{
    words(ui, label);
    number_field(ui, std::string{name} + ".low", text::tolerance_low, low_cents, 0.5, -30.0, -0.5, 1,
                 text::tolerance_why);
    ImGui::SameLine(0.0F, ui.px(20.0F));
    if (room(ui) < 230.0F * ui.fonts.body->FontSize / (body_pixels * ui.scale)) ImGui::NewLine();
    number_field(ui, std::string{name} + ".high", text::tolerance_high, high_cents, 0.5, 0.5, 30.0, 1,
                 text::tolerance_why);
}

void show_tolerance(const Ui& ui, const SettingsModel& model, SettingsState& state, Actions& actions)
{
    if (model.harp.key.empty()) return;
    const Card card{ui, "settings.tolerance"};
    if (!state.tolerance || state.tolerance_of != model.harp.key) {
        state.tolerance = model.tolerance;
        state.tolerance_of = model.harp.key;
    }
    subheading(ui, text::tolerance);
    paragraph(ui, text::tolerance_why, Tint::quiet_ink);
    show_band(ui, "settings.all", text::tolerance_all, state.tolerance->low_cents,
              state.tolerance->high_cents);
    show_band(ui, "settings.top", text::tolerance_top, state.tolerance->top_low_cents,
              state.tolerance->top_high_cents);
    const DisabledGuard disabled{*state.tolerance == model.tolerance};
    if (button(ui, "settings.set_tolerance", text::set_tolerance, text::tolerance_why))
        actions.push_back(SetTolerance{*state.tolerance});
}

void show_ledger(const Ui& ui, const SettingsModel& model, Actions& actions)
{
    const Card card{ui, "settings.ledger"};
    subheading(ui, text::the_ledger);
    paragraph(ui, model.ledger_path);
    paragraph(ui, model.ledger_text, Tint::quiet_ink);
    if (model.example)
        if (button(ui, "settings.back_to_own", text::back_to_own, text::back_to_own_why, Weight::chief))
            actions.push_back(BackToOwnLedger{});
    if (button(ui, "settings.open_ledger", text::open_other_ledger, text::open_other_ledger_why))
        actions.push_back(ChooseFile{ChooseFile::Purpose::open_ledger});
    if (room(ui) > 0.0F && ImGui::GetContentRegionAvail().x > 0.0F) {
        ImGui::SameLine();
        if (ImGui::GetContentRegionAvail().x < button_width(ui, text::open_example)) ImGui::NewLine();
    }
    if (button(ui, "settings.open_example", text::open_example, text::open_example_why))
        actions.push_back(OpenExample{});
    if (button(ui, "settings.new_harp", text::new_harp, text::new_harp_why))
        actions.push_back(ShowFirstStart{});
    words(ui, fmt::format(text::about_format, model.version), Tint::quiet_ink);
}

} // namespace

Actions draw(const Ui& ui, const SettingsModel& model, SettingsState& state)
{
    Actions actions;
    const float whole = room(ui);
    const bool two_columns = whole >= 860.0F;
    {
        const Column left{ui, "settings.left", two_columns ? std::min(0.5F * whole - 6.0F, 640.0F) : 0.0F,
                          two_columns};
        show_look(ui, actions);
    }
    if (two_columns) ImGui::SameLine(0.0F, ui.px(12.0F));
    const Column right{ui, "settings.right", two_columns ? std::min(room(ui), 640.0F) : 0.0F, two_columns};
    show_tolerance(ui, model, state, actions);
    show_ledger(ui, model, actions);
    return actions;
}

} // namespace harpkeep::dashboard
