// SPDX-License-Identifier: MIT
#include "db/exchange/record_import.hpp"
#include "db/exchange/record_tables.hpp"
#include "db/ledger/file_bytes.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/ledger_access.hpp"
#include "ui/cli/output.hpp"
#include "ui/cli/verb.hpp"
#include "ui/support/clock.hpp"

#include <algorithm>
#include <filesystem>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <fstream>
#include <iostream>

namespace harpkeep::cli {

namespace {

namespace fs = std::filesystem;

constexpr std::int64_t largest_file_bytes = 1'073'741'824;

Result<void> list(const Common& common, const NoWords&)
{
    const auto ledger = open_ledger(common, db::Access::read);
    if (!ledger) return failure(ledger.error());
    const auto tables = db::record_tables(*ledger);
    if (!tables) return failure(tables.error());
    if (common.json) {
        Json all = Json::array();
        for (const db::RecordTable& table : *tables)
            all.push_back({{"table", table.name}, {"columns", table.heading()}});
        print_json(all);
        return {};
    }
    for (const db::RecordTable& table : *tables)
        print_line(fmt::format("{}\n    {}", table.name, fmt::join(table.heading(), ", ")));
    return {};
}

struct ExportWords {
    std::vector<std::string> tables;
    std::string folder;
    bool all = false;
};

Result<std::vector<db::RecordTable>> chosen_tables(const db::Ledger& ledger, const ExportWords& words)
{
    auto tables = db::record_tables(ledger);
    if (!tables || words.all) return tables;
    std::vector<std::string> names;
    for (const db::RecordTable& table : *tables) names.push_back(table.name);
    for (const std::string& wanted : words.tables)
        if (std::find(names.begin(), names.end(), wanted) == names.end())
            return failure(ErrorCode::invalid_argument, fmt::format("there is no table \"{}\"; there are {}",
                                                                    wanted, fmt::join(names, ", ")));
    std::erase_if(*tables, [&](const db::RecordTable& table) {
        return std::find(words.tables.begin(), words.tables.end(), table.name) == words.tables.end();
    });
    return tables;
}

Result<std::string> write_file(const db::Ledger& ledger, const db::RecordTable& table, const fs::path& folder)
{
    const fs::path path = folder / (table.name + ".csv");
    const fs::path unfinished = path.string() + ".unfinished";
    std::error_code code;
    if (fs::exists(path, code))
        return failure(ErrorCode::refused,
                       path.string() + " is there already; name another folder with --to");
    std::ofstream file{unfinished, std::ios::binary};
    auto written = db::write_records(ledger, table, file);
    file.close();
    if (written && file) fs::rename(unfinished, path, code);
    if (written && file && !code) return path.string();
    fs::remove(unfinished, code);
    if (!written) return failure(written.error());
    return failure(ErrorCode::unavailable,
                   path.string() + " cannot be written; see to the folder and the disk");
}

Result<void> export_tables(const Common& common, const ExportWords& words)
{
    if (words.all != words.tables.empty())
        return failure(ErrorCode::invalid_argument,
                       "name the tables to export, or --all; `harpkeep csv list` "
                       "shows them");
    const auto ledger = open_ledger(common, db::Access::read);
    if (!ledger) return failure(ledger.error());
    const auto tables = chosen_tables(*ledger, words);
    if (!tables) return failure(tables.error());
    if (words.folder.empty()) {
        if (tables->size() > 1)
            return failure(ErrorCode::invalid_argument, "several tables need a folder; give --to");
        return db::write_records(*ledger, tables->front(), std::cout);
    }
    std::error_code code;
    fs::create_directories(words.folder, code);
    if (code)
        return failure(ErrorCode::unavailable,
                       fmt::format("making the folder {}: {}", words.folder, code.message()));
    Json paths = Json::array();
    for (const db::RecordTable& table : *tables) {
        const auto path = write_file(*ledger, table, words.folder);
        if (!path) return failure(path.error());
        paths.push_back(*path);
    }
    if (common.json)
        print_json(paths);
    else
        print_line(fmt::format("Wrote {} into {}.", counted(tables->size(), "table"), words.folder));
    return {};
}

struct ImportWords {
    std::vector<std::string> files;
    std::string table;
    bool only_try = false;
};

Result<std::vector<db::RecordFile>> files_from(const ImportWords& words)
{
    if (!words.table.empty() && words.files.size() > 1)
        return failure(ErrorCode::invalid_argument,
                       "--table names the table of one file; give the files one by one");
    std::vector<db::RecordFile> files;
    for (const std::string& path : words.files) {
        const auto bytes = db::file_bytes(path, largest_file_bytes);
        if (!bytes) return failure(bytes.error());
        files.push_back({fs::path{path}.filename().string(),
                         words.table.empty() ? fs::path{path}.stem().string() : words.table,
                         {bytes->begin(), bytes->end()}});
    }
    return files;
}

void print_reports(const Common& common, const std::vector<db::RecordImport>& reports, bool only_try)
{
    if (common.json) {
        Json all = Json::array();
        for (const db::RecordImport& report : reports)
            all.push_back({{"file", report.file},
                           {"added", report.added},
                           {"corrected", report.corrected},
                           {"unchanged", report.unchanged}});
        print_json({{"kept", !only_try}, {"files", all}});
        return;
    }
    for (const db::RecordImport& report : reports)
        print_line(fmt::format("{}: {} added, {} corrected, {} as before.", report.file, report.added,
                               report.corrected, report.unchanged));
    print_line(only_try ? "Nothing was kept; without --try it will be."
                        : "`harpkeep undo` takes the whole import back.");
}

Result<void> import_tables(const Common& common, const ImportWords& words)
{
    const auto files = files_from(words);
    if (!files) return failure(files.error());
    auto ledger = open_ledger(common, db::Access::create);
    if (!ledger) return failure(ledger.error());
    const auto reports = db::import_records(*ledger, ui::author(), *files, {.only_try = words.only_try});
    if (!reports) return failure(reports.error());
    print_reports(common, *reports, words.only_try);
    return {};
}

} // namespace

void add_command_csv(CLI::App& app, Common& common, Work& work)
{
    auto& csv = add_noun(app, "csv", "tables for spreadsheets, out and in");

    add_verb<NoWords>(csv, common, work, "list", "the tables and their columns", list);

    const auto exporting = add_verb<ExportWords>(csv, common, work, "export",
                                                 "write what holds now of some tables", export_tables);
    exporting.app->add_option("TABLE", exporting.words->tables, "as `csv list` shows them");
    exporting.app->add_flag("--all", exporting.words->all, "every table");
    exporting.app->add_option("--to", exporting.words->folder,
                              "the folder for the files (one table alone: else to the terminal)");

    const auto importing = add_verb<ImportWords>(
        csv, common, work, "import", "take rows over: all of them, or none when one is wrong", import_tables);
    importing.app
        ->add_option("FILE", importing.words->files, "files named for their tables, as in string.csv")
        ->required();
    importing.app->add_option("--table", importing.words->table, "the table, for a file with another name");
    importing.app->add_flag("--try", importing.words->only_try, "only say what would be done");
}

} // namespace harpkeep::cli
