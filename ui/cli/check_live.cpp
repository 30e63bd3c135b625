// SPDX-License-Identifier: MIT
#include "ui/cli/check_live.hpp"

#include "ui/cli/check_output.hpp"
#include "ui/cli/ledger_access.hpp"
#include "ui/cli/live_device.hpp"
#include "ui/cli/live_json.hpp"
#include "ui/cli/live_terminal.hpp"
#include "ui/cli/terminal/check_page.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace harpkeep::cli {

namespace {

constexpr std::size_t advice_until = 10; // readings: then the player has seen it

/// Prints what a live check does as JSON lines.
class CheckLines : public ui::LiveCheckObserver {
  public:
    explicit CheckLines(HarpKind kind) : kind_(kind) {}

    void opened(const ui::OpenDevice& open) override
    {
        print_event(
            {{"event", "listening"}, {"device", device_json(open.device)}, {"warning", open.warning}});
    }
    void judged_room(const RoomReport& report) override { print_event(room_json(report)); }
    void trouble(const std::string& text) override
    {
        print_event({{"event", "microphone"}, {"trouble", text}});
    }
    void gap(const StreamGap& gap) override { print_event(gap_json(gap)); }
    void went_on(const GuidedCheckOutcome& outcome, const GuidedCheckView& view, bool sounding) override
    {
        if (sounding && view.heard) print_event(heard_json(*view.heard));
        for (const KeptReading& kept : outcome.kept) print_event(kept_json(kept));
        for (const CheckNotice& notice : outcome.notices) print_event(notice_json(notice, kind_));
        const auto next = next_json(view);
        if (next == last_next_) return;
        last_next_ = next;
        print_event(next);
    }

  private:
    HarpKind kind_;
    nlohmann::json last_next_;
};

void take_key(ui::LiveCheck& check, bool& paused, char32_t key)
{
    switch (key) {
    case U' ':
    case U'p':
        paused = !paused;
        check.pause(paused);
        break;
    case U'u':
        check.take_back();
        break;
    case U'n':
        check.leave_part();
        break;
    case U'q':
        check.stop();
        break;
    default:
        break;
    }
}

/// What is the matter with the microphone, or what the program is doing before the first pluck.
std::string trouble_of(const ui::LiveCheckView& view)
{
    if (!view.trouble.empty()) return view.trouble;
    if (!view.device) return "Opening the microphone.";
    if (view.judging_room)
        return "Please be silent for a moment: the room is being judged. A pluck ends that.";
    return "";
}

std::string advice_of(const ui::LiveCheckView& view)
{
    std::string advice;
    if (view.room && view.check.done < advice_until)
        for (const RoomProblem problem : view.room->problems)
            advice += fmt::format("{}{}", advice.empty() ? "" : " ", problem_advice(problem));
    if (view.device && advice.empty()) advice = view.device->warning;
    if (advice.empty() && view.lost_frames > 0)
        advice =
            fmt::format("{} samples were lost: the computer is busy, or the cable loose.", view.lost_frames);
    return advice;
}

void draw_live_check(Canvas& page, const ui::LiveCheckView& view, const HarpDetails& harp)
{
    draw_check(page, view.check, harp.layout,
               {.harp_name = harp.name,
                .trouble = trouble_of(view),
                .advice = advice_of(view),
                .level = view.level});
}

void attend_check(ui::LiveCheck& check, const HarpDetails& harp, bool json)
{
    bool paused = false;
    attend({.key = [&](char32_t key) { take_key(check, paused, key); },
            .draw = [&](Canvas& page) { draw_live_check(page, check.view(), harp); },
            .ended = [&] { return check.ended(); },
            .stop = [&] { check.stop(); }},
           json);
}

void print_result(const Common& common, const HarpDetails& harp, const CheckResult& result,
                  const std::vector<std::string>& recordings)
{
    if (!common.json) {
        print_check(harp.name, harp.layout, result, recordings);
        return;
    }
    auto line = json_of_check(harp.name, result, recordings);
    line["event"] = "check";
    print_event(line);
}

void say_how_to_go_on(const std::string& harp_name, const GuidedCheckView& view)
{
    fmt::print("{} of {} are kept. Go on at any time with\n    harpkeep check --live --harp \"{}\"\n"
               "or store what is there with --finish.\n",
               view.done, view.total, harp_name);
}

Result<void> finish_stopped(const Common& common, LedgerAndHarp place)
{
    const HarpDetails details = place.harp.details;
    auto keeper = ui::CheckKeeper::take_up(std::move(place.ledger), std::move(place.harp));
    if (!keeper) return failure(keeper.error());
    const auto result = keeper->store(keeper->take_check(), {});
    if (!result) return failure(result.error());
    print_result(common, details, *result, keeper->recordings());
    return {};
}

} // namespace

void add_live_check_options(CLI::App& command, LiveCheckWords& words)
{
    add_device_options(command, words.device);
    command
        .add_option("--way", words.way,
                    "order of a live check: pass-by-pass, string-by-string, pedal-by-pedal, doubtful (the "
                    "strings that "
                    "the last check left in doubt), strings, pedal, octave")
        ->capture_default_str();
    command.add_option("--pedal", words.pedal, "the one pedal to check (way pedal): D C B E F G A");
    command.add_option("--octave", words.octave, "the one harp octave to check (way octave): 0 to 7");
    command.add_option("--strings", words.strings, "the strings to check (way strings), for example 4C 3F");
    command.add_flag("--from-top", words.from_top, "begin with the highest string");
    command
        .add_option("--closing", words.closing_strings,
                    "strings sounded again at the end, to see the harp drift")
        ->check(CLI::Range(0, 12))
        ->capture_default_str();
    command
        .add_option("--room", words.room_s,
                    "seconds of silence to judge the room by; the first pluck ends them")
        ->check(CLI::Range(0.0, 60.0))
        ->capture_default_str();
    command.add_option("--record", words.record_path,
                       "keep the sound in this file (.flac), to be analysed again");
    command.add_flag("--anew", words.anew,
                     "begin anew instead of going on with a live check that was stopped");
    command.add_flag("--finish", words.finish, "store a live check that was stopped, as far as it went");
}

Result<CheckPlanRequest> plan_request_from(const LiveCheckWords& words, const db::Ledger& ledger,
                                           const HarpRecord& harp)
{
    CheckPlanRequest request{.from_top = words.from_top, .closing_strings = words.closing_strings};
    if (words.way == "doubtful") {
        auto strings = ui::doubtful_strings(ledger, harp);
        if (!strings) return failure(strings.error());
        request.way = CheckWay::some_strings;
        request.strings = std::move(*strings);
        return request;
    }
    const auto way = way_from_name(words.way);
    if (!way)
        return failure(ErrorCode::invalid_argument,
                       fmt::format("\"{}\" is no way through a harp; choose pass-by-pass, string-by-string, "
                                   "pedal-by-pedal, doubtful, strings, pedal or octave",
                                   words.way));
    request.way = *way;
    if (!words.pedal.empty()) {
        request.letter = words.pedal.size() == 1 ? letter_from_name(words.pedal.front()) : std::nullopt;
        if (!request.letter)
            return failure(ErrorCode::invalid_argument,
                           fmt::format("\"{}\" is no pedal; give one of D C B E F G A", words.pedal));
    }
    if (words.octave >= 0) request.harp_octave = words.octave;
    for (const std::string& name : words.strings) {
        const auto place = place_from_harp_name(name);
        if (!place)
            return failure(ErrorCode::invalid_argument,
                           fmt::format("\"{}\" is no string; write octave and letter, for example 4C", name));
        request.strings.push_back(*place);
    }
    return request;
}

Result<void> check_live(const Common& common, const std::string& harp_name, Hertz a4, bool no_store,
                        const LiveCheckWords& words)
{
    auto place = open_harp(common, no_store ? db::Access::read : db::Access::write, harp_name);
    if (!place) return failure(place.error());
    if (words.finish) return finish_stopped(common, std::move(*place));
    const auto plan = plan_request_from(words, place->ledger, place->harp);
    if (!plan) return failure(plan.error());

    const HarpDetails harp = place->harp.details;
    CheckLines lines{harp.layout.kind};
    auto check = ui::LiveCheck::begin(std::move(place->ledger), std::move(place->harp),
                                      {.plan = *plan,
                                       .a4 = a4,
                                       .anew = words.anew,
                                       .store = !no_store,
                                       .record_path = words.record_path,
                                       .room = Seconds{words.room_s}},
                                      words.device, {}, common.json ? &lines : nullptr);
    if (!check) return failure(check.error());
    attend_check(**check, harp, common.json);
    if (auto went = (*check)->wait(); !went) return went;
    if (!(*check)->complete()) {
        if (!common.json && !no_store) say_how_to_go_on(harp.name, (*check)->view().check);
        return {};
    }
    const auto result = (*check)->store();
    if (!result) return failure(result.error());
    print_result(common, harp, *result, (*check)->recordings());
    return {};
}

} // namespace harpkeep::cli
