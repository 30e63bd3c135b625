// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/models/climate_model.hpp"
#include "ui/dashboard/models/history_model.hpp"
#include "ui/dashboard/models/live_model.hpp"
#include "ui/dashboard/models/pedals_model.hpp"
#include "ui/dashboard/models/room_model.hpp"
#include "ui/dashboard/models/settings_model.hpp"
#include "ui/dashboard/models/strings_model.hpp"
#include "ui/dashboard/models/tension_model.hpp"
#include "ui/dashboard/models/today_model.hpp"
#include "ui/dashboard/models/visits_model.hpp"

#include <array>
#include <variant>

namespace harpkeep::dashboard {

/// The pages, in the order of the rail.
enum class Page {
    today,
    guided,
    tuning,
    history,
    strings,
    tension,
    pedals,
    visits,
    climate,
    room,
    settings,
    count
};
inline constexpr std::array<Page, static_cast<std::size_t>(Page::count)> all_pages{
    Page::today,  Page::guided, Page::tuning,  Page::history, Page::strings, Page::tension,
    Page::pedals, Page::visits, Page::climate, Page::room,    Page::settings};

/// Nothing to show yet: why, for the page to say what to do next.
struct EmptyPage {
    enum class Why { no_harp, no_check, no_plan, no_climate, no_data } why = Why::no_harp;
    HarpHeading harp;                ///< empty when there is none
    std::vector<StringPlace> places; ///< of the harp, lowest first
};

/// What a page shows; made outside the frame.
using PageModel =
    std::variant<EmptyPage, TodayModel, GuidedModel, TuningModel, HistoryModel, StringsModel, TensionModel,
                 PedalsModel, VisitsModel, ClimateModel, RoomModel, SettingsModel>;

} // namespace harpkeep::dashboard
