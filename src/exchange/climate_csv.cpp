// SPDX-License-Identifier: MIT
#include "exchange/climate_csv.hpp"

#include "exchange/csv.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <fmt/format.h>

namespace harpkeep {

namespace {

constexpr std::int64_t ms_per_second = 1000;
constexpr std::int64_t ms_per_minute = 60'000;

using Row = std::vector<CsvCell>;

struct ColumnNumbers {
    std::size_t time = 0;
    std::optional<std::size_t> date;
    std::optional<std::size_t> temperature;
    std::optional<std::size_t> humidity;
};

std::string without_outer_spaces(std::string_view text)
{
    const auto first = text.find_first_not_of(" \t");
    if (first == std::string_view::npos) return {};
    return std::string{text.substr(first, text.find_last_not_of(" \t") - first + 1)};
}

Result<std::size_t> column_number(const Row& headings, const std::string& wanted,
                                  const std::string& file_name)
{
    for (std::size_t i = 0; i < headings.size(); ++i)
        if (without_outer_spaces(headings[i].text) == wanted) return i;
    std::size_t number = 0;
    const auto [end, error] = std::from_chars(wanted.data(), wanted.data() + wanted.size(), number);
    if (error == std::errc{} && end == wanted.data() + wanted.size() && number >= 1 &&
        number <= headings.size())
        return number - 1;
    std::string known;
    for (const CsvCell& cell : headings) known += (known.empty() ? "\"" : ", \"") + cell.text + "\"";
    return failure(ErrorCode::invalid_argument,
                   fmt::format("{}: has no column \"{}\"; it has {}", file_name, wanted, known));
}

Result<std::optional<std::size_t>> optional_column(const Row& headings, const std::string& wanted,
                                                   const std::string& file_name)
{
    if (wanted.empty()) return std::nullopt;
    const auto number = column_number(headings, wanted, file_name);
    if (!number) return failure(number.error());
    return std::optional{*number};
}

Result<ColumnNumbers> column_numbers(const Row& headings, const ClimateColumns& columns,
                                     const std::string& file_name)
{
    const auto time = column_number(headings, columns.time, file_name);
    if (!time) return failure(time.error());
    const auto date = optional_column(headings, columns.date, file_name);
    if (!date) return failure(date.error());
    const auto temperature = optional_column(headings, columns.temperature, file_name);
    if (!temperature) return failure(temperature.error());
    const auto humidity = optional_column(headings, columns.humidity, file_name);
    if (!humidity) return failure(humidity.error());
    return ColumnNumbers{*time, *date, *temperature, *humidity};
}

std::optional<double> number_from(std::string text, bool comma_is_point)
{
    if (comma_is_point) std::replace(text.begin(), text.end(), ',', '.');
    double value = 0.0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
    return value;
}

/// The whole numbers in a text, and what stands behind the last.
struct Numbers {
    std::vector<int> values;
    std::string rest;
};

Numbers numbers_in(std::string_view text)
{
    Numbers numbers;
    while (!text.empty()) {
        int value = 0;
        const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
        if (error != std::errc{} || text.front() == '-') {
            if (text.front() == ' ' || (text.front() >= 'A' && text.front() <= 'z'))
                numbers.rest += text.front();
            text.remove_prefix(1);
            continue;
        }
        numbers.values.push_back(value);
        numbers.rest.clear();
        text.remove_prefix(static_cast<std::size_t>(end - text.data()));
    }
    return numbers;
}

std::optional<Date> date_from(std::string_view text, DateOrder order)
{
    const auto values = numbers_in(text).values;
    if (values.size() != 3) return std::nullopt;
    Date date{values[0], values[1], values[2]};
    if (order == DateOrder::day_first) date = {values[2], values[1], values[0]};
    if (order == DateOrder::month_first) date = {values[2], values[0], values[1]};
    if (date.year >= 0 && date.year < 100) date.year += 2000;
    if (!is_valid(date) || !date.is_full()) return std::nullopt;
    return date;
}

struct TimeOfDay {
    int hour = 0;
    int minute = 0;
    int second = 0;
};

/// "18:05", "18:05:30", "6:05 PM".
std::optional<TimeOfDay> time_of_day_from(std::string_view text)
{
    const Numbers numbers = numbers_in(text);
    if (numbers.values.size() < 2 || numbers.values.size() > 4)
        return std::nullopt; // a fourth: fraction of a second
    TimeOfDay time{numbers.values[0], numbers.values[1], numbers.values.size() > 2 ? numbers.values[2] : 0};
    const bool afternoon = numbers.rest.find_first_of("pP") != std::string::npos;
    const bool morning = numbers.rest.find_first_of("aA") != std::string::npos;
    if ((afternoon || morning) && (time.hour < 1 || time.hour > 12)) return std::nullopt;
    if (afternoon && time.hour < 12) time.hour += 12;
    if (morning && time.hour == 12) time.hour = 0;
    if (time.hour > 23 || time.minute > 59 || time.second > 59) return std::nullopt;
    return time;
}

std::optional<Moment> moment_from(const std::string& date_text, const std::string& time_text, DateOrder order,
                                  const OffsetOf& offset_of)
{
    const auto date = date_from(date_text, order);
    const auto time = time_of_day_from(time_text);
    if (!date || !time) return std::nullopt;
    Moment moment = moment_at(*date, time->hour, time->minute, offset_of(*date, time->hour, time->minute));
    moment.utc_ms += time->second * ms_per_second;
    return moment;
}

/// Date and time in one cell.
std::optional<Moment> moment_from(const std::string& text, DateOrder order, const OffsetOf& offset_of)
{
    if (order == DateOrder::unix_seconds) {
        const auto seconds = number_from(text, false);
        if (!seconds || !(*seconds >= 0.0 && *seconds < 253402300800.0))
            return std::nullopt; // before year 10000
        const Moment utc{static_cast<std::int64_t>(*seconds * 1000.0), 0};
        const auto minute_of_day = static_cast<int>(utc.utc_ms / ms_per_minute % 1440);
        return Moment{utc.utc_ms, offset_of(local_date(utc), minute_of_day / 60, minute_of_day % 60)};
    }
    if (order == DateOrder::year_first)
        if (const auto full = moment_from_iso(text)) return full;
    const auto gap = text.find_first_of(" T");
    if (gap == std::string::npos) return std::nullopt;
    return moment_from(text.substr(0, gap), text.substr(gap + 1), order, offset_of);
}

double celsius_from(double value, TemperatureUnit unit)
{
    if (unit == TemperatureUnit::fahrenheit) return (value - 32.0) / 1.8;
    return unit == TemperatureUnit::kelvin ? value - 273.15 : value;
}

/// Reads row after row and gathers what cannot be read.
struct RowReader {
    const ClimateColumns& columns;
    const ColumnNumbers& numbers;
    const OffsetOf& offset_of;
    bool comma_is_point;
    std::vector<CellProblem> problems;

    std::optional<double> value(const Row& row, std::optional<std::size_t> column)
    {
        if (!column) return std::nullopt;
        const std::string text = without_outer_spaces(row[*column].text);
        if (text.empty()) return std::nullopt;
        const auto number = number_from(text, comma_is_point);
        if (!number)
            problems.push_back(
                {row[*column].line, row[*column].column, fmt::format("\"{}\" is no number", text)});
        return number;
    }

    std::optional<Moment> moment(const Row& row)
    {
        const std::string time = without_outer_spaces(row[numbers.time].text);
        const auto found = numbers.date ? moment_from(without_outer_spaces(row[*numbers.date].text), time,
                                                      columns.date_order, offset_of)
                                        : moment_from(time, columns.date_order, offset_of);
        if (!found)
            problems.push_back({row[numbers.time].line, row[numbers.time].column,
                                fmt::format("\"{}\" is no time in this order of day, month and year", time)});
        return found;
    }

    std::optional<ClimateSample> sample(const Row& row)
    {
        const auto temperature = value(row, numbers.temperature);
        const auto humidity = value(row, numbers.humidity);
        if (!temperature && !humidity) return std::nullopt;
        const auto taken = moment(row);
        if (!taken) return std::nullopt;
        ClimateSample read{*taken, std::nullopt, std::nullopt};
        if (temperature) read.temperature = Celsius{celsius_from(*temperature, columns.temperature_unit)};
        const double percent = columns.humidity_unit == HumidityUnit::fraction ? 100.0 : 1.0;
        if (humidity) read.humidity = RelativeHumidity{percent * *humidity};
        return read;
    }
};

std::string_view after_lines(std::string_view text, int lines)
{
    for (; lines > 0 && !text.empty(); --lines) {
        const auto end = text.find('\n');
        text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    }
    return text;
}

} // namespace

Result<std::vector<ClimateSample>> climate_from_csv(std::string_view text, const ClimateColumns& columns,
                                                    const std::string& file_name, const OffsetOf& offset_of)
{
    if (columns.temperature.empty() && columns.humidity.empty())
        return failure(ErrorCode::invalid_argument,
                       "name the column of the temperature, of the humidity, or both");
    text = after_lines(text, columns.skipped_lines);
    const char separator = likely_separator(text);
    const auto table = read_csv(text, {.separator = separator});
    if (!table) return failure(table.error().within(file_name));
    if (table->rows.size() < 2)
        return failure(ErrorCode::unusable_input, file_name + ": has no rows under its headings");
    const auto numbers = column_numbers(table->rows.front(), columns, file_name);
    if (!numbers) return failure(numbers.error());

    RowReader reader{columns, *numbers, offset_of, separator != ',', {}};
    std::vector<ClimateSample> samples;
    for (std::size_t i = 1; i < table->rows.size(); ++i)
        if (auto sample = reader.sample(table->rows[i])) samples.push_back(*sample);
    for (CellProblem& problem : reader.problems) problem.line += columns.skipped_lines;
    if (!reader.problems.empty()) return failure(problems_error(file_name, reader.problems));
    return samples;
}

} // namespace harpkeep
