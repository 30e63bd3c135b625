// SPDX-License-Identifier: MIT
#include "db/records/checks.hpp"

#include "db/ledger/things.hpp"
#include "db/records/check_rows.hpp"
#include "db/records/stored_codes.hpp"
#include "db/sqlite/ledger_failure.hpp"

#include <fmt/format.h>

namespace harpkeep::db {

namespace {

constexpr std::string_view header_columns =
    "(SELECT h.id FROM thing h WHERE h.thing_no = k.harp_no), k.taken_utc_ms, k.taken_offset_min, k.method, "
    "k.temperature_c, k.humidity_percent, k.remarks, k.a4_hz ";

/// A check's header as read, and where its rows are.
struct HeaderRow {
    Uuid id;
    FactNo fact;
    CheckHeader header;
    double a4_hz = 440.0;
};

HeaderRow read_header(Statement& row)
{
    HeaderRow read;
    read.id = row.uuid();
    read.fact = {row.integer()};
    CheckHeader& header = read.header;
    header.harp_id = row.uuid();
    header.taken.utc_ms = row.integer();
    header.taken.offset_minutes = row.small_integer();
    header.method = row.text();
    if (const auto temperature = row.optional_real()) header.temperature = Celsius{*temperature};
    if (const auto humidity = row.optional_real()) header.humidity = RelativeHumidity{*humidity};
    header.remarks = row.text();
    read.a4_hz = row.real();
    return read;
}

std::string header_query(std::string_view rest)
{
    return fmt::format("SELECT id, fact_no, {} FROM harp_check k JOIN current_content USING (fact_no) {}",
                       header_columns, rest);
}

void insert_header(const Action& action, FactNo fact, ThingNo harp, const CheckHeader& header, double a4_hz)
{
    action.database()
        .prepare("INSERT INTO harp_check (fact_no, harp_no, taken_utc_ms, taken_offset_min, method, a4_hz, "
                 "temperature_c, humidity_percent, remarks) "
                 "VALUES (:fact_no, :harp_no, :utc_ms, :offset_min, :method, :a4_hz, :temperature_c, "
                 ":humidity_percent, :remarks)")
        .bind(":fact_no", fact.value)
        .bind(":harp_no", harp.value)
        .bind(":utc_ms", header.taken.utc_ms)
        .bind(":offset_min", header.taken.offset_minutes)
        .bind(":method", header.method)
        .bind(":a4_hz", a4_hz)
        .bind(":temperature_c",
              header.temperature ? std::optional{header.temperature->value()} : std::nullopt)
        .bind(":humidity_percent", header.humidity ? std::optional{header.humidity->value()} : std::nullopt)
        .bind(":remarks", header.remarks)
        .run();
}

StoredCheck read_check(const Database& database, HeaderRow row, WithPartials with_partials)
{
    StoredCheck stored{row.id, std::move(row.header), {}};
    stored.header.recordings = recordings_of(database, row.fact);
    stored.result.a4_hz = row.a4_hz;
    stored.result.readings = readings_of(database, row.fact, with_partials == WithPartials::yes);
    StepReader{database}.read(row.fact, stored.result);
    read_notices(database, row.fact, stored.result);
    return stored;
}

} // namespace

Result<Uuid> store_check(Ledger& ledger, const Author& author, const CheckHeader& header,
                         const CheckResult& result)
{
    return added(ledger, author, "check",
                 fmt::format("stored a check of {} readings", result.readings.size()),
                 [&](const Action& action, FactNo fact) {
                     const ThingNo harp = current_thing(action.database(), header.harp_id, "harp");
                     insert_header(action, fact, harp, header, result.a4_hz);
                     insert_check_rows(action, fact, header.recordings, result);
                 });
}

Result<std::vector<CheckSummary>> checks_of(const Ledger& ledger, const Uuid& harp_id)
{
    return snapshot(ledger, "reading the checks of a harp", [&] {
        const ThingNo harp = current_thing(ledger.database(), harp_id, "harp");
        auto query = ledger.database().prepare(
            header_query("WHERE k.harp_no = :harp_no ORDER BY k.taken_utc_ms DESC, id"));
        auto counts = ledger.database().prepare(
            "SELECT (SELECT count(*) FROM check_reading WHERE fact_no = :fact_no), "
            "(SELECT count(*) FROM step_row WHERE fact_no = :fact_no AND step < 2), "
            "(SELECT count(*) FROM check_reading WHERE fact_no = :fact_no AND doubts <> 0), "
            "(SELECT count(*) FROM check_missing WHERE fact_no = :fact_no)");
        query.bind(":harp_no", harp.value);
        std::vector<CheckSummary> summaries;
        while (query.step()) {
            HeaderRow row = read_header(query);
            CheckSummary summary{.id = row.id, .header = std::move(row.header), .a4_hz = row.a4_hz};
            counts.reset();
            counts.bind(":fact_no", row.fact.value);
            counts.step();
            summary.reading_count = counts.small_integer();
            summary.step_count = counts.small_integer();
            summary.doubtful_count = counts.small_integer();
            summary.missing_count = counts.small_integer();
            summaries.push_back(std::move(summary));
        }
        return summaries;
    });
}

Result<StoredCheck> check(const Ledger& ledger, const Uuid& check_id, WithPartials with_partials)
{
    return snapshot(ledger, "reading a check", [&] {
        auto query = ledger.database().prepare(header_query("WHERE id = :id"));
        query.bind(":id", check_id);
        if (!query.step()) fail(ErrorCode::not_found, "the ledger has no such check");
        return read_check(ledger.database(), read_header(query), with_partials);
    });
}

Result<std::optional<StoredCheck>> latest_check(const Ledger& ledger, const Uuid& harp_id)
{
    return snapshot(ledger, "reading the latest check of a harp", [&]() -> std::optional<StoredCheck> {
        const ThingNo harp = current_thing(ledger.database(), harp_id, "harp");
        auto query = ledger.database().prepare(
            header_query("WHERE k.harp_no = :harp_no ORDER BY k.taken_utc_ms DESC, id LIMIT 1"));
        query.bind(":harp_no", harp.value);
        if (!query.step()) return std::nullopt;
        return read_check(ledger.database(), read_header(query), WithPartials::no);
    });
}

Result<std::vector<StoredCheck>> step_history(const Ledger& ledger, const Uuid& harp_id)
{
    return snapshot(ledger, "reading the steps of a harp's checks", [&] {
        const ThingNo harp = current_thing(ledger.database(), harp_id, "harp");
        auto query =
            ledger.database().prepare(header_query("WHERE k.harp_no = :harp_no ORDER BY k.taken_utc_ms, id"));
        query.bind(":harp_no", harp.value);
        StepReader steps{ledger.database()};
        std::vector<StoredCheck> history;
        while (query.step()) {
            HeaderRow row = read_header(query);
            StoredCheck stored{row.id, std::move(row.header), {}};
            stored.result.a4_hz = row.a4_hz;
            steps.read(row.fact, stored.result);
            history.push_back(std::move(stored));
        }
        return history;
    });
}

} // namespace harpkeep::db
