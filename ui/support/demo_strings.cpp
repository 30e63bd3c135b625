// SPDX-License-Identifier: MIT
#include "ui/support/demo_strings.hpp"

#include "db/records/spares.hpp"
#include "db/records/string_plans.hpp"
#include "db/records/strings.hpp"
#include "reason/stringing_records.hpp"
#include "strings/example_stringing.hpp"
#include "synth/random_source.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep::ui {

namespace {

constexpr const char* supplier = "string shop";

/// Invented: scale of a Weibull life of shape 1.8 in days. Upper strings break most, wires hardly ever
/// (trade).
double life_scale_days(const PlannedString& planned)
{
    if (!planned.make.wrap_material.empty()) return 6000.0;
    return planned.place.harp_octave() <= 1 ? 620.0 : planned.place.harp_octave() <= 3 ? 1000.0 : 2600.0;
}

int drawn_life_days(const PlannedString& planned, bool troubled, RandomSource& random)
{
    const double scale_days = troubled ? 160.0 : life_scale_days(planned);
    return std::max(3, static_cast<int>(scale_days * std::pow(-std::log(1.0 - random.uniform()), 1.0 / 1.8)));
}

Money price_of(const PlannedString& planned)
{
    const std::int64_t cents = !planned.make.wrap_material.empty() ? 2950
                               : planned.make.material == "nylon"  ? 390
                                                                   : 620 + 90 * planned.place.harp_octave();
    return {cents, "EUR"};
}

MountedString mounted(const PlannedString& planned, int day)
{
    MountedString string{.harp_id = planned.harp_id, .place = planned.place, .make = planned.make};
    string.make.supplier = supplier;
    string.cost = price_of(planned);
    string.put_on = date_from_days(day);
    return string;
}

/// One place: a string, its break, the next, until today.
Result<void> add_place(db::Ledger& ledger, const db::Author& author, const PlannedString& planned,
                       int since_day, bool troubled, RandomSource& random)
{
    const int today = days_since_epoch(local_date(author.now));
    int day = since_day - static_cast<int>(random.uniform(0.0, 300.0));
    bool first = true;
    while (true) {
        auto string = mounted(planned, day);
        if (first) string.watched_from = date_from_days(since_day);
        const int watched_day = first ? since_day : day;
        first = false;
        const int life_days = drawn_life_days(planned, troubled, random);
        // A string is seen only when it outlived the day on which the ledger began.
        const int end_day = std::max(day + life_days, watched_day + 2);
        db::PutOnOptions options;
        if (end_day < today - 1) {
            StringRemoval removal;
            removal.removed_on = date_from_days(end_day);
            removal.reason = random.uniform() < 0.75 ? RemovalReason::broke : RemovalReason::schedule;
            if (troubled) removal.reason = RemovalReason::broke;
            if (removal.reason == RemovalReason::broke)
                removal.broke_at = random.uniform() < 0.6 ? BreakPoint::disc : BreakPoint::nut;
            options.ended = removal;
        }
        const auto added = db::put_on(ledger, author, string, options);
        if (!added) return failure(added.error());
        if (!options.ended) return {};
        day = end_day + static_cast<int>(random.uniform(0.0, 6.0));
        if (day >= today - 1) return {}; // broken, its place still empty
    }
}

} // namespace

Result<void> add_demo_strings(db::Ledger& ledger, const db::Author& author, const HarpRecord& harp,
                              int since_day, bool with_breaks, std::optional<StringPlace> troubled,
                              std::uint64_t seed)
{
    const auto plan = as_records(example_stringing(harp.details.layout, Hertz{440.0}), harp.id);
    if (const auto planned = db::plan_strings(ledger, author, plan); !planned)
        return failure(planned.error());
    RandomSource random{seed};
    if (!with_breaks) {
        std::vector<MountedString> strings;
        for (const auto& planned : plan) strings.push_back(mounted(planned, since_day));
        const auto added = db::put_on_all(ledger, author, strings);
        return added ? Result<void>{} : failure(added.error());
    }
    for (const auto& planned : plan)
        if (const auto added =
                add_place(ledger, author, planned, since_day, planned.place == troubled, random);
            !added)
            return failure(added.error());
    return {};
}

Result<void> add_demo_spares(db::Ledger& ledger, const db::Author& author, const Uuid& harp_id)
{
    const auto plan = db::string_plan(ledger, harp_id);
    if (!plan) return failure(plan.error());
    RandomSource random{7};
    for (const auto& planned : *plan) {
        const auto& details = planned.details;
        if (details.place.harp_octave() > 5) continue;
        const int count = static_cast<int>(random.below(3));
        if (count == 0) continue;
        SpareMovement movement{.place = details.place, .make = details.make, .change = count};
        movement.make.supplier = supplier;
        movement.moved_on = date_from_days(days_since_epoch(local_date(author.now)) - 60);
        movement.cost = Money{price_of(details).minor_units * count, "EUR"};
        const auto moved = db::move_spares(ledger, author, movement);
        if (!moved) return failure(moved.error());
    }
    return {};
}

} // namespace harpkeep::ui
