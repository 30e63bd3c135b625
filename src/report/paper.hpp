// SPDX-License-Identifier: MIT
#pragma once

#include "units/quantity.hpp"

#include <array>
#include <optional>
#include <string_view>

namespace harpkeep::report {

enum class Paper { a4, letter };

inline constexpr std::array<Paper, 2> all_papers{Paper::a4, Paper::letter};

[[nodiscard]] constexpr std::string_view paper_name(Paper paper)
{
    return paper == Paper::a4 ? "a4" : "letter";
}

[[nodiscard]] constexpr std::optional<Paper> paper_from_name(std::string_view name)
{
    for (const Paper paper : all_papers)
        if (paper_name(paper) == name) return paper;
    return std::nullopt;
}

struct PaperSize {
    Millimetres width;
    Millimetres height;
};

/// Upright.
///
/// Reference  ISO 216:2007 A4, 210 mm x 297 mm; ANSI/ASME Y14.1 size A, 8.5 in x 11 in (both from memory)
[[nodiscard]] constexpr PaperSize size_of(Paper paper)
{
    return paper == Paper::a4 ? PaperSize{Millimetres{210.0}, Millimetres{297.0}}
                              : PaperSize{Millimetres{215.9}, Millimetres{279.4}};
}

} // namespace harpkeep::report
