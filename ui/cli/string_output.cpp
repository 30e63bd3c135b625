// SPDX-License-Identifier: MIT
#include "ui/cli/string_output.hpp"

#include "ui/cli/output.hpp"

#include <fmt/format.h>

namespace harpkeep::cli {

std::string material_words(const StringMake& make)
{
    if (make.wrap_material.empty()) return make.material;
    return fmt::format("{} wound with {}", make.material, make.wrap_material);
}

std::string millimetres_text(const std::optional<Millimetres>& length)
{
    return length ? fmt::format("{}", length->value()) : "";
}

std::string grams_per_metre_text(const std::optional<KilogramsPerMetre>& density)
{
    return density ? fmt::format("{:.4g}", 1000.0 * density->value()) : "";
}

std::string put_on_words(const MountedString& string)
{
    if (!string.watched_from) return iso_date(*string.put_on);
    if (string.put_on) return fmt::format("about {}", iso_date(*string.put_on));
    return fmt::format("before {}", iso_date(*string.watched_from));
}

void print_strings(const std::vector<StringLife>& lives, const Names& names, bool with_harp)
{
    std::vector<Table::Column> columns{{"Place"},    {"Material"}, {"Diameter mm", Table::Align::right},
                                       {"Put on"},   {"Came off"}, {"Why"},
                                       {"Supplier"}, {"Handle"}};
    if (with_harp) columns.insert(columns.begin(), Table::Column{"Harp"});
    Table table{columns};
    for (const StringLife& life : lives) {
        std::string off, why;
        if (life.removal) {
            const StringRemoval& removal = life.removal->details;
            off = iso_date(removal.removed_on);
            why = removal_reason_name(removal.reason);
            if (removal.broke_at) why += fmt::format(" ({})", break_point_name(*removal.broke_at));
        }
        std::vector<std::string> cells{harp_name(life.string.place),
                                       material_words(life.string.make),
                                       millimetres_text(life.string.make.diameter),
                                       put_on_words(life.string),
                                       off,
                                       why,
                                       life.string.make.supplier,
                                       db::handle_of(life.id)};
        if (with_harp) cells.insert(cells.begin(), names.of(life.string.harp_id));
        table.add_row(std::move(cells));
    }
    table.print();
}

} // namespace harpkeep::cli
