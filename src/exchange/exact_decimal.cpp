// SPDX-License-Identifier: MIT
#include "exchange/exact_decimal.hpp"

#include "base/expects.hpp"

#include <charconv>
#include <cmath>
#include <fmt/format.h>
#include <limits>

namespace harpkeep {

namespace {

constexpr int most_decimals = 12;

/// What another program made of the number on its way through a double: 0.031531000000000003, or 1e-05.
std::optional<std::int64_t> through_a_double(std::string_view text, int decimals)
{
    const auto value = finite_number(text);
    if (!value) return std::nullopt;
    const double small_units = *value * std::pow(10.0, decimals);
    const double rounded = std::round(small_units);
    const double rounding =
        4.0 * std::numeric_limits<double>::epsilon() * std::abs(rounded); // reading, scaling
    if (!(std::abs(small_units - rounded) <= rounding) || std::abs(rounded) > 9e15) return std::nullopt;
    return static_cast<std::int64_t>(rounded);
}

} // namespace

std::string exact_decimal(std::int64_t small_units, int decimals)
{
    HARPKEEP_EXPECTS(decimals >= 0 && decimals <= most_decimals);
    const auto size = static_cast<std::uint64_t>(small_units);
    const std::string digits = fmt::format("{:0{}}", small_units < 0 ? 0 - size : size, decimals + 1);
    const std::string_view all{digits};
    const std::size_t point = all.size() - static_cast<std::size_t>(decimals);
    std::string_view fraction = all.substr(point);
    fraction = fraction.substr(0, fraction.find_last_not_of('0') + 1);
    return fmt::format("{}{}{}{}", small_units < 0 ? "-" : "", all.substr(0, point),
                       fraction.empty() ? "" : ".", fraction);
}

std::optional<std::int64_t> small_units_from_decimal(std::string_view text, int decimals)
{
    HARPKEEP_EXPECTS(decimals >= 0 && decimals <= most_decimals);
    if (text.find_first_of("eE") != std::string_view::npos) return through_a_double(text, decimals);
    const auto point = text.find('.');
    std::string digits{text.substr(0, point)};
    std::string fraction{point == std::string_view::npos ? "" : text.substr(point + 1)};
    if (fraction.find_first_not_of("0123456789") != std::string::npos) return std::nullopt;
    if (digits.empty() || digits == "-" || digits == "+") {
        if (fraction.empty()) return std::nullopt;
        digits += '0';
    }
    while (fraction.size() > static_cast<std::size_t>(decimals) && fraction.back() == '0')
        fraction.pop_back();
    if (fraction.size() > static_cast<std::size_t>(decimals)) return through_a_double(text, decimals);
    fraction.resize(static_cast<std::size_t>(decimals), '0');
    return whole_number(digits + fraction);
}

std::string shortest_number(double value)
{
    return fmt::format("{}", value);
}

std::optional<double> finite_number(std::string_view text)
{
    if (text.starts_with('+')) text.remove_prefix(1);
    double value = 0.0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value))
        return std::nullopt;
    return value;
}

std::optional<std::int64_t> whole_number(std::string_view text)
{
    if (text.starts_with('+')) text.remove_prefix(1);
    std::int64_t value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
    return value;
}

} // namespace harpkeep
