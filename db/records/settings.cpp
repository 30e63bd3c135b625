// SPDX-License-Identifier: MIT
#include "db/records/settings.hpp"

#include "db/ledger/things.hpp"
#include "db/records/columns.hpp"
#include "db/sqlite/ledger_failure.hpp"

#include <fmt/format.h>

namespace harpkeep::db {

namespace {

struct StoredSetting {
    ThingNo thing;
    std::string value_json;
};

/// Two computers may have set one each: then the younger stands, and the ledger lists the conflict.
std::optional<StoredSetting> stored(const Database& database, std::string_view name,
                                    std::optional<std::int64_t> harp_no)
{
    auto query =
        database.prepare("SELECT thing_no, value_json FROM setting JOIN current_content USING (fact_no) "
                         "WHERE name = :name AND harp_no IS :harp_no ORDER BY id DESC LIMIT 1");
    query.bind(":name", name).bind(":harp_no", harp_no);
    if (!query.step()) return std::nullopt;
    const ThingNo thing{query.integer()};
    return StoredSetting{thing, query.text()};
}

} // namespace

Result<void> change_setting(Ledger& ledger, const Author& author, std::string_view name,
                            const std::optional<Uuid>& harp_id, const std::string& value_json)
{
    const std::string what = fmt::format("set {}", name);
    return guarded_action(what, [&] {
        Action action{ledger, author, what};
        const auto harp_no = optional_thing(action.database(), harp_id, "harp");
        const auto before = stored(action.database(), name, harp_no);
        const FactNo fact = before ? action.correct(before->thing, "") : action.add("setting").fact;
        Insert{action.database(), "setting"}
            .set("fact_no", fact.value)
            .set("harp_no", harp_no)
            .set("name", name)
            .set("value_json", value_json)
            .run();
        action.commit();
    });
}

Result<std::optional<std::string>> setting(const Ledger& ledger, std::string_view name,
                                           const std::optional<Uuid>& harp_id)
{
    return snapshot(ledger, fmt::format("reading the setting {}", name), [&]() -> std::optional<std::string> {
        const auto harp_no = optional_thing(ledger.database(), harp_id, "harp");
        if (harp_no)
            if (auto own = stored(ledger.database(), name, harp_no)) return own->value_json;
        auto common = stored(ledger.database(), name, std::nullopt);
        return common ? std::optional{common->value_json} : std::nullopt;
    });
}

} // namespace harpkeep::db
