// SPDX-License-Identifier: MIT
#include "ui/dashboard/widgets/pedal_board.hpp"

#include "ui/dashboard/figures.hpp"
#include "ui/dashboard/guards.hpp"
#include "ui/dashboard/text.hpp"
#include "ui/dashboard/widgets/accidentals.hpp"
#include "ui/dashboard/widgets/controls.hpp"
#include "ui/dashboard/widgets/picture_view.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace harpkeep::dashboard {

namespace {

constexpr float letter_room = 26.0F;
constexpr float sign_room = 4.0F;

float slot_width(float width)
{
    return width / 7.8F;
}

int level_of(Position position)
{
    if (position == Position::sharp) return 2;
    return position == Position::natural || position == Position::engaged ? 1 : 0;
}

} // namespace

Point notch_centre(int pedal, int level, float width, float height)
{
    const float slot = slot_width(width);
    const float x = (static_cast<float>(pedal) + 0.5F + (pedal >= 3 ? 0.8F : 0.0F)) * slot;
    const float free = height - letter_room - sign_room;
    return {x, letter_room + (static_cast<float>(level) + 0.5F) * free / 3.0F};
}

Picture pedal_picture(const PedalSetting& setting, float width, float height, const Palette& palette)
{
    Picture picture;
    picture.width = std::max(width, 140.0F);
    picture.height = std::max(height, 110.0F);
    const float w = picture.width, h = picture.height;
    const float slot = slot_width(w);
    const float rail_y0 = notch_centre(0, 0, w, h).y, rail_y1 = notch_centre(0, 2, w, h).y;
    const float text_size = std::clamp(0.42F * slot, 13.0F, 24.0F);
    for (int i = 0; i < 7; ++i) {
        const Letter letter = pedal_order[static_cast<std::size_t>(i)];
        const Position position = setting.position(letter);
        const float x = notch_centre(i, 0, w, h).x;
        picture.line({x, rail_y0}, {x, rail_y1}, palette[Tint::line], 3.0F);
        for (int level = 0; level < 3; ++level) {
            const float y = notch_centre(i, level, w, h).y;
            picture.line({x, y}, {x + 0.24F * slot, y}, palette[Tint::string_plain], 2.0F);
        }
        const float y = notch_centre(i, level_of(position), w, h).y;
        const float half = 0.36F * slot, thick = std::clamp(0.09F * h, 8.0F, 16.0F);
        picture.box({x - half, y - thick}, {x + half, y + thick}, palette[Tint::wood], 0.5F * thick);
        add_accidental(picture, {x, y}, 1.7F * thick, position, palette[Tint::on_wood]);
        picture.text({x, 0.5F * letter_room}, std::string(1, letter_name(letter)), palette[Tint::ink],
                     text_size, Across::centre, true);
    }
    const float divider = 0.5F * (notch_centre(2, 0, w, h).x + notch_centre(3, 0, w, h).x);
    picture.line({divider, 6.0F}, {divider, h - sign_room}, palette[Tint::quiet_ink], 2.0F);
    return picture;
}

PedalSetting edit_pedals(const Ui& ui, std::string_view name, const PedalSetting& setting, float width,
                         float height)
{
    PedalSetting out = setting;
    const ImVec2 origin = ImGui::GetCursorScreenPos();
    const auto picture = pedal_picture(setting, width, height, *ui.palette);
    paint(ui, picture, origin);
    const std::string group{name};
    const float slot = slot_width(picture.width);
    const float tall = (picture.height - letter_room - sign_room) / 3.0F;
    for (int pedal = 0; pedal < 7; ++pedal)
        for (int level = 0; level < 3; ++level) {
            const Point centre = notch_centre(pedal, level, picture.width, picture.height);
            const Letter letter = pedal_order[static_cast<std::size_t>(pedal)];
            const std::string item = fmt::format("{}.{}.{}", group, letter_name(letter), level);
            ImGui::SetCursorScreenPos(
                {origin.x + ui.px(centre.x - 0.5F * slot), origin.y + ui.px(centre.y - 0.5F * tall)});
            if (ImGui::InvisibleButton(item.c_str(),
                                       {std::max(1.0F, ui.px(slot)), std::max(1.0F, ui.px(tall))}))
                out.set(letter, level - 1);
            ui.registry->note(item, WidgetKind::button, group);
            explain_last(ui, text::setting_why);
        }
    ImGui::SetCursorScreenPos(origin);
    ImGui::Dummy({ui.px(picture.width), ui.px(picture.height)});
    return out;
}

} // namespace harpkeep::dashboard
