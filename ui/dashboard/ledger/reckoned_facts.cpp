// SPDX-License-Identifier: MIT
#include "ui/dashboard/ledger/reckoned_facts.hpp"

#include "db/records/harps.hpp"
#include "db/records/rooms.hpp"
#include "db/records/spares.hpp"
#include "db/records/strings.hpp"
#include "ui/dashboard/ledger/ledger_today.hpp"

#include <algorithm>

namespace harpkeep::dashboard {

void ReckonedFacts::forget_when_changed(std::uint64_t revision, Date today)
{
    if (revision == revision_ && today == today_) return;
    revision_ = revision;
    today_ = today;
    school_.reset();
    knowledge_.reset();
    drift_.reset();
    today_page_.reset();
    room_page.reset();
}

Result<ReckonedFacts::Members> ReckonedFacts::members_of_school(const std::optional<Uuid>& harp) const
{
    const auto lines = db::harp_lines(ledger_);
    if (!lines) return failure(lines.error());
    std::vector<Uuid> in_use;
    for (const auto& line : *lines)
        if (!line.left) in_use.push_back(line.id);
    if (in_use.size() <= largest_school) return Members{std::move(in_use), false};
    if (!harp) {
        in_use.resize(largest_school);
        return Members{std::move(in_use), true};
    }
    const auto placements = db::current_placements(ledger_);
    if (!placements) return failure(placements.error());
    std::map<Uuid, std::optional<Uuid>> rooms;
    for (const auto& placement : *placements) rooms[placement.details.harp_id] = placement.details.room_id;
    const auto own_room = rooms[*harp];
    std::vector<Uuid> school{*harp};
    for (const Uuid& other : in_use)
        if (school.size() < largest_school && other != *harp && rooms[other] == own_room)
            school.push_back(other);
    std::sort(school.begin(), school.end());
    return Members{std::move(school), true};
}

Result<SchoolKnowledge*> ReckonedFacts::school(const std::optional<Uuid>& harp)
{
    const auto members = members_of_school(harp);
    if (!members) return failure(members.error());
    if (school_ && school_->harps == members->harps) return &*school_;
    SchoolKnowledge school;
    school.harps = members->harps;
    school.is_part = members->are_part;
    const auto names = db::harp_names(ledger_);
    if (!names) return failure(names.error());
    std::map<Uuid, std::string> harp_names;
    for (const auto& name : *names) harp_names[name.id] = name.details;
    std::vector<StringLife> all;
    for (const Uuid& id : school.harps) {
        const auto lives = db::string_lives(ledger_, id);
        if (!lives) return failure(lives.error());
        all.insert(all.end(), lives->begin(), lives->end());
        school.strings[id] = *lives;
    }
    school.lives = learn_from(all, std::move(harp_names), today_);
    school_ = std::move(school);
    return &*school_;
}

Result<const SchoolStrings*> ReckonedFacts::school_strings(SchoolKnowledge& school, int horizon_days)
{
    const auto kept = school.by_horizon_days.find(horizon_days);
    if (kept != school.by_horizon_days.end()) return &kept->second;
    SchoolFacts facts{.today = today_};
    auto stock = db::spare_stock(ledger_);
    if (!stock) return failure(stock.error());
    facts.stock = std::move(*stock);
    auto movements = db::spare_movements(ledger_);
    if (!movements) return failure(movements.error());
    facts.movements = std::move(*movements);
    for (const auto& [harp, lives] : school.strings)
        for (const StringLife& life : lives)
            if (!life.removal) facts.on.push_back(life);
    return &(school.by_horizon_days[horizon_days] = school_strings_from(facts, school.lives, horizon_days));
}

Result<const ui::HarpKnowledge*> ReckonedFacts::knowledge(const HarpRecord& harp)
{
    if (!knowledge_ || knowledge_->harp.id != harp.id) {
        knowledge_.reset();
        auto known = ui::harp_knowledge(ledger_, harp);
        if (!known) return failure(known.error());
        knowledge_ = std::move(*known);
    }
    return &*knowledge_;
}

const std::optional<DriftFit>& ReckonedFacts::drift(const ui::HarpKnowledge& knowledge)
{
    if (!drift_ || drift_->first != knowledge.harp.id)
        drift_.emplace(knowledge.harp.id, fit_history(knowledge));
    return drift_->second;
}

const TodayModel& ReckonedFacts::today_page(const ui::HarpKnowledge& knowledge)
{
    if (!today_page_ || today_page_->first != knowledge.harp.id)
        today_page_.emplace(knowledge.harp.id, today_from(knowledge, drift(knowledge), today_));
    return today_page_->second;
}

} // namespace harpkeep::dashboard
