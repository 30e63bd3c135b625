// SPDX-License-Identifier: MIT
#include "report/step_panels.hpp"

#include "reason/words.hpp"
#include "report/report_words.hpp"

namespace harpkeep::report {

namespace {

ChartPoint point_of(const StepVerdict& verdict)
{
    return {.place = verdict.place,
            .cents = verdict.error.value,
            .half_interval_cents = half_interval_cents(verdict.error),
            .mark = mark_of(verdict),
            .fields = {place_field(verdict.place),
                       {"step", std::string{step_name(*verdict.step)}},
                       {"error_cents", verdict.error.value},
                       {"uncertainty_cents", verdict.error.uncertainty},
                       {"tolerance_lower_cents", verdict.tolerance.lower},
                       {"tolerance_upper_cents", verdict.tolerance.upper},
                       {"probability_within", verdict.probability_within},
                       {"verdict", std::string{mark_words(mark_of(verdict))}}}};
}

} // namespace

NeckChart neck_chart(const HarpLayout& layout, const ToleranceSettings& tolerances,
                     const std::function<std::vector<ChartPoint>(Step)>& points_of)
{
    NeckChart chart;
    for (const HarpString& string : layout.strings) chart.strings.push_back(string.place);
    for (const Step step : {Step::lower, Step::upper}) {
        ChartPanel panel{.title = std::string{step_words(layout.kind, step)}};
        for (const HarpString& string : layout.strings)
            for (const Step has : steps_of(layout.kind, string))
                if (has == step)
                    panel.tolerances.emplace_back(string.place, tolerance_of(tolerances, string.place, step));
        panel.points = points_of(step);
        if (!panel.tolerances.empty()) chart.panels.push_back(std::move(panel));
    }
    return chart;
}

NeckChart steps_along_neck(const HarpLayout& layout, std::span<const StepVerdict> steps,
                           const ToleranceSettings& tolerances)
{
    NeckChart chart = neck_chart(layout, tolerances, [&](Step step) {
        std::vector<ChartPoint> points;
        for (const StepVerdict& verdict : steps)
            if (verdict.step == step) points.push_back(point_of(verdict));
        return points;
    });
    chart.name = "steps";
    return chart;
}

} // namespace harpkeep::report
