// SPDX-License-Identifier: MIT
#include "db/records/loans.hpp"

#include "db/ledger/things.hpp"
#include "db/records/columns.hpp"
#include "db/sqlite/ledger_failure.hpp"

#include <fmt/format.h>

namespace harpkeep::db {

namespace {

/// Two computers may have noted one return each: then the first noted stands, and the ledger lists the
/// conflict.
constexpr std::string_view return_fact =
    "(SELECT o.fact_no FROM loan_return o JOIN current_content oc USING (fact_no) WHERE o.loan_no = {} "
    "ORDER BY oc.id LIMIT 1)";

std::string select_loans()
{
    return fmt::format(
        "SELECT c.id, {}, borrower, from_on, until_on, condition_out, remarks, "
        "(SELECT t.id FROM fact f JOIN thing t USING (thing_no) WHERE f.fact_no = r.fact_no), r.returned_on, "
        "r.condition_back FROM loan l JOIN current_content c USING (fact_no) "
        "LEFT JOIN loan_return r ON r.fact_no = {} ",
        id_of("l.harp_no"), fmt::format(fmt::runtime(return_fact), "c.thing_no"));
}

/// When the harp came back from a loan, if it did.
std::optional<Date> end_of(const Database& database, ThingNo loan)
{
    auto query = database.prepare("SELECT returned_on FROM loan_return WHERE fact_no = " +
                                  fmt::format(fmt::runtime(return_fact), ":loan_no"));
    query.bind(":loan_no", loan.value);
    return query.step() ? std::optional{read_date(query)} : std::nullopt;
}

std::vector<LoanRecord> read_loans(Statement& query)
{
    std::vector<LoanRecord> loans;
    while (query.step()) {
        LoanRecord record;
        record.id = query.uuid();
        record.loan.harp_id = query.uuid();
        record.loan.borrower = query.text();
        record.loan.from = read_date(query);
        record.loan.until = read_optional_date(query);
        record.loan.condition_out = query.text();
        record.loan.remarks = query.text();
        if (const auto back = query.optional_uuid()) {
            record.back.emplace();
            record.back->id = *back;
            record.back->details.loan_id = record.id;
            record.back->details.returned_on = read_date(query);
            record.back->details.condition_back = query.text();
        }
        loans.push_back(std::move(record));
    }
    return loans;
}

std::vector<LoanRecord> loans_of_harp(const Database& database, ThingNo harp)
{
    auto query = database.prepare(select_loans() + "WHERE l.harp_no = :harp_no ORDER BY from_on, c.id");
    query.bind(":harp_no", harp.value);
    return read_loans(query);
}

/// A harp cannot be with two people at one time. Given `back`: when it came back from `loan`, if it did.
void refuse_overlap(const LoanRecord& other, const Loan& loan, const std::optional<Date>& back)
{
    if (back && first_day(*back) <= last_day(other.loan.from)) return; // it was over before the other began
    if (!other.back)
        fail(ErrorCode::refused,
             fmt::format("the harp is out with {} since {}; bring it back first with `harpkeep loan "
                         "return`",
                         other.loan.borrower, iso_date(other.loan.from)));
    if (last_day(loan.from) < first_day(other.back->details.returned_on))
        fail(ErrorCode::refused, fmt::format("the harp was out with {} until {}; correct the date",
                                             other.loan.borrower, iso_date(other.back->details.returned_on)));
}

void insert_loan(const Action& action, FactNo fact, const Loan& loan, const std::optional<Uuid>& own)
{
    const Database& database = action.database();
    std::optional<Date> back;
    if (own) back = end_of(database, current_thing(database, *own, "loan"));
    if (back) refuse_reversed(loan.from, "its beginning", *back, "the day it came back");
    const ThingNo harp = current_thing(database, loan.harp_id, "harp");
    if (loan.borrower.empty()) fail(ErrorCode::invalid_argument, "say who has the harp; give --to");
    expect_short(loan.borrower, "the borrower's name");
    refuse_future(loan.from, action.now(), "the beginning of a loan");
    if (loan.until) refuse_reversed(loan.from, "its beginning", *loan.until, "the end of the loan");
    for (const LoanRecord& other : loans_of_harp(database, harp))
        if (!own || other.id != *own) refuse_overlap(other, loan, back);
    Insert{database, "loan"}
        .set("fact_no", fact.value)
        .set("harp_no", harp.value)
        .set("borrower", loan.borrower)
        .set("from_on", iso_date(loan.from))
        .set("until_on", date_column(loan.until))
        .set("condition_out", loan.condition_out)
        .set("remarks", loan.remarks)
        .run();
}

} // namespace

Result<Uuid> lend_harp(Ledger& ledger, const Author& author, const Loan& loan)
{
    return added(ledger, author, "loan", "lent a harp to " + loan.borrower,
                 [&](const Action& action, FactNo fact) { insert_loan(action, fact, loan, std::nullopt); });
}

Result<void> change_loan(Ledger& ledger, const Author& author, const Uuid& loan_id, const Loan& loan,
                         const std::string& reason)
{
    return changed(ledger, author, "loan", loan_id, "corrected a loan to " + loan.borrower, reason,
                   [&](const Action& action, FactNo fact) { insert_loan(action, fact, loan, loan_id); });
}

Result<Uuid> return_harp(Ledger& ledger, const Author& author, const Uuid& harp_id, LoanReturn back)
{
    return guarded_action("brought a harp back", [&] {
        Action action{ledger, author, "brought a harp back"};
        const Database& database = action.database();
        const ThingNo harp = current_thing(database, harp_id, "harp");
        const LoanRecord* out = nullptr;
        const auto loans = loans_of_harp(database, harp);
        for (const LoanRecord& loan : loans)
            if (!loan.back) out = &loan;
        if (out == nullptr)
            fail(ErrorCode::refused, "the harp is not out on loan; `harpkeep loan list` shows loans");
        refuse_future(back.returned_on, author.now, "the day it came back");
        refuse_reversed(out->loan.from, "the beginning of its loan", back.returned_on,
                        "the day it came back");
        const NewThing thing = action.add("loan_return");
        Insert{database, "loan_return"}
            .set("fact_no", thing.fact.value)
            .set("loan_no", current_thing(database, out->id, "loan").value)
            .set("returned_on", iso_date(back.returned_on))
            .set("condition_back", back.condition_back)
            .run();
        action.commit();
        return thing.id;
    });
}

Result<std::vector<LoanRecord>> loans_of(const Ledger& ledger, const Uuid& harp_id)
{
    return snapshot(ledger, "reading the loans of a harp", [&] {
        return loans_of_harp(ledger.database(), current_thing(ledger.database(), harp_id, "harp"));
    });
}

Result<std::vector<LoanRecord>> all_loans(const Ledger& ledger)
{
    return snapshot(ledger, "reading the loans", [&] {
        auto query = ledger.database().prepare(select_loans() + "ORDER BY from_on, c.id");
        return read_loans(query);
    });
}

} // namespace harpkeep::db
