// SPDX-License-Identifier: MIT
#pragma once

#include "measure/placement.hpp"

#include <optional>
#include <span>
#include <vector>

namespace harpkeep {

/// How far a harp and each of its strings are from equal temperament.
struct HarpTuning {
    double harp_cents = 0.0;
    std::vector<double> string_cents;                    ///< beyond harp_cents, by index in the layout
    static constexpr double unknown_spread_cents = 12.0; ///< of a string about the harp
    double spread_cents = unknown_spread_cents; ///< of the plucks of a string about what its others say

    /// What is known of a string without the pluck in question: a pluck must not vouch for itself.
    struct WithoutOwn {
        std::size_t string;
        double cents;
        bool known; ///< the string has other plucks
    };
    std::vector<std::optional<WithoutOwn>> without_own; ///< by pluck; empty: nothing learned yet

    [[nodiscard]] double off_cents(std::size_t pluck, std::size_t string) const
    {
        if (pluck < without_own.size() && without_own[pluck] && without_own[pluck]->string == string)
            return harp_cents + without_own[pluck]->cents;
        return harp_cents + string_cents[string];
    }
    [[nodiscard]] double spread_cents_for(std::size_t pluck, std::size_t string) const
    {
        const bool alone = pluck < without_own.size() && without_own[pluck] &&
                           without_own[pluck]->string == string && !without_own[pluck]->known;
        return alone ? unknown_spread_cents : spread_cents;
    }
};

/// The cheapest way to lay plucks along an order of playing.
struct Alignment {
    double cost = 0.0;
    std::vector<std::optional<std::size_t>> target; ///< for each pluck; nothing: it fits nowhere
    std::vector<double> pitch_cents; ///< of each pluck, from key 0: the one of its pitches that fits
    std::vector<std::size_t> rival;  ///< 0: that is its likeliest; else 1 + index into rivals
};

/// A string in one position; nothing: not placed.
struct StringAt {
    std::size_t string;
    Position position;

    friend bool operator==(const StringAt&, const StringAt&) = default;
};

/// What a player means to sound: every string, or some, each in all its positions.
enum class Coverage { whole_harp, chosen_strings };

/// Lays plucks along one order of playing.
class OrderAligner {
  public:
    OrderAligner(std::vector<OrderedTarget> targets, Hertz a4, std::span<const HeardPluck> plucks,
                 Coverage coverage = Coverage::whole_harp);

    [[nodiscard]] const std::vector<OrderedTarget>& targets() const { return targets_; }
    /// Cost of the best alignment (-ln probability up to a constant).
    [[nodiscard]] double cost(const HarpTuning& tuning) const;
    [[nodiscard]] Alignment align(const HarpTuning& tuning) const;
    /// For each pluck the cost of the best alignment that puts it anywhere but where it was placed; infinite
    /// for plucks that were not.
    [[nodiscard]] std::vector<double> costs_elsewhere(const HarpTuning& tuning,
                                                      std::span<const std::optional<StringAt>> placed) const;

  private:
    struct Candidate {
        std::size_t target;
        std::size_t pitch; ///< which of the pluck's pitches
        double pitch_cents;
        double cost;
    };

    [[nodiscard]] std::vector<std::vector<Candidate>> candidates(const HarpTuning& tuning) const;
    /// rest[n][t]: cheapest for the plucks from n on when target t was placed last; index of the count: none
    /// yet.
    [[nodiscard]] std::vector<std::vector<double>>
    costs_of_rest(const std::vector<std::vector<Candidate>>& all) const;
    [[nodiscard]] double step_cost(std::size_t from, std::size_t to, std::size_t pluck) const;
    [[nodiscard]] double move_cost(std::size_t from, std::size_t to, std::size_t pluck) const;
    [[nodiscard]] double start_cost(std::size_t target) const;
    [[nodiscard]] double end_cost(std::size_t target) const;

    struct Pluck {
        std::vector<double> pitches_cents; ///< the likeliest first
        std::optional<Position> pass;
        double ignore_cost;
        bool first_of_file;
        double repeat_cost = 0.0; ///< further, for the string of the pluck before
    };
    std::vector<OrderedTarget> targets_;
    Coverage coverage_;
    std::vector<Pluck> plucks_;
    std::vector<double> skip_, back_; ///< costs by number of turns left out, and gone back
};

} // namespace harpkeep
