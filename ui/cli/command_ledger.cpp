// SPDX-License-Identifier: MIT
#include "db/exchange/whole_ledger.hpp"
#include "db/ledger/backup.hpp"
#include "db/ledger/conflicts.hpp"
#include "db/ledger/default_path.hpp"
#include "db/ledger/merge.hpp"
#include "db/ledger/verify.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/ledger_access.hpp"
#include "ui/cli/output.hpp"
#include "ui/cli/verb.hpp"
#include "ui/support/clock.hpp"

#include <fmt/format.h>

namespace harpkeep::cli {

namespace {

struct FileWords {
    std::string file;
};

Json json_of(const db::Conflict& conflict)
{
    Json things = Json::array();
    for (const Uuid& id : conflict.things) things.push_back(to_string(id));
    return {{"kind", conflict.kind}, {"things", things}, {"words", conflict.words}};
}

Json json_of(const std::vector<db::Conflict>& conflicts)
{
    Json all = Json::array();
    for (const db::Conflict& conflict : conflicts) all.push_back(json_of(conflict));
    return all;
}

void print_conflicts(const std::vector<db::Conflict>& conflicts)
{
    for (const db::Conflict& conflict : conflicts)
        print_line(fmt::format("Conflict: {}: {}.", conflict.kind, conflict.words));
}

Result<void> print_merged(const Common& common, const db::MergeReport& report, const FileWords& words)
{
    if (common.json) {
        print_json({{"new_actions", report.new_actions},
                    {"new_things", report.new_things},
                    {"new_facts", report.new_facts},
                    {"conflicts", json_of(report.conflicts)}});
        return {};
    }
    if (report.new_facts == 0)
        print_line(fmt::format("Nothing new in {}.", words.file));
    else
        print_line(fmt::format("Took over {} from {}.",
                               counted(static_cast<std::size_t>(report.new_facts), "fact"), words.file));
    print_conflicts(report.conflicts);
    return {};
}

Result<void> merge(const Common& common, const FileWords& words)
{
    auto ledger = open_ledger(common, db::Access::write);
    if (!ledger) return failure(ledger.error());
    const auto report = db::merge_from(*ledger, words.file, ui::now());
    if (!report) return failure(report.error());
    return print_merged(common, *report, words);
}

Result<void> import_whole(const Common& common, const FileWords& words)
{
    auto ledger = open_ledger(common, db::Access::create);
    if (!ledger) return failure(ledger.error());
    const auto report = db::import_ledger(*ledger, words.file, ui::now());
    if (!report) return failure(report.error());
    return print_merged(common, *report, words);
}

struct ExportWords {
    std::string path;
    bool csv = false;
};

Result<void> export_whole(const Common& common, const ExportWords& words)
{
    const auto ledger = open_ledger(common, db::Access::read);
    if (!ledger) return failure(ledger.error());
    const auto form = words.csv ? db::LedgerForm::csv : db::LedgerForm::json;
    const auto done = db::export_ledger(*ledger, form, words.path, ui::now());
    if (!done) return failure(done.error());
    if (common.json)
        print_json({{"exported", words.path}});
    else
        print_line(fmt::format("Wrote the whole ledger to {}.", words.path));
    return {};
}

Result<void> list_conflicts(const Common& common, const NoWords&)
{
    const auto ledger = open_ledger(common, db::Access::read);
    if (!ledger) return failure(ledger.error());
    const auto conflicts = db::conflicts(*ledger);
    if (!conflicts) return failure(conflicts.error());
    if (common.json)
        print_json(json_of(*conflicts));
    else if (conflicts->empty())
        print_line("No conflicts.");
    else
        print_conflicts(*conflicts);
    return {};
}

Result<void> back_up(const Common& common, const FileWords& words)
{
    const auto ledger = open_ledger(common, db::Access::read);
    if (!ledger) return failure(ledger.error());
    const auto done = db::back_up(*ledger, words.file);
    if (!done) return failure(done.error());
    if (common.json)
        print_json({{"backup", words.file}});
    else
        print_line(fmt::format("Backed up to {}.", words.file));
    return {};
}

Result<void> restore(const Common& common, const FileWords& words)
{
    std::string path = common.ledger_path;
    if (path.empty()) {
        const auto found = db::default_ledger_path();
        if (!found) return failure(found.error());
        path = *found;
    }
    const auto aside = db::restore(words.file, path, ui::now());
    if (!aside) return failure(aside.error());
    if (common.json) {
        print_json({{"restored", path}, {"before", *aside ? Json(**aside) : Json(nullptr)}});
        return {};
    }
    print_line(fmt::format("{} is the ledger again.", words.file));
    if (*aside) print_line(fmt::format("What was there before is kept as {}.", **aside));
    return {};
}

struct VerifyWords {
    bool without_recordings = false;
};

Result<void> verify(const Common& common, const VerifyWords& words)
{
    const auto ledger = open_ledger(common, db::Access::read);
    if (!ledger) return failure(ledger.error());
    const auto report = db::verify(*ledger, {.look_at_recordings = !words.without_recordings});
    if (!report) return failure(report.error());
    if (common.json)
        print_json({{"sound", report->is_sound()},
                    {"facts", report->facts},
                    {"recordings_checked", report->recordings_checked},
                    {"problems", report->problems},
                    {"notices", report->notices}});
    else
        for (const std::string& notice : report->notices) print_line("Notice: " + notice);
    if (!report->is_sound()) {
        std::string message =
            ledger->path() + ": is damaged; go back to a backup with `harpkeep ledger restore`";
        for (const std::string& problem : report->problems) message += "\n  " + problem;
        return failure(ErrorCode::corrupt, message);
    }
    if (!common.json)
        print_line(fmt::format("The ledger is sound: {} looked at.",
                               counted(static_cast<std::size_t>(report->facts), "fact")));
    return {};
}

Result<void> info(const Common& common, const NoWords&)
{
    const auto ledger = open_ledger(common, db::Access::read);
    if (!ledger) return failure(ledger.error());
    const auto info = db::info(*ledger);
    if (!info) return failure(info.error());
    const auto backups = db::rolling_backups(ledger->path());
    if (common.json) {
        Json things;
        for (const auto& [kind, count] : info->things) things[kind] = count;
        Json kept = Json::array();
        for (const db::KeptBackup& backup : backups) kept.push_back(backup.path);
        print_json({{"path", ledger->path()},
                    {"id", to_string(info->id)},
                    {"created", iso_time(info->created)},
                    {"schema_version", info->schema_version},
                    {"size_bytes", info->size_bytes},
                    {"things", things},
                    {"readings", info->readings},
                    {"actions", info->actions},
                    {"backups", kept}});
        return {};
    }
    print_line(fmt::format("{}\n  begun {}, {:.1f} MB, schema {}", ledger->path(), short_time(info->created),
                           static_cast<double>(info->size_bytes) / 1e6, info->schema_version));
    for (const auto& [kind, count] : info->things) print_line(fmt::format("  {:<16}{:>9}", kind, count));
    print_line(fmt::format("  {:<16}{:>9}", "readings", info->readings));
    print_line(backups.empty() ? std::string{"  no backup yet"}
                               : fmt::format("  {}, the last of {}", counted(backups.size(), "backup"),
                                             iso_date(backups.front().day)));
    return {};
}

} // namespace

void add_command_ledger(CLI::App& app, Common& common, Work& work)
{
    auto& ledger = add_noun(app, "ledger", "the ledger as a file: merge, backup, restore, verify");

    const auto merging = add_verb<FileWords>(ledger, common, work, "merge",
                                             "take over what another computer's ledger has", merge);
    merging.app->add_option("OTHER", merging.words->file, "the other ledger; it is not changed")->required();

    add_verb<NoWords>(ledger, common, work, "conflicts", "what contradicts itself after a merge",
                      list_conflicts);

    const auto exporting = add_verb<ExportWords>(
        ledger, common, work, "export", "write all that was ever stated as one JSON document", export_whole);
    exporting.app->add_option("FILE", exporting.words->path, "the new file, or with --csv the new folder")
        ->required();
    exporting.app->add_flag("--csv", exporting.words->csv, "a folder with a CSV file for each table instead");

    const auto importing = add_verb<FileWords>(
        ledger, common, work, "import", "take over what `ledger export` wrote, as merge does", import_whole);
    importing.app->add_option("FILE", importing.words->file, "the document or folder")->required();

    const auto backing =
        add_verb<FileWords>(ledger, common, work, "backup", "copy the ledger to a new file", back_up);
    backing.app->add_option("FILE", backing.words->file, "the new file")->required();

    const auto restoring =
        add_verb<FileWords>(ledger, common, work, "restore",
                            "put a backup in the place of the ledger, which is kept aside", restore);
    restoring.app->add_option("BACKUP", restoring.words->file, "the backup")->required();

    const auto verifying =
        add_verb<VerifyWords>(ledger, common, work, "verify", "look through the whole ledger", verify);
    verifying.app->add_flag("--without-recordings", verifying.words->without_recordings,
                            "do not look whether recordings are what they were");

    add_verb<NoWords>(ledger, common, work, "info", "what the ledger holds, and its backups", info);
}

} // namespace harpkeep::cli
