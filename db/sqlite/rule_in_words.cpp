// SPDX-License-Identifier: MIT
#include "db/sqlite/rule_in_words.hpp"

#include <array>
#include <fmt/format.h>
#include <optional>
#include <regex>

namespace harpkeep::db {

namespace {

struct Told {
    const char* rule;
    const char* words;
};

/// Rules that tie columns together, as the schema writes them.
constexpr std::array ties{
    Told{"(due_on IS NOT NULL) + (every_months IS NOT NULL) + (drift_cents IS NOT NULL) = 1",
         "a reminder has exactly one of due_on, every_months and drift_cents; leave the others empty"},
    Told{"(effect = 'restore') = (restores_no IS NOT NULL)",
         "restores_no is given when effect is restore, and only then"},
    Told{"(room_no IS NULL) <> (harp_no IS NULL)", "give either room_no or harp_no, not both"},
    Told{"(step = 2) = (freedom_tenths IS NULL)",
         "freedom_tenths is left empty for the whole step, and given for the others"},
    Told{"broke_at IS NULL OR reason = 'broke'",
         "broke_at is given only when the reason is broke; leave it empty"},
    Told{"cause <> 'bought' OR change > 0", "with the cause bought change must be above 0"},
    Told{"cause NOT IN ('used', 'lost') OR change < 0", "with the cause used or lost change must be below 0"},
    Told{"change <> 0", "change must not be 0"},
    Told{"coalesce(lower_error_microcents, upper_error_microcents, whole_error_microcents) IS NOT NULL",
         "give at least one of lower_error_microcents, upper_error_microcents and whole_error_microcents"},
    Told{"effect <> 'void' OR reason <> ''", "with the effect void the reason must not be empty"},
    Told{"fact_no <> superseded_no", "a fact cannot supersede itself"},
    Told{"harp_no IS NOT NULL OR (drift_cents IS NULL AND coalesce(counted_from, 'done') = 'done')",
         "a reminder by drift, or counted from a visit or a check, needs harp_no"},
    Told{"only_row = 1", "only_row must be 1"},
    Told{"place IS NULL OR pedal IS NULL", "give place or pedal, not both"},
    Told{"put_on IS NOT NULL OR watched_from IS NOT NULL", "give put_on or watched_from"},
    Told{"restores_no <> fact_no", "a fact cannot restore itself"},
    Told{"temperature_c IS NOT NULL OR humidity_percent IS NOT NULL",
         "give temperature_c, humidity_percent or both"},
    Told{"undoes_no <> action_no", "an action cannot undo itself"},
    Told{"wrap_outer_mm IS NULL OR diameter_mm IS NULL OR wrap_outer_mm >= diameter_mm",
         "wrap_outer_mm, the outer diameter, must not be less than diameter_mm"},
    Told{"wrap_outer_mm IS NULL OR wrap_material <> ''",
         "with wrap_outer_mm the wrap_material must be named"},
};

/// Forms of rules on one column; $1 is the column.
constexpr std::array forms{
    Told{R"((\w+) BETWEEN (-?\d+) AND (-?\d+))", "$1 must lie from $2 to $3"},
    Told{R"((\w+) > 0 AND \1 < (\d+))", "$1 must be above 0 and below $2"},
    Told{R"((\w+) > 0 AND \1 <= (\d+))", "$1 must be above 0 and at most $2"},
    Told{R"((\w+) >= (\d+))", "$1 must be at least $2"},
    Told{R"((\w+) > (\d+))", "$1 must be above $2"},
    Told{R"((\w+) <> '')", "$1 must not be empty"},
    Told{R"((\w+) IN \((.*)\))", "$1 must be one of $2"},
    Told{R"(length\((\w+)\) = (\d+))", "$1 must be $2 bytes long"},
    Told{R"((\w+) GLOB '\[A-Z\]\[A-Z\]\[A-Z\]')", "$1 must be a currency of three capital letters, as EUR"},
    Told{R"(date\(substr\((\w+) .*)", "$1 must be a day of the calendar, as 2026-03-04, or 2026-03, or 2026"},
    Told{R"(\((\w+) IS NULL\) = \((\w+) IS NULL\))", "$1 and $2 go together; give both or neither"},
    Told{R"((\w+) BETWEEN (-?\d+) AND (-?\d+) AND .*)", "$1 must lie from $2 to $3"},
};

std::string check_words(const std::string& rule)
{
    for (const Told& tie : ties)
        if (rule == tie.rule) return tie.words;
    for (const Told& form : forms) {
        const std::regex pattern{form.rule};
        if (!std::regex_match(rule, pattern)) continue;
        const std::string words = std::regex_replace(rule, pattern, form.words);
        return std::regex_replace(words, std::regex{"'"}, ""); // around the words of a list
    }
    return std::string{unknown_rule};
}

/// "harp.name, harp.kind" without the table.
std::string columns_of(const std::string& names)
{
    return std::regex_replace(names, std::regex{R"(\w+\.(\w+))"}, "$1");
}

std::string_view type_words(const std::string& type)
{
    if (type == "INTEGER") return "a whole number";
    return type == "REAL" ? "a number" : "text";
}

} // namespace

std::string rule_in_words(std::string_view message)
{
    const std::string text{message};
    std::smatch found;
    if (std::regex_match(text, found, std::regex{R"(CHECK constraint failed: ([\s\S]*))"}))
        return check_words(std::regex_replace(found.str(1), std::regex{R"(\s+)"}, " "));
    if (std::regex_match(text, found, std::regex{"NOT NULL constraint failed: (.*)"}))
        return fmt::format("{} must not be empty", columns_of(found.str(1)));
    if (std::regex_match(text, found, std::regex{"UNIQUE constraint failed: (.*)"}))
        return fmt::format("there is a row with the same {} already; give each row once",
                           columns_of(found.str(1)));
    if (text == "FOREIGN KEY constraint failed")
        return "it refers to something that the ledger does not have; add that first, or give it in the same "
               "import";
    if (std::regex_match(text, found, std::regex{R"(cannot store \w+ value in (\w+) column (.*))"}))
        return fmt::format("{} must be {}", columns_of(found.str(2)), type_words(found.str(1)));
    return text;
}

} // namespace harpkeep::db
