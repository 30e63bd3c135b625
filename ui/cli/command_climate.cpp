// SPDX-License-Identifier: MIT
#include "db/ledger/file_bytes.hpp"
#include "db/records/climate.hpp"
#include "db/records/rooms.hpp"
#include "exchange/climate_csv.hpp"
#include "ui/cli/arguments.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/record_json.hpp"
#include "ui/cli/verb.hpp"
#include "ui/support/clock.hpp"

#include <filesystem>
#include <fmt/format.h>

namespace harpkeep::cli {

namespace {

constexpr std::int64_t largest_file_bytes =
    268'435'456; // a logger's file of ten years at a minute has about 200 MB

struct WhereWords {
    std::string harp;
    std::string room;
};

Result<ClimateSeries> series_at(const db::Ledger& ledger, const WhereWords& words)
{
    ClimateSeries series;
    if (!words.room.empty() && !words.harp.empty())
        return failure(ErrorCode::invalid_argument, "give --room or --harp, not both");
    if (!words.room.empty()) {
        const auto room = db::room_named(ledger, words.room);
        if (!room) return failure(room.error());
        series.room_id = room->id;
        return series;
    }
    const auto harp = chosen_harp(ledger, words.harp);
    if (!harp) return failure(harp.error());
    series.harp_id = harp->id;
    return series;
}

Result<void> store(const Common& common, db::Ledger& ledger, const ClimateSeries& series)
{
    const auto added = db::add_climate(ledger, ui::author(), series);
    if (!added) return failure(added.error());
    const auto known = series.samples.size() - *added;
    if (common.json)
        print_json({{"added", *added}, {"already_known", known}});
    else
        print_line(fmt::format("Noted {}{}.", counted(*added, "sample"),
                               known > 0 ? fmt::format("; {} were there already", known) : ""));
    return {};
}

struct AddWords : WhereWords {
    std::optional<double> temperature_c;
    std::optional<double> humidity_percent;
    std::string time;
};

Result<void> add(const Common& common, const AddWords& words)
{
    auto ledger = open_ledger(common, db::Access::write);
    if (!ledger) return failure(ledger.error());
    auto series = series_at(*ledger, words);
    if (!series) return failure(series.error());
    ClimateSample sample{ui::now(), std::nullopt, std::nullopt};
    if (!words.time.empty()) {
        const auto time = moment_argument(words.time);
        if (!time) return failure(time.error());
        sample.taken = *time;
    }
    if (words.temperature_c) sample.temperature = Celsius{*words.temperature_c};
    if (words.humidity_percent) sample.humidity = RelativeHumidity{*words.humidity_percent};
    series->source = "by hand";
    series->samples = {sample};
    return store(common, *ledger, *series);
}

struct ImportWords : WhereWords {
    std::string file;
    ClimateColumns columns;
    std::string temperature_unit = "C";
    std::string humidity_unit = "percent";
    std::string date_order = "ymd";
};

ClimateColumns columns_from(const ImportWords& words)
{
    ClimateColumns columns = words.columns;
    if (words.temperature_unit == "F") columns.temperature_unit = TemperatureUnit::fahrenheit;
    if (words.temperature_unit == "K") columns.temperature_unit = TemperatureUnit::kelvin;
    if (words.humidity_unit == "fraction") columns.humidity_unit = HumidityUnit::fraction;
    if (words.date_order == "dmy") columns.date_order = DateOrder::day_first;
    if (words.date_order == "mdy") columns.date_order = DateOrder::month_first;
    if (words.date_order == "unix") columns.date_order = DateOrder::unix_seconds;
    return columns;
}

Result<void> import(const Common& common, const ImportWords& words)
{
    auto ledger = open_ledger(common, db::Access::write);
    if (!ledger) return failure(ledger.error());
    auto series = series_at(*ledger, words);
    if (!series) return failure(series.error());
    const auto bytes = db::file_bytes(words.file, largest_file_bytes);
    if (!bytes) return failure(bytes.error());
    const std::string_view text{reinterpret_cast<const char*>(bytes->data()), bytes->size()};
    auto samples = climate_from_csv(text, columns_from(words), words.file, ui::local_offset_minutes);
    if (!samples) return failure(samples.error());
    series->source = std::filesystem::path{words.file}.filename().string();
    series->samples = std::move(*samples);
    return store(common, *ledger, *series);
}

struct ListWords : WhereWords {
    std::string since;
};

std::string number_text(const std::optional<double>& number)
{
    return number ? fmt::format("{:.1f}", *number) : "";
}

void print_samples(const std::vector<ClimateSample>& samples)
{
    if (samples.empty()) print_line("Nothing noted; `harpkeep climate add` or `climate import` notes it.");
    if (samples.empty()) return;
    Table table{{{"Time"}, {"Temperature C", Table::Align::right}, {"Humidity %", Table::Align::right}}};
    for (const ClimateSample& sample : samples)
        table.add_row(
            {short_time(sample.taken),
             number_text(sample.temperature ? std::optional{sample.temperature->value()} : std::nullopt),
             number_text(sample.humidity ? std::optional{sample.humidity->value()} : std::nullopt)});
    table.print();
}

Result<std::vector<ClimateSample>> samples_for(const db::Ledger& ledger, const ListWords& words)
{
    std::int64_t from_utc_ms = 0;
    if (!words.since.empty()) {
        const auto since = moment_argument(words.since);
        if (!since) return failure(since.error());
        from_utc_ms = since->utc_ms;
    }
    const auto series = series_at(ledger, words);
    if (!series) return failure(series.error());
    const std::int64_t until_utc_ms = ui::now().utc_ms + 86'400'000;
    return series->room_id ? db::climate_of_room(ledger, *series->room_id, from_utc_ms, until_utc_ms)
                           : db::climate_of_harp(ledger, *series->harp_id, from_utc_ms, until_utc_ms);
}

Result<void> list(const Common& common, const ListWords& words)
{
    const auto ledger = open_ledger(common, db::Access::read);
    if (!ledger) return failure(ledger.error());
    const auto samples = samples_for(*ledger, words);
    if (!samples) return failure(samples.error());
    if (common.json)
        print_json(json_list(*samples));
    else
        print_samples(*samples);
    return {};
}

Result<void> sources(const Common& common, const NoWords&)
{
    const auto ledger = open_ledger(common, db::Access::read);
    if (!ledger) return failure(ledger.error());
    const auto names = Names::in(*ledger);
    if (!names) return failure(names.error());
    const auto series = db::climate_series(*ledger);
    if (!series) return failure(series.error());
    if (common.json) {
        print_json(json_list(*series, *names));
        return {};
    }
    Table table{{{"Where"}, {"Source"}, {"Samples", Table::Align::right}, {"From"}, {"Until"}, {"Handle"}}};
    for (const ClimateSummary& one : *series)
        table.add_row({names->of(one.series.room_id) + names->of(one.series.harp_id), one.series.source,
                       std::to_string(one.sample_count), short_time(one.first), short_time(one.last),
                       db::handle_of(one.id)});
    table.print();
    return {};
}

void add_where_options(CLI::App& app, WhereWords& words)
{
    app.add_option("--room", words.room, "where it was measured");
    app.add_option("--harp", words.harp, "or beside which harp");
}

void add_import(CLI::App& climate, Common& common, Work& work)
{
    const auto importing =
        add_verb<ImportWords>(climate, common, work, "import", "read a logger's CSV file", import);
    auto& words = *importing.words;
    importing.app->add_option("FILE", words.file, "CSV with commas, semicolons or tabs")->required();
    add_where_options(*importing.app, words);
    importing.app
        ->add_option("--time-column", words.columns.time, "heading or number of the time (and date) column")
        ->required();
    importing.app->add_option("--date-column", words.columns.date, "when the date has a column of its own");
    importing.app->add_option("--temperature-column", words.columns.temperature, "heading or number");
    importing.app->add_option("--humidity-column", words.columns.humidity, "heading or number");
    importing.app->add_option("--temperature-unit", words.temperature_unit, "C, F or K")
        ->check(CLI::IsMember({"C", "F", "K"}))
        ->capture_default_str();
    importing.app->add_option("--humidity-unit", words.humidity_unit, "percent, or fraction of 1")
        ->check(CLI::IsMember({"percent", "fraction"}))
        ->capture_default_str();
    importing.app
        ->add_option("--date-order", words.date_order, "ymd, dmy, mdy, or unix for seconds since 1970")
        ->check(CLI::IsMember({"ymd", "dmy", "mdy", "unix"}))
        ->capture_default_str();
    importing.app->add_option("--skip-lines", words.columns.skipped_lines, "lines before the headings")
        ->check(CLI::NonNegativeNumber);
}

} // namespace

void add_command_climate(CLI::App& app, Common& common, Work& work)
{
    auto& climate = add_noun(app, "climate", "temperature and humidity");

    const auto adding =
        add_verb<AddWords>(climate, common, work, "add", "note what a thermometer shows", add);
    add_where_options(*adding.app, *adding.words);
    adding.app->add_option("--temperature", adding.words->temperature_c, "in degrees Celsius");
    adding.app->add_option("--humidity", adding.words->humidity_percent, "relative humidity in percent");
    adding.app->add_option("--time", adding.words->time, "when, as in \"2026-03-04 18:05\" (default: now)");

    add_import(climate, common, work);

    const auto listing =
        add_verb<ListWords>(climate, common, work, "list", "the air in a room or around a harp", list);
    add_where_options(*listing.app, *listing.words);
    listing.app->add_option("--since", listing.words->since, "from this day or time on");

    add_verb<NoWords>(climate, common, work, "sources", "where samples came from", sources);
}

} // namespace harpkeep::cli
