// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"
#include "report/document.hpp"
#include "report/paper.hpp"

#include <string>

namespace harpkeep::report {

/// The report as a PDF file.
///
/// Returns    its bytes; unavailable when the font DejaVu Sans is not there or cairo fails
/// Notes      Black and grey only, and state is always a shape or a word. Rows are never split between pages,
/// a
///            heading stays with what follows it, a table that goes on repeats its headings. The same
///            document gives the same bytes on one computer: the file's date is `document.day`.
[[nodiscard]] Result<std::string> pdf_of(const Document& document, Paper paper);

} // namespace harpkeep::report
