// SPDX-License-Identifier: MIT
#include "report/report_words.hpp"

#include "reason/string_history.hpp"
#include "reason/words.hpp"
#include "stats/quantiles.hpp"
#include "units/format.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace harpkeep::report {

std::string harp_subtitle(const HarpDetails& harp)
{
    const auto& layout = harp.layout;
    std::string text = layout.kind == HarpKind::single ? std::string{"single-action harp"}
                                                       : fmt::format("{} harp", kind_name(layout.kind));
    text += fmt::format(", {} strings {} to {}", layout.strings.size(),
                        harp_name(layout.strings.front().place), harp_name(layout.strings.back().place));
    if (harp.year_built) text += fmt::format(", built {}", *harp.year_built);
    if (!harp.serial_number.empty()) text += ", serial " + harp.serial_number;
    return text;
}

std::string make_words(StringPlace place, const StringMake& make)
{
    if (make.material.empty()) return "not known";
    const auto kind = spare_kind_name(place, make); // "3C gut 1.12 mm"
    return kind.substr(kind.find(' ') + 1);
}

double half_interval_cents(const Measured& error)
{
    return stats::coverage_factor(0.95, error.degrees_of_freedom) * error.uncertainty;
}

std::string cents_cell(const Measured& error)
{
    return format_cents(Cents{error.value}, Cents{half_interval_cents(error)});
}

Mark mark_of(const StepVerdict& verdict)
{
    if (verdict.conformity == Conformity::out) return Mark::out;
    if (verdict.conformity == Conformity::not_proven) return Mark::not_proven;
    return verdict.watch ? Mark::watch : Mark::within;
}

std::string places_words(std::vector<StringPlace> places, const HarpLayout& layout)
{
    constexpr std::size_t shortest_run = 5;
    std::sort(places.begin(), places.end());
    places.erase(std::unique(places.begin(), places.end()), places.end());
    const auto rank = [&](StringPlace place) {
        return std::distance(layout.strings.begin(),
                             std::find_if(layout.strings.begin(), layout.strings.end(),
                                          [&](const HarpString& string) { return string.place == place; }));
    };
    std::vector<std::string> items;
    for (std::size_t first = 0; first < places.size();) {
        std::size_t end = first + 1;
        while (end < places.size() && rank(places[end]) == rank(places[end - 1]) + 1) ++end;
        if (end - first >= shortest_run)
            items.push_back(fmt::format("{} to {}", harp_name(places[first]), harp_name(places[end - 1])));
        else
            for (std::size_t i = first; i < end; ++i) items.push_back(harp_name(places[i]));
        first = end;
    }
    return listed(items);
}

std::string places_field(std::span<const StringPlace> places)
{
    std::string text;
    for (const StringPlace place : places) text += (text.empty() ? "" : " ") + harp_name(place);
    return text;
}

std::string work_words(const Visit& visit)
{
    std::string text;
    for (const VisitWork& work : visit.work) text += (text.empty() ? "" : "; ") + visit_work_text(work);
    if (!visit.remarks.empty()) text += (text.empty() ? "" : ". ") + visit.remarks;
    return text;
}

const VisitRecord* last_visit(std::span<const VisitRecord> visits, Date today)
{
    const VisitRecord* last = nullptr;
    for (const VisitRecord& record : visits)
        if (first_day(record.visit.visited_on) <= today &&
            (last == nullptr || first_day(last->visit.visited_on) <= first_day(record.visit.visited_on)))
            last = &record;
    return last;
}

std::string money_words(const std::optional<Money>& money)
{
    return money ? money_text(*money) : std::string{};
}

std::vector<Field> money_fields(const std::string& name, const std::optional<Money>& money)
{
    if (!money) return {{name + "_minor_units", {}}, {name + "_currency", {}}};
    return {{name + "_minor_units", money->minor_units}, {name + "_currency", money->currency}};
}

void MoneySum::add(const std::optional<Money>& money)
{
    if (!money) return;
    const auto same = std::find_if(totals_.begin(), totals_.end(),
                                   [&](const Money& total) { return total.currency == money->currency; });
    if (same == totals_.end())
        totals_.push_back(*money);
    else
        same->minor_units += money->minor_units;
}

std::string MoneySum::words() const
{
    std::vector<std::string> texts;
    for (const Money& total : totals_) texts.push_back(money_text(total));
    return listed(texts);
}

} // namespace harpkeep::report
