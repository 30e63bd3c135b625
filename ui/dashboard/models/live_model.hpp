// SPDX-License-Identifier: MIT
#pragma once

#include "harp/pedal_setting.hpp"
#include "ui/dashboard/models/common.hpp"

#include <array>
#include <vector>

namespace harpkeep::dashboard {

/// Order in which a guided check goes through the harp.
enum class Way { pass_by_pass, string_by_string, pedal_by_pedal, doubtful_only };
inline constexpr std::array<Way, 4> all_ways{Way::pass_by_pass, Way::string_by_string, Way::pedal_by_pedal,
                                             Way::doubtful_only};

/// What a live session is doing.
enum class LivePhase {
    setting_up,   ///< device and way are chosen
    opening,      ///< the device is being opened
    judging_room, ///< be silent: the room is listened to
    set_pedals,   ///< waits until the pedals are where they should be
    listening,    ///< waits for the string
    hearing,      ///< the string sounds and is being measured
    accepted,     ///< measured; the next follows
    ask_again,    ///< not to be trusted: the reason is given
    paused,
    device_lost,
    finished
};

struct ListedDevice {
    std::string name;
    std::string host;
    bool fit_for_measurement = true; ///< false: it resamples, which moves the pitch
    std::string advice;              ///< what that means
};

/// How the room sounds before a check starts.
struct RoomSound {
    double level_db = -60.0;
    double noise_db = -80.0;
    State state = State::not_measured;
    std::string advice;
};

enum class ReadingProgress { open, done, doubtful, no_position };

struct GuidedString {
    StringPlace place;
    std::array<ReadingProgress, 3> positions{}; ///< flat, natural, sharp or open, engaged
};

struct AcceptedReading {
    StringPlace place;
    Position position = Position::flat;
    Figure step_cents; ///< error of the step it closes
    bool closes_step = false;
    State state = State::fine;
};

struct GuidedModel {
    HarpHeading harp;
    HarpKind kind = HarpKind::pedal;
    LivePhase phase = LivePhase::setting_up;
    std::vector<ListedDevice> devices;
    int device = -1;               ///< index into devices
    std::string device_trouble;    ///< why the devices cannot be listed
    std::string stopped;           ///< a check that can be gone on with; empty: none
    std::string ended;             ///< how the last one ended, when badly
    std::optional<RoomSound> room; ///< once it was listened to
    Way way = Way::pass_by_pass;
    StringPlace place;
    Position position = Position::flat;
    std::string instruction;           ///< one sentence to act on
    std::string reason;                ///< why again, or what was noticed
    PedalSetting pedals;               ///< to be set now
    std::optional<Figure> heard_cents; ///< of the sounding string from its expected pitch,
    bool heard_is_step = false;        ///< or of its step from whole semitones
    int done = 0;
    int total = 0;
    std::optional<double> seconds_left;
    std::vector<GuidedString> strings;
    std::vector<AcceptedReading> recent; ///< newest first
};

enum class TuningMark { open, done, sank };

struct TuningString {
    StringPlace place;
    TuningMark mark = TuningMark::open;
    double target_offset_cents = 0.0; ///< from equal temperament
    std::optional<Figure> last_cents; ///< where it was left, from its target
};

struct TuningModel {
    HarpHeading harp;
    HarpKind kind = HarpKind::pedal;
    bool listening = false;
    bool device_lost = false;
    double a4_hz = 440.0;
    std::string temperament; ///< "equal"
    struct Named {
        std::string name; ///< for commands
        std::string title;
    };
    std::vector<Named> temperaments; ///< that can be chosen
    bool can_tune_around = false;    ///< a pedal setting was chosen
    std::string tuned_in;            ///< "all pedals up (C-flat major)"
    int pass = 1;
    std::optional<StringPlace> place; ///< the string that sounds or was chosen
    bool place_fixed = false;         ///< chosen by hand, not the nearest
    std::optional<Figure> off_cents;  ///< from the target; nothing while silent
    double good_within_cents = 1.0;
    std::string instruction;
    std::vector<TuningString> strings; ///< lowest first
};

} // namespace harpkeep::dashboard
