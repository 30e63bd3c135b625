// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/text/care_text.hpp"
#include "ui/dashboard/text/controls_text.hpp"
#include "ui/dashboard/text/figures_text.hpp"
#include "ui/dashboard/text/history_text.hpp"
#include "ui/dashboard/text/ledger_text.hpp"
#include "ui/dashboard/text/live_text.hpp"
#include "ui/dashboard/text/office_text.hpp"
#include "ui/dashboard/text/pedals_text.hpp"
#include "ui/dashboard/text/settings_text.hpp"
#include "ui/dashboard/text/sheets_text.hpp"
#include "ui/dashboard/text/shell_text.hpp"
#include "ui/dashboard/text/start_text.hpp"
#include "ui/dashboard/text/today_text.hpp"

/// Every word of the window that does not come from the ledger or from reasoning. A translation replaces the
/// folder text/; names with _format are fmt patterns, checked when compiled.
namespace harpkeep::dashboard::text {
}
