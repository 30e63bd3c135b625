// SPDX-License-Identifier: MIT
#include "db/records/harps.hpp"
#include "ui/dashboard/ledger/ledger_source.hpp"
#include "ui/dashboard/text.hpp"
#include "ui/support/harp_report.hpp"

namespace harpkeep::dashboard {

Result<report::Document> LedgerSource::sheet(const PrintSheet& wish, const Query& query, JobContext& context)
{
    ui::ReportRequest request{.kind = wish.kind, .today = today()};
    request.visit_id = uuid_from_string(wish.visit);
    const auto before = uuid_from_string(wish.check_before), after = uuid_from_string(wish.check_after);
    if (before && after) request.checks = ui::ChosenChecks{*before, *after};
    request.room = wish.room;
    const auto days = wish.year ? ui::school_year(*wish.year) : ui::school_year_of(today());
    request.from = days.from;
    request.until = days.until;
    request.tuning.occasion = wish.occasion;
    request.tuning.a4_hz = query.a4_hz;
    if (wish.pedals) request.tuning.settings.push_back({*wish.pedals});
    if (const auto temperament = find_temperament(wish.temperament))
        request.tuning.temperament = *temperament;
    if (wish.kind != ui::ReportKind::room) {
        const auto id = uuid_from_string(query.harp);
        if (!id) return failure(ErrorCode::not_found, text::no_harp_chosen);
        auto harp = db::harp_with_id(ledger_, *id);
        if (!harp) return failure(harp.error());
        request.harp = std::move(*harp);
    }
    return ui::make_report(ledger_, request, [&](double share) {
        context.progress(share);
        return !context.cancelled();
    });
}

} // namespace harpkeep::dashboard
