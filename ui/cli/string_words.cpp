// SPDX-License-Identifier: MIT
#include "ui/cli/string_words.hpp"

#include "ui/cli/arguments.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <charconv>

namespace harpkeep::cli {

namespace {

Result<Date> full_day(const std::string& text)
{
    const auto date = date_or_today(text);
    if (!date) return failure(date.error());
    if (!date->is_full())
        return failure(ErrorCode::invalid_argument,
                       fmt::format("\"{}\" is no day; write it as 2026-03-04", text));
    return *date;
}

} // namespace

void add_string_options(CLI::App& app, StringWords& words)
{
    app.add_option("--harp", words.harp, "only this harp (default: all)");
    app.add_option("--as-of", words.as_of, "the day to speak of, as 2026-03-04 (default: today)");
}

void add_grouping_option(CLI::App& app, StringWords& words)
{
    app.add_option("--group", words.grouping, "which strings learn from one another")
        ->check(CLI::IsMember({"octave-material", "octave", "material", "harp", "school"}))
        ->capture_default_str();
}

Result<AskedStrings> ask_strings(const Common& common, const StringWords& words)
{
    const auto today = full_day(words.as_of);
    if (!today) return failure(today.error());
    const auto ledger = open_ledger(common, db::Access::read);
    if (!ledger) return failure(ledger.error());
    auto knowledge = ui::string_knowledge(*ledger, *today);
    if (!knowledge) return failure(knowledge.error());
    std::string harp_name;
    if (!words.harp.empty()) {
        const auto harp = chosen_harp(*ledger, words.harp);
        if (!harp) return failure(harp.error());
        harp_name = harp->details.name;
    }
    auto in_use = ui::strings_on(*knowledge, harp_name);
    if (in_use.empty() && !harp_name.empty())
        return failure(ErrorCode::unusable_input,
                       fmt::format("no string is noted on {}; `harpkeep string on` notes some", harp_name));
    return AskedStrings{*std::move(knowledge), std::move(in_use)};
}

Result<double> days_until(const ui::StringKnowledge& knowledge, const std::string& date)
{
    const auto day = full_day(date);
    if (!day) return failure(day.error());
    const int days = days_since_epoch(*day) - days_since_epoch(knowledge.today);
    if (days < 0)
        return failure(ErrorCode::invalid_argument,
                       fmt::format("{} is past; the day spoken of is {}", date, iso_date(knowledge.today)));
    return static_cast<double>(days);
}

Result<double> span_argument(const std::string& text)
{
    const auto refused = [&text] {
        return failure(ErrorCode::invalid_argument,
                       fmt::format("\"{}\" is no span of time; write it as 90d, 6w, 18m or 1y", text));
    };
    double number = 0.0;
    const auto* const last = text.data() + text.size();
    const auto [end, error] = std::from_chars(text.data(), last, number);
    if (error != std::errc{} || end + 1 != last || !(number > 0.0)) return refused();
    const double days = *end == 'd'   ? 1.0
                        : *end == 'w' ? 7.0
                        : *end == 'm' ? days_per_year / 12.0
                        : *end == 'y' ? days_per_year
                                      : 0.0;
    if (days == 0.0 || number * days > 100.0 * days_per_year) return refused();
    return number * days;
}

} // namespace harpkeep::cli
