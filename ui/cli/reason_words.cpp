// SPDX-License-Identifier: MIT
#include "ui/cli/reason_words.hpp"

#include "ui/support/clock.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace harpkeep::cli {

namespace {

Result<Date> day_from(const std::string& text)
{
    if (text.empty()) return local_date(ui::now());
    const auto date = date_from_iso(text);
    if (!date || !date->is_full())
        return failure(ErrorCode::invalid_argument,
                       fmt::format("\"{}\" is no day; write it as 2026-03-04", text));
    return *date;
}

Result<std::optional<Uuid>> check_from(const db::Ledger& ledger, const std::string& handle)
{
    if (handle.empty()) return std::optional<Uuid>{};
    const auto check = thing_of_kind(ledger, handle, "check");
    if (!check) return failure(check.error());
    return std::optional<Uuid>{*check};
}

} // namespace

void add_reason_options(CLI::App& app, ReasonWords& words)
{
    app.add_option("--harp", words.harp, "name of the harp (may be left out when the ledger has only one)");
    app.add_option("--check", words.check, "handle of the check to judge (default: the youngest)");
    app.add_option("--as-of", words.as_of, "the day to speak of, as 2026-03-04 (default: today)");
    app.add_flag("--all", words.all, "list everything, not only what stands out");
}

Result<AskedHarp> ask(const Common& common, const ReasonWords& words)
{
    const auto today = day_from(words.as_of);
    if (!today) return failure(today.error());
    const auto opened = open_harp(common, db::Access::read, words.harp);
    if (!opened) return failure(opened.error());
    const auto check = check_from(opened->ledger, words.check);
    if (!check) return failure(check.error());
    const auto day = days_since_epoch(*today);
    auto knowledge = ui::harp_knowledge(opened->ledger, opened->harp, *check,
                                        words.as_of.empty() ? std::nullopt : std::optional(day));
    if (!knowledge) return failure(knowledge.error());
    return AskedHarp{std::move(*knowledge), *today, day};
}

Result<AskedHarp> ask_with_check(const Common& common, const ReasonWords& words)
{
    auto asked = ask(common, words);
    if (asked && !asked->knowledge.check && !words.as_of.empty())
        return failure(ErrorCode::not_found,
                       fmt::format("{} had no check by {}; name a later day with --as-of",
                                   asked->knowledge.harp.details.name, words.as_of));
    if (asked && !asked->knowledge.check)
        return failure(
            ErrorCode::not_found,
            fmt::format("{} has no check yet; `harpkeep check FILE --harp \"{}\"` makes one from a recording",
                        asked->knowledge.harp.details.name, asked->knowledge.harp.details.name));
    return asked;
}

Json subject_json(const AskedHarp& asked)
{
    const auto& check = asked.knowledge.check;
    return {{"harp", asked.knowledge.harp.details.name},
            {"as_of", iso_date(asked.today)},
            {"check_id", check ? Json(to_string(check->id)) : Json(nullptr)},
            {"taken", check ? Json(iso_time(check->header.taken)) : Json(nullptr)}};
}

std::string subject_line(const AskedHarp& asked)
{
    const auto& name = asked.knowledge.harp.details.name;
    if (!asked.knowledge.check) return name + ", not checked yet";
    const auto& check = *asked.knowledge.check;
    return fmt::format("{}, check of {}, {}", name, short_time(check.header.taken),
                       counted(check.result.readings.size(), "reading"));
}

void print_sentences(std::span<const std::string> sentences)
{
    for (const auto& sentence : sentences) print_line(sentence);
}

} // namespace harpkeep::cli
