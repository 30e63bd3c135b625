// SPDX-License-Identifier: MIT
#include "db/records/harps.hpp"

#include "db/ledger/action.hpp"
#include "db/records/stored_codes.hpp"
#include "db/sqlite/ledger_failure.hpp"
#include "records/name_key.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace harpkeep::db {

namespace {

constexpr std::string_view select_harps = "SELECT id, fact_no, name, kind, nickname, maker, serial_number, "
                                          "year_built, value_minor, value_currency, "
                                          "photo_path, remarks FROM current_harp ";

std::string key_of(std::string_view name)
{
    const auto key = name_key(name);
    if (!key)
        fail(ErrorCode::invalid_argument,
             fmt::format("\"{}\" cannot be the name of a harp; give some letters, in UTF-8, on one line",
                         name));
    return *key;
}

void insert_details(const Action& action, FactNo fact, const HarpDetails& details)
{
    const auto& value = details.value;
    action.database()
        .prepare(
            "INSERT INTO harp (fact_no, name, name_key, kind, nickname, maker, serial_number, year_built, "
            "value_minor, value_currency, photo_path, remarks) "
            "VALUES (:fact_no, :name, :name_key, :kind, :nickname, :maker, :serial_number, :year_built, "
            ":value_minor, :value_currency, :photo_path, :remarks)")
        .bind(":fact_no", fact.value)
        .bind(":name", trimmed(details.name))
        .bind(":name_key", key_of(details.name))
        .bind(":kind", kind_name(details.layout.kind))
        .bind(":nickname", details.nickname)
        .bind(":maker", details.maker)
        .bind(":serial_number", details.serial_number)
        .bind(":year_built", details.year_built)
        .bind(":value_minor", value ? std::optional{value->minor_units} : std::nullopt)
        .bind(":value_currency", value ? std::optional{value->currency} : std::nullopt)
        .bind(":photo_path", details.photo_path)
        .bind(":remarks", details.remarks)
        .run();
    auto insert = action.database().prepare(
        "INSERT INTO harp_string (fact_no, place, open_alteration, has_natural_disc, has_sharp_disc) "
        "VALUES (:fact_no, :place, :open_alteration, :natural, :sharp)");
    for (const HarpString& string : details.layout.strings)
        insert.bind(":fact_no", fact.value)
            .bind(":place", string.place.diatonic_index())
            .bind(":open_alteration", string.open_alteration)
            .bind(":natural", string.has_natural_disc)
            .bind(":sharp", string.has_sharp_disc)
            .run();
}

std::vector<HarpString> strings_of(const Database& database, FactNo fact)
{
    auto query = database.prepare("SELECT place, open_alteration, has_natural_disc, has_sharp_disc "
                                  "FROM harp_string WHERE fact_no = :fact_no ORDER BY place");
    query.bind(":fact_no", fact.value);
    std::vector<HarpString> strings;
    while (query.step()) {
        HarpString string;
        string.place = place_from_code(query.integer());
        string.open_alteration = query.small_integer();
        string.has_natural_disc = query.boolean();
        string.has_sharp_disc = query.boolean();
        strings.push_back(string);
    }
    return strings;
}

HarpRecord read_harp(const Database& database, Statement& row)
{
    HarpRecord harp;
    harp.id = row.uuid();
    const FactNo fact{row.integer()};
    auto& details = harp.details;
    details.name = row.text();
    details.layout.kind = kind_from_name(row.text()).value(); // the table's CHECK allows no other
    details.nickname = row.text();
    details.maker = row.text();
    details.serial_number = row.text();
    if (const auto year = row.optional_integer()) details.year_built = static_cast<int>(*year);
    const auto minor = row.optional_integer();
    const auto currency = row.optional_text();
    if (minor && currency) details.value = Money{*minor, *currency};
    details.photo_path = row.text();
    details.remarks = row.text();
    details.layout.strings = strings_of(database, fact);
    return harp;
}

/// Refuses a name that another harp has.
void expect_free_name(const Database& database, std::string_view name, std::optional<ThingNo> own)
{
    auto query = database.prepare("SELECT name FROM current_harp WHERE name_key = :key AND thing_no <> :own");
    query.bind(":key", key_of(name)).bind(":own", own ? own->value : 0);
    if (query.step())
        fail(ErrorCode::refused,
             fmt::format(
                 "the ledger has a harp named {} already; choose another name, or add to it what tells "
                 "them apart",
                 query.text()));
}

std::string known_names(const Database& database)
{
    std::vector<std::string> names;
    auto query = database.prepare("SELECT name FROM current_harp ORDER BY name_key LIMIT 21");
    while (query.step()) names.push_back(query.text());
    if (names.empty()) return "the ledger has no harp yet; `harpkeep harp add NAME` adds one";
    if (names.size() == 21) names.back() = "...";
    return fmt::format("the ledger has {}", fmt::join(names, ", "));
}

} // namespace

Result<Uuid> add_harp(Ledger& ledger, const Author& author, const HarpDetails& details)
{
    return guarded(fmt::format("adding the harp {}", details.name), [&] {
        Action action{ledger, author, "added the harp " + trimmed(details.name)};
        expect_free_name(action.database(), details.name, std::nullopt);
        const NewThing harp = action.add("harp");
        insert_details(action, harp.fact, details);
        action.commit();
        return harp.id;
    });
}

Result<void> correct_harp(Ledger& ledger, const Author& author, const Uuid& harp_id,
                          const HarpDetails& details, const std::string& reason)
{
    return guarded(fmt::format("correcting the harp {}", details.name), [&] {
        Action action{ledger, author, "corrected the harp " + trimmed(details.name)};
        const auto harp = find_thing(action.database(), harp_id, "harp");
        if (!harp) fail(ErrorCode::not_found, "the ledger has no such harp");
        expect_free_name(action.database(), details.name, harp);
        insert_details(action, action.correct(*harp, reason), details);
        action.commit();
    });
}

Result<std::vector<HarpRecord>> harps(const Ledger& ledger)
{
    return guarded("reading the harps", [&] {
        const Transaction snapshot{ledger.database(), Transaction::Kind::read};
        auto query = ledger.database().prepare(std::string{select_harps} + "ORDER BY name_key, id");
        std::vector<HarpRecord> all;
        while (query.step()) all.push_back(read_harp(ledger.database(), query));
        return all;
    });
}

Result<HarpRecord> harp_named(const Ledger& ledger, std::string_view name)
{
    return guarded(fmt::format("looking for the harp {}", name), [&] {
        const Transaction snapshot{ledger.database(), Transaction::Kind::read};
        auto query = ledger.database().prepare(std::string{select_harps} +
                                               "WHERE name_key = :key ORDER BY id LIMIT 1");
        query.bind(":key", key_of(name));
        if (!query.step())
            fail(ErrorCode::not_found, "there is none of that name; " + known_names(ledger.database()));
        return read_harp(ledger.database(), query);
    });
}

Result<HarpRecord> harp_with_id(const Ledger& ledger, const Uuid& harp_id)
{
    return guarded("looking for a harp by its key", [&] {
        const Transaction snapshot{ledger.database(), Transaction::Kind::read};
        auto query = ledger.database().prepare(std::string{select_harps} + "WHERE id = :id");
        query.bind(":id", harp_id);
        if (!query.step()) fail(ErrorCode::not_found, "the ledger has no such harp");
        return read_harp(ledger.database(), query);
    });
}

} // namespace harpkeep::db
