// SPDX-License-Identifier: MIT
#pragma once

#include "live/check_plan.hpp"
#include "measure/reading.hpp"
#include "units/quantity.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace harpkeep {

/// What a guided check has to say about one event.
enum class NoticeKind {
    settled,           ///< good enough: the player may go on; the reading is kept when the tone ends
    accepted,          ///< kept
    accepted_doubtful, ///< kept with its doubt, after several tries
    repeated,          ///< plucked again and alike: both readings count
    replaced,          ///< plucked again and otherwise: the new reading takes the place of the old
    ask_again,         ///< not kept, for a doubt
    too_uncertain,     ///< not kept: the uncertainty is too large
    wrong_position,    ///< one string sounds in a position that the setting forbids
    pedal_wrong,       ///< several strings of one letter do
    old_setting,       ///< several letters still stand as in the setting before
    ambiguous,         ///< fits two strings or positions
    not_asked,         ///< a string that this part does not ask for
    unplaced,          ///< fits no string of this harp
    ignored,           ///< talk, a knock
    skipped,           ///< a string was passed over
    new_setting,       ///< a part begins: make its setting
    left_for_later,    ///< a part was left with strings missing; they come at the end
    complete,          ///< all is sounded
};

[[nodiscard]] std::string_view notice_name(NoticeKind kind);

/// One message of a guided check, without words.
struct CheckNotice {
    NoticeKind kind = NoticeKind::accepted;
    std::optional<CheckTarget> target; ///< what it is about
    std::optional<CheckTarget>
        alternative; ///< ambiguous: the second string; wrong_position: what was asked for
    std::optional<Doubt> doubt;
    std::optional<Cents> uncertainty;
    int count = 0;      ///< skipped, left_for_later: how many
    std::string reason; ///< ignored: what it was
};

/// The message as one or two short sentences that say what to do.
///
/// Given      kind  tells pedals from levers
[[nodiscard]] std::string notice_text(const CheckNotice& notice, HarpKind kind);

/// "4C natural".
[[nodiscard]] std::string target_text(const CheckTarget& target);

} // namespace harpkeep
