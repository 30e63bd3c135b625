// SPDX-License-Identifier: MIT
// What the ledger of a large fleet costs: each page of the window, the commands' queries, opening, storing a
// check, the size of the file, at a tenth of the fleet and at the whole. Run:
// build/tests/benchmarks/ledger_benchmark [HARPS [FOLDER]]; 1000 harps take 1.5 GB in FOLDER and some
// minutes. A ledger that FOLDER has from an earlier run is measured again as it is.
#include "db/ledger/conflicts.hpp"
#include "db/ledger/history.hpp"
#include "db/ledger/verify.hpp"
#include "db/records/checks.hpp"
#include "db/records/climate.hpp"
#include "db/records/harps.hpp"
#include "db/records/loans.hpp"
#include "db/records/notes.hpp"
#include "db/records/reminders.hpp"
#include "db/records/rooms.hpp"
#include "db/records/spares.hpp"
#include "db/records/strings.hpp"
#include "db/records/timeline.hpp"
#include "db/records/upkeep.hpp"
#include "db/records/visits.hpp"
#include "tests/benchmarks/fleet_ledger.hpp"
#include "tests/support/example_ledger.hpp"
#include "ui/dashboard/ledger/ledger_source.hpp"
#include "ui/support/harp_knowledge.hpp"

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <fmt/format.h>
#include <functional>
#include <map>

using namespace harpkeep;
using namespace harpkeep::test;

namespace {

constexpr int looks = 15; // harps that each query is asked about
constexpr int page_looks = 5;

/// Which harps are looked at, and when.
struct Look {
    std::vector<Uuid> harps;
    Moment end;
};

/// Time of the processor: what an idle machine would take with the file in memory, also on a busy one.
double milliseconds_of(const std::function<void()>& work)
{
    const auto now_ms = [] {
        timespec time{};
        clock_gettime(CLOCK_THREAD_CPUTIME_ID, &time);
        return static_cast<double>(time.tv_sec) * 1e3 + static_cast<double>(time.tv_nsec) / 1e6;
    };
    const double begin = now_ms();
    work();
    return now_ms() - begin;
}

struct Figure {
    double median_ms = 0.0;
    double worst_ms = 0.0;
};

Figure figure_of(std::vector<double> times_ms)
{
    std::sort(times_ms.begin(), times_ms.end());
    return {times_ms[times_ms.size() / 2], times_ms.back()};
}

using Figures = std::map<std::string, Figure>;

template <class Ask>
Figure asked(const std::vector<Uuid>& harps, Ask&& ask)
{
    std::vector<double> times_ms;
    for (int i = 0; i < looks; ++i) {
        const Uuid& harp = harps[static_cast<std::size_t>(i) * harps.size() / looks];
        times_ms.push_back(milliseconds_of([&] { ask(harp); }));
    }
    return figure_of(times_ms);
}

template <class T>
void expect(const Result<T>& result)
{
    if (result) return;
    fmt::print(stderr, "{}\n", result.error().message);
    std::exit(1);
}

void measure_queries(const std::string& path, const Look& look, Figures& figures)
{
    const auto ledger = db::Ledger::open(path, db::Access::read, look.end).value();
    const auto& harps = look.harps;
    const auto now_ms = look.end.utc_ms;
    const auto ask = [&](const std::string& name, const auto& query) {
        figures["query " + name] = asked(harps, [&](const Uuid& harp) { expect(query(harp)); });
    };
    ask("harp list", [&](const Uuid&) { return db::harps(ledger); });
    ask("harp show", [&](const Uuid& harp) { return db::harp_with_id(ledger, harp); });
    ask("check list", [&](const Uuid& harp) { return db::checks_of(ledger, harp); });
    ask("latest check", [&](const Uuid& harp) { return db::latest_check(ledger, harp); });
    ask("steps of all checks", [&](const Uuid& harp) { return db::step_history(ledger, harp); });
    ask("verdict, cause, drift",
        [&](const Uuid& harp) { return ui::harp_knowledge(ledger, db::harp_with_id(ledger, harp).value()); });
    ask("string list of a harp", [&](const Uuid& harp) { return db::string_lives(ledger, harp); });
    ask("visit list", [&](const Uuid& harp) { return db::visits_of(ledger, harp); });
    ask("loan list of a harp", [&](const Uuid& harp) { return db::loans_of(ledger, harp); });
    ask("room list", [&](const Uuid&) { return db::current_placements(ledger); });
    ask("names for lists", [&](const Uuid&) { return db::harp_names(ledger); });
    ask("spare list", [&](const Uuid&) { return db::spare_stock(ledger); });
    ask("note list of a harp", [&](const Uuid& harp) { return db::notes(ledger, harp); });
    ask("reminder list", [&](const Uuid&) { return db::reminders(ledger); });
    ask("due, one harp", [&](const Uuid& harp) { return db::harp_upkeep(ledger, harp); });
    ask("history of a harp", [&](const Uuid& harp) { return db::timeline(ledger, harp); });
    ask("history of a place",
        [&](const Uuid& harp) { return db::timeline(ledger, harp, place_from_harp_name("3A")); });
    ask("history --actions 50", [&](const Uuid&) { return db::actions(ledger, 50); });
    ask("climate, a year", [&](const Uuid& harp) {
        return db::climate_of_harp(ledger, harp, now_ms - 365 * std::int64_t{86'400'000}, now_ms);
    });
}

/// What looks at every harp, and so grows with the ledger; asked once.
void measure_whole(const std::string& path, const Look& look, Figures& figures)
{
    const auto ledger = db::Ledger::open(path, db::Access::read, look.end).value();
    const auto ask = [&](const std::string& name, const auto& query) {
        figures["whole: " + name] = figure_of({milliseconds_of([&] { expect(query()); })});
    };
    ask("due, all harps", [&] { return db::harp_upkeep(ledger); });
    ask("lives of all strings", [&] { return db::all_string_lives(ledger); });
    ask("note list", [&] { return db::notes(ledger); });
    ask("loan list", [&] { return db::all_loans(ledger); });
    ask("ledger conflicts", [&] { return db::conflicts(ledger); });
    ask("ledger info", [&] { return db::info(ledger); });
}

/// The first time a page also reckons what is kept until the file changes: the drift of a harp, the lives of
/// all strings. That is work on numbers, not a query.
void measure_pages(const std::string& path, const Look& look, Figures& figures)
{
    using namespace harpkeep::dashboard;
    const auto source = LedgerSource::open(path, [&] { return db::Author{look.end, "workshop"}; }).value();
    const std::map<std::string, Page> pages{
        {"today", Page::today},     {"history", Page::history}, {"strings", Page::strings},
        {"tension", Page::tension}, {"pedals", Page::pedals},   {"visits", Page::visits},
        {"climate", Page::climate}, {"room", Page::room},       {"settings", Page::settings}};
    for (const auto& [name, page] : pages) {
        std::vector<double> first_ms, again_ms;
        for (int i = 0; i < page_looks; ++i) {
            Query query;
            query.harp = to_string(look.harps[static_cast<std::size_t>(i) * look.harps.size() / page_looks]);
            const auto load = [&] { expect(source->load(page, query)); };
            first_ms.push_back(milliseconds_of(load));
            again_ms.push_back(milliseconds_of(load));
        }
        figures["page " + name] = figure_of(again_ms);
        figures["page " + name + ", first time"] = figure_of(first_ms);
    }
}

void measure_opening(const std::string& path, const Look& look, Figures& figures)
{
    figures["open to read"] =
        asked(look.harps, [&](const Uuid&) { expect(db::Ledger::open(path, db::Access::read, look.end)); });
    figures["open to write"] =
        asked(look.harps, [&](const Uuid&) { expect(db::Ledger::open(path, db::Access::write, look.end)); });
}

/// With all syncs to the disk; the checks are there afterwards.
void measure_storing(const std::string& path, const Look& look, Figures& figures)
{
    auto ledger = db::Ledger::open(path, db::Access::write, look.end).value();
    LayoutRequest request;
    request.without_discs = std::vector<StringPlace>{};
    const auto layout = make_layout(request).value();
    const auto result = whole_check(layout, 1);
    figures["store a check"] = asked(look.harps, [&](const Uuid& harp) {
        expect(db::store_check(ledger, {look.end, "workshop"}, header_of(harp, look.end), result));
    });
    figures["undo it"] = asked(look.harps, [&](const Uuid&) {
        expect(db::undo_last(ledger, {look.end, "workshop"}));
    });
}

Figures measured(const std::string& path, const Look& look)
{
    Figures figures;
    measure_opening(path, look, figures);
    measure_queries(path, look, figures);
    measure_pages(path, look, figures);
    measure_whole(path, look, figures);
    measure_storing(path, look, figures);
    return figures;
}

double gigabytes_of(const std::string& path)
{
    return static_cast<double>(std::filesystem::file_size(path)) / 1e9;
}

/// All harps of the ledger, a day after the last thing was done in it.
Look look_at(const db::Ledger& ledger)
{
    Look look;
    const auto names = db::harp_names(ledger).value();
    for (const auto& harp : names) look.harps.push_back(harp.id);
    look.end = {ledger.database().integer_of("SELECT max(recorded_utc_ms) FROM action") + 86'400'000, 60};
    return look;
}

void print_size(const std::string& path, const db::Ledger& ledger, double seconds)
{
    ledger.database().execute("PRAGMA wal_checkpoint(TRUNCATE)");
    const auto readings = ledger.database().integer_of("SELECT count(*) FROM check_reading");
    fmt::print("{} readings, {:.3f} GB, {:.1f} bytes a reading, filled in {:.0f} s\n", readings,
               gigabytes_of(path), 1e9 * gigabytes_of(path) / static_cast<double>(readings), seconds);
    auto tables = ledger.database().prepare(
        "SELECT name, sum(pgsize) AS size FROM dbstat GROUP BY name ORDER BY size DESC LIMIT 12");
    while (tables.step()) {
        const std::string name = tables.text();
        fmt::print("    {:32}{:10.2f}\n", name, tables.real() / static_cast<double>(readings));
    }
    std::fflush(stdout);
}

void print(const Figures& tenth, const Figures& whole)
{
    fmt::print("{:32}{:>12}{:>12}{:>12}{:>12}{:>8}\n", "milliseconds", "tenth", "worst", "whole", "worst",
               "ratio");
    for (const auto& [name, figure] : whole) {
        const auto small = tenth.find(name);
        if (small == tenth.end())
            fmt::print("{:32}{:>12}{:>12}{:>12.2f}{:>12.2f}\n", name, "", "", figure.median_ms,
                       figure.worst_ms);
        else
            fmt::print("{:32}{:>12.2f}{:>12.2f}{:>12.2f}{:>12.2f}{:>8.1f}\n", name, small->second.median_ms,
                       small->second.worst_ms, figure.median_ms, figure.worst_ms,
                       figure.median_ms / small->second.median_ms);
    }
}

} // namespace

int main(int argc, char** argv)
{
    const int harps = argc > 1 ? std::atoi(argv[1]) : 1000;
    const std::filesystem::path folder = argc > 2 ? argv[2] : std::filesystem::temp_directory_path();
    const std::string path = (folder / "fleet.harpkeep").string();
    if (harps < 10) {
        fmt::print(stderr, "at least 10 harps\n");
        return 1;
    }
    const bool filled = std::filesystem::exists(path);
    auto ledger = db::Ledger::open(path, db::Access::create, {0, 0}).value();
    Figures tenth;
    if (!filled) {
        ledger.database().execute("PRAGMA synchronous = OFF"); // while it is filled
        Fleet fleet{ledger, {}};
        const double tenth_s = milliseconds_of([&] { fleet.grow_to(harps / 10); }) / 1e3;
        print_size(path, ledger, tenth_s);
        tenth = measured(path, look_at(ledger));
        const double whole_s = milliseconds_of([&] { copy_harps(ledger, 9); }) / 1e3;
        print_size(path, ledger, tenth_s + whole_s);
    }
    print(tenth, measured(path, look_at(ledger)));
}
