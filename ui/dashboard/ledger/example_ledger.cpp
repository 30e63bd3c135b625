// SPDX-License-Identifier: MIT
#include "ui/dashboard/ledger/example_ledger.hpp"

#include "ui/dashboard/text.hpp"
#include "ui/support/demo_ledger.hpp"

#include <fmt/format.h>

#include <filesystem>

namespace harpkeep::dashboard {

namespace {

namespace fs = std::filesystem;

void remove_with_companions(const std::string& path)
{
    std::error_code ignored; // what is not there need not go
    for (const char* suffix : {"", "-wal", "-shm"}) fs::remove(path + suffix, ignored);
}

Result<void> make_ledger(const std::string& path, const db::Author& author, int harps, JobContext& context)
{
    auto ledger = db::Ledger::open(path, db::Access::create, author.now);
    if (!ledger) return failure(ledger.error());
    return ui::fill_demo_ledger(*ledger, author, harps, [&](double share) {
        context.progress(share);
        return !context.cancelled();
    });
}

} // namespace

Result<std::shared_ptr<Source>> open_example_ledger(const std::string& folder, LedgerSource::AuthorNow author,
                                                    int harps, JobContext& context)
{
    std::error_code error;
    fs::create_directories(folder, error);
    if (error)
        return failure(ErrorCode::unavailable,
                       fmt::format(text::folder_failed_format, folder, error.message()));
    const std::string path = (fs::path{folder} / "larkmoor.harpkeep").string();
    if (!fs::exists(path, error)) {
        const std::string fresh = path + ".new";
        remove_with_companions(fresh);
        if (const auto made = make_ledger(fresh, author(), harps, context); !made) {
            remove_with_companions(fresh);
            return failure(made.error());
        }
        fs::rename(fresh, path, error);
        if (error)
            return failure(ErrorCode::unavailable,
                           fmt::format(text::save_failed_format, path, error.message()));
    }
    return LedgerSource::open(path, std::move(author), LedgerSource::Use::example);
}

} // namespace harpkeep::dashboard
