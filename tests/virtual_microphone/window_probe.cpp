// SPDX-License-Identifier: MIT
// Drives the window on a ledger without a screen, as a hand would: to the guided check or the tuning page, listens,
// and prints what the page shows as JSON lines. usage: window_probe check|tune FACTOR --ledger FILE --json
#include "tests/ui/driver.hpp"
#include "ui/dashboard/ledger/ledger_source.hpp"
#include "ui/support/clock.hpp"

#include <nlohmann/json.hpp>

#include <chrono>
#include <iostream>
#include <thread>

using namespace harpkeep;
using namespace harpkeep::dashboard;

namespace {

constexpr int patience_s = 120; // a busy machine

void print(const nlohmann::json& line)
{
    std::cout << line.dump() << std::endl;
}

void pass_time(Driver& driver)
{
    driver.frames(1);
    std::this_thread::sleep_for(std::chrono::milliseconds{10});
}

/// Frames until the condition holds. False when patience ends.
template <class Condition>
bool wait_for(Driver& driver, Condition condition)
{
    const auto end = std::chrono::steady_clock::now() + std::chrono::seconds{patience_s};
    while (!condition()) {
        if (std::chrono::steady_clock::now() > end) return false;
        pass_time(driver);
    }
    return true;
}

template <class Model>
const Model* shown(const Driver& driver, Page page)
{
    const auto* model = driver.app->model(page);
    return model == nullptr ? nullptr : std::get_if<Model>(model);
}

int check(Driver& driver)
{
    driver.go(Page::guided);
    if (!wait_for(driver, [&] {
            const auto* guided = shown<GuidedModel>(driver, Page::guided);
            return guided != nullptr && !guided->devices.empty();
        }))
        return 3;
    for (const auto& device : shown<GuidedModel>(driver, Page::guided)->devices)
        print({{"event", "device"}, {"name", device.name}, {"fit", device.fit_for_measurement}});
    if (!driver.click("guided.begin")) return 4;
    std::optional<LivePhase> last;
    int done = -1;
    const bool ended = wait_for(driver, [&] {
        const auto* guided = shown<GuidedModel>(driver, Page::guided);
        if (guided == nullptr) return false;
        if (last != guided->phase || done != guided->done)
            print({{"event", "page"},
                   {"phase", static_cast<int>(guided->phase)},
                   {"place", harp_name(guided->place)},
                   {"instruction", guided->instruction},
                   {"done", guided->done},
                   {"recent", guided->recent.size()}});
        last = guided->phase;
        done = guided->done;
        return guided->phase == LivePhase::finished || guided->phase == LivePhase::device_lost;
    });
    if (!ended) return 5;
    driver.click(last == LivePhase::finished ? "guided.see_result" : "guided.stop");
    if (!wait_for(driver, [&] { return driver.app->idle() && !driver.app->live(); })) return 6;
    driver.go(Page::today);
    driver.frames(5);
    const auto* today = shown<TodayModel>(driver, Page::today);
    int steps = 0;
    if (today != nullptr)
        for (const auto& string : today->strings)
            steps += string.lower.error_cents.has_value() + string.upper.error_cents.has_value();
    print({{"event", "today"}, {"steps", steps}});
    for (const auto& message : driver.app->messages().all())
        print({{"event", "message"}, {"text", message.text}});
    return 0;
}

int tune(Driver& driver)
{
    driver.go(Page::tuning);
    if (!driver.click("tuning.start")) return 4;
    std::optional<StringPlace> last;
    bool lost = false;
    int pitches = 0;
    const bool ended = wait_for(driver, [&] {
        const auto* tuning = shown<TuningModel>(driver, Page::tuning);
        if (tuning == nullptr) return false;
        pitches += tuning->off_cents.has_value();
        if (tuning->place && tuning->off_cents && last != tuning->place) {
            last = tuning->place;
            print({{"event", "string"}, {"place", harp_name(*last)}, {"off_cents", tuning->off_cents->value}});
        }
        lost = tuning->device_lost;
        return lost;
    });
    if (!ended) return 5;
    driver.click("tuning.stop");
    if (!wait_for(driver, [&] { return driver.app->idle() && !driver.app->live(); })) return 6;
    print({{"event", "stopped"}, {"pitches", pitches}});
    return 0;
}

} // namespace

int main(int argc, char** argv)
{
    if (argc < 5) return 2;
    auto source = LedgerSource::open(argv[4], ui::author);
    if (!source) {
        std::cerr << source.error().message << '\n';
        return 2;
    }
    std::dynamic_pointer_cast<LedgerSource>(*source)->live_pages().set_clock_factor(std::strtod(argv[2], nullptr));
    Driver driver{{.source = *source}};
    return std::string_view{argv[1]} == "check" ? check(driver) : tune(driver);
}
