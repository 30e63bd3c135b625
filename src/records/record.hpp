// SPDX-License-Identifier: MIT
#pragma once

#include "records/uuid.hpp"

namespace harpkeep {

/// A thing of the ledger: its key and what is stated of it now.
template <class Details>
struct Record {
    Uuid id;
    Details details;
};

} // namespace harpkeep
