// SPDX-License-Identifier: MIT
#include "ui/cli/tune_live.hpp"

#include "ui/cli/live_device.hpp"
#include "ui/cli/live_json.hpp"
#include "ui/cli/live_terminal.hpp"
#include "ui/cli/terminal/tuning_page.hpp"
#include "units/format.hpp"

#include <fmt/format.h>

namespace harpkeep::cli {

namespace {

/// Prints what a tuning session does as JSON lines.
class TuningLines : public ui::LiveTuningObserver {
  public:
    void opened(const ui::OpenDevice& open) override
    {
        print_event(
            {{"event", "listening"}, {"device", device_json(open.device)}, {"warning", open.warning}});
    }
    void trouble(const std::string& text) override
    {
        print_event({{"event", "microphone"}, {"trouble", text}});
    }
    void gap(const StreamGap& gap) override { print_event(gap_json(gap)); }
    void took_a4(Hertz a4) override { print_event({{"event", "a4"}, {"a4_hz", a4.value()}}); }
    void pitch(const TuningView& view) override { print_event(pitch_json(view)); }
    void noted(const TuningOutcome& outcome, const TuningView& view) override
    {
        if (outcome.done) print_event({{"event", "done"}, {"place", harp_name(*outcome.done)}});
        if (outcome.sunk)
            for (const StringTuning& string : *view.strings)
                if (string.place == *outcome.sunk)
                    print_event({{"event", "sunk"},
                                 {"place", harp_name(string.place)},
                                 {"by_cents", string.sank->value()}});
        if (outcome.pass_complete) print_event({{"event", "pass-complete"}, {"pass", view.pass}});
    }
};

void take_key(ui::LiveTuning& tuning, char32_t key)
{
    if (key == U'q') tuning.stop();
    if (key == U'p') tuning.begin_next_pass();
    if (key == U't') tuning.take_a4_from_tone();
    if (key == U'a') tuning.choose(std::nullopt);
    if (key == U'j') tuning.choose_neighbour(-1);
    if (key == U'k') tuning.choose_neighbour(1);
}

void draw(Canvas& page, const ui::LiveTuningView& view, const LiveTuningWords& words)
{
    std::string trouble = view.trouble;
    if (trouble.empty() && !view.device) trouble = "Opening the microphone.";
    if (trouble.empty() && view.waiting_for_tone) trouble = "Sound the A to tune to: a fork, an oboe, any A.";
    if (trouble.empty()) trouble = view.device->warning;
    draw_tuning(page, view.tuning, words.request.layout,
                {.harp_name = words.harp_name,
                 .tuned_to = fmt::format("A4 {}, {}", format_hertz(view.a4, 1), words.tuned_to),
                 .trouble = trouble,
                 .tolerance = words.request.tolerance});
}

} // namespace

Result<void> tune_live(const LiveTuningWords& words, bool json)
{
    TuningLines lines;
    const auto tuning = ui::LiveTuning::begin(words.request, words.device, {}, json ? &lines : nullptr);
    if (!tuning) return failure(tuning.error());
    attend({.key = [&](char32_t key) { take_key(**tuning, key); },
            .draw = [&](Canvas& page) { draw(page, (*tuning)->view(), words); },
            .ended = [&] { return (*tuning)->ended(); },
            .stop = [&] { (*tuning)->stop(); }},
           json);
    return (*tuning)->wait();
}

} // namespace harpkeep::cli
