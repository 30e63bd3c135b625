// SPDX-License-Identifier: MIT
#include "db/records/stored_codes.hpp"

#include "db/sqlite/ledger_failure.hpp"

#include <array>
#include <cmath>
#include <fmt/format.h>
#include <limits>

namespace harpkeep::db {

namespace {

// The place of each entry is its code: only ever append.
constexpr std::array positions{Position::flat, Position::natural, Position::sharp, Position::open,
                               Position::engaged};
constexpr std::array doubt_bits{Doubt::too_short,       Doubt::too_noisy,     Doubt::clipped,
                                Doubt::beating,         Doubt::still_gliding, Doubt::disturbed,
                                Doubt::ambiguous_place, Doubt::wrong_pitch,   Doubt::irregular};

constexpr std::int64_t endless_freedom = 1'000'000'000; // tenths; no check has 10^8 degrees of freedom
constexpr double largest_scaled = 1e15;

[[noreturn]] void no_such_code(std::string_view what, std::int64_t code)
{
    fail(ErrorCode::corrupt,
         fmt::format("a row holds the unknown {} {}; see `harpkeep ledger verify`", what, code));
}

} // namespace

int code_of(Position position)
{
    for (std::size_t code = 0; code < positions.size(); ++code)
        if (positions[code] == position) return static_cast<int>(code);
    fail(ErrorCode::invalid_argument, "a position that the ledger does not know");
}

Position position_from_code(std::int64_t code)
{
    if (code < 0 || code >= static_cast<std::int64_t>(positions.size())) no_such_code("position", code);
    return positions[static_cast<std::size_t>(code)];
}

int code_of(Step step)
{
    return step == Step::lower ? 0 : 1;
}

Step step_from_code(std::int64_t code)
{
    if (code != 0 && code != 1) no_such_code("step", code);
    return code == 0 ? Step::lower : Step::upper;
}

std::int64_t code_of(const std::vector<Doubt>& doubts)
{
    std::int64_t code = 0;
    for (const Doubt doubt : doubts) {
        bool known = false;
        for (std::size_t bit = 0; bit < doubt_bits.size(); ++bit)
            if (doubt_bits[bit] == doubt) {
                code |= std::int64_t{1} << bit;
                known = true;
            }
        if (!known) fail(ErrorCode::invalid_argument, "a doubt that the ledger does not know");
    }
    return code;
}

std::vector<Doubt> doubts_from_code(std::int64_t code)
{
    std::vector<Doubt> doubts;
    for (std::size_t bit = 0; bit < doubt_bits.size(); ++bit)
        if ((code >> bit & 1) != 0) doubts.push_back(doubt_bits[bit]);
    if (code >> doubt_bits.size() != 0) no_such_code("set of doubts", code);
    return doubts;
}

StringPlace place_from_code(std::int64_t diatonic_index)
{
    if (diatonic_index < 0 || diatonic_index > 62) no_such_code("string place", diatonic_index);
    return place_from_diatonic_index(static_cast<int>(diatonic_index));
}

std::int64_t scaled(double value, double per_unit, std::string_view what)
{
    const double number = std::round(value * per_unit);
    if (!(std::abs(number) < largest_scaled)) // also when it is no number
        fail(ErrorCode::invalid_argument, fmt::format("the {} {} cannot be kept", what, value));
    return static_cast<std::int64_t>(number);
}

std::int64_t freedom_code(double degrees_of_freedom)
{
    if (degrees_of_freedom >= static_cast<double>(endless_freedom) / 10.0) return endless_freedom;
    return scaled(degrees_of_freedom, 10.0, "degrees of freedom");
}

double freedom_from_code(std::int64_t tenths)
{
    if (tenths >= endless_freedom) return std::numeric_limits<double>::infinity();
    return static_cast<double>(tenths) / 10.0;
}

} // namespace harpkeep::db
