// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/action.hpp"
#include "db/sqlite/insert.hpp"
#include "records/string_record.hpp"
#include "units/date.hpp"
#include "units/moment.hpp"

#include <optional>
#include <string_view>

namespace harpkeep::db {

// How the values that several tables share are put into columns and read back, and the rules that they share.
// Everything throws LedgerFailure.

[[nodiscard]] Date read_date(Statement& row);
[[nodiscard]] std::optional<Date> read_optional_date(Statement& row);
[[nodiscard]] std::optional<std::string> date_column(const std::optional<Date>& date);

/// Columns <name>_minor and <name>_currency.
void set_money(Insert& insert, std::string_view name, const std::optional<Money>& money);
[[nodiscard]] std::optional<Money> read_money(Statement& row);

inline constexpr std::string_view make_columns = "material, diameter_mm, wrap_material, wrap_outer_mm, "
                                                 "linear_density_kg_m, linear_density_uncertainty_kg_m, "
                                                 "supplier";
void set_make(Insert& insert, const StringMake& make);
[[nodiscard]] StringMake read_make(Statement& row);

/// The key of the thing in this row, through a subquery; see id_of().
[[nodiscard]] std::string id_of(std::string_view thing_no_column);

/// The row of a thing that an optional key names.
[[nodiscard]] std::optional<std::int64_t>
optional_thing(const Database& database, const std::optional<Uuid>& id, std::string_view kind);

/// A date on which something happened cannot lie after today.
void refuse_future(Date date, Moment now, std::string_view what);
/// `later` cannot lie before `earlier`, whatever days partial dates mean.
void refuse_reversed(Date earlier, std::string_view earlier_what, Date later, std::string_view later_what);

/// The place must be one of the harp's.
void expect_place(const Database& database, ThingNo harp, StringPlace place);

/// Refuses a name of more letters than fit (records/name_key.hpp).
void expect_short(std::string_view name, std::string_view what);

} // namespace harpkeep::db
