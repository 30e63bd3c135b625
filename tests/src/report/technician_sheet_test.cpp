// SPDX-License-Identifier: MIT
#include "report/technician_sheet.hpp"
#include "tests/support/planted_harp.hpp"

#include <catch2/catch.hpp>

#include <regex>

using namespace harpkeep;
using namespace harpkeep::report;
using test::Dice;

namespace {

/// A concert harp whose F pedal is wide in both steps and whose 3A is off by itself.
TechnicianSheetInput planted_input()
{
    Dice dice{5};
    auto planted = test::plant({.missing_share = 0.0}, dice);
    for (auto& step : planted.steps) {
        if (step.place.letter == Letter::F) step.error_cents += 7.0;
        if (step.place == *place_from_harp_name("3A") && step.step == Step::lower) step.error_cents += 15.0;
    }
    TechnicianSheetInput input;
    input.harp.details.name = "Heron";
    input.harp.details.layout = planted.layout;
    input.today = {2026, 3, 4};
    input.climate = {.from = {2025, 3, 4}, .until = {2026, 3, 4}};
    StoredCheck check;
    check.header.taken = moment_at({2026, 3, 1}, 18, 5, 60);
    check.result.steps = planted.steps;
    check.result.whole_steps = planted.whole_steps;
    input.check = check;
    input.evidence.steps = judge_steps(planted.steps, planted.whole_steps, {});
    input.evidence.steps_expected = static_cast<int>(planted.steps.size());
    input.evidence.causes = find_causes(planted.layout, planted.steps, planted.whole_steps);
    for (const HarpString& string : planted.layout.strings) input.lengths[string.place] = Millimetres{500.0};
    return input;
}

const Table* table_named(const Document& document, const std::string& name)
{
    for (const Section& section : document.sections)
        for (const Block& block : section.blocks)
            if (const auto* table = std::get_if<Table>(&block); table != nullptr && table->name == name)
                return table;
    return nullptr;
}

const FieldValue& field(const Row& row, const std::string& name)
{
    for (const Field& one : row.fields)
        if (one.name == name) return one.value;
    FAIL("no field " << name);
    return row.fields.front().value;
}

const Row& row_of(const Table& table, const std::string& name, const std::string& value)
{
    for (const Row& row : table.rows)
        if (field(row, name) == FieldValue{value}) return row;
    FAIL("no row " << value);
    return table.rows.front();
}

int section_index(const Document& document, const std::string& name)
{
    for (std::size_t i = 0; i < document.sections.size(); ++i)
        if (document.sections[i].name == name) return static_cast<int>(i);
    return -1;
}

/// All words on paper but those in the caution's frame.
std::string words_of(const Document& document)
{
    std::string words;
    for (const Section& section : document.sections) {
        words += section.heading + "\n";
        for (const Block& block : section.blocks) {
            if (const auto* text = std::get_if<Sentences>(&block))
                for (const auto& sentence : text->sentences) words += sentence + "\n";
            if (const auto* table = std::get_if<Table>(&block))
                for (const Row& row : table->rows)
                    for (const auto& cell : row.cells) words += cell + "\n";
        }
    }
    return words;
}

} // namespace

// Common practice, no source: strings, then felts and pedals, then grip, then intonation.
TEST_CASE("technician_sheet: follows the order of the work", "[report][reference]")
{
    const auto document = technician_sheet(planted_input());
    CHECK(section_index(document, "verdict") < section_index(document, "string_ages"));
    CHECK(section_index(document, "string_ages") < section_index(document, "pedals"));
    CHECK(section_index(document, "pedals") < section_index(document, "grip"));
    CHECK(section_index(document, "grip") < section_index(document, "intonation"));
    const auto* strings = table_named(document, "strings");
    REQUIRE(strings != nullptr);
    CHECK(strings->columns[1].heading.find("flat to natural") == 0); // the natural before the sharp
    CHECK(strings->columns[4].heading.find("natural to sharp") == 0);
}

TEST_CASE("technician_sheet: names the pedal that is off, in the order of the pedals", "[report]")
{
    const auto document = technician_sheet(planted_input());
    const auto* pedals = table_named(document, "pedals");
    REQUIRE(pedals != nullptr);
    std::string order;
    for (const Row& row : pedals->rows) order += std::get<std::string>(field(row, "pedal"));
    CHECK(order == "DCBEFGA");
    const auto& f = row_of(*pedals, "pedal", "F");
    CHECK(f.strong);
    CHECK(f.cells.back().find("off, both steps wide") == 0);
    // Seven strings that scatter by 0.8 cents: four standard errors of their mean.
    CHECK(std::get<double>(field(f, "lower_mean_cents")) == Approx(7.0).margin(4.0 * 0.8 / std::sqrt(7.0)));
    CHECK(std::get<std::int64_t>(field(f, "lower_strings")) == 7);
    CHECK_FALSE(row_of(*pedals, "pedal", "G").strong);
}

TEST_CASE("technician_sheet: gives cents, millimetres and cause of each string", "[report]")
{
    const auto document = technician_sheet(planted_input());
    const auto* strings = table_named(document, "strings");
    const auto& row = row_of(*strings, "place", "3A");
    CHECK(row.strong);
    CHECK(row.cells.back().find("off by itself") != std::string::npos);
    // One cent of a string that sounds at 500 mm / 2^(1/12) is ln 2 / 1200 of that length.
    const double one_cent_mm = 500.0 / std::exp2(1.0 / 12.0) * std::log(2.0) / 1200.0;
    CHECK(std::get<double>(field(row, "lower_error_mm")) ==
          Approx(std::get<double>(field(row, "lower_error_cents")) * one_cent_mm));
    CHECK(strings->rows.size() == 45); // all with discs, for programs
}

TEST_CASE("technician_sheet: of many bad strings the worst are listed, the others named", "[report]")
{
    auto input = planted_input();
    for (auto& step : input.check->result.steps) step.error_cents += 9.0;
    input.evidence.steps = judge_steps(input.check->result.steps, input.check->result.whole_steps, {});
    const auto document = technician_sheet(input);
    const auto* strings = table_named(document, "strings");
    const auto on_paper = std::count_if(strings->rows.begin(), strings->rows.end(),
                                        [](const Row& row) { return !row.cells.empty(); });
    CHECK(on_paper == 18);
    CHECK(strings->rows.size() == 45);
    CHECK_FALSE(row_of(*strings, "place", "3A").cells.empty()); // the worst of all
    CHECK(words_of(document).find("Also out: ") != std::string::npos);
}

TEST_CASE("technician_sheet: never says what to do to the mechanism", "[report]")
{
    const auto words = words_of(technician_sheet(planted_input()));
    const std::regex order{"(^|[.;:] )(turn|bend|file|tighten|loosen|screw|adjust|move|raise|lower)\\b",
                           std::regex::icase};
    CHECK_FALSE(std::regex_search(words, order));
}

TEST_CASE("technician_sheet: a harp never checked says so and leaves the chart out", "[report]")
{
    auto input = planted_input();
    input.check.reset();
    input.evidence = {};
    const auto document = technician_sheet(input);
    CHECK(section_index(document, "neck") == -1);
    CHECK(words_of(document).find("Not checked") != std::string::npos);
}

TEST_CASE("technician_sheet: a lever harp has no pedals and one step", "[report]")
{
    TechnicianSheetInput input;
    input.harp.details.name = "Linnet";
    input.harp.details.layout = make_layout({.kind = HarpKind::lever, .string_count = 34}).value();
    input.today = {2026, 3, 4};
    input.climate = {.from = {2025, 3, 4}, .until = {2026, 3, 4}};
    StoredCheck check;
    for (const HarpString& string : input.harp.details.layout.strings)
        if (!steps_of(HarpKind::lever, string).empty())
            check.result.steps.push_back({string.place, Step::lower, 6.5, 0.2, 30.0});
    input.check = check;
    input.evidence.steps = judge_steps(check.result.steps, {}, {});
    const auto document = technician_sheet(input);
    CHECK(section_index(document, "pedals") == -1);
    const auto* strings = table_named(document, "strings");
    REQUIRE(strings != nullptr);
    CHECK(strings->columns.size() == 5);
    CHECK(strings->columns[1].heading.find("open to engaged") == 0);
}
