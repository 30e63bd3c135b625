// SPDX-License-Identifier: MIT
#include "exchange/climate_csv.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;
using Catch::Matchers::WithinAbs;

namespace {

int one_hour_east(Date, int, int)
{
    return 60;
}

Result<std::vector<ClimateSample>> read(std::string_view text, const ClimateColumns& columns)
{
    return climate_from_csv(text, columns, "logger.csv", one_hour_east);
}

} // namespace

TEST_CASE("climate csv: a plain file with headings", "[exchange]")
{
    const auto samples =
        read("Time,Temperature,Humidity\r\n2026-03-04 18:05,21.5,47\r\n2026-03-04 18:15:30,21.25,\r\n",
             {.time = "Time", .temperature = "Temperature", .humidity = "Humidity"})
            .value();
    REQUIRE(samples.size() == 2);
    CHECK(iso_time(samples[0].taken) == "2026-03-04T18:05:00+01:00");
    CHECK(samples[0].temperature == Celsius{21.5});
    CHECK(samples[0].humidity == RelativeHumidity{47.0});
    CHECK(iso_time(samples[1].taken) == "2026-03-04T18:15:30+01:00");
    CHECK_FALSE(samples[1].humidity);
}

TEST_CASE("climate csv: semicolons, decimal commas, day first, date and time apart, lines to skip",
          "[exchange]")
{
    const auto samples = read("Logger 7\r\nserial;123\r\nDatum;Zeit;T;rF\r\n04.03.2026;18:05;21,5;0,47\r\n",
                              {.time = "Zeit",
                               .date = "Datum",
                               .temperature = "T",
                               .humidity = "4",
                               .humidity_unit = HumidityUnit::fraction,
                               .date_order = DateOrder::day_first,
                               .skipped_lines = 2})
                             .value();
    REQUIRE(samples.size() == 1);
    CHECK(iso_time(samples[0].taken) == "2026-03-04T18:05:00+01:00");
    CHECK(samples[0].temperature == Celsius{21.5});
    CHECK_THAT(samples[0].humidity->value(), WithinAbs(47.0, 1e-12)); // one rounding of 0.47
}

TEST_CASE("climate csv: month first, morning and afternoon, Fahrenheit", "[exchange]")
{
    const auto samples = read("when,t\n3/4/26 6:05 PM,70.7\n3/4/2026 12:00 AM,32\n",
                              {.time = "when",
                               .temperature = "t",
                               .temperature_unit = TemperatureUnit::fahrenheit,
                               .date_order = DateOrder::month_first})
                             .value();
    REQUIRE(samples.size() == 2);
    CHECK(iso_time(samples[0].taken) == "2026-03-04T18:05:00+01:00");
    CHECK_THAT(samples[0].temperature->value(), WithinAbs(21.5, 1e-12)); // one rounding of 38.7 / 1.8
    CHECK(iso_time(samples[1].taken) == "2026-03-04T00:00:00+01:00");
    CHECK(samples[1].temperature == Celsius{0.0});
}

TEST_CASE("climate csv: seconds since 1970, kelvin, and times that have their own offset", "[exchange]")
{
    const auto unix_time = read("s,k\n1645557742,294.65\n", {.time = "s",
                                                             .temperature = "k",
                                                             .temperature_unit = TemperatureUnit::kelvin,
                                                             .date_order = DateOrder::unix_seconds})
                               .value();
    CHECK(iso_time(unix_time[0].taken) == "2022-02-22T20:22:22+01:00");
    CHECK_THAT(unix_time[0].temperature->value(), WithinAbs(21.5, 1e-12)); // rounding of 294.65 - 273.15
    const auto zoned = read("t,h\n2026-03-04T18:05:00-05:00,40\n", {.time = "t", .humidity = "h"}).value();
    CHECK(iso_time(zoned[0].taken) == "2026-03-04T18:05:00-05:00");
}

TEST_CASE("climate csv: every bad cell is told, and nothing is taken", "[exchange]")
{
    const auto result = read("t,c\n2026-03-04 18:05,warm\nyesterday,20\n2026-03-04 18:25,20\n",
                             {.time = "t", .temperature = "c"});
    REQUIRE_FALSE(result);
    CHECK(result.error().code == ErrorCode::unusable_input);
    CHECK(result.error().message.find("line 2, column 18: \"warm\" is no number") != std::string::npos);
    CHECK(result.error().message.find("line 3, column 1: \"yesterday\" is no time") != std::string::npos);
}

TEST_CASE("climate csv: a column that is not there is told with those that are", "[exchange]")
{
    const auto result = read("t,c\n2026-03-04 18:05,20\n", {.time = "t", .temperature = "Temp"});
    REQUIRE_FALSE(result);
    CHECK(result.error().message.find("it has \"t\", \"c\"") != std::string::npos);
    CHECK_FALSE(read("t,c\n", {.time = "t", .temperature = "c"}));
    CHECK_FALSE(read("t,c\n2026-03-04 18:05,20\n", {.time = "t"}));
}
