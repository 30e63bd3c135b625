// SPDX-License-Identifier: MIT
#include "ui/cli/arguments.hpp"

#include "ui/support/clock.hpp"

#include <CLI/CLI.hpp>
#include <charconv>
#include <cmath>
#include <fmt/format.h>

namespace harpkeep::cli {

Result<StringPlace> place_argument(const std::string& text)
{
    if (const auto place = place_from_harp_name(text)) return *place;
    if (const auto place = place_from_scientific_name(text)) return *place;
    return failure(
        ErrorCode::invalid_argument,
        fmt::format("\"{}\" names no string; write the harp octave and the letter, as in 4C for middle "
                    "C, 0G for the top and 7C for the bottom of a concert harp",
                    text));
}

Result<std::vector<StringPlace>> places_argument(const std::vector<std::string>& texts)
{
    std::vector<StringPlace> places;
    if (texts.size() == 1 && texts.front() == "none") return places;
    for (const std::string& text : texts) {
        const auto place = place_argument(text);
        if (!place) return failure(place.error());
        places.push_back(*place);
    }
    return places;
}

Result<Money> money_argument(const std::string& text)
{
    if (const auto money = money_from_text(text)) return *money;
    return failure(
        ErrorCode::invalid_argument,
        fmt::format("\"{}\" is no amount of money; write it with the currency's three letters, as in "
                    "\"1250.00 EUR\"",
                    text));
}

Result<Date> date_argument(const std::string& text)
{
    const Date today = local_date(ui::now());
    if (text == "today") return today;
    if (text == "yesterday") return date_from_days(days_since_epoch(today) - 1);
    if (const auto date = date_from_iso(text)) return *date;
    return failure(
        ErrorCode::invalid_argument,
        fmt::format("\"{}\" is no date; write 2026-03-04, or only the month 2026-03 or the year 2026", text));
}

Result<Date> date_or_today(const std::string& text)
{
    return date_argument(text.empty() ? "today" : text);
}

Result<Moment> moment_argument(const std::string& text)
{
    if (const auto moment = moment_from_iso(text)) return *moment;
    // The same text with an offset reads a time without one; its own offset is then looked up.
    if (const auto local = moment_from_iso(text + "Z")) {
        const std::int64_t minutes = local->utc_ms / 60'000;
        const int minute_of_day = static_cast<int>(((minutes % 1440) + 1440) % 1440);
        const int offset =
            ui::local_offset_minutes(local_date(*local), minute_of_day / 60, minute_of_day % 60);
        return Moment{local->utc_ms - offset * std::int64_t{60'000}, offset};
    }
    if (const auto date = date_from_iso(text); date && date->is_full())
        return moment_at(*date, 12, 0, ui::local_offset_minutes(*date, 12, 0));
    return failure(
        ErrorCode::invalid_argument,
        fmt::format("\"{}\" is no time; write \"2026-03-04 18:05\", or 2026-03-04T18:05:00+01:00", text));
}

Result<Date> date_before_today(const std::string& text)
{
    int count = 0;
    const char* const end = text.data() + text.size();
    const auto [rest, error] = std::from_chars(text.data(), end, count);
    const bool usable = error == std::errc{} && rest + 1 == end && count >= 0 && count < 10'000;
    const Date today = local_date(ui::now());
    if (usable && *rest == 'd') return date_from_days(days_since_epoch(today) - count);
    if (usable && *rest == 'w') return date_from_days(days_since_epoch(today) - 7 * count);
    if (usable && *rest == 'm') return plus_months(today, -count);
    if (usable && *rest == 'y' && count < 1000) return plus_months(today, -12 * count);
    return failure(ErrorCode::invalid_argument,
                   fmt::format("\"{}\" is no length of time; write 90d, 6w, 18m or 2y", text));
}

void refuse_what_is_no_number(CLI::App& app)
{
    const auto finite = [](const std::string& text) {
        double value = 0.0;
        const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
        return error == std::errc{} && !std::isfinite(value) ? text + " is no number" : std::string{};
    };
    for (CLI::Option* option : app.get_options())
        if (option->get_type_name().starts_with("FLOAT")) option->check(finite);
    for (CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; }))
        refuse_what_is_no_number(*command);
}

void add_make_options(CLI::App& subcommand, MakeWords& words)
{
    subcommand.add_option("--material", words.material,
                          "gut, nylon, fluorocarbon, steel, ... (of the core when wound)");
    subcommand.add_option("--diameter", words.diameter_mm, "diameter in mm (of the core when wound)")
        ->check(CLI::PositiveNumber);
    subcommand.add_option("--wrap", words.wrap_material, "material of the wrap of a wound string");
    subcommand.add_option("--wrap-diameter", words.wrap_outer_mm, "diameter over the wrap in mm")
        ->check(CLI::PositiveNumber);
    subcommand.add_option("--density", words.linear_density_g_m, "weighed mass in grams for each metre")
        ->check(CLI::PositiveNumber);
    subcommand.add_option("--supplier", words.supplier, "who supplied it");
}

StringMake make_from(const MakeWords& words, const StringMake& base)
{
    StringMake make = base;
    if (!words.material.empty()) make.material = words.material;
    if (words.diameter_mm) make.diameter = Millimetres{*words.diameter_mm};
    if (!words.wrap_material.empty()) make.wrap_material = words.wrap_material;
    if (words.wrap_outer_mm) make.wrap_outer_diameter = Millimetres{*words.wrap_outer_mm};
    if (words.linear_density_g_m) make.linear_density = KilogramsPerMetre{*words.linear_density_g_m / 1000.0};
    if (!words.supplier.empty()) make.supplier = words.supplier;
    return make;
}

} // namespace harpkeep::cli
