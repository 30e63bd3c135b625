// SPDX-License-Identifier: MIT
#include "records/money.hpp"

#include "records/name_key.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>

namespace harpkeep {

namespace {

bool is_currency(std::string_view code)
{
    return code.size() == 3 &&
           std::all_of(code.begin(), code.end(), [](char letter) { return letter >= 'A' && letter <= 'Z'; });
}

std::int64_t power_of_ten(int exponent)
{
    std::int64_t power = 1;
    for (int i = 0; i < exponent; ++i) power *= 10;
    return power;
}

/// The amount in minor units; at most 15 digits, so that no sum of a ledger overflows.
std::optional<std::int64_t> minor_units_from(std::string_view amount, int decimals)
{
    const bool negative = amount.starts_with('-');
    if (negative) amount.remove_prefix(1);
    const auto point = amount.find('.');
    const auto whole = amount.substr(0, point);
    const auto fraction = point == std::string_view::npos ? std::string_view{} : amount.substr(point + 1);
    if (whole.empty() || (point != std::string_view::npos && fraction.empty())) return std::nullopt;
    if (fraction.size() > static_cast<std::size_t>(decimals) || whole.size() + fraction.size() > 15)
        return std::nullopt;
    std::int64_t value = 0;
    for (const auto digits : {whole, fraction})
        for (const char digit : digits) {
            if (digit < '0' || digit > '9') return std::nullopt;
            value = 10 * value + (digit - '0');
        }
    value *= power_of_ten(decimals - static_cast<int>(fraction.size()));
    return negative ? -value : value;
}

} // namespace

int decimals_of(std::string_view currency)
{
    // ISO 4217 table A.1, the currencies whose minor unit is not 2 (from memory).
    constexpr std::array<std::string_view, 16> none{"BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW",
                                                    "PYG", "RWF", "UGX", "VND", "VUV", "XAF", "XOF", "XPF"};
    constexpr std::array<std::string_view, 7> three{"BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"};
    if (std::find(none.begin(), none.end(), currency) != none.end()) return 0;
    if (std::find(three.begin(), three.end(), currency) != three.end()) return 3;
    return 2;
}

std::string money_text(const Money& money)
{
    const int decimals = decimals_of(money.currency);
    const std::int64_t scale = power_of_ten(decimals);
    const std::int64_t size = money.minor_units < 0 ? -money.minor_units : money.minor_units;
    const char* sign = money.minor_units < 0 ? "-" : "";
    if (decimals == 0) return fmt::format("{}{} {}", sign, size, money.currency);
    return fmt::format("{}{}.{:0{}} {}", sign, size / scale, size % scale, decimals, money.currency);
}

std::optional<Money> money_from_text(std::string_view text)
{
    const std::string clean = trimmed(text);
    const auto space = clean.find(' ');
    if (space == std::string::npos) return std::nullopt;
    std::string amount = clean.substr(0, space);
    std::string currency = trimmed(std::string_view{clean}.substr(space));
    if (is_currency(amount)) std::swap(amount, currency);
    if (!is_currency(currency)) return std::nullopt;
    const auto minor = minor_units_from(amount, decimals_of(currency));
    if (!minor) return std::nullopt;
    return Money{*minor, currency};
}

} // namespace harpkeep
