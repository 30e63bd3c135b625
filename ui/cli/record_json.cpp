// SPDX-License-Identifier: MIT
#include "ui/cli/record_json.hpp"

namespace harpkeep::cli {

namespace {

template <class Quantity>
Json number_or_null(const std::optional<Quantity>& quantity)
{
    return quantity ? Json(quantity->value()) : Json(nullptr);
}

Json name_or_null(const std::optional<Uuid>& id, const Names& names)
{
    return id ? Json(names.of(*id)) : Json(nullptr);
}

Json id_or_null(const std::optional<Uuid>& id)
{
    return id ? Json(to_string(*id)) : Json(nullptr);
}

Json with_id(const Uuid& id)
{
    return {{"id", to_string(id)}, {"handle", db::handle_of(id)}};
}

} // namespace

Json json_of(const std::optional<Date>& date)
{
    return date ? Json(iso_date(*date)) : Json(nullptr);
}

Json json_of(const std::optional<Money>& money)
{
    if (!money) return nullptr;
    return {{"minor_units", money->minor_units}, {"currency", money->currency}};
}

Json json_of(const std::optional<StringPlace>& place)
{
    return place ? Json(harp_name(*place)) : Json(nullptr);
}

void put_make(Json& object, const StringMake& make)
{
    object["material"] = make.material;
    object["diameter_mm"] = number_or_null(make.diameter);
    object["wrap_material"] = make.wrap_material;
    object["wrap_outer_mm"] = number_or_null(make.wrap_outer_diameter);
    object["linear_density_kg_m"] = number_or_null(make.linear_density);
    object["linear_density_uncertainty_kg_m"] = number_or_null(make.linear_density_uncertainty);
    object["supplier"] = make.supplier;
}

Json json_of(const RoomRecord& room)
{
    Json json = with_id(room.id);
    json["name"] = room.details.name;
    json["remarks"] = room.details.remarks;
    return json;
}

Json json_of(const StringLife& life, const Names& names)
{
    Json json = with_id(life.id);
    json["harp"] = names.of(life.string.harp_id);
    json["place"] = harp_name(life.string.place);
    put_make(json, life.string.make);
    json["batch"] = life.string.batch;
    json["cost"] = json_of(life.string.cost);
    json["put_on"] = json_of(life.string.put_on);
    json["watched_from"] = json_of(life.string.watched_from);
    json["remarks"] = life.string.remarks;
    json["removal"] = nullptr;
    if (!life.removal) return json;
    const StringRemoval& removal = life.removal->details;
    json["removal"] = with_id(life.removal->id);
    json["removal"]["removed_on"] = iso_date(removal.removed_on);
    json["removal"]["reason"] = removal_reason_name(removal.reason);
    json["removal"]["broke_at"] =
        removal.broke_at ? Json(break_point_name(*removal.broke_at)) : Json(nullptr);
    json["removal"]["remarks"] = removal.remarks;
    return json;
}

Json json_of(const PlannedStringRecord& planned, const Names& names)
{
    Json json = with_id(planned.id);
    json["harp"] = names.of(planned.details.harp_id);
    json["place"] = harp_name(planned.details.place);
    put_make(json, planned.details.make);
    json["length_mm"] = number_or_null(planned.details.length);
    return json;
}

Json json_of(const LoanRecord& loan, const Names& names)
{
    Json json = with_id(loan.id);
    json["harp"] = names.of(loan.loan.harp_id);
    json["borrower"] = loan.loan.borrower;
    json["from"] = iso_date(loan.loan.from);
    json["until"] = json_of(loan.loan.until);
    json["condition_out"] = loan.loan.condition_out;
    json["remarks"] = loan.loan.remarks;
    json["return_id"] = loan.back ? Json(to_string(loan.back->id)) : Json(nullptr);
    json["returned_on"] = loan.back ? Json(iso_date(loan.back->details.returned_on)) : Json(nullptr);
    json["condition_back"] = loan.back ? Json(loan.back->details.condition_back) : Json(nullptr);
    return json;
}

Json json_of(const VisitRecord& record, const Names& names)
{
    Json json = with_id(record.id);
    json["harp"] = names.of(record.visit.harp_id);
    json["visited_on"] = iso_date(record.visit.visited_on);
    json["technician"] = record.visit.technician;
    json["cost"] = json_of(record.visit.cost);
    json["remarks"] = record.visit.remarks;
    json["work"] = Json::array();
    for (const VisitWork& work : record.visit.work)
        json["work"].push_back(
            {{"place", json_of(work.place)},
             {"pedal", work.pedal ? Json(std::string(1, letter_name(*work.pedal))) : Json(nullptr)},
             {"work", work.work},
             {"parts", work.parts}});
    json["check_before"] = id_or_null(record.check_before);
    json["check_after"] = id_or_null(record.check_after);
    return json;
}

Json json_of(const ClimateSample& sample)
{
    return {{"taken", iso_time(sample.taken)},
            {"temperature_c", number_or_null(sample.temperature)},
            {"humidity_percent", number_or_null(sample.humidity)}};
}

Json json_of(const ClimateSummary& summary, const Names& names)
{
    Json json = with_id(summary.id);
    json["room"] = name_or_null(summary.series.room_id, names);
    json["harp"] = name_or_null(summary.series.harp_id, names);
    json["source"] = summary.series.source;
    json["samples"] = summary.sample_count;
    json["first"] = iso_time(summary.first);
    json["last"] = iso_time(summary.last);
    return json;
}

Json json_of(const SpareStock& stock, const Names& names)
{
    Json json;
    json["harp"] = name_or_null(stock.harp_id, names);
    json["place"] = harp_name(stock.place);
    put_make(json, stock.make);
    json["count"] = stock.count;
    return json;
}

Json json_of(const SpareMovementRecord& record, const Names& names)
{
    const SpareMovement& movement = record.details;
    Json json = with_id(record.id);
    json["harp"] = name_or_null(movement.harp_id, names);
    json["place"] = harp_name(movement.place);
    put_make(json, movement.make);
    json["batch"] = movement.batch;
    json["change"] = movement.change;
    json["cause"] = spare_cause_name(movement.cause);
    json["moved_on"] = iso_date(movement.moved_on);
    json["cost"] = json_of(movement.cost);
    json["string_id"] = id_or_null(movement.string_id);
    json["remarks"] = movement.remarks;
    return json;
}

Json json_of(const NoteRecord& record, const Names& names)
{
    Json json = with_id(record.id);
    json["about"] = name_or_null(record.details.about_id, names);
    json["place"] = json_of(record.details.place);
    json["noted_on"] = iso_date(record.details.noted_on);
    json["words"] = record.details.words;
    json["attachments"] = Json::array();
    for (const NoteAttachment& file : record.details.attachments)
        json["attachments"].push_back({{"file_name", file.file_name},
                                       {"sha256", to_hex(file.sha256)},
                                       {"size_bytes", file.size_bytes}});
    return json;
}

Json json_of(const ReminderRecord& record, const Names& names)
{
    Json json = with_id(record.id);
    json["harp"] = name_or_null(record.reminder.harp_id, names);
    json["words"] = record.reminder.words;
    if (const auto* rule = std::get_if<DueOnDate>(&record.reminder.rule)) {
        json["due_on"] = iso_date(rule->date);
    } else if (const auto* months = std::get_if<DueAfterMonths>(&record.reminder.rule)) {
        json["every_months"] = months->months;
        json["counted_from"] = counted_from_name(months->counted_from);
        json["start"] = iso_date(months->start);
    } else {
        json["drift_cents"] = std::get<DueByDrift>(record.reminder.rule).drift.value();
    }
    json["last_done"] = json_of(record.last_done);
    return json;
}

Json json_of(const db::TimelineEntry& entry)
{
    Json json = with_id(entry.id);
    json["on"] = iso_date(entry.on);
    json["kind"] = entry.kind;
    json["place"] = json_of(entry.place);
    json["words"] = entry.words;
    return json;
}

Json json_of(const db::ActionRecord& action)
{
    Json json = with_id(action.id);
    json["recorded"] = iso_time(action.recorded);
    json["computer"] = action.computer;
    json["what"] = action.what;
    json["undone"] = action.undone;
    json["undoes"] = id_or_null(action.undoes);
    json["things"] = Json::array();
    for (const auto& [id, kind] : action.things)
        json["things"].push_back({{"id", to_string(id)}, {"kind", kind}});
    return json;
}

} // namespace harpkeep::cli
