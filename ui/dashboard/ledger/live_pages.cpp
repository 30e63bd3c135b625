// SPDX-License-Identifier: MIT
#include "ui/dashboard/ledger/live_pages.hpp"

#include "db/records/checks.hpp"
#include "db/records/open_checks.hpp"
#include "harp/temperament.hpp"
#include "ui/dashboard/ledger/ledger_pedals.hpp"
#include "ui/dashboard/text.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace harpkeep::dashboard {

namespace {

constexpr std::size_t most_recent = 4;

Result<CheckPlanRequest> plan_request(Way way, const LivePages::Facts& facts)
{
    CheckPlanRequest request;
    switch (way) {
    case Way::pass_by_pass:
        request.way = CheckWay::pass_by_pass;
        break;
    case Way::string_by_string:
        request.way = CheckWay::string_by_string;
        break;
    case Way::pedal_by_pedal:
        request.way = CheckWay::pedal_by_pedal;
        break;
    case Way::doubtful_only: {
        request.way = CheckWay::some_strings;
        auto strings = ui::doubtful_strings(facts.ledger, facts.harp);
        if (!strings) return failure(strings.error());
        if (strings->empty()) return failure(ErrorCode::refused, text::no_doubtful_strings);
        request.strings = std::move(*strings);
        break;
    }
    }
    return request;
}

/// Offsets of the open strings that make the chosen pedal setting as true as it can be.
Result<std::vector<StringOffset>> offsets_around(const LivePages::Facts& facts)
{
    const auto check = db::latest_check(facts.ledger, facts.harp.id);
    if (!check) return failure(check.error());
    if (!*check || !facts.query.pedals) return failure(ErrorCode::not_found, text::no_setting_to_tune_around);
    std::vector<StringOffset> offsets;
    for (const auto& row : pedals_from(facts.harp, **check, *facts.query.pedals, facts.tolerance).rows)
        if (row.offset_cents != 0.0) offsets.push_back({row.place, Cents{row.offset_cents}});
    return offsets;
}

Result<TuningRequest> tuning_request(const StartTuning& wish, const LivePages::Facts& facts)
{
    TuningRequest request{.a4 = Hertz{facts.query.a4_hz}};
    request.tuned_in = wish.naturals ? TunedIn::naturals : TunedIn::open;
    const Temperament* temperament = find_temperament(wish.temperament);
    if (temperament == nullptr)
        return failure(ErrorCode::invalid_argument,
                       fmt::format(text::no_temperament_format, wish.temperament));
    request.temperament = [deviations = deviations_cents(*temperament)](int key) {
        return Cents{deviations[static_cast<std::size_t>(((key % 12) + 12) % 12)]};
    };
    if (!wish.around) return request;
    auto offsets = offsets_around(facts);
    if (!offsets) return failure(offsets.error());
    request.offsets = std::move(*offsets);
    return request;
}

} // namespace

ui::DeviceChoice LivePages::choice_of(const std::string& device) const
{
    ui::DeviceChoice choice;
    choice.wish.name = device;
    choice.clock_factor = clock_factor_;
    return choice;
}

GuidedModel LivePages::set_up(const Facts& facts)
{
    GuidedModel model;
    model.kind = facts.harp.details.layout.kind;
    model.ended = ended_;
    const auto devices = devices_();
    if (!devices)
        model.device_trouble = devices.error().message;
    else
        for (const auto& device : *devices) {
            const bool fit = fit_for_measurement(device.path);
            if (fit && model.device < 0) model.device = static_cast<int>(model.devices.size());
            model.devices.push_back(
                {device.name, device.host_api, fit, std::string{path_advice(device.path)}});
        }
    const auto open = db::open_checks_of(facts.ledger, facts.harp.id);
    if (!open)
        model.device_trouble = open.error().message;
    else if (!open->empty())
        model.stopped = fmt::format(text::stopped_check_format, iso_date(local_date(open->front().begun)),
                                    open->front().state.readings.size());
    return model;
}

Result<PageModel> LivePages::guided(const Facts& facts)
{
    if (check_ && check_->ended() && check_->harp().id == facts.harp.id)
        if (const auto done = take_end(); !done) ended_ = done.error().message;
    if (!check_ || check_->harp().id != facts.harp.id) return PageModel{set_up(facts)};
    const auto view = check_->view();
    const auto& layout = check_->harp().details.layout;
    const std::size_t readings = view.state ? view.state->readings.size() : 0;
    if (readings != recent_for_ && view.state) {
        recent_ = recent_readings(layout, *view.state, facts.tolerance, most_recent);
        recent_for_ = readings;
    }
    return PageModel{guided_from(layout, view, recent_)};
}

/// A complete check is stored at once; one that was stopped or lost its device waits to be gone on with.
Result<void> LivePages::take_end()
{
    live_ = tuning_ != nullptr;
    const auto ended = check_->wait();
    if (check_->complete()) {
        if (stored_) return {};
        stored_ = true; // asked once: a second try would store it twice
        const auto check = check_->store();
        if (!check) return failure(check.error());
        return ended;
    }
    check_.reset();
    return ended;
}

Result<Outcome> LivePages::start(const StartGuided& wish, const Facts& facts, const db::Author& author)
{
    if (check_ || tuning_) {
        if (const auto stopped = stop_check(); !stopped) return failure(stopped.error());
        if (const auto stopped = stop_tuning(); !stopped) return failure(stopped.error());
    }
    auto plan = plan_request(wish.way, facts);
    if (!plan) return failure(plan.error());
    auto ledger = db::Ledger::open(facts.ledger.path(), db::Access::write, author.now);
    if (!ledger) return failure(ledger.error());
    ui::LiveCheckRequest request{.plan = std::move(*plan), .a4 = Hertz{facts.query.a4_hz}, .anew = wish.anew};
    auto check = ui::LiveCheck::begin(std::move(*ledger), facts.harp, request, choice_of(wish.device));
    if (!check) return failure(check.error());
    check_ = std::move(*check);
    stored_ = false;
    ended_.clear();
    recent_.clear();
    recent_for_ = 0;
    live_ = true;
    return Outcome{check_->resumed() ? text::check_resumed : "", false, std::nullopt, std::nullopt};
}

Result<Outcome> LivePages::start(const StartTuning& wish, const Facts& facts)
{
    if (check_)
        if (const auto stopped = stop_check(); !stopped) return failure(stopped.error());
    if (const auto stopped = stop_tuning(); !stopped) return failure(stopped.error());
    auto tuning = tuning_request(wish, facts);
    if (!tuning) return failure(tuning.error());
    tuning_request_ = {.layout = facts.harp.details.layout, .tuning = std::move(*tuning)};
    auto begun = ui::LiveTuning::begin(tuning_request_, choice_of(wish.device));
    if (!begun) return failure(begun.error());
    tuning_ = std::move(*begun);
    tuned_in_ = wish.naturals                                       ? text::tuned_in_naturals
                : facts.harp.details.layout.kind == HarpKind::lever ? text::tuned_in_levers
                                                                    : text::tuned_in_open;
    if (wish.around) tuned_in_ += text::tuned_around;
    temperament_ = find_temperament(wish.temperament)->title;
    live_ = true;
    return Outcome{};
}

Result<PageModel> LivePages::tuning(const Facts& facts)
{
    if (tuning_ && tuning_->ended()) {
        // A device that could not be opened: told once, where it was asked for.
        const auto ended = tuning_->wait();
        tuning_.reset();
        live_ = check_ != nullptr && !check_->ended();
        if (!ended) return failure(ended.error());
    }
    TuningModel model;
    if (tuning_)
        model = tuning_from(tuning_request_.layout, tuning_->view(), tuning_request_);
    else
        model = tuning_before(facts.harp.details.layout, {.a4 = Hertz{facts.query.a4_hz}});
    model.tuned_in = tuned_in_;
    model.temperament = temperament_;
    model.can_tune_around =
        facts.query.pedals.has_value() && facts.harp.details.layout.kind == HarpKind::pedal;
    for (const auto& temperament : all_temperaments())
        model.temperaments.push_back({std::string{temperament.name}, std::string{temperament.title}});
    return PageModel{std::move(model)};
}

Result<Outcome> LivePages::stop_check()
{
    if (!check_) return Outcome{};
    const bool was_complete = check_->ended() && check_->complete();
    check_->stop();
    const auto ended = check_->wait();
    const bool complete = check_->complete();
    if (complete && !stored_) {
        stored_ = true;
        if (const auto stored = check_->store(); !stored) return failure(stored.error());
    }
    check_.reset();
    live_ = tuning_ != nullptr;
    if (!ended) return failure(ended.error());
    if (was_complete) return Outcome{};
    return Outcome{complete ? text::check_stored : text::check_waits, false, std::nullopt, std::nullopt};
}

Result<Outcome> LivePages::stop_tuning()
{
    if (!tuning_) return Outcome{};
    tuning_->stop();
    const auto ended = tuning_->wait();
    tuning_.reset();
    live_ = check_ != nullptr && !check_->ended();
    if (!ended) return failure(ended.error());
    return Outcome{};
}

Result<Outcome> LivePages::tell(const Action& action)
{
    if (std::holds_alternative<StopGuided>(action)) return stop_check();
    if (std::holds_alternative<StopTuning>(action)) return stop_tuning();
    if (check_) {
        if (std::holds_alternative<PauseGuided>(action)) check_->pause(true);
        if (std::holds_alternative<ResumeGuided>(action)) check_->pause(false);
        if (std::holds_alternative<RepeatString>(action)) check_->take_back();
        if (std::holds_alternative<SkipString>(action)) check_->leave_part();
    }
    if (tuning_) {
        if (const auto* tune = std::get_if<TunePlace>(&action)) tuning_->choose(tune->place);
        if (std::holds_alternative<NextTuningPass>(action)) tuning_->begin_next_pass();
        if (std::holds_alternative<TakeA4FromTone>(action)) tuning_->take_a4_from_tone();
    }
    return Outcome{};
}

} // namespace harpkeep::dashboard
