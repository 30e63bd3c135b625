// SPDX-License-Identifier: MIT
#pragma once

#include "harp/letter.hpp"
#include "harp/string_place.hpp"
#include "records/money.hpp"
#include "records/record.hpp"
#include "units/date.hpp"

#include <optional>
#include <string>
#include <vector>

namespace harpkeep {

/// One piece of a technician's work: on a string, on all strings of a pedal, or (neither) on the whole harp.
struct VisitWork {
    std::optional<StringPlace> place;
    std::optional<Letter> pedal;
    std::string work;
    std::string parts;

    bool operator==(const VisitWork&) const = default;
};

struct Visit {
    Uuid harp_id;
    Date visited_on;
    std::string technician;
    std::optional<Money> cost;
    std::string remarks;
    std::vector<VisitWork> work;

    bool operator==(const Visit&) const = default;
};

/// A visit with the checks around it: the last one before its day and the first one after.
struct VisitRecord {
    Uuid id;
    Visit visit;
    std::optional<Uuid> check_before;
    std::optional<Uuid> check_after;
};

} // namespace harpkeep
