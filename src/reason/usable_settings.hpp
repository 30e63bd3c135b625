// SPDX-License-Identifier: MIT
#pragma once

#include "harp/key_setting.hpp"
#include "measure/reading.hpp"
#include "reason/tolerance.hpp"

#include <array>
#include <optional>
#include <span>
#include <vector>

namespace harpkeep {

/// How all strings of one letter sound with one accidental, the open strings being in tune.
struct LetterUse {
    Letter letter = Letter::C;
    int alteration = 0;
    Conformity conformity = Conformity::within; ///< of the worst string
    double greatest_cents = 0.0;                ///< error farthest from zero, with its sign
    double uncertainty_cents = 0.0;
    std::optional<StringPlace> worst;
    int measured = 0;
    int not_measured = 0;
    int impossible = 0; ///< strings that cannot sound it
};

/// One setting with the worst of its letters.
struct SettingUse {
    PedalSetting setting;
    std::string name; ///< of the key; empty for settings that are none
    LetterUse worst;
    Conformity conformity = Conformity::within;
    int not_measured = 0;
    int impossible = 0;
};

struct UsableSettings {
    std::array<std::array<LetterUse, 3>, 7> letters{}; ///< by Letter and alteration + 1
    std::vector<SettingUse> keys;                      ///< fifteen major and the minor keys
    int settings = 0;                                  ///< of all that seven pedals allow
    int usable = 0, not_proven = 0, not_usable = 0;    ///< how many of them, by what was measured
    int with_gaps = 0;                                 ///< how many of them use a note that was not measured
    int notes = 0, notes_measured = 0; ///< naturals and sharps that the harp has, and that were measured
};

/// Which settings sound in tune today without going around anything.
///
/// Notes      Any single setting can be tuned pure (see tune_around()); this asks what the harp does once its
///            open strings are in tune and the pedals move. The natural is judged by the lower step, the
///            sharp by flat to sharp. A letter none of whose strings was measured is not proven.
[[nodiscard]] UsableSettings find_usable_settings(const HarpLayout& layout, std::span<const StepError> steps,
                                                  std::span<const WholeStepError> whole_steps,
                                                  const ToleranceSettings& tolerances);

/// One setting judged from the table of letters.
[[nodiscard]] SettingUse judge_setting(const UsableSettings& table, const PedalSetting& setting);

} // namespace harpkeep
