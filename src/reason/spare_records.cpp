// SPDX-License-Identifier: MIT
#include "reason/spare_records.hpp"

#include <algorithm>
#include <map>
#include <set>

namespace harpkeep {

namespace {

struct Price {
    Date since;
    std::int64_t unit_minor_units = 0;
    std::string currency;
};
/// By the kind's name without any harp.
using Prices = std::map<std::string, Price>;

void note_price(Prices& prices, const std::string& kind, Date date, const Money& whole, int count)
{
    if (count <= 0) return;
    const auto unit =
        (whole.minor_units + count - 1) / count; // rounded up: an order must not come out too cheap
    const auto found = prices.find(kind);
    if (found == prices.end() || found->second.since <= date) prices[kind] = {date, unit, whole.currency};
}

Prices prices_of(std::span<const SpareMovementRecord> movements, std::span<const StringLife> lives)
{
    Prices put_on, bought;
    for (const auto& life : lives)
        if (life.string.cost && life.string.put_on)
            note_price(put_on, spare_kind_name(life.string.place, life.string.make), *life.string.put_on,
                       *life.string.cost, 1);
    for (const auto& movement : movements)
        if (movement.details.cost && movement.details.cause == SpareCause::bought)
            note_price(bought, spare_kind_name(movement.details.place, movement.details.make),
                       movement.details.moved_on, *movement.details.cost, movement.details.change);
    bought.merge(put_on); // purchases go first
    return bought;
}

std::string name_of(std::span<const HarpRecord> harps, const Uuid& id)
{
    const auto found =
        std::find_if(harps.begin(), harps.end(), [&id](const HarpRecord& harp) { return harp.id == id; });
    return found == harps.end() ? std::string{"another harp"} : found->details.name;
}

std::string kept_for(const std::string& kind, const std::string& harp)
{
    return kind + " for " + harp;
}

} // namespace

SpareSituation spare_situation(std::span<const StringInUse> in_use, std::span<const SpareStock> stock,
                               std::span<const SpareMovementRecord> movements,
                               std::span<const StringLife> lives, std::span<const HarpRecord> harps)
{
    const auto prices = prices_of(movements, lives);
    SpareSituation situation{.in_use = {in_use.begin(), in_use.end()}, .kinds = {}};
    const auto add_kind = [&](const std::string& name, const std::string& plain_name, int count) {
        const auto found = std::find_if(situation.kinds.begin(), situation.kinds.end(),
                                        [&name](const SpareKind& kind) { return kind.name == name; });
        if (found != situation.kinds.end()) {
            found->in_stock += count;
            return;
        }
        SpareKind kind{.name = name, .in_stock = count};
        if (const auto price = prices.find(plain_name); price != prices.end()) {
            kind.unit_price_minor_units = price->second.unit_minor_units;
            kind.currency = price->second.currency;
        }
        situation.kinds.push_back(std::move(kind));
    };
    std::set<std::string> own;
    for (const auto& kept : stock) {
        const auto plain = spare_kind_name(kept.place, kept.make);
        const auto name = kept.harp_id ? kept_for(plain, name_of(harps, *kept.harp_id)) : plain;
        if (kept.harp_id) own.insert(name);
        add_kind(name, plain, kept.count);
    }
    for (auto& string : situation.in_use) {
        const auto plain = string.kind;
        if (own.contains(kept_for(plain, string.harp))) string.kind = kept_for(plain, string.harp);
        add_kind(string.kind, plain, 0);
    }
    return situation;
}

} // namespace harpkeep
