// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"

#include <string>
#include <vector>

namespace harpkeep::db {

/// A CSV file with rows of one record table.
struct RecordFile {
    std::string name;  ///< for messages; empty: they tell no line
    std::string table; ///< as RecordTable::name
    std::string text;
};

/// What became of the rows of one file.
struct RecordImport {
    std::string file;
    std::int64_t added = 0;     ///< things, or things whose rows were added
    std::int64_t corrected = 0; ///< things that were stated anew
    std::int64_t unchanged = 0; ///< things of which the ledger said the same already
};

struct ImportOptions {
    bool only_try = false;           ///< say what would be done, and keep nothing
    std::string what;                ///< for the history; empty: "imported string.csv"
    std::string reason = "imported"; ///< why things are corrected
};

/// Takes rows from spreadsheets, in one action that undo takes back as one.
///
/// Given    files  a row with a key that the ledger has corrects that thing, where it says something else; a
/// row
///                 with another key, a label (#1) or none is a new thing. Columns that are left out stay as
///                 they are, or empty. Rows that belong to a thing take the place of all its rows of that
///                 table. References are names of harps and rooms, handles, keys or labels
/// Returns  what was done; or every bad cell with file, line and column, and then nothing was
/// Notes    All rules hold that hold for the commands: names, places, dates, one string on a place
[[nodiscard]] Result<std::vector<RecordImport>> import_records(Ledger& ledger, const Author& author,
                                                               const std::vector<RecordFile>& files,
                                                               const ImportOptions& options = {});

} // namespace harpkeep::db
