// SPDX-License-Identifier: MIT
#pragma once

#include "harp/harp_layout.hpp"
#include "random_lives.hpp"
#include "reason/break_risk.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <random>
#include <string>
#include <vector>

/// An invented school whose strings break by a known law.
namespace harpkeep::synthetic {

struct Burr {
    std::string harp;
    StringPlace place;
    double life_factor = 0.25; ///< strings there last that much as long
};

struct SchoolPlan {
    int harps = 3;
    double years = 5.0;
    double shape = 1.6;
    double scheduled_share =
        0.2; ///< of strings that are changed on schedule instead of being left until they break
    std::optional<Burr> burr;
};

struct School {
    std::vector<ObservedString> observed; ///< until today
    std::vector<StringInUse> in_use;      ///< today
    std::vector<double> truth_scales;     ///< of the strings in use
};

inline std::string harp_named(int index)
{
    constexpr std::array names{"Heron",  "Wren",   "Kestrel", "Linnet",
                               "Plover", "Dunlin", "Siskin",  "Whimbrel"};
    return names[static_cast<std::size_t>(index) % names.size()];
}

inline std::string material_at(StringPlace place)
{
    if (place <= StringPlace{Letter::G, 2}) return "steel";
    return place.harp_octave() <= 1 ? "nylon" : "gut";
}

/// Days by which 63 % of the strings of a place have broken. Invented.
inline double scale_days(StringPlace place)
{
    constexpr std::array scales{550.0, 800.0, 1100.0, 1800.0, 3200.0, 6000.0, 40000.0, 60000.0};
    if (place <= StringPlace{Letter::G, 2}) return 40000.0;
    return scales[static_cast<std::size_t>(place.harp_octave())];
}

/// A life that lasted until `age` at least.
inline double draw_life(std::mt19937_64& random, double shape, double scale, double age)
{
    const double hazard = std::pow(age / scale, shape) - std::log(stats::random_lives::uniform(random));
    return scale * std::pow(hazard, 1.0 / shape);
}

/// How often one place breaks within `days` when the string there is `age` old.
inline int draw_breaks(std::mt19937_64& random, double shape, double scale, double age, double days)
{
    int breaks = 0;
    for (double t = draw_life(random, shape, scale, age) - age; t <= days;
         t += draw_life(random, shape, scale, 0.0))
        ++breaks;
    return breaks;
}

/// The strings that one place saw, oldest first, and the one that is on it now.
inline void watch_place(std::mt19937_64& random, const SchoolPlan& plan, const std::string& harp,
                        StringPlace place, School& school)
{
    const bool burr = plan.burr && plan.burr->harp == harp && plan.burr->place == place;
    const double scale = scale_days(place) * (burr ? plan.burr->life_factor : 1.0);
    const double today = 365.25 * plan.years;
    double age =
        900.0 * stats::random_lives::uniform(random) * std::min(1.0, scale / 900.0); // when the log began
    double entry = age, now = 0.0;
    while (true) {
        double end = draw_life(random, plan.shape, scale, age);
        bool broke = true;
        if (stats::random_lives::uniform(random) < plan.scheduled_share) {
            const double schedule = std::max(age + 1.0, 730.0);
            broke = end < schedule;
            end = std::min(end, schedule);
        }
        ObservedString string{
            .harp = harp, .place = place, .material = material_at(place), .age_at_entry_days = entry};
        if (now + end - age > today) {
            string.age_at_exit_days = age + today - now;
            if (string.age_at_exit_days > entry) school.observed.push_back(string);
            school.in_use.push_back({.harp = harp,
                                     .place = place,
                                     .material = string.material,
                                     .age_days = string.age_at_exit_days,
                                     .watched_days = string.age_at_exit_days - entry,
                                     .kind = harp_name(place) + " " + string.material});
            school.truth_scales.push_back(scale);
            return;
        }
        string.age_at_exit_days = end;
        string.broke = broke;
        if (broke && burr) string.broke_at = "disc";
        school.observed.push_back(string);
        now += end - age;
        age = entry = 0.0;
    }
}

inline School draw_school(std::mt19937_64& random, const SchoolPlan& plan = {})
{
    School school;
    const auto layout = make_layout({.string_count = 47}).value();
    for (int harp = 0; harp < plan.harps; ++harp)
        for (const auto& string : layout.strings)
            watch_place(random, plan, harp_named(harp), string.place, school);
    return school;
}

} // namespace harpkeep::synthetic
