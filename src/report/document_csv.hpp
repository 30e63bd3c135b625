// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"
#include "report/document.hpp"

#include <string>
#include <string_view>

namespace harpkeep::report {

/// One table of a report as CSV (RFC 4180): a row of field names, then the data; nulls are empty cells.
///
/// Given      table  its name; empty: the main one
/// Returns    UTF-8; not_found, with the tables there are, when the report has none of that name
[[nodiscard]] Result<std::string> csv_of(const Document& document, std::string_view table = {});

} // namespace harpkeep::report
