// SPDX-License-Identifier: MIT
#pragma once

#include "db/sqlite/database.hpp"

namespace harpkeep::db {

/// All or nothing: what was written since the constructor is taken back unless commit() was reached.
///
/// Notes  `write` takes the right to write at once, so that nothing read in the transaction can be outdated
///        when it writes. Savepoints are not offered: rolling one back leaves the transaction open.
class Transaction {
  public:
    enum class Kind { read, write };

    Transaction(const Database& database, Kind kind);
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;
    ~Transaction();

    void commit();

  private:
    const Database& database_;
    bool open_ = true;
};

} // namespace harpkeep::db
