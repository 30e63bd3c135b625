// SPDX-License-Identifier: MIT
#include "reason/string_history.hpp"

#include "base/expects.hpp"
#include "units/format_amount.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace harpkeep {

namespace {

/// Day number of a date; the middle of the month or year when no more is known.
double day_of(Date date)
{
    return 0.5 * (days_since_epoch(first_day(date)) + days_since_epoch(last_day(date)));
}

const HarpDetails& harp_of(std::span<const HarpRecord> harps, const Uuid& id)
{
    const auto found =
        std::find_if(harps.begin(), harps.end(), [&id](const HarpRecord& harp) { return harp.id == id; });
    HARPKEEP_EXPECTS(found != harps.end());
    return found->details;
}

/// The days on which a string was put on, first watched, and last seen.
struct LifeDays {
    std::optional<double> put_on;
    double watched_from = 0.0;
    double until = 0.0;
};

/// The removal, if it had happened by that day.
const StringRemoval* removal_by(const StringLife& life, double today)
{
    if (!life.removal || day_of(life.removal->details.removed_on) > today) return nullptr;
    return &life.removal->details;
}

LifeDays days_of(const StringLife& life, const StringRemoval* removal, double today)
{
    LifeDays days;
    if (life.string.put_on) days.put_on = day_of(*life.string.put_on);
    days.watched_from =
        life.string.watched_from ? day_of(*life.string.watched_from) : days.put_on.value_or(today);
    if (days.put_on) days.watched_from = std::max(days.watched_from, *days.put_on);
    days.until = removal != nullptr ? day_of(removal->removed_on) : today;
    // The middle of a month can lie after a day in it; and who breaks on the first day lived for half of it.
    days.until = std::max(days.until, days.watched_from + 0.5);
    return days;
}

bool is_vague(const StringLife& life, const StringRemoval* removal)
{
    return (life.string.put_on && !life.string.put_on->is_full()) ||
           (removal != nullptr && !removal->removed_on.is_full());
}

ObservedString observed(const StringLife& life, const StringRemoval* removal, const std::string& harp,
                        const LifeDays& days)
{
    ObservedString string{
        .harp = harp, .place = life.string.place, .material = life_material(life.string.make)};
    string.age_at_entry_days = days.watched_from - *days.put_on;
    string.age_at_exit_days = days.until - *days.put_on;
    string.broke = removal != nullptr && removal->reason == RemovalReason::broke;
    if (string.broke && removal->broke_at)
        string.broke_at = std::string{break_point_name(*removal->broke_at)};
    return string;
}

StringInUse in_use(const StringLife& life, const std::string& harp, const LifeDays& days)
{
    StringInUse string{.harp = harp, .place = life.string.place, .material = life_material(life.string.make)};
    if (days.put_on) string.age_days = days.until - *days.put_on;
    string.watched_days = days.until - days.watched_from;
    string.kind = spare_kind_name(life.string.place, life.string.make);
    return string;
}

} // namespace

StringHistory string_history(std::span<const StringLife> lives, std::span<const HarpRecord> harps, Date today)
{
    HARPKEEP_EXPECTS(today.is_full());
    const double now = day_of(today);
    StringHistory history;
    double first = now;
    for (const auto& life : lives) {
        const auto& harp = harp_of(harps, life.string.harp_id);
        // a harp that was sold takes its strings out of sight
        const bool left = harp.left_on && day_of(*harp.left_on) <= now;
        const double last_seen = left ? day_of(*harp.left_on) : now;
        const auto* const removal = removal_by(life, last_seen);
        const auto days = days_of(life, removal, last_seen);
        if (days.watched_from > last_seen) continue; // not on yet on that day
        first = std::min(first, days.watched_from);
        history.vague_dates += is_vague(life, removal) ? 1 : 0;
        history.unknown_reason += removal != nullptr && removal->reason == RemovalReason::unknown ? 1 : 0;
        if (days.put_on)
            history.observed.push_back(observed(life, removal, harp.name, days));
        else
            ++history.unknown_age;
        if (removal == nullptr && !left) history.in_use.push_back(in_use(life, harp.name, days));
    }
    history.calendar_years = std::max(1.0, now - first) / days_per_year;
    return history;
}

std::string life_material(const StringMake& make)
{
    if (make.material.empty()) return "unknown material";
    return make.wrap_material.empty() ? make.material : fmt::format("wound {}", make.material);
}

std::string spare_kind_name(StringPlace place, const StringMake& make)
{
    const auto size = [](const std::optional<Millimetres>& diameter) {
        return diameter ? fmt::format(" {}", millimetres_text(*diameter)) : std::string{};
    };
    const auto wrap = make.wrap_material.empty()
                          ? std::string{}
                          : fmt::format(" in {}{}", make.wrap_material, size(make.wrap_outer_diameter));
    return fmt::format("{} {}{}{}", harp_name(place),
                       make.material.empty() ? "unknown material" : make.material, size(make.diameter), wrap);
}

std::vector<std::string> history_sentences(const StringHistory& history)
{
    std::vector<std::string> sentences;
    if (history.unknown_age > 0)
        sentences.push_back(
            fmt::format("Of {} nobody knows when put on: left out of what is learnt about lives.",
                        counted(history.unknown_age, "string")));
    if (history.unknown_reason > 0)
        sentences.push_back(
            fmt::format("{} came off for a reason that was not noted and count as sound: if they broke, "
                        "lives are shorter than they look.",
                        counted(history.unknown_reason, "string")));
    if (history.vague_dates > 0)
        sentences.push_back(fmt::format("Of {} only a month or a year is known; its middle was taken.",
                                        counted(history.vague_dates, "string")));
    return sentences;
}

} // namespace harpkeep
