// SPDX-License-Identifier: MIT
#include "ui/support/demo_ledger.hpp"

#include "base/expects.hpp"
#include "db/records/checks.hpp"
#include "db/records/climate.hpp"
#include "db/records/harps.hpp"
#include "db/records/loans.hpp"
#include "db/records/notes.hpp"
#include "db/records/reminders.hpp"
#include "db/records/rooms.hpp"
#include "db/records/visits.hpp"
#include "synth/random_source.hpp"
#include "ui/support/demo_checks.hpp"
#include "ui/support/demo_strings.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <numbers>

namespace harpkeep::ui {

namespace {

constexpr const char* school = "Larkmoor Community Music School";
constexpr int harps_with_stories = 4;
constexpr int harps_with_breaks = 12;

std::uint64_t seed_of(int harp_index)
{
    return 100 + static_cast<std::uint64_t>(harp_index);
}

/// Day numbers counted back from today, oldest first.
struct Story {
    const char* name;
    LayoutRequest layout;
    int year_built;
    std::vector<int> checks_days_ago;
    std::vector<int> visits_days_ago;
};

std::vector<Story> stories()
{
    return {{"Heron",
             {.kind = HarpKind::pedal, .string_count = 47},
             2009,
             {900, 812, 725, 640, 555, 470, 432, 427, 340, 252, 165, 80, 2},
             {805, 430}},
            {"Wren",
             {.kind = HarpKind::pedal, .string_count = 40},
             1998,
             {610, 505, 402, 390, 280, 171, 44},
             {396}},
            {"Linnet", {.kind = HarpKind::lever, .string_count = 34}, 2017, {420, 230, 60}, {}},
            {"Kestrel", {.kind = HarpKind::lever, .string_count = 38}, 2021, {}, {}}};
}

std::vector<int> visit_days(const Story& story, int today)
{
    std::vector<int> days;
    for (const int ago : story.visits_days_ago) days.push_back(today - ago);
    return days;
}

/// Harps after the four: names of birds, with a number from the second round on.
Story story_of(int index, RandomSource& random)
{
    constexpr std::array<const char*, 16> birds{
        "Curlew",    "Dunlin",  "Siskin",  "Plover",   "Fieldfare", "Whimbrel", "Redwing",  "Sandpiper",
        "Goldcrest", "Bittern", "Lapwing", "Nightjar", "Merlin",    "Avocet",   "Dotterel", "Tern"};
    constexpr std::array<int, 3> pedal_sizes{47, 46, 40};
    static_assert(birds.size() % 2 == 0);
    const bool lever = index % 3 == 0;
    const auto place = static_cast<std::size_t>(index - harps_with_stories);
    Story story{birds[place % birds.size()],
                {.kind = lever ? HarpKind::lever : HarpKind::pedal,
                 .string_count = lever ? 34 : pedal_sizes[place % pedal_sizes.size()]},
                1995 + static_cast<int>(random.below(28)),
                {10 + static_cast<int>(random.below(300))},
                {}};
    story.visits_days_ago = {story.checks_days_ago[0] + 20 + static_cast<int>(random.below(300))};
    if (index < harps_with_breaks)
        story.checks_days_ago.insert(story.checks_days_ago.begin(), story.checks_days_ago[0] + 180);
    return story;
}

/// Keeps the first error and goes on with nothing after it.
class Filler {
  public:
    Filler(db::Ledger& ledger, const db::Author& author) : ledger_(ledger), author_(author) {}

    [[nodiscard]] Result<void> rooms();
    [[nodiscard]] Result<void> harp(const Story& story, int index);
    [[nodiscard]] Result<void> reminders();

  private:
    [[nodiscard]] Date days_ago(int days) const { return date_from_days(today_ - days); }
    [[nodiscard]] Result<void> checks(const HarpRecord& harp, const Story& story, std::uint64_t seed);
    [[nodiscard]] Result<void> visits(const Uuid& harp, const Story& story);
    [[nodiscard]] Result<void> whereabouts(const Uuid& harp, int index);
    [[nodiscard]] Result<void> notes();
    [[nodiscard]] Result<void> climate(const Uuid& room);

    db::Ledger& ledger_;
    const db::Author& author_;
    int today_ = days_since_epoch(local_date(author_.now));
    std::vector<Uuid> rooms_;
    Uuid heron_;
};

Result<void> Filler::rooms()
{
    for (const char* name : {"Music room 1", "Music room 2", "Music room 3", "Hall", "Store"}) {
        const auto room = db::add_room(ledger_, author_, {name, school});
        if (!room) return failure(room.error());
        rooms_.push_back(*room);
    }
    return climate(rooms_[1]);
}

/// A year of a logger that writes every six hours: dry winters, and dry since the heating came on.
Result<void> Filler::climate(const Uuid& room)
{
    RandomSource random{1234};
    ClimateSeries series{.room_id = room, .source = "logger.csv"};
    for (int hours = 365 * 24; hours > 0; hours -= 6) {
        const double days_back = hours / 24.0;
        const double day = today_ - days_back;
        const double season = std::cos(2.0 * std::numbers::pi * (day - 15.0) / 365.25); // coldest in January
        const double of_day = std::cos(2.0 * std::numbers::pi * (day - 0.6));
        const double temperature_c = 21.2 - 1.3 * season + 0.8 * of_day + 0.4 * random.normal();
        double humidity_percent = 44.5 - 5.5 * season - 1.4 * of_day + 1.3 * random.normal();
        if (days_back < 25.0) humidity_percent -= 4.0;
        series.samples.push_back({{author_.now.utc_ms - hours * 3'600'000LL, author_.now.offset_minutes},
                                  Celsius{std::round(10.0 * temperature_c) / 10.0},
                                  RelativeHumidity{std::round(10.0 * humidity_percent) / 10.0}});
    }
    const auto added = db::add_climate(ledger_, author_, series);
    return added ? Result<void>{} : failure(added.error());
}

Result<void> Filler::checks(const HarpRecord& harp, const Story& story, std::uint64_t seed)
{
    const bool heron = harp.details.name == "Heron";
    const auto regulation =
        heron ? demo_heron(today_)
              : DemoRegulation{harp.details.layout, {.visit_days = visit_days(story, today_), .seed = seed}};
    for (const int days : story.checks_days_ago) {
        CheckHeader header{.harp_id = harp.id,
                           .taken = moment_at(days_ago(days), 18, 20, author_.now.offset_minutes)};
        header.temperature = Celsius{21.0};
        header.remarks = "invented for the demonstration";
        const auto stored = db::store_check(ledger_, author_, header, regulation.check_on(today_ - days));
        if (!stored) return failure(stored.error());
    }
    return {};
}

Result<void> Filler::visits(const Uuid& harp, const Story& story)
{
    for (const int days : story.visits_days_ago) {
        Visit visit{.harp_id = harp, .visited_on = days_ago(days), .technician = "visiting technician"};
        visit.cost = Money{29500, "EUR"};
        visit.work = {{std::nullopt, std::nullopt, "felts and grip", ""},
                      {std::nullopt, Letter::D, "felt replaced", "1 felt"},
                      {std::nullopt, std::nullopt, "intonation, natural before sharp", ""}};
        const auto added = db::add_visit(ledger_, author_, visit);
        if (!added) return failure(added.error());
    }
    return {};
}

Result<void> Filler::whereabouts(const Uuid& harp, int index)
{
    const auto room = index == 0 ? 1U : static_cast<std::size_t>(index) % rooms_.size();
    const auto placed = db::place_harp(ledger_, author_, {harp, rooms_[room], days_ago(700)});
    if (!placed) return failure(placed.error());
    if (index == 0 || index % 3 != 1) return {};
    // Every third harp is out; one of them should have been back.
    const bool late = index == 7;
    const Loan loan{.harp_id = harp,
                    .borrower = index == 1 ? "a second-year pupil" : fmt::format("pupil {}", index),
                    .from = days_ago(130),
                    .until = days_ago(late ? 9 : -200 - index % 40),
                    .condition_out = "without marks"};
    if (index == 1) { // the pupil before
        const Loan earlier{.harp_id = harp,
                           .borrower = "a first-year pupil",
                           .from = days_ago(520),
                           .until = days_ago(390),
                           .condition_out = "good, cover and tuning key with it"};
        const auto was_lent = db::lend_harp(ledger_, author_, earlier);
        if (!was_lent) return failure(was_lent.error());
        const auto back = db::return_harp(ledger_, author_, harp, {{}, days_ago(392), "good; 1E missing"});
        if (!back) return failure(back.error());
    }
    const auto lent = db::lend_harp(ledger_, author_, loan);
    return lent ? Result<void>{} : failure(lent.error());
}

Result<void> Filler::harp(const Story& story, int index)
{
    HarpRecord harp;
    harp.details.name = story.name;
    const int round = index < harps_with_stories ? 0 : (index - harps_with_stories) / 16;
    if (round > 0) harp.details.name += fmt::format(" {}", round + 1);
    auto layout = make_layout(story.layout);
    if (!layout) return failure(layout.error());
    harp.details.layout = std::move(*layout);
    harp.details.year_built = story.year_built;
    harp.details.maker = "an invented workshop";
    harp.details.serial_number = fmt::format("L-{:04}", 100 + index);
    const bool pedal = story.layout.kind == HarpKind::pedal;
    harp.details.value =
        Money{pedal ? 30'000LL * story.layout.string_count : 9'000LL * story.layout.string_count, "EUR"};
    const auto id = db::add_harp(ledger_, author_, harp.details);
    if (!id) return failure(id.error());
    harp.id = *id;
    if (index == 0) heron_ = *id;
    const auto seed = seed_of(index);
    if (const auto done = whereabouts(*id, index); !done) return done;
    if (const auto done = visits(*id, story); !done) return done;
    if (const auto done = checks(harp, story, seed); !done) return done;
    const auto troubled = index == 0 ? place_from_harp_name("3B") : std::nullopt;
    return add_demo_strings(ledger_, author_, harp, today_ - 920, index < harps_with_breaks, troubled, seed);
}

/// What the owner of Heron noticed.
Result<void> Filler::notes()
{
    const Note notes[] = {
        {heron_, place_from_harp_name("3B"), days_ago(120), "broke at the disc again", {}},
        {heron_, std::nullopt, days_ago(77), "F pedal: naturals sound low in the middle of the harp", {}},
        {heron_,
         place_from_harp_name("3G"),
         days_ago(35),
         "buzzes in sharp when it is played loud, not in natural",
         {}}};
    for (const auto& note : notes) {
        const auto added = db::add_note(ledger_, author_, note);
        if (!added) return failure(added.error());
    }
    return {};
}

Result<void> Filler::reminders()
{
    if (const auto done = notes(); !done) return done;
    if (const auto done = add_demo_spares(ledger_, author_, heron_); !done) return done;
    const Reminder reminders[] = {
        {heron_, "winter concert: tune for E-flat major", DueOnDate{days_ago(-18)}},
        {heron_, "regulation", DueAfterMonths{12, CountedFrom::visit, days_ago(430)}},
        {heron_, "change octaves 0 and 1", DueAfterMonths{12, CountedFrom::done, days_ago(310)}}};
    for (const auto& reminder : reminders) {
        const auto added = db::add_reminder(ledger_, author_, reminder);
        if (!added) return failure(added.error());
    }
    return {};
}

} // namespace

DemoRegulation demo_heron(int today)
{
    const Story story = stories().front();
    DemoWear wear{.visit_days = visit_days(story, today), .seed = seed_of(0)};
    wear.worn_pedal_cents_per_year = -5.5;
    wear.faults = {{{*place_from_harp_name("2A"), Step::upper}, {today - 100, 11.0}},
                   {{*place_from_harp_name("4G"), Step::upper}, {today - 200, -8.0}}};
    return {make_layout(story.layout).value(), std::move(wear)};
}

Result<void> fill_demo_ledger(db::Ledger& ledger, const db::Author& author, int harps,
                              const DemoProgress& progress)
{
    HARPKEEP_EXPECTS(harps >= 1 && harps <= 1000);
    // An hour ago, so that whatever is done next is younger and is what undo takes back.
    db::Author filling = author;
    filling.now.utc_ms -= 3'600'000;
    Filler filler{ledger, filling};
    if (const auto done = filler.rooms(); !done) return done;
    RandomSource random{4711};
    const auto told = stories();
    for (int i = 0; i < harps; ++i) {
        if (progress && !progress(static_cast<double>(i) / harps))
            return failure(ErrorCode::refused, "making the demonstration ledger: stopped");
        const Story story = i < harps_with_stories ? told[static_cast<std::size_t>(i)] : story_of(i, random);
        if (const auto done = filler.harp(story, i); !done) return done;
    }
    return filler.reminders();
}

} // namespace harpkeep::ui
