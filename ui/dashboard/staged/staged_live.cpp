// SPDX-License-Identifier: MIT
#include "ui/dashboard/staged/staged_live.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep::dashboard::staged {

namespace {

const char* instruction_for(LivePhase phase)
{
    switch (phase) {
    case LivePhase::setting_up:
        return "";
    case LivePhase::opening:
        return "Opening the microphone.";
    case LivePhase::judging_room:
        return "Be silent for three seconds: the room is listened to.";
    case LivePhase::set_pedals:
        return "Move every pedal to natural, the middle notch, then pluck 4C.";
    case LivePhase::listening:
        return "Pluck 4C once and let it ring.";
    case LivePhase::hearing:
        return "Let it ring.";
    case LivePhase::accepted:
        return "Good. Next: 4D.";
    case LivePhase::ask_again:
        return "Pluck 4C again, a little softer.";
    case LivePhase::paused:
        return "Paused. Press the space bar to go on.";
    case LivePhase::device_lost:
        return "The microphone has gone. Plug it in again; the check goes on by itself.";
    case LivePhase::finished:
        return "All strings are done.";
    }
    return "";
}

} // namespace

GuidedModel guided(LivePhase phase, Way way)
{
    GuidedModel model;
    model.phase = phase;
    model.way = way;
    model.devices = {{"Room microphone", "ALSA", true, "Its samples come at the clock of the sound card."},
                     {"Laptop microphone", "ALSA", true, "Its samples come at the clock of the sound card."},
                     {"default", "ALSA", false, "It may resample, which moves the pitch by about a cent."}};
    model.device = 0;
    if (phase != LivePhase::setting_up) model.room = RoomSound{-24.0, -71.0, State::fine, "Quiet enough."};
    model.place = {Letter::C, 4};
    model.position = Position::natural;
    model.instruction = instruction_for(phase);
    if (phase == LivePhase::ask_again) model.reason = "The pitch was still sinking at the end of the tone.";
    if (phase == LivePhase::set_pedals)
        model.reason = "4B sounded a semitone low: the B pedal is still in flat.";
    model.pedals.alterations.fill(0);
    if (phase == LivePhase::hearing || phase == LivePhase::accepted) model.heard_cents = Figure{1.8, 0.25};
    const auto layout = make_layout({}).value(); // 47 strings
    const int here = model.place.diatonic_index();
    for (const auto& string : layout.strings) {
        GuidedString out{string.place, {}};
        const bool passed = string.place.diatonic_index() < here;
        out.positions[0] = ReadingProgress::done;
        out.positions[1] = string.has_natural_disc ? passed ? ReadingProgress::done : ReadingProgress::open
                                                   : ReadingProgress::no_position;
        out.positions[2] = string.has_sharp_disc ? ReadingProgress::open : ReadingProgress::no_position;
        if (string.place == StringPlace{Letter::G, 2}) out.positions[0] = ReadingProgress::doubtful;
        if (phase == LivePhase::finished)
            for (auto& progress : out.positions)
                if (progress == ReadingProgress::open) progress = ReadingProgress::done;
        for (const auto progress : out.positions) {
            model.total += progress != ReadingProgress::no_position;
            model.done += progress == ReadingProgress::done;
        }
        model.strings.push_back(out);
    }
    if (phase == LivePhase::finished) model.done = model.total;
    model.seconds_left = 3.1 * (model.total - model.done);
    model.recent = {{{Letter::B, 3}, Position::natural, {-0.9, 0.2}, true, State::fine},
                    {{Letter::A, 3}, Position::natural, {2.7, 0.3}, true, State::watch},
                    {{Letter::G, 3}, Position::natural, {0.4, 0.2}, true, State::fine},
                    {{Letter::F, 3}, Position::natural, {-5.9, 0.2}, true, State::out}};
    return model;
}

TuningModel tuning(bool listening, double moment_s)
{
    TuningModel model;
    model.listening = listening;
    model.temperament = "equal";
    model.tuned_in = "all pedals up";
    model.pass = listening ? 2 : 1;
    const auto layout = make_layout({}).value(); // 47 strings
    const StringPlace now{Letter::A, 4};
    for (const auto& string : layout.strings) {
        TuningString out{string.place};
        const int index = string.place.diatonic_index();
        if (listening && index < now.diatonic_index()) {
            out.mark = index % 11 == 3 ? TuningMark::sank : TuningMark::done;
            out.last_cents = Figure{out.mark == TuningMark::sank ? -3.4 : 0.2, 0.2};
        }
        if (string.place.letter == Letter::F) out.target_offset_cents = 2.8;
        model.strings.push_back(out);
    }
    if (!listening) return model;
    model.place = now;
    model.off_cents = Figure{-6.4 * std::exp(-0.4 * moment_s) + 0.1 * std::sin(3.0 * moment_s), 0.3};
    model.instruction = std::abs(model.off_cents->value) < model.good_within_cents
                            ? "True."
                            : "Too low.";
    return model;
}

} // namespace harpkeep::dashboard::staged
