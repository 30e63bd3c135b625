// SPDX-License-Identifier: MIT
#include "db/ledger/backup.hpp"

#include "db/ledger/blank_ledger.hpp"
#include "db/ledger/sole_work.hpp"
#include "db/ledger/unfinished_file.hpp"
#include "db/ledger/verify.hpp"
#include "db/sqlite/ledger_failure.hpp"
#include "upkeep/backup_rotation.hpp"

#include <algorithm>
#include <filesystem>
#include <fmt/format.h>

namespace harpkeep::db {

namespace {

namespace fs = std::filesystem;

constexpr const char* extension = ".harpkeep";

void copy_into(const Database& database, const std::string& new_path)
{
    const UnfinishedFile unfinished{new_path + ".unfinished"};
    database.copy_to(unfinished.path());
    unfinished.keep_as(new_path);
}

/// Gives back the only use of a ledger, with its log folded in, so that its file can be moved.
void expect_sole_use(const std::string& path)
{
    const Database database{path, Access::write};
    if (database.text_of("PRAGMA journal_mode = DELETE") != "delete")
        fail(ErrorCode::unavailable, path + ": another program has it open; close it and try again");
}

/// Moves the ledger aside, with its log files when it cannot be opened any more.
std::optional<std::string> step_aside(const std::string& path, Moment now)
{
    if (!is_there(path)) return std::nullopt;
    try {
        expect_sole_use(path);
    } catch (const LedgerFailure& caught) {
        // A damaged ledger is just what a restore is for; a busy one is not to be moved from under its user.
        if (caught.error().code != ErrorCode::corrupt) throw;
    }
    const std::string aside = fmt::format("{}.before-restore-{}", path, now.utc_ms);
    for (const char* part : {"-wal", "-shm"})
        if (is_there(path + part)) move_file(path + part, aside + part);
    move_file(path, aside);
    return aside;
}

std::optional<Date> day_of(const fs::path& file)
{
    if (file.extension() != extension) return std::nullopt;
    const auto date = date_from_iso(file.stem().string());
    return date && date->is_full() ? date : std::nullopt;
}

} // namespace

Result<void> back_up(const Ledger& ledger, const std::string& new_path)
{
    return guarded("backing up to " + new_path, [&] {
        if (is_there(new_path)) fail(ErrorCode::refused, "the file is there already; name a new one");
        copy_into(ledger.database(), new_path);
    });
}

std::string backup_folder(const std::string& ledger_path)
{
    return ledger_path + ".backups";
}

std::vector<KeptBackup> rolling_backups(const std::string& ledger_path)
{
    std::vector<KeptBackup> backups;
    std::error_code code;
    for (fs::directory_iterator entry{backup_folder(ledger_path), code}, end; !code && entry != end;
         entry.increment(code))
        if (const auto day = day_of(entry->path())) backups.push_back({*day, entry->path().string()});
    std::sort(backups.begin(), backups.end(), [](const auto& a, const auto& b) { return b.day < a.day; });
    return backups;
}

Result<std::optional<std::string>> keep_rolling_backup(const Ledger& ledger, Moment now)
{
    return guarded("keeping a backup of the day", [&]() -> std::optional<std::string> {
        const Date today = local_date(now);
        const fs::path folder = backup_folder(ledger.path());
        const std::string path = (folder / (iso_date(today) + extension)).string();
        if (is_there(path)) return std::nullopt;
        if (is_blank(ledger.database())) return std::nullopt;
        std::error_code code;
        fs::create_directories(folder, code);
        if (code)
            fail(ErrorCode::unavailable,
                 fmt::format("the folder {} cannot be made: {}", folder.string(), code.message()));
        const SoleWork one_at_a_time{(folder / "lock").string()};
        if (is_there(path)) return std::nullopt; // another program made it meanwhile
        copy_into(ledger.database(), path);
        std::vector<Date> days;
        for (const KeptBackup& backup : rolling_backups(ledger.path())) days.push_back(backup.day);
        for (const Date day : backups_to_drop(days, today))
            fs::remove(folder / (iso_date(day) + extension), code);
        return path;
    });
}

Result<std::optional<std::string>> restore(const std::string& backup_path, const std::string& ledger_path,
                                           Moment now)
{
    return guarded("restoring " + backup_path, [&] {
        if (!is_there(backup_path)) fail(ErrorCode::not_found, "there is no such file; name a backup");
        const UnfinishedFile unfinished{fmt::format("{}.restoring-{}", ledger_path, now.utc_ms)};
        Database{backup_path, Access::read}.copy_to(unfinished.path());
        {
            auto restored = value_or_fail(Ledger::open(unfinished.path(), Access::write, now));
            const auto report = value_or_fail(verify(restored, {.look_at_recordings = false}));
            if (!report.is_sound())
                fail(ErrorCode::corrupt,
                     fmt::format("the backup is damaged ({}); nothing was changed. Try an older one",
                                 report.problems.front()));
        }
        expect_sole_use(unfinished.path()); // folds its log in
        std::error_code code;
        const fs::path real = fs::weakly_canonical(ledger_path, code);
        const std::string ledger_file = code ? ledger_path : real.string();
        const auto aside = step_aside(ledger_file, now);
        move_file(unfinished.path(), ledger_file);
        return aside;
    });
}

} // namespace harpkeep::db
