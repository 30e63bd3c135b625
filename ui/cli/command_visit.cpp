// SPDX-License-Identifier: MIT
#include "db/records/visits.hpp"
#include "ui/cli/arguments.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/record_json.hpp"
#include "ui/cli/verb.hpp"
#include "ui/support/clock.hpp"

#include <fmt/format.h>

namespace harpkeep::cli {

namespace {

struct VisitWords {
    std::string harp;
    std::string handle;
    std::string date;
    std::optional<std::string> technician;
    std::string cost;
    std::vector<std::string> work;
    std::optional<std::string> remarks;
    std::string why;
};

/// Puts what was written over what is known of a visit.
Result<void> fill(Visit& visit, const VisitWords& words)
{
    if (!words.date.empty()) {
        const auto date = date_argument(words.date);
        if (!date) return failure(date.error());
        visit.visited_on = *date;
    }
    if (words.technician) visit.technician = *words.technician;
    if (!words.cost.empty()) {
        const auto cost = money_argument(words.cost);
        if (!cost) return failure(cost.error());
        visit.cost = *cost;
    }
    if (!words.work.empty()) visit.work.clear();
    for (const std::string& text : words.work) visit.work.push_back(visit_work_from_text(text));
    if (words.remarks) visit.remarks = *words.remarks;
    return {};
}

void print_visit(const VisitRecord& record, const Names& names)
{
    const Visit& visit = record.visit;
    print_line(fmt::format("{}: visit to {} by {}{}", iso_date(visit.visited_on), names.of(visit.harp_id),
                           visit.technician.empty() ? "a technician" : visit.technician,
                           visit.cost ? ", " + money_text(*visit.cost) : ""));
    for (const VisitWork& work : visit.work) print_line("  " + visit_work_text(work));
    if (!visit.remarks.empty()) print_line("  " + visit.remarks);
    const auto check = [](const char* when, const std::optional<Uuid>& id) {
        if (id) print_line(fmt::format("  check {}: {}", when, db::handle_of(*id)));
    };
    check("before", record.check_before);
    check("after", record.check_after);
}

Result<void> report(const Common& common, const db::Ledger& ledger, const Uuid& id)
{
    const auto names = Names::in(ledger);
    if (!names) return failure(names.error());
    const auto visit = db::visit_with_id(ledger, id);
    if (!visit) return failure(visit.error());
    if (common.json)
        print_json(json_of(*visit, *names));
    else
        print_visit(*visit, *names);
    return {};
}

Result<void> add(const Common& common, const VisitWords& words)
{
    auto opened = open_harp(common, db::Access::write, words.harp);
    if (!opened) return failure(opened.error());
    Visit visit;
    visit.harp_id = opened->harp.id;
    visit.visited_on = date_or_today("").value();
    const auto filled = fill(visit, words);
    if (!filled) return failure(filled.error());
    const auto id = db::add_visit(opened->ledger, ui::author(), visit);
    if (!id) return failure(id.error());
    return report(common, opened->ledger, *id);
}

Result<void> change(const Common& common, const VisitWords& words)
{
    auto ledger = open_ledger(common, db::Access::write);
    if (!ledger) return failure(ledger.error());
    const auto id = thing_of_kind(*ledger, words.handle, "visit");
    if (!id) return failure(id.error());
    auto record = db::visit_with_id(*ledger, *id);
    if (!record) return failure(record.error());
    const auto filled = fill(record->visit, words);
    if (!filled) return failure(filled.error());
    const auto changed = db::change_visit(*ledger, ui::author(), *id, record->visit, words.why);
    if (!changed) return failure(changed.error());
    return report(common, *ledger, *id);
}

struct ShowWords {
    std::string handle;
};

Result<void> show(const Common& common, const ShowWords& words)
{
    const auto ledger = open_ledger(common, db::Access::read);
    if (!ledger) return failure(ledger.error());
    const auto id = thing_of_kind(*ledger, words.handle, "visit");
    if (!id) return failure(id.error());
    return report(common, *ledger, *id);
}

struct ListWords {
    std::string harp;
};

Result<void> list(const Common& common, const ListWords& words)
{
    const auto opened = open_harp(common, db::Access::read, words.harp);
    if (!opened) return failure(opened.error());
    const auto names = Names::in(opened->ledger);
    if (!names) return failure(names.error());
    const auto visits = db::visits_of(opened->ledger, opened->harp.id);
    if (!visits) return failure(visits.error());
    if (common.json) {
        print_json(json_list(*visits, *names));
        return {};
    }
    if (visits->empty()) {
        print_line("No visits yet; `harpkeep visit add --harp NAME --work ...` notes one.");
        return {};
    }
    Table table{{{"Date"}, {"Technician"}, {"Cost", Table::Align::right}, {"Work"}, {"Handle"}}};
    for (const VisitRecord& record : *visits) {
        std::string work;
        for (const VisitWork& one : record.visit.work)
            work += (work.empty() ? "" : "; ") + visit_work_text(one);
        table.add_row({iso_date(record.visit.visited_on), record.visit.technician,
                       record.visit.cost ? money_text(*record.visit.cost) : "", work,
                       db::handle_of(record.id)});
    }
    table.print();
    return {};
}

void add_visit_options(CLI::App& app, VisitWords& words)
{
    app.add_option("--date", words.date, "when (default: today)");
    app.add_option("--technician", words.technician, "who came");
    app.add_option("--cost", words.cost, "what it cost, as in \"180.00 EUR\"");
    app.add_option(
           "--work", words.work,
           "what was done, once for each piece: \"3A: new disc [1 disc]\", \"pedal F: felt replaced\", "
           "\"regulated\"")
        ->take_all()
        ->expected(1);
    app.add_option("--remarks", words.remarks, "anything else");
}

} // namespace

void add_command_visit(CLI::App& app, Common& common, Work& work)
{
    auto& visit = add_noun(app, "visit", "a technician's work on a harp");

    const auto adding = add_verb<VisitWords>(visit, common, work, "add", "note a visit", add);
    add_harp_option(*adding.app, adding.words->harp);
    add_visit_options(*adding.app, *adding.words);

    const auto listing =
        add_verb<ListWords>(visit, common, work, "list", "visits to a harp, oldest first", list);
    add_harp_option(*listing.app, listing.words->harp);

    const auto showing =
        add_verb<ShowWords>(visit, common, work, "show", "one visit with the checks around it", show);
    showing.app->add_option("HANDLE", showing.words->handle, "as `visit list` shows it")->required();

    const auto changing =
        add_verb<VisitWords>(visit, common, work, "change", "correct what is noted of a visit", change);
    changing.app->add_option("HANDLE", changing.words->handle, "as `visit list` shows it")->required();
    add_visit_options(*changing.app, *changing.words);
    add_reason_option(*changing.app, changing.words->why);
}

} // namespace harpkeep::cli
