// SPDX-License-Identifier: MIT
#include "live/check_result.hpp"

#include "measure/check_assembly.hpp"
#include "units/format.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace harpkeep {

namespace {

constexpr double worth_saying = 2.0; // a drift of twice its uncertainty

bool was_kept(const GuidedCheck& check, std::size_t station, const CheckTarget& target)
{
    const auto& readings = check.state().readings;
    return std::any_of(readings.begin(), readings.end(), [&](const KeptReading& kept) {
        return !kept.superseded && kept.station == station && kept.reading.place == target.place &&
               kept.reading.position == target.position;
    });
}

void name_missing(const GuidedCheck& check, CheckResult& result)
{
    const auto& stations = check.plan().stations;
    for (std::size_t station = 0; station < stations.size(); ++station) {
        if (stations[station].closing) continue;
        for (const CheckTarget& target : stations[station].targets)
            if (!was_kept(check, station, target)) result.missing.push_back({target.place, target.position});
    }
}

} // namespace

CheckResult check_result(const GuidedCheck& check)
{
    CheckResult result;
    result.a4_hz = check.a4().value();
    std::vector<Reading> closing;
    for (const KeptReading& kept : check.state().readings) {
        if (kept.superseded) continue;
        (check.plan().stations[kept.station].closing ? closing : result.readings).push_back(kept.reading);
    }
    measure_steps(check.layout(), result);
    result.readings.insert(result.readings.end(), closing.begin(), closing.end());
    name_missing(check, result);
    const auto drift = check.view().drift;
    if (drift && std::abs(drift->shift.value()) > worth_saying * drift->uncertainty.value())
        result.remarks.push_back(
            fmt::format("From the beginning to the end of the check the harp as a whole moved by "
                        "{} cents ({} strings sounded twice).",
                        format_cents(drift->shift, drift->uncertainty), drift->strings));
    return result;
}

} // namespace harpkeep
