// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"
#include "records/visit_record.hpp"

#include <string>
#include <vector>

namespace harpkeep::db {

/// A technician's work on a harp. Refused: a date in the future, a place that the harp does not have.
[[nodiscard]] Result<Uuid> add_visit(Ledger& ledger, const Author& author, const Visit& visit);
[[nodiscard]] Result<void> change_visit(Ledger& ledger, const Author& author, const Uuid& visit_id,
                                        const Visit& visit, const std::string& reason);

/// The visits to a harp, oldest first, each with the checks around it.
[[nodiscard]] Result<std::vector<VisitRecord>> visits_of(const Ledger& ledger, const Uuid& harp_id);

[[nodiscard]] Result<VisitRecord> visit_with_id(const Ledger& ledger, const Uuid& visit_id);

} // namespace harpkeep::db
