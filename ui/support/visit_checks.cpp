// SPDX-License-Identifier: MIT
#include "ui/support/visit_checks.hpp"

#include <fmt/format.h>

namespace harpkeep::ui {

Result<CheckPair> checks_around(const VisitRecord& visit)
{
    if (!visit.check_before || !visit.check_after)
        return failure(
            ErrorCode::not_found,
            fmt::format("there is no check {} the visit of {}; a visit is judged by the last check before it "
                        "and the first after it (a single check on its day counts as before it until noon), "
                        "or name two checks with --before and --after",
                        visit.check_before ? "after" : "before", iso_date(visit.visit.visited_on)));
    return CheckPair{*visit.check_before, *visit.check_after};
}

VisitComparisonSettings comparison_settings(const HarpKnowledge& knowledge)
{
    constexpr std::size_t enough_checks = 4; // own choice: fewer leave it to the usual scatter
    VisitComparisonSettings settings;
    if (knowledge.history.size() < enough_checks) return settings;
    const auto input = drift_input(knowledge);
    if (const auto fit = fit_drift(input.histories, input.events))
        settings.check_scatter_cents = fit->parameters.check_scatter_cents;
    return settings;
}

} // namespace harpkeep::ui
