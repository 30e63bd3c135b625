// SPDX-License-Identifier: MIT
#include "ui/dashboard/ledger/ledger_pedals.hpp"

#include "harp/key_setting.hpp"
#include "reason/enharmonics.hpp"
#include "reason/tune_around.hpp"
#include "reason/usable_settings.hpp"
#include "ui/dashboard/figures.hpp"
#include "ui/dashboard/text.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep::dashboard {

namespace {

State state_of(Conformity conformity)
{
    if (conformity == Conformity::out) return State::out;
    return conformity == Conformity::within ? State::fine : State::unsure;
}

State state_of(double off_cents, const ToleranceBand& band)
{
    if (off_cents > band.upper || off_cents < band.lower) return State::out;
    return off_cents > 0.5 * band.upper || off_cents < 0.5 * band.lower ? State::watch : State::fine;
}

void add_strings(PedalsModel& model, const HarpRecord& harp, const StoredCheck& check,
                 const ToleranceSettings& tolerance)
{
    const auto result = tune_around(harp.details.layout, check.result.steps, check.result.whole_steps,
                                    {.settings = {{model.setting}}, .a4_hz = check.result.a4_hz});
    for (const auto& string : result.strings) {
        if (string.used.empty()) continue;
        const auto& used = string.used.front();
        TuneAroundRow row{.place = string.place, .position = used.position};
        row.before_cents = used.before_cents.value_or(0.0);
        row.offset_cents = string.moved_cents;
        row.after_cents = used.after_cents.value_or(0.0);
        row.state = used.before_cents
                        ? state_of(row.before_cents, tolerance_of(tolerance, string.place, Step::lower))
                        : State::not_measured;
        model.rows.push_back(row);
    }
    model.worst_before_cents = result.greatest_before.cents;
    model.worst_after_cents = result.greatest_after.cents;
}

void add_ready(PedalsModel& model, const HarpRecord& harp, const StoredCheck& check,
               const ToleranceSettings& tolerance)
{
    auto usable =
        find_usable_settings(harp.details.layout, check.result.steps, check.result.whole_steps, tolerance);
    std::stable_sort(usable.keys.begin(), usable.keys.end(), [](const SettingUse& a, const SettingUse& b) {
        if (a.conformity != b.conformity) return a.conformity < b.conformity;
        return std::abs(a.worst.greatest_cents) < std::abs(b.worst.greatest_cents);
    });
    constexpr std::size_t most_shown = 12;
    for (const auto& key : usable.keys) {
        if (model.ready.size() == most_shown) break;
        if (key.name.find("minor") != std::string::npos) continue;
        model.ready.push_back(
            {key.name, key.setting, std::abs(key.worst.greatest_cents), state_of(key.conformity)});
    }
}

void add_pairs(PedalsModel& model, const HarpRecord& harp, const StoredCheck& check)
{
    for (const auto& pair : compare_enharmonics(harp.details.layout, check.result.readings)) {
        if (pair.lower_place.harp_octave() != 4) continue; // one octave shows what the page is about
        model.pairs.push_back({harp_name(pair.lower_place) + position_sign(pair.lower_position),
                               harp_name(pair.upper_place) + position_sign(pair.upper_position),
                               {pair.cents, pair.uncertainty_cents},
                               pair.beats_per_second});
    }
}

} // namespace

PedalsModel pedals_from(const HarpRecord& harp, const StoredCheck& check, const PedalSetting& setting,
                        const ToleranceSettings& tolerance)
{
    PedalsModel model;
    model.kind = harp.details.layout.kind;
    model.setting = setting;
    model.sounds = text::no_key;
    for (const auto& key : all_key_settings(true))
        if (key.setting == setting) {
            model.sounds = key.name;
            break;
        }
    add_strings(model, harp, check, tolerance);
    add_ready(model, harp, check, tolerance);
    add_pairs(model, harp, check);
    model.summary = text::tuned_true;
    return model;
}

} // namespace harpkeep::dashboard
