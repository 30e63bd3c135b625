// SPDX-License-Identifier: MIT
#include "db/records/loans.hpp"
#include "ui/cli/arguments.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/record_json.hpp"
#include "ui/cli/verb.hpp"
#include "ui/support/clock.hpp"

#include <fmt/format.h>

namespace harpkeep::cli {

namespace {

struct LoanWords {
    std::string harp;
    std::string handle;
    std::string borrower;
    std::string from;
    std::string until;
    std::optional<std::string> condition;
    std::optional<std::string> remarks;
    std::string why;
};

/// Puts what was written over what is known of a loan.
Result<void> fill(Loan& loan, const LoanWords& words)
{
    if (!words.borrower.empty()) loan.borrower = words.borrower;
    if (!words.from.empty()) {
        const auto from = date_argument(words.from);
        if (!from) return failure(from.error());
        loan.from = *from;
    }
    if (!words.until.empty()) {
        const auto until = date_argument(words.until);
        if (!until) return failure(until.error());
        loan.until = *until;
    }
    if (words.condition) loan.condition_out = *words.condition;
    if (words.remarks) loan.remarks = *words.remarks;
    return {};
}

std::string sentence(const Loan& loan, const std::string& harp)
{
    const std::string end = loan.until ? fmt::format(", due back {}", iso_date(*loan.until)) : "";
    return fmt::format("{} is with {} from {}{}.", harp, loan.borrower, iso_date(loan.from), end);
}

Result<void> report(const Common& common, const db::Ledger& ledger, const LoanRecord& loan)
{
    const auto names = Names::in(ledger);
    if (!names) return failure(names.error());
    if (common.json)
        print_json(json_of(loan, *names));
    else
        print_line(sentence(loan.loan, names->of(loan.loan.harp_id)));
    return {};
}

Result<void> add(const Common& common, const LoanWords& words)
{
    auto opened = open_harp(common, db::Access::write, words.harp);
    if (!opened) return failure(opened.error());
    Loan loan{opened->harp.id, "", date_or_today("").value()};
    const auto filled = fill(loan, words);
    if (!filled) return failure(filled.error());
    const auto id = db::lend_harp(opened->ledger, ui::author(), loan);
    if (!id) return failure(id.error());
    return report(common, opened->ledger, {*id, loan, std::nullopt});
}

Result<void> change(const Common& common, const LoanWords& words)
{
    auto ledger = open_ledger(common, db::Access::write);
    if (!ledger) return failure(ledger.error());
    const auto id = thing_of_kind(*ledger, words.handle, "loan");
    if (!id) return failure(id.error());
    auto loans = db::all_loans(*ledger);
    if (!loans) return failure(loans.error());
    for (LoanRecord& loan : *loans) {
        if (loan.id != *id) continue;
        const auto filled = fill(loan.loan, words);
        if (!filled) return failure(filled.error());
        const auto changed = db::change_loan(*ledger, ui::author(), *id, loan.loan, words.why);
        if (!changed) return failure(changed.error());
        return report(common, *ledger, loan);
    }
    return failure(ErrorCode::not_found, words.handle + ": no such loan; `harpkeep loan list` shows them");
}

struct ReturnWords {
    std::string harp;
    std::string date;
    std::string condition;
};

Result<void> bring_back(const Common& common, const ReturnWords& words)
{
    auto opened = open_harp(common, db::Access::write, words.harp);
    if (!opened) return failure(opened.error());
    const auto date = date_or_today(words.date);
    if (!date) return failure(date.error());
    const auto id = db::return_harp(opened->ledger, ui::author(), opened->harp.id,
                                    {.returned_on = *date, .condition_back = words.condition});
    if (!id) return failure(id.error());
    const std::string& harp = opened->harp.details.name;
    if (common.json)
        print_json({{"id", to_string(*id)}, {"harp", harp}, {"returned_on", iso_date(*date)}});
    else
        print_line(fmt::format("{} is back since {}.", harp, iso_date(*date)));
    return {};
}

struct ListWords {
    std::string harp;
    bool open = false;
};

std::string state_of(const LoanRecord& loan, Date today)
{
    if (loan.back) return "back " + iso_date(loan.back->details.returned_on);
    if (loan.loan.until && last_day(*loan.loan.until) < today) return "overdue";
    return "out";
}

Result<void> list(const Common& common, const ListWords& words)
{
    const auto ledger = open_ledger(common, db::Access::read);
    if (!ledger) return failure(ledger.error());
    const auto names = Names::in(*ledger);
    if (!names) return failure(names.error());
    auto loans = db::all_loans(*ledger);
    if (!loans) return failure(loans.error());
    if (!words.harp.empty()) {
        const auto harp = chosen_harp(*ledger, words.harp);
        if (!harp) return failure(harp.error());
        std::erase_if(*loans, [&](const LoanRecord& loan) { return loan.loan.harp_id != harp->id; });
    }
    if (words.open) std::erase_if(*loans, [](const LoanRecord& loan) { return loan.back.has_value(); });
    if (common.json) {
        print_json(json_list(*loans, *names));
        return {};
    }
    if (loans->empty()) {
        print_line("No loans; `harpkeep loan add --harp NAME --to WHO` notes one.");
        return {};
    }
    Table table{{{"Harp"}, {"With"}, {"From"}, {"Until"}, {"State"}, {"Condition"}, {"Handle"}}};
    for (const LoanRecord& loan : *loans)
        table.add_row({names->of(loan.loan.harp_id), loan.loan.borrower, iso_date(loan.loan.from),
                       loan.loan.until ? iso_date(*loan.loan.until) : "",
                       state_of(loan, local_date(ui::now())),
                       loan.back ? loan.back->details.condition_back : loan.loan.condition_out,
                       db::handle_of(loan.id)});
    table.print();
    return {};
}

void add_loan_options(CLI::App& app, LoanWords& words)
{
    app.add_option("--from", words.from, "since when (default: today)");
    app.add_option("--until", words.until, "when it is due back");
    app.add_option("--condition", words.condition, "its condition at hand-over");
    app.add_option("--remarks", words.remarks, "anything else");
}

} // namespace

void add_command_loan(CLI::App& app, Common& common, Work& work)
{
    auto& loan = add_noun(app, "loan", "who has which harp");

    const auto adding =
        add_verb<LoanWords>(loan, common, work, "add", "give a harp into someone's hands", add);
    add_harp_option(*adding.app, adding.words->harp);
    adding.app->add_option("--to", adding.words->borrower, "who has it")->required();
    add_loan_options(*adding.app, *adding.words);

    const auto returning =
        add_verb<ReturnWords>(loan, common, work, "return", "a harp comes back", bring_back);
    add_harp_option(*returning.app, returning.words->harp);
    returning.app->add_option("--date", returning.words->date, "when it came back (default: today)");
    returning.app->add_option("--condition", returning.words->condition, "its condition then");

    const auto listing = add_verb<ListWords>(loan, common, work, "list", "loans, oldest first", list);
    listing.app->add_option("--harp", listing.words->harp, "of this harp only");
    listing.app->add_flag("--open", listing.words->open, "only those that are not back");

    const auto changing =
        add_verb<LoanWords>(loan, common, work, "change", "correct a loan, or make it longer", change);
    changing.app->add_option("HANDLE", changing.words->handle, "as `loan list` shows it")->required();
    changing.app->add_option("--to", changing.words->borrower, "who has it");
    add_loan_options(*changing.app, *changing.words);
    add_reason_option(*changing.app, changing.words->why);
}

} // namespace harpkeep::cli
