// SPDX-License-Identifier: MIT
#include "db/records/check_rows.hpp"

#include "db/records/packed_partials.hpp"
#include "db/records/stored_codes.hpp"
#include "db/sqlite/ledger_failure.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <map>
#include <tuple>

namespace harpkeep::db {

namespace {

constexpr double micro = 1e6;
constexpr double milli = 1e3;
constexpr double tenths = 10.0;
constexpr double billionths = 1e9;

/// Rows are kept by place, position and order of sounding; so are the packed partials.
std::vector<Reading> in_row_order(std::vector<Reading> readings)
{
    std::stable_sort(readings.begin(), readings.end(), [](const Reading& a, const Reading& b) {
        return std::tuple{a.place.diatonic_index(), code_of(a.position), a.file_index, a.pluck.start_s} <
               std::tuple{b.place.diatonic_index(), code_of(b.position), b.file_index, b.pluck.start_s};
    });
    return readings;
}

bool same_string_and_position(const Reading& a, const Reading& b)
{
    return a.place == b.place && a.position == b.position;
}

void insert_readings(const Database& database, FactNo check, const std::vector<Reading>& readings)
{
    auto insert = database.prepare(
        "INSERT INTO check_reading (fact_no, place, position, repeat, file_index, start_ms, frequency_hz, "
        "uncertainty_microcents, freedom_tenths, inharmonicity_billionths, glide_millicents, decay_ms, "
        "snr_tenths_db, beat_rate_millihertz, doubts) "
        "VALUES (:fact_no, :place, :position, :repeat, :file_index, :start_ms, :frequency_hz, :uncertainty, "
        ":freedom, :inharmonicity, :glide, :decay, :snr, :beat_rate, :doubts)");
    int repeat = 0;
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const Reading& reading = readings[i];
        const PluckMeasurement& pluck = reading.pluck;
        repeat = i > 0 && same_string_and_position(readings[i - 1], reading) ? repeat + 1 : 0;
        insert.bind(":fact_no", check.value)
            .bind(":place", reading.place.diatonic_index())
            .bind(":position", code_of(reading.position))
            .bind(":repeat", repeat)
            .bind(":file_index", reading.file_index)
            .bind(":start_ms", scaled(pluck.start_s, milli, "start of a pluck"))
            .bind(":frequency_hz", pluck.frequency_hz)
            .bind(":uncertainty", scaled(pluck.uncertainty_cents, micro, "uncertainty of a reading"))
            .bind(":freedom", freedom_code(pluck.degrees_of_freedom))
            .bind(":inharmonicity", scaled(pluck.inharmonicity, billionths, "inharmonicity"))
            .bind(":glide", scaled(pluck.glide_cents, milli, "glide"))
            .bind(":decay", scaled(pluck.decay_s, milli, "decay time"))
            .bind(":snr", scaled(pluck.snr_db, tenths, "signal-to-noise ratio"))
            .bind(":doubts", code_of(pluck.doubts));
        if (pluck.beat_rate_hz)
            insert.bind(":beat_rate", scaled(*pluck.beat_rate_hz, milli, "beat rate"));
        else
            insert.bind_null(":beat_rate");
        insert.run();
    }
}

void insert_partials(const Database& database, FactNo check, const std::vector<Reading>& readings)
{
    const bool any = std::any_of(readings.begin(), readings.end(), [](const Reading& reading) {
        return !reading.pluck.partials.empty() || reading.pluck.glide_uncertainty_cents > 0.0;
    });
    if (!any) return;
    const auto packed = pack_partials(readings);
    database
        .prepare(
            "INSERT INTO check_partials (fact_no, encoding, packed) VALUES (:fact_no, :encoding, :packed)")
        .bind(":fact_no", check.value)
        .bind(":encoding", partials_encoding)
        .bind(":packed", std::span{packed})
        .run();
}

/// The row of check_string_steps that a string fills.
struct StringSteps {
    const StepError* lower = nullptr;
    const StepError* upper = nullptr;
    const WholeStepError* whole = nullptr;
};

template <class T>
void put_once(const T*& slot, const T& step)
{
    if (slot != nullptr)
        fail(ErrorCode::invalid_argument,
             fmt::format("the check measures one step of {} twice", harp_name(step.place)));
    slot = &step;
}

void insert_steps(const Database& database, FactNo check, const CheckResult& result)
{
    std::map<int, StringSteps> strings;
    for (const StepError& step : result.steps) {
        StringSteps& string = strings[step.place.diatonic_index()];
        put_once(step.step == Step::lower ? string.lower : string.upper, step);
    }
    for (const WholeStepError& whole : result.whole_steps)
        put_once(strings[whole.place.diatonic_index()].whole, whole);
    using Number = std::optional<std::int64_t>;
    const auto error = [](const auto* step) {
        return step != nullptr ? Number{scaled(step->error_cents, micro, "error of a step")} : Number{};
    };
    const auto uncertainty = [](const auto* step) {
        return step != nullptr ? Number{scaled(step->uncertainty_cents, micro, "uncertainty of a step")}
                               : Number{};
    };
    const auto freedom = [](const StepError* step) {
        return step != nullptr ? Number{freedom_code(step->degrees_of_freedom)} : Number{};
    };
    auto insert = database.prepare(
        "INSERT INTO check_string_steps (fact_no, place, lower_error_microcents, "
        "lower_uncertainty_microcents, lower_freedom_tenths, upper_error_microcents, "
        "upper_uncertainty_microcents, upper_freedom_tenths, whole_error_microcents, "
        "whole_uncertainty_microcents) VALUES (:fact_no, :place, :lower, :lower_uncertainty, "
        ":lower_freedom, :upper, :upper_uncertainty, :upper_freedom, :whole, :whole_uncertainty)");
    for (const auto& [place, string] : strings)
        insert.bind(":fact_no", check.value)
            .bind(":place", place)
            .bind(":lower", error(string.lower))
            .bind(":lower_uncertainty", uncertainty(string.lower))
            .bind(":lower_freedom", freedom(string.lower))
            .bind(":upper", error(string.upper))
            .bind(":upper_uncertainty", uncertainty(string.upper))
            .bind(":upper_freedom", freedom(string.upper))
            .bind(":whole", error(string.whole))
            .bind(":whole_uncertainty", uncertainty(string.whole))
            .run();
}

void insert_notices(const Database& database, FactNo check, const CheckResult& result)
{
    auto missing = database.prepare("INSERT INTO check_missing (fact_no, place, position) "
                                    "VALUES (:fact_no, :place, :position)");
    for (const MissingReading& reading : result.missing)
        missing.bind(":fact_no", check.value)
            .bind(":place", reading.place.diatonic_index())
            .bind(":position", code_of(reading.position))
            .run();
    auto ignored =
        database.prepare("INSERT INTO check_ignored (fact_no, ordinal, file_index, start_ms, reason) "
                         "VALUES (:fact_no, :ordinal, :file_index, :start_ms, :reason)");
    int ordinal = 0;
    for (const IgnoredSound& sound : result.ignored)
        ignored.bind(":fact_no", check.value)
            .bind(":ordinal", ordinal++)
            .bind(":file_index", sound.file_index)
            .bind(":start_ms", scaled(sound.start_s, milli, "start of a sound"))
            .bind(":reason", sound.reason)
            .run();
    auto remarks = database.prepare("INSERT INTO check_remark (fact_no, ordinal, remark) "
                                    "VALUES (:fact_no, :ordinal, :remark)");
    ordinal = 0;
    for (const std::string& remark : result.remarks)
        remarks.bind(":fact_no", check.value).bind(":ordinal", ordinal++).bind(":remark", remark).run();
}

Reading read_reading(Statement& row)
{
    Reading reading;
    PluckMeasurement& pluck = reading.pluck;
    reading.place = place_from_code(row.integer());
    reading.position = position_from_code(row.integer());
    reading.file_index = row.small_integer();
    pluck.start_s = row.real() / milli;
    pluck.frequency_hz = row.real();
    pluck.uncertainty_cents = row.real() / micro;
    pluck.degrees_of_freedom = freedom_from_code(row.integer());
    pluck.inharmonicity = row.real() / billionths;
    pluck.glide_cents = row.real() / milli;
    pluck.decay_s = row.real() / milli;
    pluck.snr_db = row.real() / tenths;
    if (const auto beat_rate = row.optional_real()) pluck.beat_rate_hz = *beat_rate / milli;
    pluck.doubts = doubts_from_code(row.integer());
    return reading;
}

void add_partials(const Database& database, FactNo check, std::vector<Reading>& readings)
{
    auto query = database.prepare("SELECT encoding, packed FROM check_partials WHERE fact_no = :fact_no");
    query.bind(":fact_no", check.value);
    if (!query.step()) return;
    const auto encoding = query.integer();
    unpack_partials(encoding, query.bytes(), readings);
}

} // namespace

void insert_check_rows(const Action& action, FactNo check, const std::vector<Recording>& recordings,
                       const CheckResult& result)
{
    const Database& database = action.database();
    auto insert =
        database.prepare("INSERT INTO check_recording (fact_no, file_index, path, sha256, duration_ms) "
                         "VALUES (:fact_no, :file_index, :path, :sha256, :duration)");
    int file_index = 0;
    for (const Recording& recording : recordings)
        insert.bind(":fact_no", check.value)
            .bind(":file_index", file_index++)
            .bind(":path", recording.path)
            .bind(":sha256", std::span<const std::uint8_t>{recording.sha256})
            .bind(":duration", scaled(recording.duration.value(), milli, "length of a recording"))
            .run();
    const auto readings = in_row_order(result.readings);
    insert_readings(database, check, readings);
    insert_partials(database, check, readings);
    insert_steps(database, check, result);
    insert_notices(database, check, result);
}

std::vector<Recording> recordings_of(const Database& database, FactNo check)
{
    auto query = database.prepare("SELECT path, sha256, duration_ms FROM check_recording "
                                  "WHERE fact_no = :fact_no ORDER BY file_index");
    query.bind(":fact_no", check.value);
    std::vector<Recording> recordings;
    while (query.step()) {
        Recording recording;
        recording.path = query.text();
        const auto hash = query.bytes(); // 32 bytes by the table's CHECK
        std::copy(hash.begin(), hash.end(), recording.sha256.begin());
        recording.duration = Seconds{query.real() / milli};
        recordings.push_back(std::move(recording));
    }
    return recordings;
}

std::vector<Reading> readings_of(const Database& database, FactNo check, bool with_partials)
{
    auto query = database.prepare(
        "SELECT place, position, file_index, start_ms, frequency_hz, uncertainty_microcents, freedom_tenths, "
        "inharmonicity_billionths, glide_millicents, decay_ms, snr_tenths_db, beat_rate_millihertz, doubts "
        "FROM check_reading WHERE fact_no = :fact_no ORDER BY place, position, repeat");
    query.bind(":fact_no", check.value);
    std::vector<Reading> readings;
    while (query.step()) readings.push_back(read_reading(query));
    if (with_partials) add_partials(database, check, readings);
    std::stable_sort(readings.begin(), readings.end(), [](const Reading& a, const Reading& b) {
        return std::tuple{a.file_index, a.pluck.start_s} < std::tuple{b.file_index, b.pluck.start_s};
    });
    return readings;
}

StepReader::StepReader(const Database& database)
    : by_string_(database.prepare(
          "SELECT place, lower_error_microcents, lower_uncertainty_microcents, lower_freedom_tenths, "
          "upper_error_microcents, upper_uncertainty_microcents, upper_freedom_tenths, "
          "whole_error_microcents, whole_uncertainty_microcents "
          "FROM check_string_steps WHERE fact_no = :fact_no ORDER BY place")),
      by_step_(
          database.prepare("SELECT place, step, error_microcents, uncertainty_microcents, freedom_tenths "
                           "FROM check_step WHERE fact_no = :fact_no ORDER BY place, step"))
{
}

void StepReader::read(FactNo check, CheckResult& result)
{
    read_by_string(check, result);
    read_by_step(check, result);
    const auto lower = [](const auto& a, const auto& b) { return a.place < b.place; };
    std::stable_sort(result.steps.begin(), result.steps.end(), lower);
    std::stable_sort(result.whole_steps.begin(), result.whole_steps.end(), lower);
}

void StepReader::read_by_string(FactNo check, CheckResult& result)
{
    by_string_.reset();
    by_string_.bind(":fact_no", check.value);
    while (by_string_.step()) {
        const StringPlace place = place_from_code(by_string_.integer());
        for (const Step step : {Step::lower, Step::upper}) {
            const auto error = by_string_.optional_real();
            const auto uncertainty = by_string_.optional_real();
            const auto freedom = by_string_.optional_integer();
            if (error && uncertainty && freedom) // all or none by the table's CHECKs
                result.steps.push_back(
                    {place, step, *error / micro, *uncertainty / micro, freedom_from_code(*freedom)});
        }
        const auto error = by_string_.optional_real();
        const auto uncertainty = by_string_.optional_real();
        if (error && uncertainty) result.whole_steps.push_back({place, *error / micro, *uncertainty / micro});
    }
}

void StepReader::read_by_step(FactNo check, CheckResult& result)
{
    by_step_.reset();
    by_step_.bind(":fact_no", check.value);
    while (by_step_.step()) {
        const StringPlace place = place_from_code(by_step_.integer());
        const auto code = by_step_.integer();
        const double error_cents = by_step_.real() / micro;
        const double uncertainty_cents = by_step_.real() / micro;
        if (code == whole_step_code)
            result.whole_steps.push_back({place, error_cents, uncertainty_cents});
        else
            result.steps.push_back({place, step_from_code(code), error_cents, uncertainty_cents,
                                    freedom_from_code(by_step_.integer())});
    }
}

void read_notices(const Database& database, FactNo check, CheckResult& result)
{
    auto missing = database.prepare("SELECT place, position FROM check_missing WHERE fact_no = :fact_no "
                                    "ORDER BY place, position");
    missing.bind(":fact_no", check.value);
    while (missing.step()) {
        const StringPlace place = place_from_code(missing.integer());
        result.missing.push_back({place, position_from_code(missing.integer())});
    }
    auto ignored = database.prepare("SELECT file_index, start_ms, reason FROM check_ignored "
                                    "WHERE fact_no = :fact_no ORDER BY ordinal");
    ignored.bind(":fact_no", check.value);
    while (ignored.step()) {
        IgnoredSound sound;
        sound.file_index = ignored.small_integer();
        sound.start_s = ignored.real() / milli;
        sound.reason = ignored.text();
        result.ignored.push_back(std::move(sound));
    }
    auto remarks =
        database.prepare("SELECT remark FROM check_remark WHERE fact_no = :fact_no ORDER BY ordinal");
    remarks.bind(":fact_no", check.value);
    while (remarks.step()) result.remarks.push_back(remarks.text());
}

} // namespace harpkeep::db
