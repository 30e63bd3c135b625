// SPDX-License-Identifier: MIT
#pragma once

#include "records/record.hpp"
#include "units/date.hpp"

#include <optional>
#include <string>

namespace harpkeep {

/// A harp given into someone's hands for a time.
struct Loan {
    Uuid harp_id;
    std::string borrower;
    Date from;
    std::optional<Date> until; ///< when it is due back
    std::string condition_out; ///< at hand-over
    std::string remarks;

    bool operator==(const Loan&) const = default;
};

struct LoanReturn {
    Uuid loan_id;
    Date returned_on;
    std::string condition_back;

    bool operator==(const LoanReturn&) const = default;
};

/// A loan with its end, when it has come.
struct LoanRecord {
    Uuid id;
    Loan loan;
    std::optional<Record<LoanReturn>> back;
};

} // namespace harpkeep
