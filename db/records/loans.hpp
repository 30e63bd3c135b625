// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"
#include "records/loan_record.hpp"

#include <string>
#include <vector>

namespace harpkeep::db {

/// A harp is given into someone's hands. Refused: it is out already, an end before the beginning, a beginning
/// in the future.
[[nodiscard]] Result<Uuid> lend_harp(Ledger& ledger, const Author& author, const Loan& loan);

/// States a loan anew: another due date, another word on its condition.
[[nodiscard]] Result<void> change_loan(Ledger& ledger, const Author& author, const Uuid& loan_id,
                                       const Loan& loan, const std::string& reason);

/// The harp comes back from the loan it is out on. Refused: it is not out; a day before the loan began.
///
/// Given  back  its loan_id is set by this function
[[nodiscard]] Result<Uuid> return_harp(Ledger& ledger, const Author& author, const Uuid& harp_id,
                                       LoanReturn back);

/// The loans of a harp, oldest first.
[[nodiscard]] Result<std::vector<LoanRecord>> loans_of(const Ledger& ledger, const Uuid& harp_id);

/// The loans of all harps, oldest first.
[[nodiscard]] Result<std::vector<LoanRecord>> all_loans(const Ledger& ledger);

} // namespace harpkeep::db
