// SPDX-License-Identifier: MIT
#include "report/document_csv.hpp"
#include "report/pdf.hpp"
#include "ui/support/harp_report.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace harpkeep::ui {

namespace {

using Json = nlohmann::ordered_json;

Json json_of(const report::FieldValue& value)
{
    return std::visit(
        [](const auto& one) {
            if constexpr (std::is_same_v<std::decay_t<decltype(one)>, std::monostate>)
                return Json(nullptr);
            else
                return Json(one);
        },
        value);
}

Json json_of(const std::vector<report::Field>& fields)
{
    Json object = Json::object();
    for (const report::Field& field : fields) object[field.name] = json_of(field.value);
    return object;
}

/// Facts, sentences and tables of a report, each under its name.
struct Members {
    Json facts = Json::object();
    Json text = Json::object();
    Json tables = Json::object();
    std::string section;

    void operator()(const report::Facts& one)
    {
        for (const report::Fact& fact : one.facts)
            for (const report::Field& field : fact.fields) facts[field.name] = json_of(field.value);
    }
    void operator()(const report::Sentences& one) { add_text(one.sentences); }
    void operator()(const report::Caution& one) { add_text(one.sentences); }
    void operator()(const report::Table& one)
    {
        Json rows = Json::array();
        for (const report::Row& row : one.rows) rows.push_back(json_of(row.fields));
        tables[one.name] = std::move(rows);
    }
    void operator()(const report::NeckChart& one)
    {
        Json rows = Json::array();
        for (const report::ChartPanel& panel : one.panels)
            for (const report::ChartPoint& point : panel.points) rows.push_back(json_of(point.fields));
        tables[one.name] = std::move(rows);
    }
    void operator()(const report::WritingSpace&) {}
    void operator()(const report::SignatureLines&) {}

  private:
    void add_text(const std::vector<std::string>& sentences)
    {
        for (const std::string& sentence : sentences) text[section].push_back(sentence);
    }
};

std::string_view ending_of(ReportFormat format)
{
    return format == ReportFormat::pdf ? "pdf" : format == ReportFormat::csv ? "csv" : "json";
}

} // namespace

std::string report_json(const report::Document& document)
{
    Members members;
    for (const report::Section& section : document.sections) {
        members.section = section.name;
        for (const report::Block& block : section.blocks) std::visit(members, block);
    }
    const Json json{
        {"report", document.kind},       {"title", document.title},         {"subject", document.subject},
        {"subtitle", document.subtitle}, {"as_of", iso_date(document.day)}, {"facts", members.facts},
        {"text", members.text},          {"tables", members.tables}};
    return json.dump(2) + "\n";
}

Result<std::string> report_bytes(const report::Document& document, const ReportOutput& output)
{
    switch (output.format) {
    case ReportFormat::csv:
        return report::csv_of(document, output.table);
    case ReportFormat::json:
        return report_json(document);
    case ReportFormat::pdf:
        break;
    }
    return report::pdf_of(document, output.paper);
}

std::string suggested_file_name(const report::Document& document, ReportFormat format)
{
    std::string subject;
    for (const char letter : document.subject) {
        const bool upper = letter >= 'A' && letter <= 'Z';
        const bool kept = upper || (letter >= 'a' && letter <= 'z') || (letter >= '0' && letter <= '9');
        if (kept)
            subject += upper ? static_cast<char>(letter - 'A' + 'a') : letter;
        else if (!subject.empty() && subject.back() != '-')
            subject += '-';
    }
    if (!subject.empty() && subject.back() != '-') subject += '-';
    return fmt::format("{}{}-{}.{}", subject, document.kind, iso_date(document.day), ending_of(format));
}

} // namespace harpkeep::ui
