// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"
#include "records/string_record.hpp"

#include <optional>
#include <string>
#include <vector>

namespace harpkeep::db {

/// What happens to the string that is on the place when another is put on.
struct OldString {
    RemovalReason reason = RemovalReason::unknown;
    std::optional<BreakPoint> broke_at;
};

/// What else goes with putting a string on.
struct PutOnOptions {
    std::optional<OldString> old_string; ///< taken off on the same day
    std::optional<StringRemoval> ended;  ///< it came off again already: a life noted afterwards
    bool from_spares = false;            ///< one of this make leaves the stock
};

/// A string goes on a harp. Refused: a place the harp does not have, a date in the future, a place that has a
/// string at that time, no such string in stock.
[[nodiscard]] Result<Uuid> put_on(Ledger& ledger, const Author& author, const MountedString& string,
                                  const PutOnOptions& options = {});

/// Several strings at once, in one action; every string as for put_on(). Returns their keys in order.
[[nodiscard]] Result<std::vector<Uuid>> put_on_all(Ledger& ledger, const Author& author,
                                                   const std::vector<MountedString>& strings,
                                                   const PutOnOptions& options = {});

/// The string that is on the place now comes off. Refused: no string there, a date in the future or before it
/// was put on.
///
/// Given  removal  its string_id is set by this function
[[nodiscard]] Result<Uuid> take_off(Ledger& ledger, const Author& author, const Uuid& harp_id,
                                    StringPlace place, StringRemoval removal);

/// States anew what a string is; harp and place as before or corrected.
[[nodiscard]] Result<void> change_string(Ledger& ledger, const Author& author, const Uuid& string_id,
                                         const MountedString& string, const std::string& reason);

/// Every string that was ever on the harp, or on one place of it: lowest place first, oldest string first.
[[nodiscard]] Result<std::vector<StringLife>> string_lives(const Ledger& ledger, const Uuid& harp_id,
                                                           std::optional<StringPlace> place = std::nullopt);

/// Every string of every harp that holds or held: what life statistics are made from.
[[nodiscard]] Result<std::vector<StringLife>> all_string_lives(const Ledger& ledger);

/// The strings that are on now: lowest place first.
[[nodiscard]] Result<std::vector<StringLife>> strings_on(const Ledger& ledger, const Uuid& harp_id);

[[nodiscard]] Result<StringLife> string_with_id(const Ledger& ledger, const Uuid& string_id);

} // namespace harpkeep::db
