// SPDX-License-Identifier: MIT
#include "ui/dashboard/ledger/ledger_intake.hpp"
#include "db/ledger/file_bytes.hpp"
#include "db/records/checks.hpp"
#include "db/records/climate.hpp"
#include "db/records/harps.hpp"
#include "exchange/climate_csv.hpp"
#include "intake/recording.hpp"
#include "ui/dashboard/ledger/ledger_source.hpp"
#include "ui/dashboard/text.hpp"
#include "ui/support/clock.hpp"

#include <fmt/format.h>

#include <array>
#include <filesystem>

namespace harpkeep::dashboard {

namespace {

constexpr std::int64_t largest_table_bytes = 100'000'000; // ten years of a reading each minute

std::string lowered(std::string_view text)
{
    std::string out{text};
    for (char& c : out)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return out;
}

/// The headings of a table as they are written, quotes taken off.
std::vector<std::string> headings_of(std::string_view text)
{
    const std::string_view line = text.substr(0, text.find_first_of("\r\n"));
    char separator = ',';
    for (const char candidate : {'\t', ';'})
        if (line.find(candidate) != std::string_view::npos) separator = candidate;
    std::vector<std::string> out{""};
    for (const char c : line) {
        if (c == separator)
            out.emplace_back();
        else if (c != '"')
            out.back() += c;
    }
    return out;
}

} // namespace

std::optional<ClimateColumns> guessed_columns(std::string_view text)
{
    ClimateColumns columns;
    for (const auto& heading : headings_of(text)) {
        const std::string small = lowered(heading);
        const auto holds = [&](std::string_view word) { return small.find(word) != std::string::npos; };
        if (columns.time.empty() && (holds("time") || holds("date") || holds("taken")))
            columns.time = heading;
        else if (columns.temperature.empty() && holds("temp")) {
            columns.temperature = heading;
            if (holds("\u00b0f") || holds("(f)") || holds("fahrenheit"))
                columns.temperature_unit = TemperatureUnit::fahrenheit;
        } else if (columns.humidity.empty() &&
                   (holds("humid") || small == "rh" || holds("rh ") || holds("(rh") || holds("%rh")))
            columns.humidity = heading;
    }
    if (columns.time.empty() || (columns.temperature.empty() && columns.humidity.empty()))
        return std::nullopt;
    return columns;
}

Result<Outcome> LedgerSource::check_recordings(const Uuid& harp_id, const CheckRecordings& wish, double a4_hz,
                                               JobContext& context)
{
    const auto harp = db::harp_with_id(ledger_, harp_id);
    if (!harp) return failure(harp.error());
    if (wish.recordings.empty()) return failure(ErrorCode::invalid_argument, text::no_recording_chosen);
    std::vector<CheckRecording> recordings;
    for (const auto& recording : wish.recordings) recordings.push_back({recording.path, recording.pass});
    auto heard = hear_check(harp->details.layout, Hertz{a4_hz}, recordings, [&](double share) {
        context.progress(share);
        return !context.cancelled();
    });
    if (!heard) return failure(heard.error());
    if (heard->result.readings.empty())
        return failure(ErrorCode::unusable_input, fmt::format(text::nothing_heard_format, harp->details.name,
                                                              wish.recordings.front().path));
    CheckHeader header;
    header.harp_id = harp_id;
    header.taken = author_().now;
    for (const auto& recording : heard->recordings) {
        const auto hash = sha256_from_hex(recording.sha256);
        if (!hash)
            return failure(ErrorCode::corrupt,
                           fmt::format(text::no_hash_format, recording.path, recording.sha256));
        header.recordings.push_back({recording.path, *hash, Seconds{recording.duration_s}});
        for (const auto& remark : recording.remarks)
            heard->result.remarks.push_back(fmt::format("{}: {}", recording.path, remark));
    }
    const auto stored = db::store_check(ledger_, author_(), header, heard->result);
    if (!stored) return failure(stored.error());
    Outcome outcome{fmt::format(text::checked_format, heard->result.readings.size(),
                                heard->result.steps.size(), heard->result.missing.size()),
                    true, Page::today, std::nullopt};
    return outcome;
}

Result<Outcome> LedgerSource::import_climate(const Uuid& harp, const std::string& path)
{
    const auto bytes = db::file_bytes(path, largest_table_bytes);
    if (!bytes) return failure(bytes.error());
    const std::string_view table{reinterpret_cast<const char*>(bytes->data()), bytes->size()};
    const auto columns = guessed_columns(table);
    if (!columns) return failure(ErrorCode::unusable_input, fmt::format(text::columns_unknown_format, path));
    auto samples = climate_from_csv(table, *columns, path, ui::local_offset_minutes);
    if (!samples) return failure(samples.error());
    ClimateSeries series;
    series.harp_id = harp;
    series.source = std::filesystem::path{path}.filename().string();
    series.samples = std::move(*samples);
    const auto added = db::add_climate(ledger_, author_(), series);
    if (!added) return failure(added.error());
    return Outcome{fmt::format(text::climate_added_format, *added), *added > 0, std::nullopt, std::nullopt};
}

} // namespace harpkeep::dashboard
