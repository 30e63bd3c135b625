// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/action.hpp"
#include "db/sqlite/ledger_failure.hpp"

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

/// Runs `body`, which does what the history is to call `what`. A refusal speaks for itself; what the system
/// said no to is told with it.
template <class Body>
[[nodiscard]] auto guarded_action(const std::string& what, Body&& body) -> Result<std::invoke_result_t<Body>>
{
    try {
        if constexpr (std::is_void_v<std::invoke_result_t<Body>>) {
            body();
            return {};
        } else {
            return body();
        }
    } catch (const LedgerFailure& caught) {
        const ErrorCode code = caught.error().code;
        const bool is_refusal = code != ErrorCode::unavailable && code != ErrorCode::corrupt;
        return failure(is_refusal ? caught.error() : caught.error().within("not noted: " + what));
    }
}

/// Runs `write(action, fact)` for a new thing of `kind`. Returns its key.
template <class Write>
Result<Uuid> added(Ledger& ledger, const Author& author, std::string_view kind, const std::string& what,
                   Write&& write)
{
    return guarded_action(what, [&] {
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
    return guarded_action(what, [&] {
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
