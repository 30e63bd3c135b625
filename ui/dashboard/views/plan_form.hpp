// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/actions.hpp"
#include "ui/dashboard/ui.hpp"

#include <optional>
#include <string>
#include <vector>

namespace harpkeep::dashboard {

/// Names of the materials that a plain string or a core, and that a wrap can be made of.
struct MaterialNames {
    std::vector<std::string> strings;
    std::vector<std::string> wraps; ///< the first is "none"
};
[[nodiscard]] const MaterialNames& material_names();

/// What is being typed about a string.
struct MakeFormState {
    int material = 0;
    int wrap = 0;
    std::string gauge_mm;
    std::string wrap_outer_mm;
};

/// The fields of a string; breaks into lines where the room ends.
void show_make_fields(const Ui& ui, std::string_view name, MakeFormState& state);
/// As typed; nothing when a figure is no positive number.
[[nodiscard]] std::optional<MakeChoice> make_choice(const MakeFormState& state);

/// A length or gauge as people write it, "1.02" or "1,02"; nothing when it is no positive number.
[[nodiscard]] std::optional<double> positive_number(const std::string& text);

struct PlanFormState {
    int place = 0; ///< counted from the highest string
    MakeFormState make;
    std::string length_mm;
    std::string trouble; ///< why it cannot be kept yet
};

/// One place of the stringing plan, to be typed and kept.
///
/// Given  places  of the harp, lowest first
void show_plan_form(const Ui& ui, std::string_view name, const std::vector<StringPlace>& places,
                    PlanFormState& state, Actions& actions);

} // namespace harpkeep::dashboard
