// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"
#include "db/sqlite/transaction.hpp"

#include <compare>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

namespace harpkeep::db {

/// Row number of a thing (a harp, a check, a string) in this file.
struct ThingNo {
    std::int64_t value = 0;
    auto operator<=>(const ThingNo&) const = default;
};

/// Row number of a fact in this file.
struct FactNo {
    std::int64_t value = 0;
    auto operator<=>(const FactNo&) const = default;
};

/// What add() made: rows of the thing's kind are written under `fact`.
struct NewThing {
    ThingNo thing;
    FactNo fact;
    Uuid id; ///< of the thing
};

/// What an action is called, and which one it takes back, if it does.
struct ActionWords {
    std::string what; ///< in the user's words, for the history: "added harp Heron"
    std::optional<std::int64_t> undoes_no;
};

/// One thing that a person did, in one transaction: its facts are there all or not at all, and are undone
/// together. Without commit() nothing happened.
///
/// Notes  Throws LedgerFailure.
class Action {
  public:
    Action(Ledger& ledger, const Author& author, std::string_view what);
    /// What it is about depends on what the ledger holds: `words` is asked when nobody else can write any
    /// more.
    Action(Ledger& ledger, const Author& author, const std::function<ActionWords(const Database&)>& words);

    [[nodiscard]] const Database& database() const { return ledger_.database(); }
    [[nodiscard]] Moment now() const { return author_.now; }

    /// A new thing of a kind of table thing_kind, and its first fact.
    ///
    /// Given  id  its key, when it has one from another ledger
    [[nodiscard]] NewThing add(std::string_view kind, const std::optional<Uuid>& known_id = std::nullopt);
    /// A new fact that states the whole of the thing anew and supersedes all that held of it.
    [[nodiscard]] FactNo correct(ThingNo thing, std::string_view reason);
    /// The thing does not hold any more; its facts stay readable.
    void make_void(ThingNo thing, std::string_view reason);
    /// The thing holds again as an earlier fact stated it.
    void restore(ThingNo thing, FactNo content, std::string_view reason);

    void commit();

  private:
    FactNo insert_fact(ThingNo thing, std::string_view effect, std::optional<FactNo> restores,
                       std::string_view reason);
    FactNo supersede(ThingNo thing, std::string_view effect, std::optional<FactNo> restores,
                     std::string_view reason);

    Ledger& ledger_;
    Author author_;
    Transaction transaction_;
    std::int64_t action_no_ = 0;
};

/// The row of the thing with this key, when it is in the ledger and of this kind.
[[nodiscard]] std::optional<ThingNo> find_thing(const Database& database, const Uuid& id,
                                                std::string_view kind);

} // namespace harpkeep::db
