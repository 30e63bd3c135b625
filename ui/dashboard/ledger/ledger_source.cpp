// SPDX-License-Identifier: MIT
#include "ui/dashboard/ledger/ledger_source.hpp"

#include "db/ledger/history.hpp"
#include "db/records/harps.hpp"
#include "db/records/loans.hpp"
#include "db/records/rooms.hpp"
#include "db/records/strings.hpp"
#include "ui/dashboard/ledger/ledger_words.hpp"
#include "ui/dashboard/text.hpp"
#include "ui/support/tolerance_setting.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

namespace harpkeep::dashboard {

namespace {

/// Time and size of a file in one number; 0 when it is not there.
std::uint64_t stamp_of(const std::string& path)
{
    std::error_code error;
    const auto time = std::filesystem::last_write_time(path, error);
    if (error) return 0;
    const auto size = std::filesystem::file_size(path, error);
    if (error) return 0;
    return static_cast<std::uint64_t>(time.time_since_epoch().count()) * 1099511628211ULL +
           size; // FNV's prime mixes the two
}

} // namespace

Result<std::shared_ptr<Source>> LedgerSource::open(const std::string& path, AuthorNow author, Use use)
{
    auto ledger = db::Ledger::open(path, db::Access::create, author().now);
    if (!ledger) return failure(ledger.error());
    return std::shared_ptr<Source>{
        std::make_shared<LedgerSource>(std::move(*ledger), std::move(author), use)};
}

LedgerSource::LedgerSource(db::Ledger ledger, AuthorNow author, Use use)
    : ledger_(std::move(ledger)), author_(std::move(author)), use_(use), path_(ledger_.path())
{
}

std::string LedgerSource::ledger_name() const
{
    if (use_ == Use::example) return text::example_name;
    return std::filesystem::path{path_}.stem().string();
}

std::uint64_t LedgerSource::revision() const
{
    return stamp_of(path_) * 31 + stamp_of(path_ + "-wal") + 1;
}

Date LedgerSource::today() const
{
    return local_date(author_().now);
}

Result<std::vector<HarpChoice>> LedgerSource::harps()
{
    const auto lines = db::harp_lines(ledger_);
    if (!lines) return failure(lines.error());
    std::vector<HarpChoice> out;
    for (const auto& harp : *lines)
        if (!harp.left) out.push_back({to_string(harp.id), harp.name, harp.kind});
    std::sort(out.begin(), out.end(),
              [](const HarpChoice& a, const HarpChoice& b) { return a.name < b.name; });
    return out;
}

Result<HarpHeading> LedgerSource::heading_of(const HarpRecord& harp) const
{
    HarpHeading heading{to_string(harp.id), harp.details.name, description_of(harp.details), text::no_room};
    const auto placements = db::placements_of(ledger_, harp.id);
    if (!placements) return failure(placements.error());
    if (!placements->empty() && placements->back().details.room_id) {
        const auto rooms = db::rooms(ledger_);
        if (!rooms) return failure(rooms.error());
        for (const auto& room : *rooms)
            if (room.id == *placements->back().details.room_id) heading.whereabouts = room.details.name;
    }
    const auto loans = db::loans_of(ledger_, harp.id);
    if (!loans) return failure(loans.error());
    for (const auto& loan : *loans)
        if (!loan.back)
            heading.whereabouts =
                loan.loan.until
                    ? fmt::format(text::on_loan_until_format, loan.loan.borrower, iso_date(*loan.loan.until))
                    : fmt::format(text::on_loan_format, loan.loan.borrower);
    return heading;
}

Result<PageModel> LedgerSource::load(Page page, const Query& query)
{
    reckoned_.forget_when_changed(revision(), today());
    const auto id = uuid_from_string(query.harp);
    if (page == Page::room) return load_room();
    if (!id)
        return page == Page::settings ? load_settings(nullptr)
                                      : Result<PageModel>{EmptyPage{EmptyPage::Why::no_harp, {}}};
    const auto harp = db::harp_with_id(ledger_, *id);
    if (!harp) return failure(harp.error());
    const auto heading = heading_of(*harp);
    if (!heading) return failure(heading.error());

    const auto load_page = [&]() -> Result<PageModel> {
        switch (page) {
        case Page::today:
            return load_today(*harp);
        case Page::history:
            return load_history(*harp, query);
        case Page::strings:
            return load_strings(*harp, query);
        case Page::tension:
            return load_tension(*harp, query);
        case Page::pedals:
            return load_pedals(*harp, query);
        case Page::visits:
            return load_visits(*harp);
        case Page::climate:
            return load_climate(*harp);
        case Page::settings:
            return load_settings(&*harp);
        case Page::guided:
        case Page::tuning:
            return load_live(page, *harp, query);
        case Page::room:
        case Page::count:
            break;
        }
        return failure(ErrorCode::not_found, text::no_such_page);
    };
    auto model = load_page();
    if (!model) return failure(model.error().within(harp->details.name));
    std::visit(
        [&](auto& shown) {
            if constexpr (requires { shown.harp; }) shown.harp = *heading;
            using Shown = std::remove_cvref_t<decltype(shown)>;
            if constexpr (std::is_same_v<Shown, EmptyPage> || std::is_same_v<Shown, TensionModel>) {
                for (const auto& string : harp->details.layout.strings) shown.places.push_back(string.place);
            }
        },
        *model);
    return model;
}

Result<PageModel> LedgerSource::load_live(Page page, const HarpRecord& harp, const Query& query)
{
    const auto tolerance = ui::tolerances_of(ledger_, harp.id);
    if (!tolerance) return failure(tolerance.error());
    const LivePages::Facts facts{ledger_, harp, *tolerance, query};
    return page == Page::guided ? live_.guided(facts) : live_.tuning(facts);
}

Result<Outcome> LedgerSource::tell_live(const Action& action, const Uuid& harp_id, const Query& query)
{
    const auto harp = db::harp_with_id(ledger_, harp_id);
    if (!harp) return failure(harp.error());
    const auto tolerance = ui::tolerances_of(ledger_, harp_id);
    if (!tolerance) return failure(tolerance.error());
    const LivePages::Facts facts{ledger_, *harp, *tolerance, query};
    if (const auto* check = std::get_if<StartGuided>(&action)) return live_.start(*check, facts, author_());
    if (const auto* tuning = std::get_if<StartTuning>(&action)) return live_.start(*tuning, facts);
    return live_.tell(action);
}

Result<Outcome> LedgerSource::undo()
{
    const auto undone = db::undo_last(ledger_, author_());
    if (!undone) return failure(undone.error());
    return Outcome{fmt::format(text::undone_format, undone->what), false, std::nullopt, std::nullopt};
}

} // namespace harpkeep::dashboard
