// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/action.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace harpkeep::db {

/// What a handle or a key names.
struct ThingRef {
    Uuid id;
    std::string kind; ///< as in table thing_kind: "harp", "string", "visit"
};

/// The last eight digits of a key: how people name a visit or a string that has no name of its own.
[[nodiscard]] std::string handle_of(const Uuid& id);

/// Whether a text could be a handle or a key.
[[nodiscard]] bool looks_like_handle(std::string_view text);

/// The thing that holds now and has this handle (eight digits) or key; not found, or more than one of the
/// handle, is told.
[[nodiscard]] Result<ThingRef> thing_with_handle(const Ledger& ledger, std::string_view text);

/// A thing does not hold any more, and neither does what only makes sense with it (a string's removal, a
/// loan's return). Its facts stay readable.
///
/// Returns  refused when other things need it: a harp with strings, a room with harps
[[nodiscard]] Result<void> make_void(Ledger& ledger, const Author& author, const Uuid& id,
                                     const std::string& reason);

// For repositories; these throw LedgerFailure.

/// The row of a thing that holds now; `what` ("harp") is for the message.
[[nodiscard]] ThingNo current_thing(const Database& database, const Uuid& id, std::string_view kind);

/// Runs `write(action, fact)` for a new thing of `kind`. Returns its key.
template <class Write>
Result<Uuid> added(Ledger& ledger, const Author& author, std::string_view kind, const std::string& what,
                   Write&& write)
{
    return guarded(what, [&] {
        Action action{ledger, author, what};
        const NewThing thing = action.add(kind);
        write(action, thing.fact);
        action.commit();
        return thing.id;
    });
}

/// Runs `write(action, fact)` to state a thing anew.
template <class Write>
Result<void> changed(Ledger& ledger, const Author& author, std::string_view kind, const Uuid& id,
                     const std::string& what, const std::string& reason, Write&& write)
{
    return guarded(what, [&] {
        Action action{ledger, author, what};
        const ThingNo thing = current_thing(action.database(), id, kind);
        write(action, action.correct(thing, reason));
        action.commit();
    });
}

/// Runs `read()` on one snapshot of the ledger.
template <class Read>
[[nodiscard]] auto snapshot(const Ledger& ledger, const std::string& what, Read&& read)
{
    return guarded(what, [&] {
        const Transaction transaction{ledger.database(), Transaction::Kind::read};
        return read();
    });
}

} // namespace harpkeep::db
