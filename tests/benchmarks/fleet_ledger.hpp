// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"
#include "measure/reading.hpp"

#include <random>
#include <string>
#include <vector>

namespace harpkeep::test {

/// How large a ledger is made.
struct FleetSize {
    int years = 20;
    int checks_per_year = 4;
    int rooms = 20;
    int climate_samples_per_day = 8; ///< in each room
};

/// Fills a ledger with invented harps of 47 strings that sound in three positions each: 141 readings a check.
///
/// Notes  Each check is one of three that synthetic recordings of three harps give (30, 20 and 15 dB), with
/// its
///        readings and steps moved by lot. Besides, each harp gets a stringing plan, three strings on each
///        place one after the other that go by lot, a visit a year, a loan every fourth year and a note a
///        year.
class Fleet {
  public:
    Fleet(db::Ledger& ledger, const FleetSize& size);

    /// Goes on until there are so many harps, one fact after the other as the program writes them.
    void grow_to(int harps);
    [[nodiscard]] const std::vector<Uuid>& harps() const { return harps_; }
    [[nodiscard]] Moment end() const;

  private:
    void add_rooms();
    void add_harp();
    void add_strings(const Uuid& harp);
    void add_visits_and_loans(const Uuid& harp);
    void add_checks(const Uuid& harp);
    [[nodiscard]] db::Author at_day(int day) const;
    [[nodiscard]] CheckResult moved_check(std::mt19937& random) const;

    db::Ledger& ledger_;
    FleetSize size_;
    std::vector<CheckResult> measured_;
    std::vector<Uuid> rooms_;
    std::vector<Uuid> harps_;
};

/// Copies all harps of a fleet so many times within the file, under keys and names of their own; what they
/// share (rooms and their climate) stays as it is. A large fleet in a minute instead of ten.
void copy_harps(db::Ledger& ledger, int times);

} // namespace harpkeep::test
