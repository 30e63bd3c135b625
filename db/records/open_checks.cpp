// SPDX-License-Identifier: MIT
#include "db/records/open_checks.hpp"

#include "db/ledger/things.hpp"
#include "db/records/stored_codes.hpp"
#include "db/sqlite/ledger_failure.hpp"
#include "db/sqlite/transaction.hpp"

#include <fmt/format.h>

namespace harpkeep::db {

namespace {

constexpr const char* no_such_check = "the ledger holds no such open check; begin a new one";

std::int64_t number_of(const Database& database, const Uuid& id)
{
    auto query = database.prepare("SELECT open_check_no FROM open_check WHERE id = :id");
    query.bind(":id", id);
    if (!query.step()) fail(ErrorCode::not_found, no_such_check);
    return query.integer();
}

void insert_partials(const Database& database, std::int64_t number, std::size_t ordinal,
                     const std::vector<Partial>& partials)
{
    auto insert =
        database.prepare("INSERT INTO open_check_partial (open_check_no, ordinal, number, frequency_hz, "
                         "uncertainty_cents, noise_cents, level_db, decay_s, glide_cents) "
                         "VALUES (:open_check_no, :ordinal, :number, :frequency_hz, :uncertainty_cents, "
                         ":noise_cents, :level_db, :decay_s, :glide_cents)");
    for (const Partial& partial : partials)
        insert.bind(":open_check_no", number)
            .bind(":ordinal", static_cast<std::int64_t>(ordinal))
            .bind(":number", partial.number)
            .bind(":frequency_hz", partial.frequency_hz)
            .bind(":uncertainty_cents", partial.uncertainty_cents)
            .bind(":noise_cents", partial.noise_cents)
            .bind(":level_db", partial.level_db)
            .bind(":decay_s", partial.decay_s)
            .bind(":glide_cents", partial.glide_cents)
            .run();
}

void insert_reading(const Database& database, std::int64_t number, std::size_t ordinal,
                    const KeptReading& kept)
{
    const Reading& reading = kept.reading;
    const PluckMeasurement& pluck = reading.pluck;
    database
        .prepare(
            "INSERT INTO open_check_reading (open_check_no, ordinal, station, superseded, place, position, "
            "file_index, start_s, frequency_hz, uncertainty_cents, degrees_of_freedom, inharmonicity, "
            "glide_cents, glide_uncertainty_cents, decay_s, snr_db, beat_rate_hz, doubts) "
            "VALUES (:open_check_no, :ordinal, :station, :superseded, :place, :position, :file_index, "
            ":start_s, "
            ":frequency_hz, :uncertainty_cents, :degrees_of_freedom, :inharmonicity, :glide_cents, "
            ":glide_uncertainty_cents, :decay_s, :snr_db, :beat_rate_hz, :doubts)")
        .bind(":open_check_no", number)
        .bind(":ordinal", static_cast<std::int64_t>(ordinal))
        .bind(":station", static_cast<std::int64_t>(kept.station))
        .bind(":superseded", kept.superseded)
        .bind(":place", reading.place.diatonic_index())
        .bind(":position", code_of(reading.position))
        .bind(":file_index", reading.file_index)
        .bind(":start_s", pluck.start_s)
        .bind(":frequency_hz", pluck.frequency_hz)
        .bind(":uncertainty_cents", pluck.uncertainty_cents)
        .bind(":degrees_of_freedom", pluck.degrees_of_freedom)
        .bind(":inharmonicity", pluck.inharmonicity)
        .bind(":glide_cents", pluck.glide_cents)
        .bind(":glide_uncertainty_cents", pluck.glide_uncertainty_cents)
        .bind(":decay_s", pluck.decay_s)
        .bind(":snr_db", pluck.snr_db)
        .bind(":beat_rate_hz", pluck.beat_rate_hz)
        .bind(":doubts", code_of(pluck.doubts))
        .run();
    insert_partials(database, number, ordinal, pluck.partials);
}

std::size_t stored_readings(const Database& database, std::int64_t number)
{
    auto query = database.prepare("SELECT count(*) FROM open_check_reading WHERE open_check_no = :no");
    query.bind(":no", number);
    query.step();
    return static_cast<std::size_t>(query.integer());
}

void mark_superseded(const Database& database, std::int64_t number, const std::vector<KeptReading>& readings)
{
    auto mark = database.prepare("UPDATE open_check_reading SET superseded = 1 "
                                 "WHERE open_check_no = :no AND ordinal = :ordinal AND superseded = 0");
    for (std::size_t ordinal = 0; ordinal < readings.size(); ++ordinal)
        if (readings[ordinal].superseded)
            mark.bind(":no", number).bind(":ordinal", static_cast<std::int64_t>(ordinal)).run();
}

void insert_given_up(const Database& database, std::int64_t number,
                     const std::vector<GivenUpTarget>& given_up)
{
    auto insert =
        database.prepare("INSERT INTO open_check_given_up (open_check_no, station, place, position) "
                         "VALUES (:no, :station, :place, :position) ON CONFLICT DO NOTHING");
    for (const GivenUpTarget& each : given_up)
        insert.bind(":no", number)
            .bind(":station", static_cast<std::int64_t>(each.station))
            .bind(":place", each.target.place.diatonic_index())
            .bind(":position", code_of(each.target.position))
            .run();
}

KeptReading read_reading(Statement& row)
{
    KeptReading kept;
    kept.station = static_cast<std::size_t>(row.integer());
    kept.superseded = row.boolean();
    kept.reading.place = place_from_code(row.integer());
    kept.reading.position = position_from_code(row.integer());
    kept.reading.file_index = row.small_integer();
    PluckMeasurement& pluck = kept.reading.pluck;
    pluck.start_s = row.real();
    pluck.frequency_hz = row.real();
    pluck.uncertainty_cents = row.real();
    pluck.degrees_of_freedom = row.real();
    pluck.inharmonicity = row.real();
    pluck.glide_cents = row.real();
    pluck.glide_uncertainty_cents = row.real();
    pluck.decay_s = row.real();
    pluck.snr_db = row.real();
    pluck.beat_rate_hz = row.optional_real();
    pluck.doubts = doubts_from_code(row.integer());
    return kept;
}

std::vector<KeptReading> readings_of_open(const Database& database, std::int64_t number)
{
    auto query = database.prepare(
        "SELECT station, superseded, place, position, file_index, start_s, frequency_hz, "
        "uncertainty_cents, degrees_of_freedom, inharmonicity, glide_cents, "
        "glide_uncertainty_cents, decay_s, snr_db, beat_rate_hz, doubts FROM open_check_reading "
        "WHERE open_check_no = :no ORDER BY ordinal");
    query.bind(":no", number);
    std::vector<KeptReading> readings;
    while (query.step()) readings.push_back(read_reading(query));

    auto partials = database.prepare(
        "SELECT ordinal, number, frequency_hz, uncertainty_cents, noise_cents, level_db, decay_s, "
        "glide_cents FROM open_check_partial WHERE open_check_no = :no ORDER BY ordinal, number");
    partials.bind(":no", number);
    while (partials.step()) {
        auto& of_reading = readings.at(static_cast<std::size_t>(partials.integer())).reading.pluck.partials;
        Partial partial;
        partial.number = partials.small_integer();
        partial.frequency_hz = partials.real();
        partial.uncertainty_cents = partials.real();
        partial.noise_cents = partials.real();
        partial.level_db = partials.real();
        partial.decay_s = partials.real();
        partial.glide_cents = partials.real();
        of_reading.push_back(partial);
    }
    return readings;
}

std::vector<GivenUpTarget> given_up_of(const Database& database, std::int64_t number)
{
    auto query =
        database.prepare("SELECT station, place, position FROM open_check_given_up WHERE open_check_no = :no "
                         "ORDER BY station, place, position");
    query.bind(":no", number);
    std::vector<GivenUpTarget> given_up;
    while (query.step()) {
        GivenUpTarget each;
        each.station = static_cast<std::size_t>(query.integer());
        each.target.place = place_from_code(query.integer());
        each.target.position = position_from_code(query.integer());
        given_up.push_back(each);
    }
    return given_up;
}

std::vector<std::string> recordings_of_open(const Database& database, std::int64_t number)
{
    auto query = database.prepare(
        "SELECT path FROM open_check_recording WHERE open_check_no = :no ORDER BY file_index");
    query.bind(":no", number);
    std::vector<std::string> paths;
    while (query.step()) paths.push_back(query.text());
    return paths;
}

std::vector<StringPlace> strings_of_open(const Database& database, std::int64_t number)
{
    auto query =
        database.prepare("SELECT place FROM open_check_string WHERE open_check_no = :no ORDER BY place");
    query.bind(":no", number);
    std::vector<StringPlace> places;
    while (query.step()) places.push_back(place_from_code(query.integer()));
    return places;
}

OpenCheck read_open_check(const Database& database, Statement& row, const Uuid& harp_id)
{
    const std::int64_t number = row.integer();
    OpenCheck open;
    open.id = row.uuid();
    open.harp_id = harp_id;
    open.begun.utc_ms = row.integer();
    open.begun.offset_minutes = row.small_integer();
    open.method = row.text();
    open.a4 = Hertz{row.real()};
    CheckPlanRequest& request = open.state.request;
    const std::string way = row.text();
    const auto known_way = way_from_name(way);
    if (!known_way) fail(ErrorCode::corrupt, fmt::format("an open check goes an unknown way, \"{}\"", way));
    request.way = *known_way;
    if (const auto letter = row.optional_text()) request.letter = letter_from_name(letter->front());
    if (const auto octave = row.optional_integer()) request.harp_octave = static_cast<int>(*octave);
    request.from_top = row.boolean();
    request.closing_strings = row.small_integer();
    request.strings = strings_of_open(database, number);
    open.state.station = static_cast<std::size_t>(row.integer());
    open.state.readings = readings_of_open(database, number);
    open.state.given_up = given_up_of(database, number);
    open.recordings = recordings_of_open(database, number);
    return open;
}

} // namespace

Result<Uuid> begin_open_check(Ledger& ledger, const Author& author, const Uuid& harp_id, Hertz a4,
                              const CheckPlanRequest& request)
{
    return guarded("beginning a guided check", [&] {
        const Database& database = ledger.database();
        Transaction transaction{database, Transaction::Kind::write};
        const ThingNo harp = current_thing(database, harp_id, "harp");
        const Uuid id = ledger.new_id(author.now);
        std::optional<std::string> letter;
        if (request.letter) letter = std::string(1, letter_name(*request.letter));
        database
            .prepare(
                "INSERT INTO open_check (id, harp_no, begun_utc_ms, begun_offset_min, method, a4_hz, way, "
                "letter, "
                "harp_octave, from_top, closing_strings, station) "
                "VALUES (:id, :harp_no, :utc_ms, :offset_min, :method, :a4_hz, :way, :letter, :harp_octave, "
                ":from_top, :closing_strings, 0)")
            .bind(":id", id)
            .bind(":harp_no", harp.value)
            .bind(":utc_ms", author.now.utc_ms)
            .bind(":offset_min", author.now.offset_minutes)
            .bind(":method", pitch_method)
            .bind(":a4_hz", a4.value())
            .bind(":way", way_name(request.way))
            .bind(":letter", letter)
            .bind(":harp_octave", request.harp_octave)
            .bind(":from_top", request.from_top)
            .bind(":closing_strings", request.closing_strings)
            .run();
        const std::int64_t number = database.last_row_number();
        auto insert =
            database.prepare("INSERT INTO open_check_string (open_check_no, place) VALUES (:no, :place) "
                             "ON CONFLICT DO NOTHING");
        for (const StringPlace place : request.strings)
            insert.bind(":no", number).bind(":place", place.diatonic_index()).run();
        transaction.commit();
        return id;
    });
}

Result<int> begin_session(Ledger& ledger, const Uuid& open_check_id, const std::string& recording_path)
{
    return guarded("beginning a session of a guided check", [&] {
        const Database& database = ledger.database();
        Transaction transaction{database, Transaction::Kind::write};
        const std::int64_t number = number_of(database, open_check_id);
        const auto file_index = static_cast<int>(recordings_of_open(database, number).size());
        database
            .prepare("INSERT INTO open_check_recording (open_check_no, file_index, path) "
                     "VALUES (:no, :file_index, :path)")
            .bind(":no", number)
            .bind(":file_index", file_index)
            .bind(":path", recording_path)
            .run();
        transaction.commit();
        return file_index;
    });
}

Result<void> store_progress(Ledger& ledger, const Uuid& open_check_id, const GuidedCheckState& state)
{
    return guarded("keeping a reading of a guided check", [&] {
        const Database& database = ledger.database();
        Transaction transaction{database, Transaction::Kind::write};
        const std::int64_t number = number_of(database, open_check_id);
        for (std::size_t k = stored_readings(database, number); k < state.readings.size(); ++k)
            insert_reading(database, number, k, state.readings[k]);
        mark_superseded(database, number, state.readings);
        insert_given_up(database, number, state.given_up);
        database.prepare("UPDATE open_check SET station = :station WHERE open_check_no = :no")
            .bind(":station", static_cast<std::int64_t>(state.station))
            .bind(":no", number)
            .run();
        transaction.commit();
    });
}

Result<std::vector<OpenCheck>> open_checks_of(const Ledger& ledger, const Uuid& harp_id)
{
    return snapshot(ledger, "reading the open checks of a harp", [&] {
        const ThingNo harp = current_thing(ledger.database(), harp_id, "harp");
        auto query = ledger.database().prepare(
            "SELECT open_check_no, id, begun_utc_ms, begun_offset_min, method, a4_hz, way, letter, "
            "harp_octave, from_top, "
            "closing_strings, station FROM open_check WHERE harp_no = :harp_no ORDER BY id DESC");
        query.bind(":harp_no", harp.value);
        std::vector<OpenCheck> open;
        while (query.step()) open.push_back(read_open_check(ledger.database(), query, harp_id));
        return open;
    });
}

Result<void> drop_open_check(Ledger& ledger, const Uuid& open_check_id)
{
    return guarded("forgetting an open check", [&] {
        const Database& database = ledger.database();
        Transaction transaction{database, Transaction::Kind::write};
        database.prepare("DELETE FROM open_check WHERE open_check_no = :no")
            .bind(":no", number_of(database, open_check_id))
            .run();
        transaction.commit();
    });
}

} // namespace harpkeep::db
