// SPDX-License-Identifier: MIT
#pragma once

#include <string>

namespace harpkeep::db {

/// While it lives, no other program has the same work in hand: the others wait. The system lets go of it when
/// a program ends, however it ends, so nothing is left locked by one that was killed.
class SoleWork {
  public:
    /// Waits for its turn at an empty file of this name, which is made when missing. Throws LedgerFailure
    /// when the system refuses.
    explicit SoleWork(const std::string& path);
    SoleWork(const SoleWork&) = delete;
    SoleWork& operator=(const SoleWork&) = delete;
    ~SoleWork();

  private:
    int file_;
};

} // namespace harpkeep::db
