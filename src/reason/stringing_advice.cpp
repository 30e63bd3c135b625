// SPDX-License-Identifier: MIT
#include "reason/stringing_advice.hpp"

namespace harpkeep {

std::vector<StringingFinding> findings_of(const HarpPull& pull, const StringingLevels& levels)
{
    std::vector<StringingFinding> findings;
    for (const auto& string : pull.strings) {
        if (!string.share_of_breaking) continue;
        const auto& share = *string.share_of_breaking;
        if (share.value >= 1.0)
            findings.push_back({StringingRemark::no_reserve, string.place, share.value});
        else if (share.high >= levels.near_breaking)
            findings.push_back({StringingRemark::near_breaking, string.place, share.high});
        else if (share.high <= levels.slack)
            findings.push_back({StringingRemark::slack, string.place, share.high});
    }
    return findings;
}

std::vector<StringingFinding> findings_of(const StringChange& change, const StringingLevels& levels)
{
    const auto place = change.after.place;
    std::vector<StringingFinding> findings = findings_of(HarpPull{.strings = {change.after}}, levels);
    if (change.tension_ratio > 1.0 + levels.pull_change)
        findings.push_back({StringingRemark::pulls_more, place, change.tension_ratio});
    if (change.tension_ratio < 1.0 - levels.pull_change)
        findings.push_back({StringingRemark::pulls_less, place, change.tension_ratio});
    if (change.total_after > change.total_before)
        findings.push_back({StringingRemark::whole_pull_up, place, change.total_after / change.total_before});
    return findings;
}

} // namespace harpkeep
