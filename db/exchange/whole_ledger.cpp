// SPDX-License-Identifier: MIT
#include "db/exchange/whole_ledger.hpp"

#include "db/exchange/ledger_csv.hpp"
#include "db/exchange/ledger_json.hpp"
#include "db/ledger/unfinished_file.hpp"
#include "db/ledger/verify.hpp"
#include "db/sqlite/ledger_failure.hpp"

#include <filesystem>
#include <fmt/format.h>
#include <fstream>

namespace harpkeep::db {

namespace {

namespace fs = std::filesystem;

void write_csv(const Ledger& ledger, const std::string& folder)
{
    std::error_code code;
    fs::create_directory(folder, code);
    if (code)
        fail(ErrorCode::unavailable, fmt::format("the folder {} cannot be made: {}", folder, code.message()));
    write_ledger_csv(ledger, folder);
}

void write_json(const Ledger& ledger, const std::string& path, Moment now)
{
    std::ofstream file{path, std::ios::binary};
    if (!file)
        fail(ErrorCode::unavailable, path + " cannot be written; see to the permissions of its folder");
    write_ledger_json(ledger, now, file);
    file.close();
    if (!file) fail(ErrorCode::unavailable, path + " cannot be written; see whether the disk is full");
}

std::vector<std::string> read_into(const std::string& path, const Database& target)
{
    std::error_code ignored;
    if (fs::is_directory(path, ignored)) return read_ledger_csv(path, target);
    std::ifstream file{path, std::ios::binary};
    if (!file) fail(ErrorCode::unavailable, "it cannot be read; see to its permissions");
    return read_ledger_json(file, target);
}

/// A ledger file with what the document holds, at `path`.
void make_ledger(const std::string& document, const std::string& path, Moment now)
{
    {
        const Database target{path, Access::create};
        target.execute("PRAGMA synchronous = OFF"); // a file that is thrown away
        const auto problems = read_into(document, target);
        std::string words = "nothing was taken from it:";
        for (const std::string& problem : problems) words += "\n  " + problem;
        if (!problems.empty()) fail(ErrorCode::unusable_input, words);
    }
    const Ledger made = value_or_fail(Ledger::open(path, Access::write, now));
    const auto report = value_or_fail(verify(made, {.look_at_recordings = false}));
    if (!report.is_sound())
        fail(ErrorCode::unusable_input,
             "nothing was taken from it, as it breaks a rule of the ledger: " + report.problems.front());
}

} // namespace

Result<void> export_ledger(const Ledger& ledger, LedgerForm form, const std::string& new_path, Moment now)
{
    return guarded("exporting to " + new_path, [&] {
        if (is_there(new_path)) fail(ErrorCode::refused, "it is there already; name a new one");
        const UnfinishedFile unfinished{new_path + ".unfinished"};
        if (form == LedgerForm::csv)
            write_csv(ledger, unfinished.path());
        else
            write_json(ledger, unfinished.path(), now);
        unfinished.keep_as(new_path);
    });
}

Result<MergeReport> import_ledger(Ledger& ledger, const std::string& path, Moment now)
{
    return guarded("importing " + path, [&] {
        if (!is_there(path)) fail(ErrorCode::not_found, "there is no such file or folder");
        const UnfinishedFile made{fmt::format("{}.importing-{}", ledger.path(), now.utc_ms)};
        make_ledger(path, made.path(), now);
        return value_or_fail(merge_from(ledger, made.path(), now));
    });
}

} // namespace harpkeep::db
