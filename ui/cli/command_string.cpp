// SPDX-License-Identifier: MIT
#include "db/records/string_plans.hpp"
#include "db/records/strings.hpp"
#include "ui/cli/arguments.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/record_json.hpp"
#include "ui/cli/string_output.hpp"
#include "ui/cli/verb.hpp"
#include "ui/support/clock.hpp"

#include <fmt/format.h>

namespace harpkeep::cli {

namespace {

const std::vector<std::string> reasons{"broke", "schedule", "tone", "false", "set", "unknown"};
const std::vector<std::string> break_points{"nut", "disc", "lever", "middle", "soundboard", "knot"};

constexpr const char* caution =
    "Wear eye protection, let the tension down before cutting, and change one wire at a time.";

struct OnWords {
    std::vector<std::string> places;
    std::string harp;
    MakeWords make;
    std::string batch;
    std::string cost;
    std::string date;
    bool already_on = false;
    std::string old;
    std::string old_broke_at;
    std::string came_off;
    std::string came_off_reason = "unknown";
    bool from_spares = false;
    std::optional<std::string> remarks;
};

/// What the plan says of a place; nothing in it when it says nothing.
StringMake planned_make(const std::vector<PlannedStringRecord>& plan, StringPlace place)
{
    for (const PlannedStringRecord& record : plan)
        if (record.details.place == place) return record.details.make;
    return {};
}

Result<MountedString> string_from(const OnWords& words, const LedgerAndHarp& opened, StringPlace place)
{
    const auto plan = db::string_plan(opened.ledger, opened.harp.id);
    if (!plan) return failure(plan.error());
    MountedString string;
    string.harp_id = opened.harp.id;
    string.place = place;
    string.make = make_from(words.make, planned_make(*plan, place));
    if (string.make.material.empty())
        return failure(ErrorCode::invalid_argument,
                       fmt::format("the plan says nothing of {}; give --material", harp_name(place)));
    string.batch = words.batch;
    if (!words.cost.empty()) {
        const auto cost = money_argument(words.cost);
        if (!cost) return failure(cost.error());
        string.cost = *cost;
    }
    if (words.already_on) string.watched_from = date_or_today("").value();
    if (!words.date.empty() || !words.already_on) {
        const auto date = date_or_today(words.date);
        if (!date) return failure(date.error());
        string.put_on = *date;
    }
    string.remarks = words.remarks.value_or("");
    return string;
}

Result<db::PutOnOptions> options_from(const OnWords& words)
{
    db::PutOnOptions options;
    options.from_spares = words.from_spares;
    if (!words.old.empty()) {
        options.old_string = db::OldString{removal_reason_from_name(words.old).value(), std::nullopt};
        if (!words.old_broke_at.empty())
            options.old_string->broke_at = break_point_from_name(words.old_broke_at);
    }
    if (!words.came_off.empty()) {
        const auto date = date_argument(words.came_off);
        if (!date) return failure(date.error());
        options.ended = StringRemoval{.removed_on = *date,
                                      .reason = removal_reason_from_name(words.came_off_reason).value()};
    }
    return options;
}

Result<void> report(const Common& common, const db::Ledger& ledger, const std::vector<Uuid>& ids)
{
    const auto names = Names::in(ledger);
    if (!names) return failure(names.error());
    std::vector<StringLife> lives;
    for (const Uuid& id : ids) {
        const auto life = db::string_with_id(ledger, id);
        if (!life) return failure(life.error());
        lives.push_back(*life);
    }
    if (common.json)
        print_json(lives.size() == 1 ? json_of(lives.front(), *names) : json_list(lives, *names));
    else
        print_strings(lives, *names, true);
    return {};
}

Result<void> put_on(const Common& common, const OnWords& words)
{
    auto opened = open_harp(common, db::Access::write, words.harp);
    if (!opened) return failure(opened.error());
    const auto places = places_argument(words.places);
    if (!places) return failure(places.error());
    const auto options = options_from(words);
    if (!options) return failure(options.error());
    std::vector<MountedString> strings;
    for (const StringPlace place : *places) {
        auto string = string_from(words, *opened, place);
        if (!string) return failure(string.error());
        strings.push_back(std::move(*string));
    }
    const auto ids = db::put_on_all(opened->ledger, ui::author(), strings, *options);
    if (!ids) return failure(ids.error());
    return report(common, opened->ledger, *ids);
}

struct OffWords {
    std::string place;
    std::string harp;
    std::string date;
    std::string reason;
    std::string broke_at;
    std::string remarks;
};

Result<void> take_off(const Common& common, const OffWords& words)
{
    auto opened = open_harp(common, db::Access::write, words.harp);
    if (!opened) return failure(opened.error());
    const auto place = place_argument(words.place);
    if (!place) return failure(place.error());
    const auto date = date_or_today(words.date);
    if (!date) return failure(date.error());
    StringRemoval removal{.removed_on = *date,
                          .reason = removal_reason_from_name(words.reason).value(),
                          .remarks = words.remarks};
    if (!words.broke_at.empty()) removal.broke_at = break_point_from_name(words.broke_at);
    const auto id = db::take_off(opened->ledger, ui::author(), opened->harp.id, *place, removal);
    if (!id) return failure(id.error());
    const auto lives = db::string_lives(opened->ledger, opened->harp.id, *place);
    if (!lives) return failure(lives.error());
    for (const StringLife& life : *lives)
        if (life.removal && life.removal->id == *id) return report(common, opened->ledger, {life.id});
    return {};
}

struct ChangeWords {
    std::string handle;
    MakeWords make;
    std::string place;
    std::string batch;
    std::string cost;
    std::string date;
    std::optional<std::string> remarks;
    std::string why;
};

Result<void> fill(MountedString& string, const ChangeWords& words)
{
    string.make = make_from(words.make, string.make);
    if (!words.place.empty()) {
        const auto place = place_argument(words.place);
        if (!place) return failure(place.error());
        string.place = *place;
    }
    if (!words.batch.empty()) string.batch = words.batch;
    if (!words.cost.empty()) {
        const auto cost = money_argument(words.cost);
        if (!cost) return failure(cost.error());
        string.cost = *cost;
    }
    if (!words.date.empty()) {
        const auto date = date_argument(words.date);
        if (!date) return failure(date.error());
        string.put_on = *date;
    }
    if (words.remarks) string.remarks = *words.remarks;
    return {};
}

Result<void> change(const Common& common, const ChangeWords& words)
{
    auto ledger = open_ledger(common, db::Access::write);
    if (!ledger) return failure(ledger.error());
    const auto id = thing_of_kind(*ledger, words.handle, "string");
    if (!id) return failure(id.error());
    auto life = db::string_with_id(*ledger, *id);
    if (!life) return failure(life.error());
    const auto filled = fill(life->string, words);
    if (!filled) return failure(filled.error());
    const auto changed = db::change_string(*ledger, ui::author(), *id, life->string, words.why);
    if (!changed) return failure(changed.error());
    return report(common, *ledger, {*id});
}

struct ListWords {
    std::string harp;
    std::string place;
    std::string older_than;
    bool all = false;
};

Result<std::vector<StringLife>> wanted(const db::Ledger& ledger, const ListWords& words)
{
    Result<std::vector<StringLife>> lives;
    if (words.harp.empty() && words.place.empty()) {
        lives = db::all_string_lives(ledger);
    } else {
        const auto harp = chosen_harp(ledger, words.harp);
        if (!harp) return failure(harp.error());
        std::optional<StringPlace> place;
        if (!words.place.empty()) {
            const auto named = place_argument(words.place);
            if (!named) return failure(named.error());
            place = *named;
        }
        lives = db::string_lives(ledger, harp->id, place);
    }
    if (!lives) return failure(lives.error());
    if (!words.all) std::erase_if(*lives, [](const StringLife& life) { return life.removal.has_value(); });
    if (words.older_than.empty()) return lives;
    const auto limit = date_before_today(words.older_than);
    if (!limit) return failure(limit.error());
    // Of a string that was on before the ledger began, only the least age is known.
    std::erase_if(*lives, [&](const StringLife& life) {
        return first_day(life.string.put_on ? *life.string.put_on : *life.string.watched_from) > *limit;
    });
    return lives;
}

Result<void> list(const Common& common, const ListWords& words)
{
    const auto ledger = open_ledger(common, db::Access::read);
    if (!ledger) return failure(ledger.error());
    const auto names = Names::in(*ledger);
    if (!names) return failure(names.error());
    const auto lives = wanted(*ledger, words);
    if (!lives) return failure(lives.error());
    if (common.json)
        print_json(json_list(*lives, *names));
    else if (lives->empty())
        print_line("No such strings; `harpkeep string on PLACE` notes one.");
    else
        print_strings(*lives, *names, words.harp.empty());
    return {};
}

void add_off_and_list(CLI::App& string, Common& common, Work& work)
{
    const auto off = add_verb<OffWords>(string, common, work, "off", "a string comes off", take_off);
    off.app->footer(caution);
    off.app->add_option("PLACE", off.words->place, "where, as in 3A")->required();
    add_harp_option(*off.app, off.words->harp);
    off.app->add_option("--date", off.words->date, "when it came off (default: today)");
    off.app->add_option("--reason", off.words->reason, "why it came off")
        ->required()
        ->check(CLI::IsMember(reasons));
    off.app->add_option("--where", off.words->broke_at, "where on its length it broke")
        ->check(CLI::IsMember(break_points));
    off.app->add_option("--remarks", off.words->remarks, "anything else");

    const auto listing = add_verb<ListWords>(string, common, work, "list", "strings that are on", list);
    listing.app->add_option("--harp", listing.words->harp, "of this harp only");
    listing.app->add_option("--place", listing.words->place, "at this place only");
    listing.app->add_option("--older-than", listing.words->older_than, "put on longer ago: 90d, 18m, 2y");
    listing.app->add_flag("--all", listing.words->all, "those that came off too");
}

} // namespace

void add_command_string(CLI::App& app, Common& common, Work& work)
{
    auto& string = add_noun(app, "string", "strings put on and taken off");

    const auto on = add_verb<OnWords>(string, common, work, "on", "a string goes on", put_on);
    on.app->footer(caution);
    on.app->add_option("PLACE", on.words->places, "one or more places, as in 3A")->required()->delimiter(',');
    add_harp_option(*on.app, on.words->harp);
    add_make_options(*on.app, on.words->make);
    on.app->add_option("--batch", on.words->batch, "batch or label");
    on.app->add_option("--cost", on.words->cost, "what each cost, as in \"4.80 EUR\"");
    on.app->add_option("--date", on.words->date, "when it was put on (default: today)");
    on.app->add_flag("--already-on", on.words->already_on,
                     "it was on before the ledger began; --date is then about when, if known");
    on.app->add_option("--old", on.words->old, "the string before comes off the same day, for this reason")
        ->check(CLI::IsMember(reasons));
    on.app->add_option("--old-where", on.words->old_broke_at, "where the string before broke")
        ->check(CLI::IsMember(break_points));
    on.app->add_option("--came-off", on.words->came_off,
                       "it came off again on this day: a life noted afterwards");
    on.app->add_option("--came-off-reason", on.words->came_off_reason, "why it came off")
        ->check(CLI::IsMember(reasons));
    on.app->add_flag("--from-spares", on.words->from_spares, "take it out of the stock of spares");
    on.app->add_option("--remarks", on.words->remarks, "anything else");

    add_off_and_list(string, common, work);

    const auto changing =
        add_verb<ChangeWords>(string, common, work, "change", "correct what is noted of a string", change);
    changing.app->add_option("HANDLE", changing.words->handle, "as `string list` shows it")->required();
    add_make_options(*changing.app, changing.words->make);
    changing.app->add_option("--place", changing.words->place, "where it is");
    changing.app->add_option("--batch", changing.words->batch, "batch or label");
    changing.app->add_option("--cost", changing.words->cost, "what it cost");
    changing.app->add_option("--date", changing.words->date, "when it was put on");
    changing.app->add_option("--remarks", changing.words->remarks, "anything else");
    add_reason_option(*changing.app, changing.words->why);
}

} // namespace harpkeep::cli
