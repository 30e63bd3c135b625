// SPDX-License-Identifier: MIT
#include "db/exchange/one_thing.hpp"
#include "db/ledger/history.hpp"
#include "db/records/timeline.hpp"
#include "ui/cli/arguments.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/record_json.hpp"
#include "ui/cli/verb.hpp"
#include "ui/support/clock.hpp"

#include <fmt/format.h>

namespace harpkeep::cli {

namespace {

struct HistoryWords {
    std::string harp;
    std::string place;
    std::string facts_of;
    std::optional<int> actions;
};

Result<void> print_actions(const Common& common, const db::Ledger& ledger, int limit)
{
    const auto actions = db::actions(ledger, limit);
    if (!actions) return failure(actions.error());
    if (common.json) {
        print_json(json_list(*actions));
        return {};
    }
    Table table{{{"When"}, {"Computer"}, {"What was done"}, {""}, {"Handles"}}};
    for (const db::ActionRecord& action : *actions) {
        std::string handles;
        for (const auto& [id, kind] : action.things) {
            if (handles.size() > 40) {
                handles += " ...";
                break;
            }
            handles += (handles.empty() ? "" : " ") + db::handle_of(id);
        }
        table.add_row({short_time(action.recorded), action.computer, action.what,
                       action.undone ? "undone" : "", handles});
    }
    table.print();
    return {};
}

Result<void> print_facts(const Common& common, const db::Ledger& ledger, const std::string& handle)
{
    const auto thing = db::thing_ever_named(ledger, handle);
    if (!thing) return failure(thing.error());
    const auto facts = db::facts_of(ledger, thing->id);
    if (!facts) return failure(facts.error());
    if (common.json) {
        Json all = Json::array();
        for (const db::FactRecord& fact : *facts)
            all.push_back({{"id", to_string(fact.id)},
                           {"effect", fact.effect},
                           {"reason", fact.reason},
                           {"recorded", iso_time(fact.recorded)},
                           {"computer", fact.computer},
                           {"what", fact.what},
                           {"holds", fact.holds}});
        print_json({{"id", to_string(thing->id)}, {"kind", thing->kind}, {"facts", all}});
        return {};
    }
    Table table{{{"When"}, {"Computer"}, {"What was done"}, {"Why"}, {""}}};
    for (const db::FactRecord& fact : *facts)
        table.add_row(
            {short_time(fact.recorded), fact.computer, fact.what, fact.reason, fact.holds ? "holds" : ""});
    table.print();
    return {};
}

Result<void> print_timeline(const Common& common, const db::Ledger& ledger, const HistoryWords& words)
{
    const auto harp = chosen_harp(ledger, words.harp);
    if (!harp) return failure(harp.error());
    std::optional<StringPlace> place;
    if (!words.place.empty()) {
        const auto named = place_argument(words.place);
        if (!named) return failure(named.error());
        place = *named;
    }
    const auto entries = db::timeline(ledger, harp->id, place);
    if (!entries) return failure(entries.error());
    if (common.json) {
        print_json(json_list(*entries));
        return {};
    }
    if (entries->empty()) print_line(fmt::format("Nothing is noted of {} yet.", harp->details.name));
    if (entries->empty()) return {};
    Table table{{{"Date"}, {"What happened"}, {"Handle"}}};
    for (const db::TimelineEntry& entry : *entries)
        table.add_row({iso_date(entry.on), entry.words, db::handle_of(entry.id)});
    table.print();
    return {};
}

Result<void> history(const Common& common, const HistoryWords& words)
{
    const auto ledger = open_ledger(common, db::Access::read);
    if (!ledger) return failure(ledger.error());
    if (words.actions) return print_actions(common, *ledger, *words.actions);
    if (!words.facts_of.empty()) return print_facts(common, *ledger, words.facts_of);
    return print_timeline(common, *ledger, words);
}

struct VoidWords {
    std::string handle;
    std::string reason;
};

Result<void> make_void(const Common& common, const VoidWords& words)
{
    auto ledger = open_ledger(common, db::Access::write);
    if (!ledger) return failure(ledger.error());
    const auto thing = db::thing_named(*ledger, words.handle);
    if (!thing) return failure(thing.error());
    const auto done = db::make_void(*ledger, ui::author(), thing->id, words.reason);
    if (!done) return failure(done.error());
    if (common.json)
        print_json({{"id", to_string(thing->id)}, {"kind", thing->kind}, {"voided", true}});
    else
        print_line(fmt::format("The {} {} does not hold any more; `harpkeep undo` takes that back.",
                               thing->kind, words.handle));
    return {};
}

Result<void> undo(const Common& common, const NoWords&)
{
    auto ledger = open_ledger(common, db::Access::write);
    if (!ledger) return failure(ledger.error());
    const auto undone = db::undo_last(*ledger, ui::author());
    if (!undone) return failure(undone.error());
    if (common.json)
        print_json(json_of(*undone));
    else
        print_line(fmt::format("Undone: {} ({}).", undone->what, short_time(undone->recorded)));
    return {};
}

} // namespace

void add_command_history(CLI::App& app, Common& common, Work& work)
{
    const auto verb = add_verb<HistoryWords>(
        app, common, work, "history",
        "what happened to a harp or a string place, and what was done to the ledger", history);
    verb.app->add_option("HARP", verb.words->harp, "the harp (may be left out when the ledger has only one)");
    verb.app->add_option("PLACE", verb.words->place, "only this string place, as in 3A");
    verb.app
        ->add_option("--actions", verb.words->actions, "instead: the last so many things done to the ledger")
        ->check(CLI::PositiveNumber);
    verb.app->add_option("--of", verb.words->facts_of,
                         "instead: all that was ever stated of the thing with this handle, also when it is void");
}

void add_command_void(CLI::App& app, Common& common, Work& work)
{
    const auto verb = add_verb<VoidWords>(
        app, common, work, "void", "something in the ledger does not hold; it stays readable", make_void);
    verb.app
        ->add_option("HANDLE", verb.words->handle, "as the lists show it, or the name of a harp or a room")
        ->required();
    verb.app->add_option("--reason", verb.words->reason, "why it does not hold")->required();
}

void add_command_undo(CLI::App& app, Common& common, Work& work)
{
    add_verb<NoWords>(app, common, work, "undo", "take back the last thing done on this computer", undo);
}

} // namespace harpkeep::cli
