// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/actions.hpp"
#include "ui/dashboard/models/today_model.hpp"
#include "ui/dashboard/ui.hpp"
#include "ui/dashboard/widgets/harp_drawing.hpp"
#include "ui/dashboard/widgets/marks.hpp"

#include <optional>

namespace harpkeep::dashboard {

// What several views draw alike.

/// A column of a page that scrolls by itself, or, when not `own_scroll`, a mere group in the page.
class Column {
  public:
    Column(const Ui& ui, const char* name, float width, bool own_scroll);
    ~Column();
    Column(const Column&) = delete;
    Column& operator=(const Column&) = delete;

  private:
    bool own_scroll_;
};

/// The mark of a state as an item, as high as a line of text.
void show_mark(const Ui& ui, State state, float radius = 6.0F, Lean lean = Lean::wide);
/// Mark, headline, reason.
void show_advice(const Ui& ui, const Advice& advice);
void show_numbered_advice(const Ui& ui, int number, const Advice& advice);

/// Goes on in the line when a button of this label fits, else begins a new one.
void flow(const Ui& ui, std::string_view next_label);

/// The button that asks for a sheet to print.
void sheet_button(const Ui& ui, std::string_view name, const PrintSheet& wish, Actions& actions);

/// A place as the owner calls places.
[[nodiscard]] std::string name_of(const Ui& ui, StringPlace place, StringPlace top);

struct HarpHit {
    std::optional<int> pressed;
    std::optional<int> under; ///< the pointer rests on it, or the keyboard
};
/// Shows a harp drawing whose strings can be pressed, or walked with the arrow keys.
HarpHit show_harp(const Ui& ui, std::string_view name, const HarpDrawing& drawing, float width, float height);
/// Shows one only to be looked at.
void show_harp_picture(const Ui& ui, std::string_view name, const HarpDrawing& drawing, float width,
                       float height);

/// The two figures of a string in words, for the explanation.
[[nodiscard]] std::string string_summary(const Ui& ui, const TodayModel& model, const StringToday& string);

/// Name of a state in words.
[[nodiscard]] const char* state_word(State state);

} // namespace harpkeep::dashboard
