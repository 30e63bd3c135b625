// SPDX-License-Identifier: MIT
#include "db/records/climate.hpp"

#include "db/ledger/things.hpp"
#include "db/records/columns.hpp"
#include "db/sqlite/ledger_failure.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <limits>
#include <map>
#include <set>

namespace harpkeep::db {

namespace {

constexpr std::int64_t ms_per_day = 86'400'000;

using Samples = std::vector<ClimateSample>;

/// Selects the samples of the series whose column ("room_no" or "harp_no") has a value, or the means of their
/// local days.
Statement prepare_collect(const Database& database, const char* column,
                          ClimateDetail detail = ClimateDetail::samples)
{
    const char* sample = "s.taken_utc_ms, s.taken_offset_min, s.temperature_c, s.humidity_percent";
    const char* day =
        "min(s.taken_utc_ms), s.taken_offset_min, avg(s.temperature_c), avg(s.humidity_percent)";
    const bool by_day = detail == ClimateDetail::days;
    return database.prepare(fmt::format(
        "SELECT {} "
        "FROM climate_series JOIN current_content USING (fact_no) JOIN climate_sample s USING (fact_no) "
        "WHERE {} = :owner AND s.taken_utc_ms BETWEEN :from AND :until {} ORDER BY id DESC",
        by_day ? day : sample, column,
        by_day ? "GROUP BY id, (s.taken_utc_ms + s.taken_offset_min * 60000) / 86400000" : ""));
}

void collect(Statement& query, ThingNo owner, std::int64_t from, std::int64_t until, Samples& samples)
{
    query.reset();
    query.bind(":owner", owner.value).bind(":from", from).bind(":until", until);
    while (query.step()) {
        ClimateSample sample;
        sample.taken.utc_ms = query.integer();
        sample.taken.offset_minutes = query.small_integer();
        if (const auto temperature = query.optional_real()) sample.temperature = Celsius{*temperature};
        if (const auto humidity = query.optional_real()) sample.humidity = RelativeHumidity{*humidity};
        samples.push_back(sample);
    }
}

/// By time, one for each; of one time the last that was collected: the series that was begun first has the
/// last word.
Samples listed(Samples samples)
{
    const auto earlier = [](const ClimateSample& a, const ClimateSample& b) {
        return a.taken.utc_ms < b.taken.utc_ms;
    };
    if (!std::is_sorted(samples.begin(), samples.end(), earlier))
        std::stable_sort(samples.begin(), samples.end(), earlier);
    const auto same = [](const ClimateSample& a, const ClimateSample& b) {
        return a.taken.utc_ms == b.taken.utc_ms;
    };
    const auto first = std::unique(samples.rbegin(), samples.rend(), same).base();
    samples.erase(samples.begin(), first);
    return samples;
}

void expect_possible(const ClimateSample& sample, Moment now)
{
    if (!sample.temperature && !sample.humidity)
        fail(ErrorCode::invalid_argument, "give a temperature, a humidity or both");
    const std::string when = iso_time(sample.taken);
    if (sample.temperature && !(sample.temperature->value() >= -60.0 && sample.temperature->value() <= 80.0))
        fail(ErrorCode::refused,
             fmt::format("{} C at {} cannot be; is it in another unit?", sample.temperature->value(), when));
    if (sample.humidity && !(sample.humidity->value() >= 0.0 && sample.humidity->value() <= 100.0))
        fail(ErrorCode::refused, fmt::format("{} % at {} cannot be; give relative humidity from 0 to 100",
                                             sample.humidity->value(), when));
    if (sample.taken.utc_ms > now.utc_ms + ms_per_day)
        fail(ErrorCode::refused, fmt::format("{} lies in the future; see to the clock of the logger", when));
}

void insert_samples(const Database& database, FactNo fact, const Samples& samples)
{
    auto insert =
        database.prepare("INSERT INTO climate_sample (fact_no, taken_utc_ms, taken_offset_min, "
                         "temperature_c, humidity_percent) "
                         "VALUES (:fact_no, :utc_ms, :offset_min, :temperature_c, :humidity_percent)");
    for (const ClimateSample& sample : samples)
        insert.bind(":fact_no", fact.value)
            .bind(":utc_ms", sample.taken.utc_ms)
            .bind(":offset_min", sample.taken.offset_minutes)
            .bind(":temperature_c",
                  sample.temperature ? std::optional{sample.temperature->value()} : std::nullopt)
            .bind(":humidity_percent",
                  sample.humidity ? std::optional{sample.humidity->value()} : std::nullopt)
            .run();
}

/// The samples of a series that its owner does not have yet.
Samples new_samples(const Database& database, const ClimateSeries& series, const char* column, ThingNo owner)
{
    std::map<std::int64_t, ClimateSample> fresh; // of one time the first
    for (const ClimateSample& sample : series.samples) fresh.emplace(sample.taken.utc_ms, sample);
    if (fresh.empty()) return {};
    Samples known;
    auto query = prepare_collect(database, column);
    collect(query, owner, fresh.begin()->first, fresh.rbegin()->first, known);
    for (const ClimateSample& sample : known) fresh.erase(sample.taken.utc_ms);
    Samples list;
    for (const auto& [time, sample] : fresh) list.push_back(sample);
    return list;
}

} // namespace

Result<std::size_t> add_climate(Ledger& ledger, const Author& author, const ClimateSeries& series)
{
    return guarded("noting the climate", [&]() -> std::size_t {
        for (const ClimateSample& sample : series.samples) expect_possible(sample, author.now);
        Action action{ledger, author, "noted the climate, " + series.source};
        const Database& database = action.database();
        const auto room = optional_thing(database, series.room_id, "room");
        const auto harp = optional_thing(database, series.harp_id, "harp");
        if (room.has_value() == harp.has_value())
            fail(ErrorCode::invalid_argument, "say where it was measured: give --room or --harp");
        const auto fresh =
            new_samples(database, series, room ? "room_no" : "harp_no", {room ? *room : *harp});
        if (fresh.empty()) return 0;
        const NewThing thing = action.add("climate_series");
        Insert{database, "climate_series"}
            .set("fact_no", thing.fact.value)
            .set("room_no", room)
            .set("harp_no", harp)
            .set("source", series.source)
            .run();
        insert_samples(database, thing.fact, fresh);
        action.commit();
        return fresh.size();
    });
}

Result<std::vector<ClimateSummary>> climate_series(const Ledger& ledger)
{
    return snapshot(ledger, "reading what is known of the climate", [&] {
        auto query = ledger.database().prepare(
            fmt::format("SELECT id, {}, {}, source, "
                        "(SELECT count(*) FROM climate_sample s WHERE s.fact_no = c.fact_no), "
                        "(SELECT min(taken_utc_ms) FROM climate_sample s WHERE s.fact_no = c.fact_no), "
                        "(SELECT max(taken_utc_ms) FROM climate_sample s WHERE s.fact_no = c.fact_no), "
                        "(SELECT taken_offset_min FROM climate_sample s WHERE s.fact_no = c.fact_no LIMIT 1) "
                        "FROM climate_series c JOIN current_content USING (fact_no) ORDER BY id",
                        id_of("c.room_no"), id_of("c.harp_no")));
        std::vector<ClimateSummary> all;
        while (query.step()) {
            ClimateSummary summary;
            summary.id = query.uuid();
            summary.series.room_id = query.optional_uuid();
            summary.series.harp_id = query.optional_uuid();
            summary.series.source = query.text();
            summary.sample_count = static_cast<std::size_t>(query.integer());
            summary.first.utc_ms = query.integer();
            summary.last.utc_ms = query.integer();
            summary.first.offset_minutes = summary.last.offset_minutes = query.small_integer();
            all.push_back(std::move(summary));
        }
        return all;
    });
}

Result<std::vector<ClimateSample>> climate_of_room(const Ledger& ledger, const Uuid& room_id,
                                                   std::int64_t from_utc_ms, std::int64_t until_utc_ms)
{
    return snapshot(ledger, "reading the climate of a room", [&] {
        Samples samples;
        auto query = prepare_collect(ledger.database(), "room_no");
        collect(query, current_thing(ledger.database(), room_id, "room"), from_utc_ms, until_utc_ms, samples);
        return listed(std::move(samples));
    });
}

namespace {

/// The climate around one harp: in the rooms where it stood, and measured at the harp itself.
class HarpClimate {
  public:
    HarpClimate(const Database& database, ThingNo harp, ClimateDetail detail)
        : harp_(harp),
          in_room_(prepare_collect(database, "room_no", detail)),
          at_harp_(prepare_collect(database, "harp_no", detail))
    {
        auto stays =
            database.prepare("SELECT room_no, since_on FROM placement JOIN current_content USING (fact_no) "
                             "WHERE harp_no = :harp_no ORDER BY since_on DESC, id DESC");
        stays.bind(":harp_no", harp.value);
        while (stays.step()) {
            const auto room = stays.optional_integer();
            stays_.push_back({room, days_since_epoch(read_date(stays)) * ms_per_day});
        }
    }

    Samples between(std::int64_t from_utc_ms, std::int64_t until_utc_ms)
    {
        Samples samples;
        std::int64_t end = until_utc_ms;
        for (const Stay& stay : stays_) {
            const std::int64_t begin = std::max(stay.since_utc_ms, from_utc_ms);
            if (stay.room && begin <= end) collect(in_room_, {*stay.room}, begin, end, samples);
            end = std::min(end, stay.since_utc_ms - 1);
        }
        collect(at_harp_, harp_, from_utc_ms, until_utc_ms, samples);
        return listed(std::move(samples));
    }

  private:
    struct Stay {
        std::optional<std::int64_t> room;
        std::int64_t since_utc_ms;
    };
    ThingNo harp_;
    Statement in_room_, at_harp_;
    std::vector<Stay> stays_; ///< the latest first
};

} // namespace

Result<std::vector<ClimateSample>> climate_of_harp(const Ledger& ledger, const Uuid& harp_id,
                                                   std::int64_t from_utc_ms, std::int64_t until_utc_ms,
                                                   ClimateDetail detail)
{
    return snapshot(ledger, "reading the climate around a harp", [&] {
        const ThingNo harp = current_thing(ledger.database(), harp_id, "harp");
        return HarpClimate{ledger.database(), harp, detail}.between(from_utc_ms, until_utc_ms);
    });
}

Result<std::vector<std::vector<ClimateSample>>> climate_around(const Ledger& ledger, const Uuid& harp_id,
                                                               const std::vector<Moment>& moments,
                                                               std::int64_t reach_ms)
{
    return snapshot(ledger, "reading the climate around a harp", [&] {
        HarpClimate climate{ledger.database(), current_thing(ledger.database(), harp_id, "harp"),
                            ClimateDetail::samples};
        std::vector<std::vector<ClimateSample>> all;
        for (const Moment& moment : moments)
            all.push_back(climate.between(moment.utc_ms - reach_ms, moment.utc_ms + reach_ms));
        return all;
    });
}

} // namespace harpkeep::db
