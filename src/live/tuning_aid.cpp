// SPDX-License-Identifier: MIT
#include "live/tuning_aid.hpp"

#include "base/expects.hpp"
#include "units/interval.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep {

namespace {

constexpr Cents farthest_string{100.0}; // strings lie one or two semitones apart
constexpr Cents leaves_string{70.0};    // nearer than that it is still the same string, its pin being turned
constexpr Cents least_uncertainty{0.01};
constexpr Seconds follower_is_quiet{0.3}; // then the estimates of the pluck are shown instead

} // namespace

TuningAid::TuningAid(std::vector<TuningTarget> targets, const TuningAidSettings& settings)
    : targets_(std::move(targets)), settings_(settings)
{
    HARPKEEP_EXPECTS(!targets_.empty());
    for (const TuningTarget& target : targets_) strings_.push_back({.place = target.place});
}

TuningOutcome TuningAid::handle(const PluckEvent& event)
{
    if (const auto* began = std::get_if<PluckBegan>(&event)) {
        sounding_pluck_ = began->pluck;
        sounding_ = true;
        current_ = chosen_;
        pitch_.reset();
        filter_.reset();
        in_tune_since_s_.reset();
    } else if (const auto* estimated = std::get_if<PluckEstimated>(&event)) {
        if (estimated->pluck != sounding_pluck_ || estimated->so_far.frequency_hz <= 0.0) return {};
        const Hertz frequency{estimated->so_far.frequency_hz};
        if (!chosen_) settle_on_nearest(frequency);
        const bool followed =
            followed_s_ && estimated->time.value() - *followed_s_ < follower_is_quiet.value();
        if (!followed) return hear(estimated->time, frequency, Cents{estimated->so_far.uncertainty_cents});
    } else if (const auto* ended = std::get_if<PluckEnded>(&event)) {
        if (ended->pluck == sounding_pluck_) sounding_ = false;
    } else if (const auto* ignored = std::get_if<SoundIgnored>(&event)) {
        if (ignored->pluck == sounding_pluck_) sounding_ = false;
    }
    return {};
}

TuningOutcome TuningAid::follow(Seconds time, Hertz frequency, Cents uncertainty)
{
    followed_s_ = time.value();
    return hear(time, frequency, uncertainty);
}

TuningOutcome TuningAid::hear(Seconds time, Hertz frequency, Cents uncertainty)
{
    if (!sounding_ || !current_) return {};
    const Cents deviation = interval(targets_[*current_].frequency, frequency);
    pitch_ = filter_({time, deviation, std::max(uncertainty, least_uncertainty)});
    return note(*current_, time, pitch_->deviation, pitch_->uncertainty);
}

void TuningAid::settle_on_nearest(Hertz frequency)
{
    const auto nearest = nearest_to(frequency);
    if (nearest == current_) return;
    if (current_ &&
        std::abs(interval(targets_[*current_].frequency, frequency).value()) < leaves_string.value())
        return;
    current_ = nearest;
    pitch_.reset();
    filter_.reset();
    in_tune_since_s_.reset();
}

TuningOutcome TuningAid::note(std::size_t index, Seconds time, Cents deviation, Cents uncertainty)
{
    TuningOutcome outcome;
    StringTuning& string = strings_[index];
    if (uncertainty > settings_.largest_doubt) {
        in_tune_since_s_.reset();
        return outcome;
    }
    note_first_hearing(string, deviation, outcome);
    string.deviation = deviation;
    string.uncertainty = uncertainty;
    if (std::abs(deviation.value()) > settings_.tolerance.value()) {
        in_tune_since_s_.reset();
        string.done = false;
        return outcome;
    }
    if (!in_tune_since_s_) in_tune_since_s_ = time.value();
    if (time.value() - *in_tune_since_s_ < settings_.held.value()) return outcome;
    string.when_done = deviation;
    if (string.done) return outcome;
    string.done = true;
    outcome.done = string.place;
    outcome.pass_complete =
        std::all_of(strings_.begin(), strings_.end(), [](const StringTuning& other) { return other.done; });
    return outcome;
}

void TuningAid::note_first_hearing(StringTuning& string, Cents deviation, TuningOutcome& outcome)
{
    if (pass_ == 1 || string.deviation || !string.when_done) return;
    const Cents fall = *string.when_done - deviation;
    if (fall < settings_.sank_by) return;
    string.sank = fall;
    outcome.sunk = string.place;
}

void TuningAid::choose(std::optional<StringPlace> place)
{
    chosen_.reset();
    if (place)
        for (std::size_t index = 0; index < targets_.size(); ++index)
            if (targets_[index].place == *place) chosen_ = index;
    current_ = chosen_;
    pitch_.reset();
    filter_.reset();
    in_tune_since_s_.reset();
}

void TuningAid::begin_next_pass()
{
    ++pass_;
    for (StringTuning& string : strings_) {
        string.done = false;
        string.deviation.reset();
        string.sank.reset();
    }
}

std::optional<std::size_t> TuningAid::nearest_to(Hertz frequency) const
{
    const auto distance = [&](const TuningTarget& target) {
        return std::abs(interval(target.frequency, frequency).value());
    };
    const auto nearest =
        std::min_element(targets_.begin(), targets_.end(),
                         [&](const auto& a, const auto& b) { return distance(a) < distance(b); });
    if (distance(*nearest) > farthest_string.value()) return std::nullopt;
    return static_cast<std::size_t>(nearest - targets_.begin());
}

TuningView TuningAid::view() const
{
    TuningView view{.pass = pass_, .chosen = chosen_.has_value(), .pitch = pitch_, .sounding = sounding_};
    const auto shown = current_ ? current_ : chosen_;
    if (shown) view.target = targets_[*shown];
    view.done = static_cast<std::size_t>(std::count_if(
        strings_.begin(), strings_.end(), [](const StringTuning& string) { return string.done; }));
    view.strings = &strings_;
    return view;
}

} // namespace harpkeep
