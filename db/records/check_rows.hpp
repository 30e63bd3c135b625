// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/action.hpp"
#include "measure/reading.hpp"
#include "records/check_record.hpp"

#include <vector>

namespace harpkeep::db {

// The rows that belong to one check: readings, steps and the like. Part of checks.cpp in two halves;
// everything throws LedgerFailure.

void insert_check_rows(const Action& action, FactNo check, const std::vector<Recording>& recordings,
                       const CheckResult& result);

[[nodiscard]] std::vector<Recording> recordings_of(const Database& database, FactNo check);

/// In the order in which they sounded; partials only when asked for.
[[nodiscard]] std::vector<Reading> readings_of(const Database& database, FactNo check, bool with_partials);

/// Reads the steps of one check after the other, lowest string first.
class StepReader {
  public:
    explicit StepReader(const Database& database);
    /// Fills steps and whole_steps.
    void read(FactNo check, CheckResult& result);

  private:
    void read_by_string(FactNo check, CheckResult& result);
    void read_by_step(FactNo check, CheckResult& result); // as kept up to schema 5

    Statement by_string_, by_step_;
};

/// Fills missing, ignored and remarks.
void read_notices(const Database& database, FactNo check, CheckResult& result);

} // namespace harpkeep::db
