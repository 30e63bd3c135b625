// SPDX-License-Identifier: MIT
#include "db/records/columns.hpp"

#include "db/ledger/things.hpp"
#include "db/records/stored_codes.hpp"
#include "db/sqlite/ledger_failure.hpp"
#include "records/name_key.hpp"

#include <fmt/format.h>

namespace harpkeep::db {

namespace {

template <class Quantity>
std::optional<double> value_of(const std::optional<Quantity>& quantity)
{
    return quantity ? std::optional{quantity->value()} : std::nullopt;
}

template <class Quantity>
std::optional<Quantity> quantity_of(const std::optional<double>& value)
{
    return value ? std::optional{Quantity{*value}} : std::nullopt;
}

Date date_of(const std::string& text)
{
    const auto date = date_from_iso(text);
    if (!date)
        fail(ErrorCode::corrupt,
             fmt::format("a row holds the date \"{}\"; see `harpkeep ledger verify`", text));
    return *date;
}

} // namespace

Date read_date(Statement& row)
{
    return date_of(row.text());
}

std::optional<Date> read_optional_date(Statement& row)
{
    const auto text = row.optional_text();
    return text ? std::optional{date_of(*text)} : std::nullopt;
}

std::optional<std::string> date_column(const std::optional<Date>& date)
{
    return date ? std::optional{iso_date(*date)} : std::nullopt;
}

void set_money(Insert& insert, std::string_view name, const std::optional<Money>& money)
{
    insert.set(fmt::format("{}_minor", name), money ? std::optional{money->minor_units} : std::nullopt)
        .set(fmt::format("{}_currency", name), money ? std::optional{money->currency} : std::nullopt);
}

std::optional<Money> read_money(Statement& row)
{
    const auto minor = row.optional_integer();
    const auto currency = row.optional_text();
    return minor && currency ? std::optional{Money{*minor, *currency}} : std::nullopt;
}

void set_make(Insert& insert, const StringMake& make)
{
    if (make.material.empty())
        fail(ErrorCode::invalid_argument, "a string needs a material; name it, as in gut, nylon or steel");
    insert.set("material", make.material)
        .set("diameter_mm", value_of(make.diameter))
        .set("wrap_material", make.wrap_material)
        .set("wrap_outer_mm", value_of(make.wrap_outer_diameter))
        .set("linear_density_kg_m", value_of(make.linear_density))
        .set("linear_density_uncertainty_kg_m", value_of(make.linear_density_uncertainty))
        .set("supplier", make.supplier);
}

StringMake read_make(Statement& row)
{
    StringMake make;
    make.material = row.text();
    make.diameter = quantity_of<Millimetres>(row.optional_real());
    make.wrap_material = row.text();
    make.wrap_outer_diameter = quantity_of<Millimetres>(row.optional_real());
    make.linear_density = quantity_of<KilogramsPerMetre>(row.optional_real());
    make.linear_density_uncertainty = quantity_of<KilogramsPerMetre>(row.optional_real());
    make.supplier = row.text();
    return make;
}

std::string id_of(std::string_view thing_no_column)
{
    return fmt::format("(SELECT named.id FROM thing named WHERE named.thing_no = {})", thing_no_column);
}

std::optional<std::int64_t> optional_thing(const Database& database, const std::optional<Uuid>& id,
                                           std::string_view kind)
{
    return id ? std::optional{current_thing(database, *id, kind).value} : std::nullopt;
}

void refuse_future(Date date, Moment now, std::string_view what)
{
    if (!is_valid(date)) fail(ErrorCode::invalid_argument, fmt::format("{}: no such date", what));
    if (first_day(date) > local_date(now))
        fail(ErrorCode::refused,
             fmt::format("{} {} lies in the future (today is {}); give the day it happened", what,
                         iso_date(date), iso_date(local_date(now))));
}

void refuse_reversed(Date earlier, std::string_view earlier_what, Date later, std::string_view later_what)
{
    if (last_day(later) < first_day(earlier))
        fail(ErrorCode::refused, fmt::format("{} {} lies before {} {}; correct one of the dates", later_what,
                                             iso_date(later), earlier_what, iso_date(earlier)));
}

void expect_place(const Database& database, ThingNo harp, StringPlace place)
{
    auto query = database.prepare(
        "SELECT min(s.place), max(s.place), max(s.place = :place), h.name "
        "FROM harp h JOIN current_content USING (fact_no) JOIN harp_string s USING (fact_no) "
        "WHERE thing_no = :harp_no");
    query.bind(":place", place.diatonic_index()).bind(":harp_no", harp.value);
    query.step();
    if (query.next_is_null()) fail(ErrorCode::not_found, "the ledger has no such harp");
    const StringPlace lowest = place_from_code(query.integer());
    const StringPlace highest = place_from_code(query.integer());
    const bool found = query.boolean();
    if (!found)
        fail(ErrorCode::refused,
             fmt::format("{} is no string of {}, which goes from {} to {}", harp_name(place), query.text(),
                         harp_name(lowest), harp_name(highest)));
}

void expect_short(std::string_view name, std::string_view what)
{
    if (const auto problem = too_long(name, what)) fail(ErrorCode::invalid_argument, *problem);
}

} // namespace harpkeep::db
