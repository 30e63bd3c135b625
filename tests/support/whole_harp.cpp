// SPDX-License-Identifier: MIT
#include "tests/support/whole_harp.hpp"

#include "measure/pluck_stream.hpp"
#include "stats/quantiles.hpp"
#include "synth/random_source.hpp"

#include <algorithm>
#include <cmath>
#include <ctime>
#include <fmt/format.h>
#include <set>

namespace harpkeep::tests {

namespace {

constexpr double same_moment_s = 0.08; // plucks of a plan are over a second apart

const TrueSound* sound_at(const SyntheticRecording& recording, double time_s)
{
    const TrueSound* best = nullptr;
    for (const auto& sound : recording.truth) {
        const double off = std::abs(sound.event.start_s - time_s);
        if (off < same_moment_s && (!best || off < std::abs(best->event.start_s - time_s))) best = &sound;
    }
    return best;
}

std::string named(StringPlace place, Position position)
{
    return fmt::format("{} {}", harp_name(place), position_name(position));
}

using Spot = std::pair<int, Position>;
Spot spot_of(StringPlace place, Position position)
{
    return {place.diatonic_index(), position};
}

enum class Sounded { at_all, as_meant };

std::set<Spot> sounded_spots(const SyntheticRecording& recording, Sounded how = Sounded::at_all)
{
    std::set<Spot> spots;
    for (const auto& sound : recording.truth)
        if (sound.event.kind == SoundKind::pluck && (how == Sounded::at_all || !sound.event.mistake))
            spots.insert(spot_of(sound.event.place, sound.event.position));
    return spots;
}

void score_readings(const WholeHarp& truth, const CheckResult& check, CheckScore& score)
{
    const auto sounded = sounded_spots(truth.recording);
    for (const auto& reading : check.readings) {
        const auto* sound = sound_at(truth.recording, reading.pluck.start_s);
        const bool pluck = sound && sound->event.kind == SoundKind::pluck;
        const bool right =
            pluck && sound->event.place == reading.place && sound->event.position == reading.position;
        if (right) continue;
        const std::string what = pluck   ? named(sound->event.place, sound->event.position)
                                 : sound ? "a noise"
                                         : "nothing new";
        score.complaints.push_back(
            fmt::format("{} reading at {:.2f} s: {} was {} ({:.2f} Hz, u {:.2f} cents, {} partials)",
                        reading.pluck.trusted() ? "WRONG" : "doubted", reading.pluck.start_s,
                        named(reading.place, reading.position), what, reading.pluck.frequency_hz,
                        reading.pluck.uncertainty_cents, reading.pluck.partials.size()));
        if (!reading.pluck.trusted()) {
            ++score.doubted_wrong;
            continue;
        }
        ++(pluck ? score.wrong_places : score.noises_read);
        if (!sounded.contains(spot_of(reading.place, reading.position))) ++score.skipped_read;
    }
}

std::string readings_of(const CheckResult& check, StringPlace place, Position position)
{
    std::string text = fmt::format(" {}", position_name(position));
    for (const auto& reading : check.readings) {
        if (reading.place != place || reading.position != position) continue;
        text += fmt::format(" {:.2f} s", reading.pluck.start_s);
        for (const Doubt doubt : reading.pluck.doubts) text += fmt::format(" ({})", doubt_name(doubt));
    }
    return text;
}

void score_steps(const WholeHarp& truth, const CheckResult& check, CheckScore& score)
{
    // A string that sounded only by mistake, in the place of another, is none that the player asked for.
    const auto sounded = sounded_spots(truth.recording, Sounded::as_meant);
    const auto& layout = truth.harp.layout;
    for (std::size_t i = 0; i < layout.strings.size(); ++i)
        for (const Step step : steps_of(layout.kind, layout.strings[i])) {
            const StringPlace place = layout.strings[i].place;
            const auto [low, high] = positions_of_step(layout.kind, step);
            const bool measurable =
                sounded.contains(spot_of(place, low)) && sounded.contains(spot_of(place, high));
            const auto found = std::find_if(check.steps.begin(), check.steps.end(), [&](const StepError& s) {
                return s.place == place && s.step == step;
            });
            const bool measured = found != check.steps.end();
            score.measurable_steps += measurable;
            score.found_steps += measurable && measured;
            score.other_steps += !measurable && measured;
            if (measurable && !measured)
                score.complaints.push_back(fmt::format("no {} step of {}:{}{}", step_name(step),
                                                       harp_name(place), readings_of(check, place, low),
                                                       readings_of(check, place, high)));
            if (!measured) continue;
            const double error = found->error_cents - true_step_error_cents(truth.harp, i, step);
            score.step_errors_cents.push_back(error);
            score.step_uncertainties_cents.push_back(found->uncertainty_cents);
            score.step_freedoms.push_back(found->degrees_of_freedom);
            if (std::abs(error) > 0.5)
                score.complaints.push_back(fmt::format("{} step of {} is {:+.2f} cents off (u {:.2f})",
                                                       step_name(step), harp_name(place), error,
                                                       found->uncertainty_cents));
        }
}

void score_missing(const WholeHarp& truth, const CheckResult& check, CheckScore& score)
{
    const auto sounded = sounded_spots(truth.recording);
    for (const auto& skipped : truth.performance.skipped) {
        const StringPlace place = truth.harp.layout.strings[skipped.string_index].place;
        if (sounded.contains(spot_of(place, skipped.position))) continue; // sounded at another turn
        const bool told =
            std::any_of(check.missing.begin(), check.missing.end(), [&](const MissingReading& missing) {
                return missing.place == place && missing.position == skipped.position;
            });
        if (told) continue;
        ++score.skipped_not_named;
        score.complaints.push_back("not named as missing: " + named(place, skipped.position));
    }
}

void untune_strings(SyntheticHarp& harp, const WholeHarpCase& settings)
{
    RandomSource random(settings.seed + 77); // other numbers than those of the harp and the player
    for (int n = 0; n < settings.untuned_strings; ++n) {
        const std::size_t string = random.below(harp.strings.size());
        const double quarter_tone_cents = random.uniform() < 0.5 ? -50.0 : 50.0;
        set_open_offset(harp, string, settings.harp_offset_cents + quarter_tone_cents);
    }
}

} // namespace

std::vector<PlannedPluck> plan_of(const HarpLayout& layout, PlayingWay way, Direction direction)
{
    switch (way) {
    case PlayingWay::pass_by_pass:
        return plan_pass_by_pass(layout, direction);
    case PlayingWay::string_by_string:
        return plan_string_by_string(layout, direction);
    case PlayingWay::pedal_by_pedal:
        return plan_pedal_by_pedal(layout, direction);
    }
    return {};
}

WholeHarp play_whole_harp(const WholeHarpCase& settings)
{
    const auto layout = make_layout(settings.layout).value();
    SyntheticHarpSettings of_harp;
    of_harp.seed = settings.seed;
    of_harp.a4 = settings.a4;
    of_harp.all_strings_cents = settings.harp_offset_cents;
    of_harp.open_offset_sd_cents = settings.open_offset_sd_cents;
    WholeHarp whole{.harp = make_synthetic_harp(layout, of_harp)};
    untune_strings(whole.harp, settings);

    PlayingSettings playing;
    playing.seed = settings.seed;
    if (settings.mishaps) {
        playing.mishaps = {.skipped = 2,
                           .repeated = 2,
                           .corrected = 1,
                           .uncorrected = 1,
                           .knocks = 3,
                           .coughs = 1,
                           .talks = 1};
        playing.second_polarisation = SecondPolarisation{};
        playing.sympathetic_db = -45.0;
    }
    whole.performance = play(whole.harp, plan_of(layout, settings.way, settings.direction), playing);
    return whole;
}

WholeHarp make_whole_harp(const WholeHarpCase& settings)
{
    WholeHarp whole = play_whole_harp(settings);
    RecordingSettings recording;
    recording.snr_db = settings.snr_db;
    recording.seed = settings.seed;
    if (settings.mishaps) recording.hum = MainsHum{};
    whole.recording = render_recording(whole.harp, whole.performance.events, recording);
    return whole;
}

HeardSounds hear(const std::vector<float>& samples, double rate_hz, std::size_t piece)
{
    PluckStream stream({.rate_hz = rate_hz});
    HeardSounds heard;
    const auto take = [&](std::vector<PluckEvent>&& events) {
        for (auto& event : events) {
            if (auto* ended = std::get_if<PluckEnded>(&event))
                heard.plucks.push_back({0, std::move(ended->measurement), std::nullopt});
            if (auto* ignored = std::get_if<SoundIgnored>(&event))
                heard.ignored.push_back({0, ignored->time.value(), ignored->reason});
        }
    };
    for (std::size_t i = 0; i < samples.size(); i += piece)
        take(stream.push(std::span{samples}.subspan(i, std::min(piece, samples.size() - i))));
    take(stream.finish());
    return heard;
}

CheckScore score_check(const WholeHarp& truth, const CheckResult& check)
{
    CheckScore score;
    score_readings(truth, check, score);
    score_steps(truth, check, score);
    score_missing(truth, check, score);
    return score;
}

CheckScore run_case(const WholeHarpCase& settings)
{
    return run_check(make_whole_harp(settings), settings.told_a4);
}

CheckScore run_check(const WholeHarp& whole, Hertz told_a4)
{
    const std::clock_t begun = std::clock();
    auto heard = hear(whole.recording.samples, whole.recording.sample_rate_hz);
    const auto check =
        assemble_check(whole.harp.layout, heard.plucks, std::move(heard.ignored), {.a4 = told_a4});
    const double work_s = static_cast<double>(std::clock() - begun) / CLOCKS_PER_SEC;
    CheckScore score = score_check(whole, check);
    score.work_s = work_s;
    score.sound_s = static_cast<double>(whole.recording.samples.size()) / whole.recording.sample_rate_hz;
    return score;
}

CheckScore sum_of(const std::vector<CheckScore>& scores)
{
    CheckScore sum;
    const auto append = [](auto& to, const auto& from) { to.insert(to.end(), from.begin(), from.end()); };
    for (const auto& score : scores) {
        sum.measurable_steps += score.measurable_steps;
        sum.found_steps += score.found_steps;
        sum.other_steps += score.other_steps;
        sum.wrong_places += score.wrong_places;
        sum.doubted_wrong += score.doubted_wrong;
        sum.skipped_read += score.skipped_read;
        sum.skipped_not_named += score.skipped_not_named;
        sum.noises_read += score.noises_read;
        append(sum.step_errors_cents, score.step_errors_cents);
        append(sum.step_uncertainties_cents, score.step_uncertainties_cents);
        append(sum.step_freedoms, score.step_freedoms);
        append(sum.complaints, score.complaints);
        sum.sound_s += score.sound_s;
        sum.work_s += score.work_s;
    }
    return sum;
}

double step_error_quantile_cents(const CheckScore& score, double share)
{
    std::vector<double> sizes;
    for (const double error : score.step_errors_cents) sizes.push_back(std::abs(error));
    if (sizes.empty()) return 0.0;
    std::sort(sizes.begin(), sizes.end());
    return sizes[std::min(sizes.size() - 1,
                          static_cast<std::size_t>(share * static_cast<double>(sizes.size())))];
}

double step_coverage(const CheckScore& score)
{
    std::size_t within = 0;
    for (std::size_t i = 0; i < score.step_errors_cents.size(); ++i)
        within += std::abs(score.step_errors_cents[i]) <=
                  stats::coverage_factor(0.95, score.step_freedoms[i]) * score.step_uncertainties_cents[i];
    return static_cast<double>(within) /
           static_cast<double>(std::max<std::size_t>(1, score.step_errors_cents.size()));
}

std::string summary_of(const CheckScore& score)
{
    std::string text = fmt::format(
        "steps {} of {} (+{}), wrong {}, doubted wrong {}, noises read {}, skipped read {}, not named {}; "
        "step error median {:.3f}, 95 % {:.3f}, max {:.2f} cents, coverage {:.2f}; {:.0f} s of sound in "
        "{:.1f} s",
        score.found_steps, score.measurable_steps, score.other_steps, score.wrong_places, score.doubted_wrong,
        score.noises_read, score.skipped_read, score.skipped_not_named, step_error_quantile_cents(score, 0.5),
        step_error_quantile_cents(score, 0.95), step_error_quantile_cents(score, 1.0), step_coverage(score),
        score.sound_s, score.work_s);
    for (const auto& complaint : score.complaints) text += "\n  " + complaint;
    return text;
}

} // namespace harpkeep::tests
