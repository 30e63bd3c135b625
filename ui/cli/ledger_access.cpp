// SPDX-License-Identifier: MIT
#include "ui/cli/ledger_access.hpp"

#include "db/ledger/backup.hpp"
#include "db/ledger/default_path.hpp"
#include "db/records/harps.hpp"
#include "db/records/rooms.hpp"
#include "ui/support/clock.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace harpkeep::cli {

Result<db::Ledger> open_ledger(const Common& common, db::Access access)
{
    std::string path = common.ledger_path;
    if (path.empty()) {
        auto found = db::default_ledger_path();
        if (!found) return failure(found.error());
        path = *found;
    }
    auto ledger = db::Ledger::open(path, access, ui::now());
    if (!ledger || access == db::Access::read) return ledger;
    // Before the first change of a day. A backup that fails must not keep anyone from noting what happened.
    const auto backup = db::keep_rolling_backup(*ledger, ui::now());
    if (!backup) fmt::print(stderr, "harpkeep: no backup was made: {}\n", backup.error().message);
    return ledger;
}

Result<HarpRecord> chosen_harp(const db::Ledger& ledger, const std::string& name)
{
    if (!name.empty()) return db::harp_named(ledger, name);
    auto harps = db::harps(ledger);
    if (!harps) return failure(harps.error());
    std::erase_if(*harps, [](const HarpRecord& harp) { return harp.details.left_on.has_value(); });
    if (harps->size() == 1) return harps->front();
    if (harps->empty())
        return failure(ErrorCode::not_found, "the ledger has no harp yet; `harpkeep harp add NAME` adds one");
    std::vector<std::string> names;
    for (const HarpRecord& harp : *harps) names.push_back(harp.details.name);
    return failure(ErrorCode::invalid_argument,
                   fmt::format("which harp? Name one of {} with --harp", fmt::join(names, ", ")));
}

Result<LedgerAndHarp> open_harp(const Common& common, db::Access access, const std::string& name)
{
    auto ledger = open_ledger(common, access);
    if (!ledger) return failure(ledger.error());
    auto harp = chosen_harp(*ledger, name);
    if (!harp) return failure(harp.error());
    return LedgerAndHarp{std::move(*ledger), std::move(*harp)};
}

Result<Uuid> thing_of_kind(const db::Ledger& ledger, const std::string& handle, const std::string& kind)
{
    const auto thing = db::thing_with_handle(ledger, handle);
    if (!thing) return failure(thing.error());
    if (thing->kind != kind)
        return failure(
            ErrorCode::invalid_argument,
            fmt::format("{} is a {}, not a {}; look the handle up in the list", handle, thing->kind, kind));
    return thing->id;
}

Result<Names> Names::in(const db::Ledger& ledger)
{
    const auto harps = db::harp_names(ledger);
    if (!harps) return failure(harps.error());
    const auto rooms = db::rooms(ledger);
    if (!rooms) return failure(rooms.error());
    Names names;
    for (const auto& harp : *harps) names.names_[harp.id] = harp.details;
    for (const RoomRecord& room : *rooms) names.names_[room.id] = room.details.name;
    return names;
}

std::string Names::of(const Uuid& id) const
{
    const auto found = names_.find(id);
    return found == names_.end() ? db::handle_of(id) : found->second;
}

} // namespace harpkeep::cli
