// SPDX-License-Identifier: MIT
#include "harp/expected_pitch.hpp"
#include "strings/material.hpp"
#include "strings/stringing.hpp"
#include "ui/dashboard/ledger/ledger_strings.hpp"
#include "ui/dashboard/text.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep::dashboard {

namespace {

// Own choice, as in reason/stringing_advice.hpp.
constexpr double near_breaking = 0.75;
constexpr double nearing = 0.6;
constexpr double batch_variation = 0.05;

std::optional<StrungPlace> strung(const HarpString& string, HarpKind kind, const PlannedString& planned,
                                  double a4_hz)
{
    if (!planned.length || !planned.make.diameter || planned.make.material.empty()) return std::nullopt;
    StrungPlace out;
    out.place = string.place;
    out.length = *planned.length;
    out.open_pitch = expected_pitch(string, positions_of(kind, string).front(), Hertz{a4_hz});
    out.spec.material = planned.make.material;
    out.spec.diameter = *planned.make.diameter;
    if (!planned.make.wrap_material.empty() && planned.make.wrap_outer_diameter)
        out.spec.wrap = Wrap{planned.make.wrap_material, *planned.make.wrap_outer_diameter};
    if (planned.make.linear_density)
        out.spec.weighed = WeighedMass{
            *planned.make.linear_density,
            planned.make.linear_density_uncertainty.value_or(0.01 * *planned.make.linear_density)};
    return out;
}

/// A figure from bounds: half their width over the square root of three (JCGM 100:2008, 4.3.7).
template <class T>
Figure figure_of(const Bounded<T>& bounded)
{
    return {bounded.value.value(), (bounded.high.value() - bounded.low.value()) / (2.0 * std::sqrt(3.0))};
}

void add_trial(TensionModel& model, const StringingPlan& plan, const TryGauge& trial,
               const MaterialTable& materials)
{
    const auto found = std::find_if(plan.strings.begin(), plan.strings.end(),
                                    [&](const auto& s) { return s.place == trial.place; });
    if (found == plan.strings.end()) return;
    StringSpec spec = found->spec;
    spec.diameter = Millimetres{trial.gauge_mm};
    spec.weighed.reset(); // another gauge was never on the scales
    const auto change = change_of(plan, trial.place, spec, materials);
    if (!change) {
        model.trial =
            GaugeTrial{.place = trial.place, .gauge_mm = trial.gauge_mm, .advice = change.error().message};
        return;
    }
    GaugeTrial out{trial.place, trial.gauge_mm, change->after.tension.value.value(),
                   change->tension_rise.value()};
    if (change->after.share_of_breaking) out.of_breaking = change->after.share_of_breaking->value;
    out.feel_ratio = change->stiffness_ratio;
    out.advice = std::abs(change->tension_ratio - 1.0) > batch_variation ? text::more_load : text::same_load;
    model.trial = out;
}

} // namespace

std::optional<TensionModel> tension_from(const HarpRecord& harp, const std::vector<PlannedStringRecord>& plan,
                                         const MaterialTable& materials, double a4_hz,
                                         const std::optional<TryGauge>& trial)
{
    const auto& layout = harp.details.layout;
    StringingPlan stringing;
    TensionModel model;
    model.kind = layout.kind;
    for (const auto& string : layout.strings)
        for (const auto& planned : plan) {
            if (planned.details.place != string.place) continue;
            const auto place = strung(string, layout.kind, planned.details, a4_hz);
            if (!place) continue;
            TensionRow row{.place = string.place, .material = planned.details.make.material};
            row.length_mm = place->length.value();
            row.gauge_mm = planned.details.make.diameter->value(); // strung() saw to it that there is one
            const auto figures = figures_of(*place, materials);
            if (!figures) {
                row.state = State::not_measured;
                row.note = figures.error().message;
                model.rows.push_back(row);
                continue;
            }
            stringing.strings.push_back(*place);
            row.tension_n = figure_of(figures->tension);
            if (figures->stress) row.stress_mpa = figures->stress->value.value();
            if (figures->share_of_breaking) {
                row.of_breaking = figures->share_of_breaking->value;
                row.state = row.of_breaking > near_breaking ? State::out
                            : row.of_breaking > nearing     ? State::watch
                                                            : State::fine;
            } else
                row.state = State::unsure;
            model.rows.push_back(row);
        }
    if (stringing.strings.empty()) return std::nullopt;
    if (const auto pull = pull_of(stringing, materials)) model.total_n = figure_of(pull->total);
    model.rests_on = text::stringing_origin;
    if (trial) add_trial(model, stringing, *trial, materials);
    return model;
}

} // namespace harpkeep::dashboard
