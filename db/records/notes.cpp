// SPDX-License-Identifier: MIT
#include "db/records/notes.hpp"

#include "db/ledger/file_bytes.hpp"
#include "db/ledger/things.hpp"
#include "db/records/columns.hpp"
#include "db/records/stored_codes.hpp"
#include "db/sqlite/ledger_failure.hpp"

#include <algorithm>
#include <filesystem>
#include <fmt/format.h>

namespace harpkeep::db {

namespace {

Sha256Hash read_hash(Statement& row)
{
    const auto bytes = row.bytes(); // 32 bytes by the table's CHECK
    Sha256Hash hash{};
    std::copy(bytes.begin(), bytes.end(), hash.begin());
    return hash;
}

constexpr const char* select_attachments =
    "SELECT file_name, sha256, length(content) FROM note_attachment "
    "JOIN attachment USING (sha256) WHERE fact_no = :fact_no ORDER BY ordinal";

std::vector<NoteAttachment> attachments_of(Statement& query, FactNo fact)
{
    query.reset();
    query.bind(":fact_no", fact.value);
    std::vector<NoteAttachment> attachments;
    while (query.step()) {
        NoteAttachment attachment;
        attachment.file_name = query.text();
        attachment.sha256 = read_hash(query);
        attachment.size_bytes = query.integer();
        attachments.push_back(std::move(attachment));
    }
    return attachments;
}

void attach(const Database& database, FactNo fact, int ordinal, const std::string& path)
{
    const auto content = value_or_fail(file_bytes(path, largest_attachment_bytes));
    const Sha256Hash hash = sha256_of(content);
    database
        .prepare("INSERT INTO attachment (sha256, content) VALUES (:sha256, :content) ON CONFLICT DO NOTHING")
        .bind(":sha256", std::span<const std::uint8_t>{hash})
        .bind(":content", std::span{content})
        .run();
    Insert{database, "note_attachment"}
        .set("fact_no", fact.value)
        .set("ordinal", ordinal)
        .set("file_name", std::filesystem::path{path}.filename().string())
        .set("sha256", std::span<const std::uint8_t>{hash})
        .run();
}

std::int64_t subject_no(const Database& database, const Uuid& id)
{
    auto query =
        database.prepare("SELECT thing_no FROM thing JOIN current_fact USING (thing_no) WHERE id = :id");
    query.bind(":id", id);
    if (!query.step()) fail(ErrorCode::not_found, "what the note is about is not in the ledger");
    return query.integer();
}

} // namespace

Result<Uuid> add_note(Ledger& ledger, const Author& author, const Note& note,
                      const std::vector<std::string>& files)
{
    return added(ledger, author, "note", "wrote a note", [&](const Action& action, FactNo fact) {
        const Database& database = action.database();
        refuse_future(note.noted_on, action.now(), "the day of the note");
        if (note.words.empty() && files.empty())
            fail(ErrorCode::invalid_argument, "a note needs words or a file");
        if (note.place && !note.about_id)
            fail(ErrorCode::invalid_argument, "a note on a string place needs the harp; give --harp");
        if (note.place) expect_place(database, current_thing(database, *note.about_id, "harp"), *note.place);
        Insert{database, "note"}
            .set("fact_no", fact.value)
            .set("about_no",
                 note.about_id ? std::optional{subject_no(database, *note.about_id)} : std::nullopt)
            .set("place", note.place ? std::optional{note.place->diatonic_index()} : std::nullopt)
            .set("noted_on", iso_date(note.noted_on))
            .set("words", note.words)
            .run();
        int ordinal = 0;
        for (const std::string& path : files) attach(database, fact, ordinal++, path);
    });
}

Result<std::vector<NoteRecord>> notes(const Ledger& ledger, const std::optional<Uuid>& about_id,
                                      std::optional<StringPlace> place)
{
    return snapshot(ledger, "reading the notes", [&] {
        const Database& database = ledger.database();
        auto query = database.prepare(fmt::format(
            "SELECT id, fact_no, {}, place, noted_on, words FROM note n JOIN current_content USING (fact_no) "
            "WHERE (:about_no IS NULL OR about_no = :about_no) AND (:place IS NULL OR place = :place) "
            "ORDER BY noted_on, id",
            id_of("n.about_no")));
        query.bind(":about_no", about_id ? std::optional{subject_no(database, *about_id)} : std::nullopt)
            .bind(":place", place ? std::optional{place->diatonic_index()} : std::nullopt);
        auto attachments = database.prepare(select_attachments);
        std::vector<NoteRecord> all;
        while (query.step()) {
            NoteRecord note;
            note.id = query.uuid();
            const FactNo fact{query.integer()};
            note.details.about_id = query.optional_uuid();
            if (const auto code = query.optional_integer()) note.details.place = place_from_code(*code);
            note.details.noted_on = read_date(query);
            note.details.words = query.text();
            note.details.attachments = attachments_of(attachments, fact);
            all.push_back(std::move(note));
        }
        return all;
    });
}

Result<std::vector<std::uint8_t>> attachment(const Ledger& ledger, const Sha256Hash& sha256)
{
    return snapshot(ledger, "reading an attachment", [&] {
        auto query = ledger.database().prepare("SELECT content FROM attachment WHERE sha256 = :sha256");
        query.bind(":sha256", std::span<const std::uint8_t>{sha256});
        if (!query.step()) fail(ErrorCode::not_found, "the ledger has no file of that hash");
        return query.bytes();
    });
}

} // namespace harpkeep::db
