// SPDX-License-Identifier: MIT
#include "synth/synthetic_playing.hpp"

#include "base/expects.hpp"
#include "synth/random_source.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace harpkeep {

namespace {

enum class Mishap { none, skipped, repeated, corrected, uncorrected, knock, cough, talk };

bool has_position(const HarpLayout& layout, std::size_t string_index, Position position)
{
    const auto positions = positions_of(layout.kind, layout.strings[string_index]);
    return std::find(positions.begin(), positions.end(), position) != positions.end();
}

std::vector<std::size_t> string_order(const HarpLayout& layout, Direction direction)
{
    std::vector<std::size_t> order(layout.strings.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    if (direction == Direction::high_to_low) std::reverse(order.begin(), order.end());
    return order;
}

/// Positions that at least one string has, lowest first.
std::vector<Position> positions_of_harp(const HarpLayout& layout)
{
    std::vector<Position> positions;
    for (const HarpString& string : layout.strings) {
        const auto own = positions_of(layout.kind, string);
        if (own.size() > positions.size()) positions = own;
    }
    return positions;
}

std::vector<Mishap> draw_mishaps(std::size_t plucks, const Mishaps& counts, RandomSource& random)
{
    std::vector<Mishap> mishaps;
    const auto append = [&](int count, Mishap mishap) {
        mishaps.insert(mishaps.end(), static_cast<std::size_t>(count), mishap);
    };
    append(counts.skipped, Mishap::skipped);
    append(counts.repeated, Mishap::repeated);
    append(counts.corrected, Mishap::corrected);
    append(counts.uncorrected, Mishap::uncorrected);
    append(counts.knocks, Mishap::knock);
    append(counts.coughs, Mishap::cough);
    append(counts.talks, Mishap::talk);
    HARPKEEP_EXPECTS(mishaps.size() <= plucks);
    mishaps.resize(plucks, Mishap::none);
    for (std::size_t i = plucks; i > 1; --i) std::swap(mishaps[i - 1], mishaps[random.below(i)]);
    return mishaps;
}

/// Tones of the strings that have a partial within 40 cents of one of the first four of the plucked string.
std::vector<SympatheticTone> sympathetic_tones(const SyntheticHarp& harp, std::size_t plucked,
                                               Position position, double level_db)
{
    std::vector<SympatheticTone> tones;
    const SyntheticString string = string_in_position(harp, plucked, position);
    for (std::size_t other = 0; other < harp.strings.size() && tones.size() < 6; ++other) {
        if (other == plucked || !has_position(harp.layout, other, position)) continue;
        const SyntheticString neighbour = string_in_position(harp, other, position);
        for (int k = 1; k <= 4; ++k)
            for (int m = 1; m <= 4; ++m) {
                const double frequency_hz = partial_frequency_hz(neighbour, m);
                const double away_cents = 1200.0 * std::log2(frequency_hz / partial_frequency_hz(string, k));
                if (std::abs(away_cents) > 40.0) continue;
                // The farther off, the weaker it answers; the curve is invented.
                const double answer_db = level_db - 6.0 * (k - 1) - 0.25 * std::abs(away_cents);
                tones.push_back({frequency_hz, answer_db, 0.15, 0.8 * neighbour.decay_t60_s});
            }
    }
    return tones;
}

/// Writes events at a time that runs on.
class Player {
  public:
    Player(const SyntheticHarp& harp, const PlayingSettings& settings)
        : harp_(harp), settings_(settings), random_(settings.seed), now_s_(settings.first_s)
    {
    }

    void play(const PlannedPluck& planned, Mishap mishap)
    {
        switch (mishap) {
        case Mishap::skipped:
            skip(planned);
            return;
        case Mishap::uncorrected:
            pluck_neighbour(planned);
            skip(planned);
            return;
        case Mishap::corrected:
            pluck_neighbour(planned);
            break;
        case Mishap::repeated:
            pluck(planned, false);
            break;
        case Mishap::none:
        case Mishap::knock:
        case Mishap::cough:
        case Mishap::talk:
            break;
        }
        pluck(planned, false);
        if (mishap == Mishap::knock) disturb(SoundKind::knock, -last_gap_s_ * random_.uniform(0.2, 0.6));
        if (mishap == Mishap::cough) disturb(SoundKind::cough, -last_gap_s_ * random_.uniform(0.3, 0.6));
        if (mishap == Mishap::talk) disturb(SoundKind::speech, 0.0);
    }

    /// Hands on the strings while pedals are moved.
    void still_all()
    {
        for (; first_of_group_ < result_.events.size(); ++first_of_group_) {
            SoundEvent& event = result_.events[first_of_group_];
            const double free_s = std::max(0.1, now_s_ - event.start_s);
            event.pluck.damp_after_s = std::min(event.pluck.damp_after_s.value_or(free_s), free_s);
        }
        now_s_ += settings_.between_groups_s;
    }

    [[nodiscard]] Performance take() { return std::move(result_); }

  private:
    void skip(const PlannedPluck& planned) { result_.skipped.push_back(planned); }

    SyntheticPluck draw_pluck(const PlannedPluck& planned)
    {
        SyntheticPluck pluck;
        pluck.level_dbfs = settings_.level_dbfs + settings_.level_sd_db * random_.normal();
        pluck.plucking_point =
            std::clamp(settings_.plucking_point + settings_.plucking_point_sd * random_.normal(), 0.05, 0.5);
        pluck.glide_cents = random_.uniform(settings_.lowest_glide_cents, settings_.highest_glide_cents);
        pluck.damp_after_s = settings_.damp_after_s;
        if (settings_.second_polarisation) {
            pluck.second_polarisation = settings_.second_polarisation;
            pluck.second_polarisation->split_cents *= random_.uniform(0.7, 1.3);
            pluck.second_polarisation->level_db += 3.0 * random_.normal();
        }
        if (settings_.sympathetic_db)
            pluck.sympathetic =
                sympathetic_tones(harp_, planned.string_index, planned.position, *settings_.sympathetic_db);
        // The body gives each partial its phase: the same at every pluck of a string.
        pluck.phase_seed = 8 * planned.string_index + static_cast<std::size_t>(planned.position) + 1;
        return pluck;
    }

    void pluck(const PlannedPluck& planned, bool mistake)
    {
        result_.events.push_back({.kind = SoundKind::pluck,
                                  .start_s = now_s_,
                                  .place = harp_.layout.strings[planned.string_index].place,
                                  .position = planned.position,
                                  .pluck = draw_pluck(planned),
                                  .mistake = mistake});
        last_gap_s_ = std::max(0.3, settings_.gap_s + random_.uniform(-1.0, 1.0) * settings_.gap_spread_s);
        now_s_ += last_gap_s_;
    }

    /// The string beside the one that was meant, on the side that has the position.
    void pluck_neighbour(const PlannedPluck& planned)
    {
        PlannedPluck wrong = planned;
        const std::size_t count = harp_.layout.strings.size();
        const bool above =
            planned.string_index + 1 < count && (planned.string_index == 0 || random_.uniform() < 0.5);
        wrong.string_index += above ? std::size_t{1} : std::size_t(-1);
        if (wrong.string_index >= count || !has_position(harp_.layout, wrong.string_index, wrong.position))
            wrong.string_index = planned.string_index + (above ? std::size_t(-1) : std::size_t{1});
        HARPKEEP_EXPECTS(wrong.string_index < count &&
                         has_position(harp_.layout, wrong.string_index, wrong.position));
        pluck(wrong, true);
    }

    void disturb(SoundKind kind, double offset_s)
    {
        SoundEvent event{.kind = kind, .start_s = now_s_ + offset_s};
        event.level_dbfs = settings_.level_dbfs + random_.uniform(-6.0, 3.0);
        if (kind == SoundKind::speech) {
            event.duration_s = random_.uniform(2.0, 3.0);
            now_s_ += event.duration_s + 0.5;
        }
        result_.events.push_back(event);
    }

    const SyntheticHarp& harp_;
    const PlayingSettings& settings_;
    RandomSource random_;
    Performance result_;
    double now_s_;
    double last_gap_s_ = 0.0;
    std::size_t first_of_group_ = 0;
};

} // namespace

std::vector<PlannedPluck> plan_pass(const HarpLayout& layout, Position position, Direction direction,
                                    int group)
{
    std::vector<PlannedPluck> plan;
    for (const std::size_t index : string_order(layout, direction))
        if (has_position(layout, index, position)) plan.push_back({index, position, group});
    return plan;
}

std::vector<PlannedPluck> plan_pass_by_pass(const HarpLayout& layout, Direction direction)
{
    std::vector<PlannedPluck> plan;
    int group = 0;
    for (const Position position : positions_of_harp(layout)) {
        const auto pass = plan_pass(layout, position, direction, group++);
        plan.insert(plan.end(), pass.begin(), pass.end());
    }
    return plan;
}

std::vector<PlannedPluck> plan_string_by_string(const HarpLayout& layout, Direction direction)
{
    std::vector<PlannedPluck> plan;
    for (const std::size_t index : string_order(layout, direction))
        for (const Position position : positions_of(layout.kind, layout.strings[index]))
            plan.push_back({index, position, 0});
    return plan;
}

std::vector<PlannedPluck> plan_pedal_by_pedal(const HarpLayout& layout, Direction direction)
{
    std::vector<PlannedPluck> plan;
    int group = 0;
    for (const Letter letter : pedal_order)
        for (const Position position : positions_of_harp(layout)) {
            for (const PlannedPluck& planned : plan_pass(layout, position, direction, group))
                if (layout.strings[planned.string_index].place.letter == letter) plan.push_back(planned);
            ++group;
        }
    return plan;
}

Performance play(const SyntheticHarp& harp, std::span<const PlannedPluck> plan,
                 const PlayingSettings& settings)
{
    HARPKEEP_EXPECTS(harp.strings.size() == harp.layout.strings.size() && harp.strings.size() >= 3);
    RandomSource lots(settings.seed + 0x9e3779b97f4a7c15ULL); // other numbers than those of the plucks
    const auto mishaps = draw_mishaps(plan.size(), settings.mishaps, lots);
    Player player(harp, settings);
    for (std::size_t i = 0; i < plan.size(); ++i) {
        if (i > 0 && plan[i].group != plan[i - 1].group) player.still_all();
        player.play(plan[i], mishaps[i]);
    }
    return player.take();
}

} // namespace harpkeep
