// SPDX-License-Identifier: MIT
#include "tests/ui/cli/reason/heron_ledger.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <fmt/format.h>

using namespace harpkeep;
using namespace harpkeep::test;

TEST_CASE("harpkeep verdict: a pedal that is off calls the technician", "[cli]")
{
    HeronLedger ledger;
    ledger.add_check(0, 8.0);
    const auto text = ledger.run(words({"verdict", "--harp", "Heron"}));
    CAPTURE(text.output);
    CHECK(text.exit_code == 0);
    CHECK(text.says("Call the technician now."));
    CHECK(text.says("The F pedal is off by +"));
    CHECK(text.says("this program's own choice"));

    const auto run = ledger.run(words({"verdict", "--harp", "heron", "--json"}));
    const auto json = run.json();
    CHECK(json["urgency"] == "call_now");
    CHECK(json["verdict"] == "out");
    CHECK(json["reasons"][0]["kind"] == "pedal_off");
    CHECK(json["reasons"][0]["pedal"] == "F");
    CHECK(json["steps_measured"] == 90);
    CHECK(json["steps"].size() == 135); // and 45 from flat to sharp
    CHECK(json["tolerance"]["project_default"] == true);
    CHECK(json["taken"] == "2026-03-04T18:05:00+01:00");
}

TEST_CASE("harpkeep cause: names the pedal, its interval and what it points to", "[cli]")
{
    HeronLedger ledger;
    ledger.add_check(0, 6.0);
    ledger.put_on("2C", "2026-02-27");
    const auto text = ledger.run(words({"cause"})); // the only harp need not be named
    CAPTURE(text.output);
    CHECK(text.exit_code == 0);
    CHECK(text.says("The F pedal is off: natural to sharp +"));
    CHECK(text.says("2C was put on 5 days ago and still settles"));
    CHECK(text.says("for a trained technician"));

    const auto json = ledger.run(words({"cause", "--json"})).json();
    REQUIRE(json["faults"].size() == 1);
    CHECK(json["faults"][0]["pattern"] == "upper_only");
    CHECK(json["faults"][0]["effects"][0]["cents"].get<double>() ==
          Approx(6.0).margin(1.2)); // 0.8 by root 6, thrice
    CHECK(json["conditions"][0]["kind"] == "settling");
    CHECK(json["enough_data"] == true);
}

TEST_CASE("harpkeep drift and forecast: a pedal that moves is foretold with its months", "[cli]")
{
    HeronLedger ledger;
    for (int check = 0; check < 8; ++check)
        ledger.add_check(120 * (7 - check), 0.6 * check); // 1.8 cents a year
    const auto drift = ledger.run(words({"drift", "--json"})).json();
    REQUIRE(drift["steps"].size() == 90);
    double mean = 0.0;
    int f_sharps = 0;
    for (const auto& step : drift["steps"])
        if (step["place"].get<std::string>()[1] == 'F' && step["step"] == "upper") {
            mean += step["trend_cents_per_year"]["value"].get<double>();
            ++f_sharps;
        }
    CHECK(mean / f_sharps > 0.8); // shrunk towards the other steps

    const auto text = ledger.run(words({"forecast"}));
    CAPTURE(text.output);
    CHECK(text.says("checks over 2.3 years"));
    CHECK(text.says("--all lists them"));
    CHECK(text.says("statistics, not promises"));
    const auto forecast = ledger.run(words({"forecast", "--json"})).json();
    CHECK(forecast["forecasts"].size() == 90);
    CHECK(forecast["forecasts"][0]["place"].get<std::string>()[1] == 'F');
    CHECK(forecast["forecasts"][0]["probability_left_by_month"].size() == 24);
}

TEST_CASE("harpkeep forecast: one check is too little, and what would do is said", "[cli]")
{
    HeronLedger ledger;
    ledger.add_check(0, 0.0);
    const auto text = ledger.run(words({"forecast"}));
    CAPTURE(text.output);
    CHECK(text.says(
        "1 check is too few for a forecast; 2 more checks, the last on 2026-08-31 or later, would do."));
    CHECK(text.says("89 steps more with too few checks; --all lists them."));
    CHECK_FALSE(text.says("leave later"));
}

TEST_CASE("harpkeep compare: what a visit did", "[cli]")
{
    HeronLedger ledger;
    ledger.add_check(20, 8.0);
    ledger.add_check(1, 0.0);
    CHECK(ledger.run({"compare"}).exit_code == 3); // no visit yet
    ledger.add_visit("2026-02-25");
    const auto text = ledger.run({"compare"});
    CAPTURE(text.output);
    CHECK(text.exit_code == 0);
    CHECK(text.says("about the visit of 2026-02-25"));
    const auto json = ledger.run({"compare", "--json"}).json();
    CHECK(json["out_before"].get<int>() >=
          5); // the F sharps of octaves 2 to 6; 0F and 1F may be 8 cents wide
    CHECK(json["improved"].get<int>() >= 6);
    CHECK(json["steps"][0]["place"].get<std::string>()[1] == 'F');
    CHECK(json["steps"][0]["change"] == "improved");
}

TEST_CASE("harpkeep tune-around: a list to tune by, better than before", "[cli]")
{
    HeronLedger ledger;
    ledger.add_check(0, 8.0);
    const auto text = ledger.run(words({"tune-around", "--setting", "G major x 3", "--setting", "F major"}));
    CAPTURE(text.output);
    CHECK(text.exit_code == 0);
    CHECK(text.says("4F flat: "));
    CHECK(text.says("Tuned as listed, the greatest is"));
    CHECK(text.says("This rests on ")); // 45 strings with discs, F in two positions
    CHECK(text.says(" that the piece uses."));
    const auto json =
        ledger.run(words({"tune-around", "--setting", "G major x 3", "--setting", "^v^|-^-v", "--json"}))
            .json();
    CHECK(json["after"]["greatest"]["cents"].get<double>() <
          json["before"]["greatest"]["cents"].get<double>());
    CHECK(json["strings"].size() == 47);
    CHECK(json["settings"][0]["weight"] == 3.0);

    CHECK(ledger.run(words({"tune-around"})).exit_code == 2);
    const auto wrong = ledger.run(words({"tune-around", "--setting", "H major"}));
    CHECK(wrong.exit_code == 2);
    CHECK(wrong.says("is no setting of seven pedals"));
}

TEST_CASE("harpkeep tune-around: settings of a piece from a file, with the line of a mistake", "[cli]")
{
    HeronLedger ledger;
    ledger.add_check(0, 8.0);
    const TemporaryFolder folder;
    const auto write = [&](const char* text) {
        std::FILE* file = std::fopen((folder / "piece.txt").c_str(), "w");
        std::fputs(text, file);
        std::fclose(file);
    };
    write("; Evening song\nE flat major x 24\n\nC minor x 8 ; middle\n");
    const auto json = ledger.run(words({"tune-around", "--piece", folder / "piece.txt", "--json"})).json();
    CHECK(json["settings"].size() == 2);
    CHECK(json["settings"][1]["weight"] == 8.0);
    write("E flat major\nC dorian\n");
    const auto wrong = ledger.run(words({"tune-around", "--piece", folder / "piece.txt"}));
    CHECK(wrong.exit_code == 2);
    CHECK(wrong.says("line 2"));
}

// The W3C example of harp-pedals in MusicXML 4.0: D flat, C sharp, B flat, E, F flat, G, A sharp.
TEST_CASE("harpkeep tune-around: the harp-pedals of a score", "[cli]")
{
    HeronLedger ledger;
    ledger.add_check(0, 8.0);
    const TemporaryFolder folder;
    const auto path = folder / "score.musicxml";
    std::string xml = "<score-partwise>";
    for (int times = 0; times < 2; ++times) {
        xml += "<direction><direction-type><harp-pedals>";
        for (const auto& [letter, alteration] :
             {std::pair{"D", -1}, std::pair{"C", 1}, std::pair{"B", -1}, std::pair{"E", 0},
              std::pair{"F", -1}, std::pair{"G", 0}, std::pair{"A", 1}})
            xml += fmt::format(
                "<pedal-tuning><pedal-step>{}</pedal-step><pedal-alter>{}</pedal-alter></pedal-tuning>",
                letter, alteration);
        xml += "</harp-pedals></direction-type></direction>";
    }
    xml += "</score-partwise>";
    std::FILE* file = std::fopen(path.c_str(), "w");
    std::fputs(xml.c_str(), file);
    std::fclose(file);
    const auto json = ledger.run(words({"tune-around", "--score", path, "--json"})).json();
    REQUIRE(json["settings"].size() == 1);
    CHECK(json["settings"][0]["diagram"] == "^v^|-^-v");
    CHECK(json["settings"][0]["weight"] == 2.0);
    CHECK(ledger.run(words({"tune-around", "--score", path, "--setting", "C"})).exit_code == 2);
}

TEST_CASE("harpkeep settings usable: keys with F sharp are out", "[cli]")
{
    HeronLedger ledger;
    ledger.add_check(0, 12.0);
    const auto json = ledger.run(words({"settings", "usable", "--json"})).json();
    CHECK(json["settings"] == 2187);
    CHECK(json["not_usable"].get<int>() >= 729);
    const auto one = ledger.run(words({"settings", "usable", "--setting", "G major"}));
    CAPTURE(one.output);
    CHECK(one.says("G major") == false); // a setting asked for by text is shown by its pedals
    CHECK(one.says("D C B | E F# G A: out of tolerance, greatest error +"));
    CHECK(one.says("Flat to sharp may be off by 1.5 times a step's tolerance"));
    const auto all = ledger.run(words({"settings", "usable"}));
    CAPTURE(all.output);
    CHECK(all.says("This rests on 90 of 90 naturals and sharps."));
}

TEST_CASE("harpkeep enharmonics: neighbouring strings on one key", "[cli]")
{
    HeronLedger ledger;
    ledger.add_check(0, 8.0);
    const auto text = ledger.run(words({"enharmonics"}));
    CAPTURE(text.output);
    CHECK(text.says("F sharp and "));
    CHECK(text.says("beats a second"));
    CHECK(ledger.run(words({"enharmonics", "--json"})).json()["pairs"].size() == 57);
}

TEST_CASE("harpkeep temperament: a list, a table, and a name that is none", "[cli]")
{
    const HeronLedger ledger;
    CHECK(ledger.run({"temperament"}).says("young-1"));
    const auto json = ledger.run({"temperament", "werckmeister-3", "--json"}).json();
    CHECK(json["pitch_classes"][0]["deviation_cents"].get<double>() ==
          Approx(11.730).margin(5e-4)); // last digit
    CHECK(json["pitch_classes"][9]["frequency_hz"].get<double>() == Approx(440.0));
    const auto wrong = ledger.run({"temperament", "sideways"});
    CHECK(wrong.exit_code == 3);
    CHECK(wrong.says("there are equal, werckmeister-3"));
}

TEST_CASE("harpkeep tolerance: kept for one harp or for all, and taken back", "[cli]")
{
    HeronLedger ledger;
    ledger.add_check(0, 0.0);
    CHECK(ledger.run({"tolerance", "--for-all", "--band", "-4:4"}).exit_code == 0);
    const auto set = ledger.run({"tolerance", "--harp", "Heron", "--band", "-2:2", "--octave", "3=-1:6"});
    CAPTURE(set.output);
    CHECK(set.exit_code == 0);
    const auto json = ledger.run({"tolerance", "--harp", "Heron", "--json"}).json();
    CHECK(json["standard_cents"] == nlohmann::json::array({-2.0, 2.0}));
    CHECK(json["octaves_cents"]["3"] == nlohmann::json::array({-1.0, 6.0}));
    CHECK(json["project_default"] == false);
    CHECK(ledger.run({"tolerance", "--for-all", "--json"}).json()["standard_cents"][1] == 4.0);
    CHECK(ledger.run(words({"verdict", "--json"})).json()["tolerance"]["standard_cents"][1] == 2.0);
    CHECK(ledger.run({"tolerance", "--reset", "--json"}).json()["project_default"] == true);

    for (const char* wrong : {"5", "2:8", "a:b", "-200:200"}) {
        CAPTURE(wrong);
        CHECK(ledger.run({"tolerance", "--band", wrong}).exit_code == 2);
    }
}

TEST_CASE("reasoning commands: no harp, no check, no such handle", "[cli]")
{
    HeronLedger ledger;
    const auto unchecked = ledger.run({"verdict"});
    CHECK(unchecked.exit_code == 3);
    CHECK(unchecked.says("Heron has no check yet; `harpkeep check FILE"));
    const auto unknown = ledger.run({"cause", "--harp", "Wren"});
    CHECK(unknown.exit_code == 3);
    CHECK(unknown.says("Heron"));
    CHECK(ledger.run({"verdict", "--check", "deadbeef"}).exit_code == 3);
    CHECK(ledger.run({"verdict", "--as-of", "yesterday-ish"}).exit_code == 2);
}

TEST_CASE("reasoning commands: an older check can be judged by its handle", "[cli]")
{
    HeronLedger ledger;
    const auto old_check = ledger.add_check(100, 8.0);
    ledger.add_check(0, 0.0);
    CHECK(ledger.run(words({"verdict", "--json"})).json()["urgency"] != "call_now");
    const auto old_run = ledger.run(words({"verdict", "--json", "--check", to_string(old_check)}));
    CAPTURE(old_run.output);
    CHECK(old_run.json()["urgency"] == "call_now");
    CHECK(old_run.json()["check_age_days"] == 100);
}
