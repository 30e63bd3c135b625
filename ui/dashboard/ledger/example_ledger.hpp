// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/ledger/ledger_source.hpp"

namespace harpkeep::dashboard {

/// Opens the ledger of the invented school that lies in a folder of its own, making it when it is not there
/// yet.
///
/// Given    folder  made when missing
///          harps   of a ledger that is made now
/// Returns  the source, or why not; a ledger half made is not left behind
[[nodiscard]] Result<std::shared_ptr<Source>> open_example_ledger(const std::string& folder,
                                                                  LedgerSource::AuthorNow author, int harps,
                                                                  JobContext& context);

} // namespace harpkeep::dashboard
