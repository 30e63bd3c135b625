// SPDX-License-Identifier: MIT
#include "db/records/checks.hpp"
#include "db/records/spares.hpp"
#include "db/records/string_plans.hpp"
#include "db/records/strings.hpp"
#include "reason/stringing_records.hpp"
#include "strings/example_stringing.hpp"
#include "tests/support/example_ledger.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <array>
#include <cstdio>
#include <fstream>
#include <sys/wait.h>

using namespace harpkeep;
using Json = nlohmann::json;

namespace {

/// What the program printed, errors too, and its exit code.
struct Run {
    std::string text;
    int code = 0;

    [[nodiscard]] bool says(const std::string& part) const { return text.find(part) != std::string::npos; }
    [[nodiscard]] Json json() const { return Json::parse(text); }
};

class Workshop {
  public:
    Workshop() : ledger_(db::Ledger::open(path(), db::Access::create, test::an_evening).value())
    {
        heron_ = db::add_harp(ledger_, test::that_evening(), test::concert_harp("Heron")).value();
    }

    [[nodiscard]] Run run(const std::string& arguments) const
    {
        const auto command =
            std::string{HARPKEEP_PROGRAM} + " " + arguments + " --ledger " + path() + " 2>&1";
        std::FILE* pipe = popen(command.c_str(), "r");
        REQUIRE(pipe != nullptr);
        Run run;
        std::array<char, 4096> buffer{};
        while (const auto count = std::fread(buffer.data(), 1, buffer.size(), pipe))
            run.text.append(buffer.data(), count);
        run.code = WEXITSTATUS(pclose(pipe));
        return run;
    }
    [[nodiscard]] std::string path() const { return (folder_ / "strings.harpkeep"); }
    [[nodiscard]] std::string file(const std::string& name) const { return folder_ / name; }
    db::Ledger& ledger() { return ledger_; }
    [[nodiscard]] const Uuid& heron() const { return heron_; }

    /// Strings at 21 places over five years until 2026-03-01: each breaks at an age of its own, and the last
    /// one of each place is on still.
    void string_up()
    {
        const int end = days_since_epoch(*date_from_iso("2026-03-01"));
        int number = 0;
        const auto layout = make_layout({}).value();
        for (const auto& string : layout.strings) {
            if (string.place < *place_from_harp_name("3F") || string.place.harp_octave() == 0) continue;
            int day = end - 5 * 365;
            while (true) {
                const int life = 300 + (number++ * 149) % 700; // 300 to 999 days
                const bool broke = day + life < end;
                put_on(string.place, day, broke ? std::optional{day + life} : std::nullopt);
                if (!broke) break;
                day += life;
            }
        }
    }
    void put_on(StringPlace place, int day, std::optional<int> broke)
    {
        MountedString mounted{.harp_id = heron_, .place = place};
        mounted.make = {.material = "gut", .diameter = 1.0_mm};
        mounted.cost = Money{500, "EUR"};
        mounted.put_on = date_from_days(day);
        db::PutOnOptions options;
        if (broke)
            options.ended = StringRemoval{.removed_on = date_from_days(*broke),
                                          .reason = RemovalReason::broke,
                                          .broke_at = BreakPoint::disc};
        REQUIRE(db::put_on(ledger_, test::that_evening(), mounted, options));
    }
    void plan()
    {
        const auto layout = make_layout({}).value();
        REQUIRE(db::plan_strings(ledger_, test::that_evening(),
                                 as_records(example_stringing(layout, 440.0_Hz), heron_)));
    }

  private:
    test::TemporaryFolder folder_;
    db::Ledger ledger_;
    Uuid heron_;
};

const std::string as_of = " --as-of 2026-03-04";

} // namespace

TEST_CASE("life: prints groups, wear and what they rest on", "[cli]")
{
    Workshop workshop;
    workshop.string_up();
    const auto run = workshop.run("life" + as_of);
    CHECK(run.code == 0);
    CHECK(run.says("octave 1, gut: half break by "));
    CHECK(run.says("Strings wear"));
    CHECK(run.says("Breaks are spread as chance spreads them over 21 places."));
    CHECK(run.says("Estimates are statistics, not promises."));
    const auto json = workshop.run("life --group material --json" + as_of).json();
    CHECK(json["grouping"] == "material");
    CHECK(json["groups"].size() == 1);
    CHECK(json["groups"][0]["evidence"]["breaks"] == json["evidence"]["breaks"]);
    CHECK(json["shape"]["limits"]["lower"] > 1.0);
    CHECK(json["places"]["looked_at"] == 21);
    CHECK(json["text"].size() > 3);
}

TEST_CASE("life: a ledger without breaks says what would suffice", "[cli]")
{
    Workshop workshop;
    workshop.put_on(*place_from_harp_name("3C"), days_since_epoch(*date_from_iso("2025-03-04")),
                    std::nullopt);
    const auto life = workshop.run("life" + as_of);
    CHECK(life.code == 0);
    CHECK(life.says(
        "Too little to reckon with: nothing has failed yet (0 breaks of 1 string over 1.0 string-years)."));
    const auto risk = workshop.run("risk" + as_of);
    CHECK(risk.code == 4); // input unusable
    CHECK(risk.says("About 8 breaks"));
    const auto order = workshop.run("spare order --until 2026-07-31" + as_of);
    CHECK(order.code == 4);
    CHECK(order.says("Until then carry what harpists usually do, one each of 1E 1D 1C"));
}

TEST_CASE("risk: likeliest strings first, with limits and age", "[cli]")
{
    Workshop workshop;
    workshop.string_up();
    const auto run = workshop.run("risk --within 6m" + as_of);
    CHECK(run.code == 0);
    CHECK(run.says(" to break within 6 months; put on "));
    CHECK(run.says("6 strings at less risk; --all lists them."));
    CHECK(run.says("that at least one of 21 strings breaks"));
    CHECK(workshop.run("risk --all" + as_of).says("Heron 3F: "));
    const auto json = workshop.run("risk --until 2026-06-01 --json" + as_of).json();
    CHECK(json["within_days"] == 90.0); // 89 days and the day itself
    CHECK(json["strings"].size() == 21);
    CHECK(json["strings"][0]["chance"]["value"] >= json["strings"][20]["chance"]["value"]);
}

TEST_CASE("replace: lists what to renew before a date", "[cli]")
{
    Workshop workshop;
    workshop.string_up();
    const auto run = workshop.run("replace --by 2026-06-20 --lasting 3" + as_of);
    CHECK(run.code == 0);
    CHECK(run.says("Replace Heron "));
    CHECK(run.says("put them on in time"));
    CHECK(run.says("wear eye protection"));
    const auto json = workshop.run("replace --by 2026-03-06 --json" + as_of).json();
    CHECK(json["settles_too_late"] == true);
    CHECK(json["days_until"] == 2.0);
}

TEST_CASE("spare order: keeps its promise, counts the stock and prints money", "[cli]")
{
    Workshop workshop;
    workshop.string_up();
    const auto json = workshop.run("spare order --until 2026-07-31 --json" + as_of).json();
    CHECK(json["any_missing_after"]["value"] <= 0.05);
    CHECK(json["kinds"].size() == 21);
    int ordered = 0;
    for (const auto& kind : json["kinds"]) ordered += kind["to_order"].get<int>();
    CHECK(ordered > 0);
    CHECK(json["totals"][0] == Json{{"currency", "EUR"}, {"minor_units", 500 * ordered}});

    SpareMovement bought;
    bought.place = *place_from_harp_name("1E");
    bought.make.material = "gut";
    bought.make.diameter = 1.0_mm;
    bought.change = 3;
    bought.moved_on = *date_from_iso("2026-03-01");
    REQUIRE(db::move_spares(workshop.ledger(), test::that_evening(), bought));
    const auto text = workshop.run("spare order --until 2026-07-31" + as_of);
    CHECK(text.says("so that the chance of missing any string stays under 5.0 %"));
    CHECK_FALSE(text.says(" of 1E gut 1.00 mm:")); // three in stock are enough of these
    CHECK(text.says("The order costs "));
    const auto csv = workshop.run("spare order --until 2026-07-31 --csv" + as_of);
    CHECK(csv.text.substr(0, 14) == "kind,to_order,");
    CHECK(csv.says("\r\n"));
}

TEST_CASE("spare order: least cost wants to know what a missing string costs", "[cli]")
{
    Workshop workshop;
    workshop.string_up();
    const auto refused = workshop.run("spare order --until 2026-07-31 --rule least-cost" + as_of);
    CHECK(refused.code == 2);
    CHECK(refused.says("--missing \"50.00 EUR\""));
    const auto json =
        workshop.run("spare order --until 2026-07-31 --rule least-cost --missing '50.00 EUR' --json" + as_of)
            .json();
    CHECK(json["rule"] == "least-cost");
    CHECK(json["kinds"][0]["not_weighed"] == false);
}

TEST_CASE("commands on strings: wrong dates and names are told", "[cli]")
{
    Workshop workshop;
    workshop.string_up();
    CHECK(workshop.run("replace --by 2026-03-01" + as_of).says("2026-03-01 is past"));
    CHECK(workshop.run("replace --by 2026-06" + as_of).code == 2);
    CHECK(workshop.run("risk --within soon" + as_of).says("\"soon\" is no span of time"));
    CHECK(workshop.run("risk --within 3x" + as_of).code == 2);
    CHECK(workshop.run("risk --harp Kestrel" + as_of).code == 3);
    CHECK(workshop.run("risk --within 3m --until 2026-06-01" + as_of).code == 2); // one or the other
}

TEST_CASE("tension: figures, bounds and caution of a plan", "[cli]")
{
    Workshop workshop;
    CHECK(workshop.run("tension").code == 4); // no plan yet
    CHECK(workshop.run("tension --example").says("invented for demonstration"));
    workshop.plan();
    const auto run = workshop.run("tension");
    CHECK(run.code == 0);
    CHECK(run.says("47 strings pull "));
    CHECK(run.says("as noted in the ledger's stringing plan"));
    CHECK(run.says("never loosen or tighten many at once"));
    const auto json = workshop.run("tension --json").json();
    CHECK(json["strings"].size() == 47);
    CHECK(json["total_tension_n"]["low"] < json["total_tension_n"]["value"]);
    CHECK(json["strings"][0]["place"] == "7C");
}

TEST_CASE("tension: another string in place of one", "[cli]")
{
    Workshop workshop;
    workshop.plan();
    const auto run = workshop.run("tension --change 4C --diameter 1.6");
    CHECK(run.code == 0);
    CHECK(run.says("4C: "));
    CHECK(run.says("A wrong gauge can overload neck and soundboard"));
    const auto json = workshop.run("tension --change 4C --material nylon --json").json();
    CHECK(json["tension_ratio"] == Approx(1105.0 / 1310.0).epsilon(1e-9)); // remembered densities, same gauge
    CHECK(workshop.run("tension --change 4C --material silk").code == 3);
    CHECK(workshop.run("tension --change 9C --diameter 1").code == 2);
}

TEST_CASE("material: listed with its origin, set, imported and taken back", "[cli]")
{
    Workshop workshop;
    workshop.plan();
    CHECK(workshop.run("material list").says("from memory (fairly sure)"));
    auto table = workshop.run("material list --json").json();
    CHECK(table["materials"][0]["name"] == "gut");
    CHECK(table["materials"][0]["density_kg_m3"]["origin"] == "from memory");
    const auto total = [&](const std::string& more) {
        return workshop.run("tension --json" + more).json()["total_tension_n"]["value"].get<double>();
    };
    const double remembered = total("");

    const auto set = workshop.run("material set gut --density 1279:1281 --origin weighed");
    CHECK(set.code == 0);
    CHECK(set.says("weighed (measured)"));
    const double with_own = total("");
    CHECK(with_own < remembered); // 1280 instead of 1310 kg/m3
    const auto gut = workshop.run("material list --json").json()["materials"][0];
    CHECK(gut["density_kg_m3"]["value"] == 1280.0);
    CHECK(gut["young_modulus_mpa"]["origin"] == "from memory"); // the others stay

    CHECK(workshop.run("material set seaweed --young 3000").code == 2); // new ones need a density
    CHECK(workshop.run("material set seaweed --density 1000 --sureness fairly").says("(fairly sure)"));
    CHECK(workshop.run("material reset gut").code == 0);
    CHECK(total("") == Approx(remembered).epsilon(1e-12)); // rounding
    CHECK(workshop.run("material list").says("seaweed"));
    CHECK(workshop.run("material reset --all").code == 0);
    CHECK(workshop.run("material reset --all").code == 3);

    for (auto& material : table["materials"])
        if (material["name"] == "gut")
            material["density_kg_m3"] = {{"value", 1280},
                                         {"low", 1279},
                                         {"high", 1281},
                                         {"sureness", "measured"},
                                         {"origin", "weighed"}};
    const auto file = workshop.file("materials.json");
    std::ofstream{file} << table;
    CHECK(total(" --materials " + file) == Approx(with_own).epsilon(1e-12)); // this once
    CHECK(total("") == Approx(remembered).epsilon(1e-12));
    CHECK(workshop.run("material import " + file).code == 0);
    CHECK(total("") == Approx(with_own).epsilon(1e-12));
}

TEST_CASE("material: what cannot be is refused and nothing is kept", "[cli]")
{
    Workshop workshop;
    workshop.plan();
    for (const char* wrong : {"--density 0", "--density -5", "--density 1300:1280", "--density heavy",
                              "--density 1e12", "--density nan", "--young 5000:", ""}) {
        CAPTURE(wrong);
        CHECK(workshop.run(std::string("material set gut ") + wrong).code == 2);
    }
    CHECK(workshop.run("material reset").code == 2);
    CHECK(workshop.run("material reset gut").code == 3);
    CHECK(workshop.run("tension --materials " + workshop.file("none.json")).code == 3);
    std::ofstream{workshop.file("broken.json")} << "{";
    CHECK(workshop.run("tension --materials " + workshop.file("broken.json")).code == 4);
    CHECK(workshop.run("material import " + workshop.file("broken.json")).code == 4);
    CHECK_FALSE(workshop.run("material list").says("set by the owner"));
}

TEST_CASE("tension: measured inharmonicity stands beside the plan", "[cli]")
{
    Workshop workshop;
    workshop.plan();
    CHECK(workshop.run("tension --measured").says("Heron has no check yet"));
    const auto layout = make_layout({}).value();
    REQUIRE(db::store_check(workshop.ledger(), test::that_evening(),
                            test::header_of(workshop.heron(), test::an_evening),
                            test::whole_check(layout, 3)));
    const auto run = workshop.run("tension --measured");
    CHECK(run.says("measured B "));
}
