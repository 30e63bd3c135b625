// SPDX-License-Identifier: MIT
#include "ui/dashboard/models/today_model.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace harpkeep::dashboard {

namespace {

double largest_error(const StringToday& string)
{
    double largest = 0.0;
    for (const auto* step : {&string.lower, &string.upper})
        if (step->error_cents) largest = std::max(largest, std::abs(step->error_cents->value));
    return largest;
}

} // namespace

Counts count_states(const TodayModel& model)
{
    Counts counts;
    for (const auto& string : model.strings) {
        const State state = string.state();
        counts.fine += state == State::fine;
        counts.watch += state == State::watch;
        counts.unsure += state == State::unsure;
        counts.out += state == State::out;
        counts.not_measured += state == State::not_measured;
    }
    return counts;
}

std::vector<std::size_t> worst_first(const TodayModel& model)
{
    std::vector<std::size_t> order(model.strings.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        const auto& first = model.strings[a];
        const auto& second = model.strings[b];
        if (badness(first.state()) != badness(second.state()))
            return badness(first.state()) > badness(second.state());
        return largest_error(first) > largest_error(second);
    });
    return order;
}

} // namespace harpkeep::dashboard
