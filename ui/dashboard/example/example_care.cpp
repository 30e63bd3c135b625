// SPDX-License-Identifier: MIT
#include "ui/dashboard/example/example.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace harpkeep::dashboard::example {

namespace {

using std::chrono::days;

enum class Stuff { nylon, gut, wound };

Stuff stuff_of(StringPlace place)
{
    if (place.harp_octave() <= 1) return Stuff::nylon;
    return place.diatonic_index() <= StringPlace{Letter::G, 2}.diatonic_index() ? Stuff::wound : Stuff::gut;
}

const char* stuff_name(Stuff stuff)
{
    constexpr std::array<const char*, 3> names{"nylon", "gut", "wound"};
    return names[static_cast<std::size_t>(stuff)];
}

double octaves_below_top(StringPlace place)
{
    return (StringPlace{Letter::G, 7}.diatonic_index() - place.diatonic_index()) / 7.0;
}

double gauge_of(StringPlace place)
{
    const double gauge = 0.60 * std::exp2(0.34 * octaves_below_top(place));
    return stuff_of(place) == Stuff::wound ? 0.62 * gauge : gauge;
}

double length_of(StringPlace place)
{
    const double o = octaves_below_top(place);
    return 70.0 * std::exp2(o - 0.05 * o * o);
}

double risk_of(Stuff stuff, double age_days, int horizon_days)
{
    // Weibull lives, invented: shape 1.8, scale 2.6, 4.2 and 12 years.
    constexpr std::array<double, 3> scale_days{950.0, 1530.0, 4380.0};
    const double scale = scale_days[static_cast<std::size_t>(stuff)];
    return 1.0 - std::exp(std::pow(age_days / scale, 1.8) - std::pow((age_days + horizon_days) / scale, 1.8));
}

LifeCurve curve(const char* group, double scale_years, int strings, int breaks, const char* summary)
{
    LifeCurve out{group, {{0.0, 1.0, 1.0, 1.0}}, {}, breaks, strings, summary};
    Dice dice{static_cast<std::uint64_t>(strings)};
    const auto fitted = [&](double years) { return std::exp(-std::pow(years / scale_years, 1.8)); };
    double surviving = 1.0;
    for (int i = 1; i <= breaks; ++i) {
        const double years =
            scale_years * std::pow(-std::log(1.0 - 0.9 * (i - 0.5 * dice.even()) / breaks), 1.0 / 1.8);
        surviving = fitted(years) + 0.03 * dice.normal();
        surviving = std::clamp(surviving, 0.02, out.counted.back().surviving);
        out.counted.push_back({years, surviving, 0.0, 0.0});
    }
    for (int i = 0; i <= 60; ++i) {
        const double years = 0.1 * i;
        const double half =
            0.16 * std::sqrt(fitted(years) * (1.0 - fitted(years))) * std::sqrt(60.0 / strings);
        out.fitted.push_back({years, fitted(years), std::max(0.0, fitted(years) - 2.0 * half),
                              std::min(1.0, fitted(years) + 2.0 * half)});
    }
    return out;
}

} // namespace

StringsModel strings(int horizon_days)
{
    StringsModel model;
    model.harp = heron();
    model.horizon_days = horizon_days;
    Dice dice{77};
    for (const auto& string : layout_of_heron().strings) {
        const Stuff stuff = stuff_of(string.place);
        StringRow row{
            .place = string.place, .material = stuff_name(stuff), .gauge_mm = gauge_of(string.place)};
        row.age_days = std::round(stuff == Stuff::nylon ? 290.0 + 20.0 * dice.even()
                                  : stuff == Stuff::gut ? 200.0 + 900.0 * dice.even()
                                                        : 810.0);
        if (string.place == place_from_harp_name("1D")) {
            row.age_days = 6.0;
            row.note = "settling for about another week";
        }
        row.put_on = today_day - days{static_cast<int>(row.age_days)};
        row.put_on_about = stuff == Stuff::wound;
        row.risk = risk_of(stuff, row.age_days, horizon_days);
        row.risk_low = *row.risk * 0.7;
        row.risk_high = std::min(1.0, *row.risk * 1.45);
        row.state = *row.risk > 0.14 ? State::watch : State::fine;
        row.in_stock = static_cast<int>(3.0 * dice.even());
        if (string.place == place_from_harp_name("3B"))
            row.note = "third break at this place: a burr at a disc?";
        model.rows.push_back(row);
    }
    model.curves = {curve("nylon, octaves 0 and 1", 2.6, 96, 31, "Half of them last 2.1 years (1.8 to 2.5)."),
                    curve("gut, octaves 2 to 5", 4.2, 184, 38, "Half of them last 3.4 years (2.9 to 4.1).")};
    const auto stock = [&](const char* what, int in, int wanted, int cents) {
        const int order = std::max(0, wanted - in);
        model.stock.push_back(
            {what, in, wanted, order, fmt::format("€{}.{:02}", cents / 100, cents % 100),
             order > 0 ? fmt::format("€{}.{:02}", order * cents / 100, order * cents % 100) : std::string{}});
    };
    stock("1E nylon 0.64 mm", 2, 2, 390);
    stock("1D nylon 0.66 mm", 0, 2, 390);
    stock("2A gut 0.84 mm", 1, 2, 780);
    stock("3B gut 0.98 mm", 0, 2, 920);
    stock("4F gut 1.31 mm", 1, 1, 1240);
    stock("5C gut 1.78 mm", 1, 1, 1860);
    stock("6E wound 1.02 mm", 0, 1, 2950);
    model.order_total = "€63.50";
    model.advice = {{"3B has broken three times in two years",
                     "By chance alone this happens once in 400 harps: have the disc looked at for a burr.",
                     State::out},
                    {"Order before the winter term",
                     "Five strings are short for a 95 in 100 chance of being covered.", State::watch}};
    return model;
}

TensionModel tension(const std::optional<TryGauge>& trial)
{
    TensionModel model;
    model.harp = heron();
    constexpr std::array<double, 3> density{1100.0, 1300.0, 4200.0};
    constexpr std::array<double, 3> breaking_mpa{330.0, 350.0, 1500.0};
    const auto pull = [&](StringPlace place, double gauge_mm) {
        const double length_m = length_of(place) / 1000.0;
        const int key = 12 * (place.scientific_octave + 1) + semitones_above_c(place.letter) - 1;
        const double frequency = 440.0 * std::exp2((key - 69.0) / 12.0);
        const double area = std::numbers::pi * gauge_mm * gauge_mm / 4e6;
        return density[static_cast<std::size_t>(stuff_of(place))] * area *
               std::pow(2.0 * length_m * frequency, 2);
    };
    double total = 0.0;
    for (const auto& string : layout_of_heron().strings) {
        const Stuff stuff = stuff_of(string.place);
        TensionRow row{string.place, stuff_name(stuff), length_of(string.place), gauge_of(string.place)};
        row.tension_n = {pull(string.place, row.gauge_mm), 0.0};
        row.tension_n.uncertainty = 0.04 * row.tension_n.value;
        const double area_mm2 = std::numbers::pi * row.gauge_mm * row.gauge_mm / 4.0;
        row.stress_mpa = row.tension_n.value / (stuff == Stuff::wound ? 0.42 * area_mm2 : area_mm2);
        row.of_breaking = row.stress_mpa / breaking_mpa[static_cast<std::size_t>(stuff)];
        row.state = row.of_breaking > 0.75 ? State::out : row.of_breaking > 0.6 ? State::watch : State::fine;
        total += row.tension_n.value;
        model.rows.push_back(row);
    }
    model.total_n = {total, 0.02 * total};
    model.rests_on =
        "Lengths and gauges as entered; densities and breaking stresses from memory, to be set in the "
        "stringing plan. Wound strings by their weighed density.";
    if (trial)
        for (const auto& row : model.rows) {
            if (row.place != trial->place) continue;
            GaugeTrial out{trial->place, trial->gauge_mm, pull(trial->place, trial->gauge_mm)};
            out.tension_change_n = out.tension_n - row.tension_n.value;
            out.of_breaking = row.of_breaking;
            out.feel_ratio = out.tension_n / row.tension_n.value;
            out.advice =
                std::abs(out.feel_ratio - 1.0) > 0.15
                    ? "This changes the load on neck and soundboard: ask the maker or a technician first."
                    : "Within what neighbouring strings pull.";
            model.trial = out;
        }
    return model;
}

PedalsModel pedals(const PedalSetting& setting)
{
    PedalsModel model;
    model.harp = heron();
    model.setting = setting;
    const auto harp = today();
    const auto error = [&](const StringToday& string, Position position) {
        double cents = 0.0;
        if (position != Position::flat && string.lower.error_cents) cents += string.lower.error_cents->value;
        if (position == Position::sharp && string.upper.error_cents) cents += string.upper.error_cents->value;
        return cents;
    };
    for (const auto& string : harp.strings) {
        const Position position = setting.position(string.place.letter);
        TuneAroundRow row{string.place, position, error(string, position)};
        row.offset_cents =
            std::abs(row.before_cents) > 0.05 ? -std::round(10.0 * row.before_cents) / 10.0 : 0.0;
        row.after_cents = row.before_cents + row.offset_cents;
        row.state = std::abs(row.before_cents) > 5.0   ? State::out
                    : std::abs(row.before_cents) > 2.5 ? State::watch
                                                       : State::fine;
        model.worst_before_cents = std::max(model.worst_before_cents, std::abs(row.before_cents));
        model.worst_after_cents = std::max(model.worst_after_cents, std::abs(row.after_cents));
        model.rows.push_back(row);
    }
    int flats = 0, sharps = 0;
    for (const int alteration : setting.alterations) {
        flats += alteration < 0;
        sharps += alteration > 0;
    }
    model.sounds = flats == 7                                                ? "C-flat major"
                   : sharps == 7                                             ? "C-sharp major"
                   : flats == 3 && sharps == 0 && setting.alterations[2] < 0 ? "E-flat major"
                   : flats == 0 && sharps == 0                               ? "C major"
                                                                             : "no major key";
    model.pairs = {{"D\u266F", "E\u266D", {-3.1, 0.4}, 0.56},
                   {"E\u266F", "F\u266E", {5.9, 0.3}, 1.19},
                   {"G\u266F", "A\u266D", {1.2, 0.4}, 0.29},
                   {"B\u266F", "C\u266E", {0.8, 0.4}, 0.12}};
    const auto ready = [&](const char* key, std::array<int, 7> alterations, double worst, State state) {
        model.ready.push_back({key, {alterations}, worst, state});
    };
    constexpr int f = -1, n = 0, s = 1;
    ready("C-flat major", {f, f, f, f, f, f, f}, 0.0, State::fine);
    ready("E-flat major", {n, n, f, n, n, f, f}, 0.6, State::fine);
    ready("C major", {n, n, n, n, n, n, n}, 0.8, State::fine);
    ready("D major", {s, n, n, s, n, n, n}, 2.9, State::watch);
    ready("A major", {s, n, n, s, s, n, n}, 5.8, State::out);
    model.summary =
        "One setting can be tuned true on every string. When a piece changes pedals, tune for the list "
        "of its settings instead.";
    return model;
}

VisitsModel visits()
{
    VisitsModel model;
    model.harp = heron();
    model.today = today_day;
    using namespace std::chrono;
    const auto add = [&](int y, unsigned m, unsigned d, DiaryKind kind, const char* title, const char* detail,
                         bool due = false) {
        model.diary.push_back({fmt::format("diary-{}", model.diary.size()),
                               sys_days{year{y} / month{m} / day{d}}, kind, title, detail, due});
    };
    add(2026, 9, 7, DiaryKind::loan, "Back from loan", "second-year pupil; no marks");
    add(2026, 11, 3, DiaryKind::check, "Check", "one string, after the heating came on");
    add(2026, 11, 12, DiaryKind::string_change, "1D broke", "nylon, snapped at the disc");
    add(2026, 11, 18, DiaryKind::string_change, "1D put on", "nylon 0.66 mm");
    add(2026, 11, 22, DiaryKind::check, "Check", "137 of 139 readings trusted");
    add(2026, 11, 27, DiaryKind::reminder, "Pluck 6E again", "not heard on 22 November", true);
    add(2026, 12, 1, DiaryKind::reminder, "Measure 1D again", "should have settled", true);
    add(2026, 12, 9, DiaryKind::visit, "Technician's visit", "asked for; F pedal, 2A, 4G", true);
    add(2026, 12, 12, DiaryKind::reminder, "Winter concert", "tune for E-flat and B-flat major", true);
    add(2027, 1, 15, DiaryKind::reminder, "Change octaves 0 and 1", "every year before the spring term",
        true);
    model.visits = {{"visit-2", year{2024} / 9 / 11, "visiting technician",
                     "felts, overmotion, grip, intonation", "€310.00", 23, 1,
                     "22 of 23 steps came back within tolerance"},
                    {"visit-1", year{2022} / 9 / 14, "visiting technician", "felts, intonation", "€280.00",
                     17, 3, "4G was left for the next visit"},
                    {"visit-0", year{2020} / 10 / 2, "maker's technician", "first regulation of this owner",
                     "€295.00", std::nullopt, std::nullopt, "no checks yet in that year"}};
    model.preparation = {
        {"Strings of octaves 0 and 1 are 10 months old", "Good for the visit; do not change them now.",
         State::fine},
        {"1D needs two weeks to settle", "The visit on 9 December is three weeks after it was put on.",
         State::fine},
        {"Lay out the wires 6E and 5G", "6E is not in stock: order it or ask the technician.", State::watch},
        {"Tune the harp that morning", "Allow about three hours for the visit.", State::fine}};
    return model;
}

ClimateModel climate()
{
    ClimateModel model;
    model.place = "practice room 2";
    Dice dice{1234};
    const double last = today_day.time_since_epoch().count();
    int inside = 0, count = 0;
    for (double day = last - 360.0; day <= last; day += 0.25) {
        const double season = std::cos(2.0 * std::numbers::pi * (day - last + 300.0) / 365.25);
        const double hour = std::cos(2.0 * std::numbers::pi * (day - 0.6));
        ClimatePoint point{day, 21.0 - 1.4 * season + 0.9 * hour + 0.4 * dice.normal(),
                           44.0 - 7.0 * season - 1.6 * hour + 1.4 * dice.normal()};
        if (day > last - 25.0) point.humidity_percent -= 4.5;
        if (day > last - 90.0) {
            ++count;
            inside += point.humidity_percent >= 40.0 && point.humidity_percent <= 50.0 &&
                      point.temperature_c >= 20.0 && point.temperature_c <= 25.0;
        }
        model.points.push_back(point);
    }
    model.share_inside = static_cast<double>(inside) / count;
    model.remarks = {{"Dry since the heating came on",
                      "Humidity fell by 4 to 5 points at the end of October.", State::watch},
                     {"No cents for each percent",
                      "Neighbouring gut strings can drift in opposite directions; only this harp's own "
                      "history can tell, and it has not enough seasons yet.",
                      State::unsure}};
    return model;
}

RoomModel room(int harps)
{
    RoomModel model;
    model.school = "Larkmoor Community Music School";
    model.today = today_day;
    model.currency = "EUR";
    constexpr std::array<const char*, 20> birds{"Heron",    "Wren",      "Kestrel",   "Linnet",    "Curlew",
                                                "Dunlin",   "Siskin",    "Plover",    "Fieldfare", "Whimbrel",
                                                "Redwing",  "Sandpiper", "Goldcrest", "Bittern",   "Lapwing",
                                                "Nightjar", "Merlin",    "Avocet",    "Dotterel",  "Tern"};
    constexpr std::array<const char*, 4> kinds{"pedal, 47", "pedal, 46", "lever, 34", "lever, 29"};
    constexpr std::array<const char*, 5> rooms{"practice room 1", "practice room 2", "practice room 3",
                                               "hall", "store"};
    Dice dice{4711};
    double total = 0.0;
    for (int i = 0; i < harps; ++i) {
        RoomRow row;
        const auto bird = birds[static_cast<std::size_t>(i) % birds.size()];
        row.key = i == 0 ? "heron" : fmt::format("harp-{}", i);
        row.name = i < 20 ? std::string{bird} : fmt::format("{} {}", bird, i / 20 + 1);
        row.kind = kinds[static_cast<std::size_t>(i == 0 ? 0 : 4.0 * dice.even())];
        row.room = rooms[static_cast<std::size_t>(i == 0 ? 1 : 5.0 * dice.even())];
        if (i > 3 && dice.even() < 0.35) row.loan = "pupil, to 2027-07-31";
        const double luck = dice.even();
        row.steps_out = luck > 0.8 ? 1 + static_cast<int>(14.0 * dice.even()) : 0;
        row.state = luck > 0.8    ? State::out
                    : luck > 0.6  ? State::watch
                    : luck > 0.5  ? State::unsure
                    : luck < 0.06 ? State::not_measured
                                  : State::fine;
        if (i == 0) {
            row.state = State::out;
            row.steps_out = 7;
        }
        if (row.state != State::not_measured)
            row.checked_on = today_day - days{2 + static_cast<int>(150.0 * dice.even())};
        row.visited_on = today_day - days{30 + static_cast<int>(900.0 * dice.even())};
        if (row.state == State::out)
            row.due = "technician";
        else if (row.state == State::not_measured)
            row.due = "first check";
        else if (row.state == State::unsure)
            row.due = "pluck again";
        else if (dice.even() < 0.3)
            row.due = "strings";
        if (!row.due.empty()) row.due_on = today_day + days{static_cast<int>(60.0 * dice.even()) - 12};
        row.strings_at_risk = static_cast<int>(6.0 * dice.even() * dice.even());
        row.cost_year = std::round(40.0 + 420.0 * dice.even() * dice.even());
        row.cost_text = fmt::format("€{:.0f}", row.cost_year);
        total += row.cost_year;
        model.rows.push_back(std::move(row));
    }
    model.cost_total = fmt::format("€{:.0f}", total);
    return model;
}

} // namespace harpkeep::dashboard::example
