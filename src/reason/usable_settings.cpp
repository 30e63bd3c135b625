// SPDX-License-Identifier: MIT
#include "reason/usable_settings.hpp"

#include "reason/position_offsets.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep {

namespace {

/// Worse first: out, not proven, within.
int badness(Conformity conformity)
{
    return conformity == Conformity::out ? 2 : conformity == Conformity::not_proven ? 1 : 0;
}

bool is_worse(Conformity a, double a_cents, Conformity b, double b_cents)
{
    if (badness(a) != badness(b)) return badness(a) > badness(b);
    return std::abs(a_cents) > std::abs(b_cents);
}

void add_string(LetterUse& use, const HarpString& string, HarpKind kind, const PositionOffsets& offsets,
                const ToleranceSettings& tolerances)
{
    const auto position = position_for(kind, string, use.alteration);
    if (!position) {
        ++use.impossible;
        return;
    }
    const auto semitones = static_cast<std::size_t>(semitones_above_open(*position));
    if (semitones == 0) return; // the open string is taken to be in tune
    if (!offsets.cents[semitones]) {
        ++use.not_measured;
        return;
    }
    ++use.measured;
    const Measured error{*offsets.cents[semitones], offsets.uncertainty_cents(semitones)};
    const auto step = semitones == 1 ? std::optional(Step::lower) : std::nullopt;
    const auto conformity = decide(error, tolerance_of(tolerances, string.place, step), tolerances.rule);
    if (use.worst && !is_worse(conformity, error.value, use.conformity, use.greatest_cents)) return;
    use.conformity = conformity;
    use.greatest_cents = error.value;
    use.uncertainty_cents = error.uncertainty;
    use.worst = string.place;
}

} // namespace

SettingUse judge_setting(const UsableSettings& table, const PedalSetting& setting)
{
    SettingUse use{.setting = setting};
    bool first = true;
    for (const Letter letter : all_letters) {
        const auto& part = table.letters[static_cast<std::size_t>(letter)]
                                        [static_cast<std::size_t>(setting.alteration(letter) + 1)];
        use.not_measured += part.not_measured;
        use.impossible += part.impossible;
        if (first ||
            is_worse(part.conformity, part.greatest_cents, use.conformity, use.worst.greatest_cents)) {
            use.worst = part;
            use.conformity = part.conformity;
        }
        first = false;
    }
    return use;
}

UsableSettings find_usable_settings(const HarpLayout& layout, std::span<const StepError> steps,
                                    std::span<const WholeStepError> whole_steps,
                                    const ToleranceSettings& tolerances)
{
    const auto offsets = position_offsets(layout, steps, whole_steps);
    UsableSettings table;
    for (const Letter letter : all_letters)
        for (const int alteration : {-1, 0, 1}) {
            auto& use =
                table.letters[static_cast<std::size_t>(letter)][static_cast<std::size_t>(alteration + 1)];
            use.letter = letter;
            use.alteration = alteration;
            for (const auto& string : layout.strings)
                if (string.place.letter == letter && string.has_natural_disc)
                    add_string(use, string, layout.kind, offsets.at(string.place), tolerances);
            if (use.measured == 0 && use.not_measured > 0) use.conformity = Conformity::not_proven;
            table.notes += use.measured + use.not_measured;
            table.notes_measured += use.measured;
        }
    for (const auto& key : all_key_settings(true)) {
        table.keys.push_back(judge_setting(table, key.setting));
        table.keys.back().name = key.name;
    }
    for (const auto& setting : all_pedal_settings()) {
        const auto use = judge_setting(table, setting);
        if (use.impossible > 0) continue; // levers and single action cannot be set so
        ++table.settings;
        table.with_gaps += use.not_measured > 0;
        (use.conformity == Conformity::within       ? table.usable
         : use.conformity == Conformity::not_proven ? table.not_proven
                                                    : table.not_usable) += 1;
    }
    return table;
}

} // namespace harpkeep
