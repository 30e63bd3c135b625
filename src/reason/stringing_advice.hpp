// SPDX-License-Identifier: MIT
#pragma once

#include "strings/inharmonicity_check.hpp"
#include "strings/stringing.hpp"

#include <optional>
#include <string>
#include <vector>

namespace harpkeep {

/// What is remarkable about the pull of strings.
enum class StringingRemark {
    near_breaking, ///< may be close to its breaking stress
    no_reserve,    ///< lies above its breaking stress by the constants given: one of them must be wrong
    slack,         ///< carries so little of its breaking stress that it may sound dull and feel loose
    pulls_more,    ///< a change raises the pull of this string beyond what a batch of strings varies by
    pulls_less,    ///< a change lowers it by as much
    whole_pull_up, ///< a change raises the pull of the whole harp
};

struct StringingFinding {
    StringingRemark remark = StringingRemark::slack;
    StringPlace place;
    double amount = 0.0; ///< share of breaking stress, or ratio of tensions
};

/// Levels from which something is remarked; the project's own choice, no open page states any.
struct StringingLevels {
    double near_breaking = 0.75; ///< upper bound of the share of breaking stress
    double slack = 0.10;         ///< upper bound of the share of breaking stress
    double pull_change = 0.05;   ///< relative, of one string
};

[[nodiscard]] std::vector<StringingFinding> findings_of(const HarpPull& pull,
                                                        const StringingLevels& levels = {});
[[nodiscard]] std::vector<StringingFinding> findings_of(const StringChange& change,
                                                        const StringingLevels& levels = {});

// The same in sentences for people. Every figure stands with its bounds and what it rests on.

/// One string: tension, share of breaking stress, stiffness, inharmonicity.
[[nodiscard]] std::vector<std::string> string_sentences(const StringFigures& figures);
/// The whole harp, what is remarkable, and the caution about the pull.
[[nodiscard]] std::vector<std::string> pull_sentences(const HarpPull& pull, const std::string& origin,
                                                      const StringingLevels& levels = {});
/// Another gauge or material, with the caution about overload.
[[nodiscard]] std::vector<std::string> change_sentences(const StringChange& change,
                                                        const StringingLevels& levels = {});
/// Measured inharmonicity against the planned string.
[[nodiscard]] std::string inharmonicity_sentence(const StringFigures& predicted,
                                                 const InharmonicityComparison& comparison,
                                                 const MeasuredInharmonicity& measured);

} // namespace harpkeep
