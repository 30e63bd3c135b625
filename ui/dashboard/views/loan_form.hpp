// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/actions.hpp"
#include "ui/dashboard/ui.hpp"

#include <string>

namespace harpkeep::dashboard {

/// A loan as it is being typed.
struct LoanFormState {
    enum class Asks { nothing, lend, change, give_back } asks = Asks::nothing;
    RecordKey harp; ///< that it is about
    std::string borrower;
    std::string from; ///< of a return: its day
    std::string until;
    std::string condition;
    std::string trouble; ///< why it cannot be noted yet
};

/// Who had and has a harp, and the buttons and the form to lend it, to bring it back, or to state its loan
/// anew.
void show_loans(const Ui& ui, const RoomRow& row, Day today, LoanFormState& state, Actions& actions);

} // namespace harpkeep::dashboard
