// SPDX-License-Identifier: MIT
#include "db/records/notes.hpp"
#include "records/wanted_note.hpp"
#include "ui/cli/arguments.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/record_json.hpp"
#include "ui/cli/verb.hpp"
#include "ui/support/clock.hpp"

#include <filesystem>
#include <fmt/format.h>
#include <fstream>

namespace harpkeep::cli {

namespace {

struct NoteWords {
    std::string words;
    std::string harp;
    std::string place;
    std::string about;
    std::string date;
    std::vector<std::string> files;
    bool wanted = false;
};

/// What a note is about: a harp, a place of it, any thing by its handle, or nothing.
struct Subject {
    std::optional<Uuid> id;
    std::optional<StringPlace> place;
};

Result<Subject> subject_from(const db::Ledger& ledger, const NoteWords& words)
{
    Subject subject;
    if (!words.about.empty()) {
        const auto thing = db::thing_with_handle(ledger, words.about);
        if (!thing) return failure(thing.error());
        subject.id = thing->id;
        return subject;
    }
    if (words.harp.empty() && words.place.empty()) return subject;
    const auto harp = chosen_harp(ledger, words.harp);
    if (!harp) return failure(harp.error());
    subject.id = harp->id;
    if (words.place.empty()) return subject;
    const auto place = place_argument(words.place);
    if (!place) return failure(place.error());
    subject.place = *place;
    return subject;
}

Result<void> add(const Common& common, const NoteWords& words)
{
    auto ledger = open_ledger(common, db::Access::write);
    if (!ledger) return failure(ledger.error());
    const auto subject = subject_from(*ledger, words);
    if (!subject) return failure(subject.error());
    const auto date = date_or_today(words.date);
    if (!date) return failure(date.error());
    if (words.wanted && !subject->id)
        return failure(ErrorCode::invalid_argument, "a part is wanted for a harp; name it with --harp");
    const Note note{
        subject->id, subject->place, *date, words.wanted ? wanted_words(words.words) : words.words, {}};
    const auto id = db::add_note(*ledger, ui::author(), note, words.files);
    if (!id) return failure(id.error());
    if (common.json)
        print_json({{"id", to_string(*id)}, {"handle", db::handle_of(*id)}});
    else
        print_line(fmt::format("Noted ({}).", db::handle_of(*id)));
    return {};
}

Result<void> list(const Common& common, const NoteWords& words)
{
    const auto ledger = open_ledger(common, db::Access::read);
    if (!ledger) return failure(ledger.error());
    const auto subject = subject_from(*ledger, words);
    if (!subject) return failure(subject.error());
    const auto names = Names::in(*ledger);
    if (!names) return failure(names.error());
    const auto notes = db::notes(*ledger, subject->id, subject->place);
    if (!notes) return failure(notes.error());
    if (common.json) {
        print_json(json_list(*notes, *names));
        return {};
    }
    if (notes->empty()) print_line("No notes; `harpkeep note add \"...\"` writes one.");
    if (notes->empty()) return {};
    Table table{{{"Date"}, {"About"}, {"Place"}, {"Note"}, {"Files"}, {"Handle"}}};
    for (const NoteRecord& note : *notes) {
        std::string files;
        for (const NoteAttachment& file : note.details.attachments)
            files += (files.empty() ? "" : ", ") + file.file_name;
        table.add_row({iso_date(note.details.noted_on), names->of(note.details.about_id),
                       note.details.place ? harp_name(*note.details.place) : "", note.details.words, files,
                       db::handle_of(note.id)});
    }
    table.print();
    return {};
}

struct FilesWords {
    std::string handle;
    std::string folder;
};

Result<void> write_new_file(const std::filesystem::path& path, const std::vector<std::uint8_t>& bytes)
{
    if (std::filesystem::exists(path))
        return failure(ErrorCode::refused,
                       path.string() + " is there already; name another folder with --to");
    std::ofstream file{path, std::ios::binary};
    file.write(reinterpret_cast<const char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
    file.close();
    if (!file)
        return failure(ErrorCode::unavailable,
                       path.string() + " cannot be written; see to the folder and the disk");
    return {};
}

Result<void> files(const Common& common, const FilesWords& words)
{
    const auto ledger = open_ledger(common, db::Access::read);
    if (!ledger) return failure(ledger.error());
    const auto id = thing_of_kind(*ledger, words.handle, "note");
    if (!id) return failure(id.error());
    const auto notes = db::notes(*ledger);
    if (!notes) return failure(notes.error());
    Json written = Json::array();
    for (const NoteRecord& note : *notes) {
        if (note.id != *id) continue;
        for (const NoteAttachment& attached : note.details.attachments) {
            const auto bytes = db::attachment(*ledger, attached.sha256);
            if (!bytes) return failure(bytes.error());
            const auto path =
                std::filesystem::path{words.folder} / std::filesystem::path{attached.file_name}.filename();
            const auto done = write_new_file(path, *bytes);
            if (!done) return failure(done.error());
            written.push_back(path.string());
            if (!common.json) print_line("Wrote " + path.string());
        }
    }
    if (common.json) print_json(written);
    return {};
}

void add_subject_options(CLI::App& app, NoteWords& words)
{
    app.add_option("--harp", words.harp, "about this harp");
    app.add_option("--place", words.place, "about this string place of the harp");
    app.add_option("--about", words.about, "about a thing with this handle: a visit, a loan, a room, ...");
}

} // namespace

void add_command_note(CLI::App& app, Common& common, Work& work)
{
    auto& note = add_noun(app, "note", "notes, with files");

    const auto adding = add_verb<NoteWords>(note, common, work, "add", "write a note", add);
    adding.app->add_option("WORDS", adding.words->words, "the note")->required();
    add_subject_options(*adding.app, *adding.words);
    adding.app->add_option("--date", adding.words->date, "of which day (default: today)");
    adding.app->add_flag("--wanted", adding.words->wanted,
                         "a part wanted at the next visit: it stands on the technician's sheet under parts");
    adding.app
        ->add_option("--file", adding.words->files, "a file to keep with it, up to 16 MB; may be repeated")
        ->take_all()
        ->expected(1);

    const auto listing = add_verb<NoteWords>(note, common, work, "list", "notes, oldest first", list);
    add_subject_options(*listing.app, *listing.words);

    const auto filing =
        add_verb<FilesWords>(note, common, work, "files", "write the files of a note out again", files);
    filing.app->add_option("HANDLE", filing.words->handle, "as `note list` shows it")->required();
    filing.app->add_option("--to", filing.words->folder, "the folder to write into (default: this one)");
}

} // namespace harpkeep::cli
