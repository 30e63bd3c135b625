// SPDX-License-Identifier: MIT
#include "ui/dashboard/example/example_source.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace harpkeep::dashboard {

namespace {

template <class... Ts>
struct Overloaded : Ts... {
    using Ts::operator()...;
};
template <class... Ts>
Overloaded(Ts...) -> Overloaded<Ts...>;

} // namespace

ExampleSource::ExampleSource(Start start) : start_(start), phase_(start.guided) {}
ExampleSource::ExampleSource() : ExampleSource(Start{}) {}

std::string ExampleSource::ledger_name() const
{
    return "Larkmoor Community Music School";
}

Result<std::vector<HarpChoice>> ExampleSource::harps()
{
    std::vector<HarpChoice> out;
    if (start_.harps >= 4)
        for (const auto& row : example::room(start_.harps).rows) out.push_back({row.key, row.name});
    out.insert(out.end(), changes_.added_harps.begin(), changes_.added_harps.end());
    return out;
}

bool ExampleSource::live() const
{
    const LivePhase phase = phase_;
    return tuning_ ||
           (phase != LivePhase::setting_up && phase != LivePhase::finished && phase != LivePhase::paused);
}

Result<PageModel> ExampleSource::load(Page page, const Query& query)
{
    const int tick = ticks_++;
    const auto known = harps();
    const bool room_page = page == Page::room || page == Page::settings;
    if (known->empty() && page != Page::settings) return EmptyPage{EmptyPage::Why::no_harp, {}};
    const auto found =
        std::find_if(known->begin(), known->end(), [&](const auto& harp) { return harp.key == query.harp; });
    const HarpHeading heading =
        query.harp == "heron" || found == known->end()
            ? example::heron()
            : HarpHeading{found->key, found->name, "pedal harp, 47 strings", "practice room 1"};
    const bool added = query.harp.starts_with("added-");
    const bool needs_check = page == Page::today || page == Page::history || page == Page::pedals;
    if (needs_check && (!start_.checked || added)) return EmptyPage{EmptyPage::Why::no_check, heading};
    if (added && !room_page && page != Page::guided && page != Page::tuning)
        return EmptyPage{EmptyPage::Why::no_data, heading};

    const auto of_harp = [&](auto model) -> PageModel {
        model.harp = heading;
        return model;
    };
    switch (page) {
    case Page::today:
        return of_harp(example::today());
    case Page::guided:
        return of_harp(example::guided(phase_, way_));
    case Page::tuning: {
        auto model = example::tuning(tuning_, tick / 30.0);
        model.a4_hz = a4_hz_;
        model.place_fixed = tuned_place_.has_value();
        if (tuned_place_ && tuning_) model.place = tuned_place_;
        return of_harp(model);
    }
    case Page::history:
        return of_harp(example::history(query.history, query.compare_before, query.compare_after));
    case Page::strings: {
        auto model = example::strings(query.horizon_days);
        for (auto& row : model.rows) {
            const int index = row.place.diatonic_index();
            if (changes_.broken.contains(index)) {
                row.broken = true;
                row.state = State::out;
                row.note = "broke on 2026-11-24";
                row.risk.reset();
                row.put_on.reset();
            }
            if (changes_.fresh.contains(index)) {
                row.put_on = example::today_day;
                row.age_days = 0.0;
                row.note = "settling for about two weeks";
            }
        }
        for (const auto& [what, pieces] : changes_.stock)
            for (auto& row : model.stock)
                if (row.what == what) row.in_stock += pieces;
        return of_harp(model);
    }
    case Page::tension:
        return of_harp(example::tension(query.trial));
    case Page::pedals: {
        PedalSetting flat;
        flat.alterations.fill(-1);
        return of_harp(example::pedals(query.pedals.value_or(flat)));
    }
    case Page::visits: {
        auto model = example::visits();
        model.visits.insert(model.visits.begin(), changes_.visits.begin(), changes_.visits.end());
        return of_harp(model);
    }
    case Page::climate:
        return example::climate();
    case Page::room:
        return example::room(std::max(start_.harps, 4));
    case Page::settings: {
        SettingsModel model;
        model.harp = known->empty() ? HarpHeading{} : heading;
        model.tolerance = changes_.tolerance;
        model.ledger_path = "the built-in example";
        model.ledger_text = fmt::format("{} harps; nothing you change here is kept", known->size());
        return model;
    }
    case Page::count:
        break;
    }
    return failure(ErrorCode::not_found, "opening a page that does not exist");
}

Result<Outcome> ExampleSource::told_of_live(const Action& action)
{
    const auto phase_to = [&](LivePhase phase, const char* message) -> Result<Outcome> {
        phase_ = phase;
        return Outcome{message, false, std::nullopt, std::nullopt};
    };
    return std::visit(Overloaded{[&](const StartGuided& start) {
                                     way_ = start.way;
                                     return phase_to(LivePhase::set_pedals, "");
                                 },
                                 [&](const PauseGuided&) { return phase_to(LivePhase::paused, ""); },
                                 [&](const ResumeGuided&) { return phase_to(LivePhase::listening, ""); },
                                 [&](const RepeatString&) { return phase_to(LivePhase::ask_again, ""); },
                                 [&](const SkipString&) { return phase_to(LivePhase::listening, ""); },
                                 [&](const StopGuided&) {
                                     return phase_to(LivePhase::setting_up,
                                                     "The check is kept; go on with it whenever you like.");
                                 },
                                 [&](const StartTuning&) {
                                     tuning_ = true;
                                     return Result<Outcome>{Outcome{}};
                                 },
                                 [&](const StopTuning&) {
                                     tuning_ = false;
                                     return Result<Outcome>{Outcome{}};
                                 },
                                 [&](const TunePlace& wish) {
                                     tuned_place_ = wish.place;
                                     return Result<Outcome>{Outcome{}};
                                 },
                                 [&](const SetA4& wish) {
                                     a4_hz_ = wish.a4_hz;
                                     return Result<Outcome>{Outcome{}};
                                 },
                                 [&](const auto&) -> Result<Outcome> {
                                     return failure(
                                         ErrorCode::refused,
                                         "the built-in example cannot do this; open a ledger of your "
                                         "own to do it");
                                 }},
                      action);
}

Result<Outcome> ExampleSource::perform(const Action& action, const Query&, JobContext& context)
{
    const auto changed = [&](std::string message, std::optional<Page> go_to = {}) -> Result<Outcome> {
        ++revision_;
        return Outcome{std::move(message), true, go_to, std::nullopt};
    };
    return std::visit(
        Overloaded{
            [&](const AddHarp& wish) -> Result<Outcome> {
                if (wish.name.empty())
                    return failure(ErrorCode::invalid_argument,
                                   "a harp needs a name; write one and try again");
                const auto layout = make_layout({.kind = wish.kind, .string_count = wish.string_count});
                if (!layout) return failure(layout.error());
                keep();
                const auto key = fmt::format("added-{}", changes_.added_harps.size() + 1);
                changes_.added_harps.push_back({key, wish.name});
                ++revision_;
                return Outcome{
                    fmt::format("{} is in the ledger, {} strings.", wish.name, layout->strings.size()), true,
                    Page::today, key};
            },
            [&](const StringBroke& wish) {
                keep();
                changes_.broken.insert(wish.place.diatonic_index());
                return changed(fmt::format("{} broke on {}: noted.", harp_name(wish.place), "2026-11-24"));
            },
            [&](const PutStringOn& wish) {
                keep();
                changes_.broken.erase(wish.place.diatonic_index());
                changes_.fresh.insert(wish.place.diatonic_index());
                return changed(fmt::format("A new string is on {}; it settles for about two weeks.",
                                           harp_name(wish.place)));
            },
            [&](const AddVisit& wish) {
                keep();
                changes_.visits.push_back({"added", wish.day, "visiting technician", wish.work, "",
                                           std::nullopt, std::nullopt,
                                           "check the harp to see what it brought"});
                return changed("The visit is in the ledger.");
            },
            [&](const AddToStock& wish) {
                keep();
                changes_.stock.emplace_back(wish.what, wish.pieces);
                return changed(fmt::format("{} more of {} in stock.", wish.pieces, wish.what));
            },
            [&](const SetTolerance& wish) {
                keep();
                changes_.tolerance = wish.tolerance;
                return changed("The tolerance is set for this harp.");
            },
            [&](const CheckRecordings& wish) -> Result<Outcome> {
                for (int step = 1; step <= 20 && !context.cancelled(); ++step) context.progress(step / 20.0);
                return failure(
                    ErrorCode::refused,
                    fmt::format("checking {}: the built-in example takes no recordings; open a ledger of "
                                "your own first",
                                wish.paths.empty() ? "nothing" : wish.paths.front()));
            },
            [&](const auto&) { return told_of_live(action); }},
        action);
}

Result<Outcome> ExampleSource::undo()
{
    if (undo_.empty()) return failure(ErrorCode::not_found, "there is nothing to take back");
    changes_ = undo_.back();
    undo_.pop_back();
    ++revision_;
    return Outcome{"Taken back.", false, std::nullopt, std::nullopt};
}

} // namespace harpkeep::dashboard
