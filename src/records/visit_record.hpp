// SPDX-License-Identifier: MIT
#pragma once

#include "harp/letter.hpp"
#include "harp/string_place.hpp"
#include "records/money.hpp"
#include "records/record.hpp"
#include "units/date.hpp"

#include <optional>
#include <string>
#include <string_view>
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

/// "3A: new disc [1 disc]", "pedal F: felt replaced", "harp: regulated": where, what, parts in brackets.
[[nodiscard]] std::string visit_work_text(const VisitWork& work);
/// The inverse; words without a place in front are about the whole harp. Work and parts hold no brackets.
[[nodiscard]] VisitWork visit_work_from_text(std::string_view text);

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
