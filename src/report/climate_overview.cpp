// SPDX-License-Identifier: MIT
#include "report/climate_overview.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace harpkeep::report {

namespace {

std::optional<Spread> spread_of(std::vector<double> values)
{
    if (values.empty()) return std::nullopt;
    std::sort(values.begin(), values.end());
    const std::size_t half = values.size() / 2;
    const double middle = values.size() % 2 == 1 ? values[half] : 0.5 * (values[half - 1] + values[half]);
    return Spread{values.front(), middle, values.back()};
}

} // namespace

ClimateOverview climate_overview(std::span<const ClimateSample> samples, Date from, Date until)
{
    ClimateOverview overview{.from = from, .until = until};
    std::vector<double> humidity;
    std::vector<double> temperature;
    std::size_t outside = 0;
    for (const ClimateSample& sample : samples) {
        const Date day = local_date(sample.taken);
        if (day < first_day(from) || day > last_day(until)) continue;
        ++overview.samples;
        if (sample.temperature) temperature.push_back(sample.temperature->value());
        if (!sample.humidity) continue;
        const double percent = sample.humidity->value();
        humidity.push_back(percent);
        outside += percent < usual_humidity_low_percent || percent > usual_humidity_high_percent;
    }
    if (!humidity.empty())
        overview.humidity_outside_share = static_cast<double>(outside) / static_cast<double>(humidity.size());
    overview.humidity_percent = spread_of(std::move(humidity));
    overview.temperature_celsius = spread_of(std::move(temperature));
    return overview;
}

std::string climate_words(const ClimateOverview& overview)
{
    std::string text;
    if (const auto& humidity = overview.humidity_percent)
        text = fmt::format("humidity {:.0f} to {:.0f} %, middle {:.0f} %", humidity->lowest,
                           humidity->highest, humidity->middle);
    if (const auto& temperature = overview.temperature_celsius)
        text +=
            fmt::format("{}{} to {} °C", text.empty() ? "" : "; ", fmt::format("{:.0f}", temperature->lowest),
                        fmt::format("{:.0f}", temperature->highest));
    return text.empty() ? "not logged" : text;
}

std::vector<Field> climate_fields(const ClimateOverview& overview)
{
    const auto part = [](const std::optional<Spread>& spread, double Spread::*member) {
        return spread ? FieldValue{(*spread).*member} : FieldValue{};
    };
    const auto& humidity = overview.humidity_percent;
    const auto& temperature = overview.temperature_celsius;
    return {{"climate_from", iso_date(overview.from)},
            {"climate_until", iso_date(overview.until)},
            {"climate_samples", static_cast<std::int64_t>(overview.samples)},
            {"humidity_lowest_percent", part(humidity, &Spread::lowest)},
            {"humidity_middle_percent", part(humidity, &Spread::middle)},
            {"humidity_highest_percent", part(humidity, &Spread::highest)},
            {"humidity_outside_share", humidity ? FieldValue{overview.humidity_outside_share} : FieldValue{}},
            {"temperature_lowest_celsius", part(temperature, &Spread::lowest)},
            {"temperature_middle_celsius", part(temperature, &Spread::middle)},
            {"temperature_highest_celsius", part(temperature, &Spread::highest)}};
}

} // namespace harpkeep::report
