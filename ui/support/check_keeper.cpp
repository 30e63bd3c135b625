// SPDX-License-Identifier: MIT
#include "ui/support/check_keeper.hpp"

#include "audio/file_hash.hpp"
#include "audio/sound_file.hpp"
#include "base/expects.hpp"
#include "db/records/checks.hpp"
#include "db/records/open_checks.hpp"
#include "live/check_result.hpp"
#include "ui/support/clock.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace harpkeep::ui {

namespace {

Result<Recording> recording_at(const std::string& path)
{
    Recording recording{.path = path};
    if (path.empty()) return recording;
    const auto hash = sha256_of_file(path);
    if (!hash) return failure(hash.error());
    recording.sha256 = sha256_from_hex(*hash).value();
    const auto file = SoundFile::open(path);
    if (!file) return failure(file.error());
    recording.duration = Seconds{file->info().duration_s.value_or(0.0)};
    return recording;
}

} // namespace

Result<CheckKeeper> CheckKeeper::begin(db::Ledger ledger, HarpRecord harp, const LiveCheckRequest& request)
{
    CheckKeeper keeper{std::move(ledger), std::move(harp)};
    keeper.begun_ = now();
    if (request.store) {
        auto open = db::open_checks_of(keeper.ledger_, keeper.harp_.id);
        if (!open) return failure(open.error());
        if (!open->empty() && !request.anew) {
            db::OpenCheck& stopped = open->front();
            if (stopped.method != pitch_method)
                return failure(ErrorCode::refused,
                               fmt::format("the stopped check of {} was measured by \"{}\", this version "
                                           "measures by \"{}\"; store it as far as it went or begin anew",
                                           keeper.harp_.details.name, stopped.method, pitch_method));
            return take_up(std::move(keeper.ledger_), std::move(keeper.harp_));
        }
    }
    auto check = GuidedCheck::begin(keeper.harp_.details.layout, request.plan, {.a4 = request.a4});
    if (!check) return failure(check.error());
    keeper.check_.emplace(std::move(*check));
    if (!request.store) return keeper;
    const auto id = db::begin_open_check(keeper.ledger_, author(), keeper.harp_.id, request.a4, request.plan);
    if (!id) return failure(id.error());
    keeper.id_ = *id;
    // The stopped ones go only now that the new one stands.
    auto stopped = db::open_checks_of(keeper.ledger_, keeper.harp_.id);
    if (!stopped) return failure(stopped.error());
    for (const db::OpenCheck& each : *stopped)
        if (each.id != *id)
            if (auto dropped = db::drop_open_check(keeper.ledger_, each.id); !dropped)
                return failure(dropped.error());
    return keeper;
}

Result<CheckKeeper> CheckKeeper::take_up(db::Ledger ledger, HarpRecord harp)
{
    CheckKeeper keeper{std::move(ledger), std::move(harp)};
    auto open = db::open_checks_of(keeper.ledger_, keeper.harp_.id);
    if (!open) return failure(open.error());
    if (open->empty())
        return failure(ErrorCode::not_found,
                       fmt::format("no live check of {} was stopped; there is nothing to finish",
                                   keeper.harp_.details.name));
    db::OpenCheck& stopped = open->front();
    keeper.id_ = stopped.id;
    keeper.resumed_ = true;
    keeper.method_ = stopped.method;
    keeper.begun_ = stopped.begun;
    keeper.recordings_ = std::move(stopped.recordings);
    if (auto gone_on = keeper.go_on(std::move(stopped.state), stopped.a4); !gone_on)
        return failure(gone_on.error());
    return keeper;
}

Result<void> CheckKeeper::go_on(GuidedCheckState state, Hertz a4)
{
    auto check = GuidedCheck::resume(harp_.details.layout, std::move(state), {.a4 = a4});
    if (!check) return failure(check.error());
    check_.emplace(std::move(*check));
    return {};
}

GuidedCheck CheckKeeper::take_check()
{
    HARPKEEP_EXPECTS(check_);
    GuidedCheck check = std::move(*check_);
    check_.reset();
    return check;
}

Result<int> CheckKeeper::begin_session(const std::string& record_path)
{
    int file_index = 0;
    if (id_) {
        const auto counted = db::begin_session(ledger_, *id_, record_path);
        if (!counted) return failure(counted.error());
        file_index = *counted;
    }
    recordings_.push_back(record_path);
    return file_index;
}

Result<void> CheckKeeper::keep(const GuidedCheckState& state)
{
    return id_ ? db::store_progress(ledger_, *id_, state) : Result<void>{};
}

Result<CheckResult> CheckKeeper::store(const GuidedCheck& check, std::vector<std::string> remarks)
{
    CheckResult result = check_result(check);
    result.remarks.insert(result.remarks.end(), remarks.begin(), remarks.end());
    if (!id_) return result;
    CheckHeader header{.harp_id = harp_.id, .taken = begun_, .method = method_};
    for (const std::string& path : recordings_) {
        auto recording = recording_at(path);
        if (!recording) // moved or deleted since: no reason to lose the check
            result.remarks.push_back(fmt::format("The recording of this check is not there any more: {}",
                                                 recording.error().message));
        header.recordings.push_back(recording ? std::move(*recording) : Recording{});
    }
    if (auto stored = db::store_check(ledger_, author(), header, result); !stored)
        return failure(stored.error());
    if (auto dropped = db::drop_open_check(ledger_, *id_); !dropped) return failure(dropped.error());
    id_.reset();
    return result;
}

Result<std::vector<StringPlace>> doubtful_strings(const db::Ledger& ledger, const HarpRecord& harp)
{
    const auto latest = db::latest_check(ledger, harp.id);
    if (!latest) return failure(latest.error());
    if (!*latest)
        return failure(ErrorCode::not_found,
                       fmt::format("{} has no check yet that could leave a string in doubt; check it as a "
                                   "whole first",
                                   harp.details.name));
    const CheckResult& result = (*latest)->result;
    std::set<StringPlace> doubtful;
    std::set<StringPlace> asked;
    for (const Reading& reading : result.readings) asked.insert(reading.place);
    for (const MissingReading& missing : result.missing) doubtful.insert(missing.place);
    const auto trusted = [&](const HarpString& string, Position position) {
        return std::any_of(result.readings.begin(), result.readings.end(), [&](const Reading& reading) {
            return reading.place == string.place && reading.position == position && reading.pluck.trusted();
        });
    };
    const auto steps_of = [&](const HarpString& string) {
        return static_cast<std::size_t>(
            std::count_if(result.steps.begin(), result.steps.end(),
                          [&](const StepError& step) { return step.place == string.place; }));
    };
    for (const HarpString& string : harp.details.layout.strings) {
        if (!asked.contains(string.place)) continue; // it was no part of that check, or is missing as a whole
        const auto positions = positions_of(harp.details.layout.kind, string);
        const bool all = std::all_of(positions.begin(), positions.end(),
                                     [&](Position position) { return trusted(string, position); });
        if (!all || steps_of(string) + 1 < positions.size()) doubtful.insert(string.place);
    }
    if (doubtful.empty())
        return failure(ErrorCode::not_found,
                       fmt::format("the last check of {} leaves no string in doubt", harp.details.name));
    return std::vector<StringPlace>{doubtful.begin(), doubtful.end()};
}

} // namespace harpkeep::ui
