// SPDX-License-Identifier: MIT
#include "reason/stringing_advice.hpp"

#include "reason/string_cautions.hpp"
#include "units/format_amount.hpp"

#include <fmt/format.h>

namespace harpkeep {

namespace {

std::string constants_remark(Sureness weakest)
{
    switch (weakest) {
    case Sureness::measured:
        return "It rests on measured constants.";
    case Sureness::sure:
        return "It rests on material constants from memory, sure ones.";
    case Sureness::fairly:
        return "It rests on material constants from memory, fairly sure ones; measured ones can be put in "
               "their "
               "place.";
    case Sureness::weak:
        break;
    }
    return "It rests on material constants from memory, some of them weak; measured ones can be put in their "
           "place.";
}

std::string finding_sentence(const StringingFinding& finding)
{
    const auto name = harp_name(finding.place);
    switch (finding.remark) {
    case StringingRemark::near_breaking:
        return fmt::format("{} may carry up to {} of its breaking stress.", name,
                           percent_text(finding.amount));
    case StringingRemark::no_reserve:
        return fmt::format(
            "{} would carry {} of its breaking stress: length, material or a constant must be wrong.", name,
            percent_text(finding.amount));
    case StringingRemark::slack:
        return fmt::format("{} carries at most {} of its breaking stress; so slack a string may sound dull.",
                           name, percent_text(finding.amount));
    case StringingRemark::pulls_more:
        return fmt::format("{} would pull {} harder than now.", name, percent_text(finding.amount - 1.0));
    case StringingRemark::pulls_less:
        return fmt::format("{} would pull {} less than now.", name, percent_text(1.0 - finding.amount));
    case StringingRemark::whole_pull_up:
        return fmt::format("The whole harp would pull {} more.", percent_text(finding.amount - 1.0));
    }
    return "";
}

} // namespace

std::vector<std::string> string_sentences(const StringFigures& figures)
{
    const auto name = harp_name(figures.place);
    std::vector<std::string> sentences;
    sentences.push_back(
        fmt::format("{} pulls {} ({} to {}) at its open pitch and pushes back at the finger with {}.", name,
                    newtons_text(figures.tension.value), newtons_text(figures.tension.low),
                    newtons_text(figures.tension.high), stiffness_text(figures.stiffness.value)));
    if (!figures.stress)
        sentences.emplace_back("Without its diameter nothing can be said of stress and inharmonicity.");
    else if (const auto& share = figures.share_of_breaking)
        sentences.push_back(fmt::format("Its stress is {}, {} of breaking ({}).",
                                        megapascals_text(figures.stress->value), percent_text(share->value),
                                        percent_range_text(share->low, share->high)));
    else
        sentences.push_back(fmt::format("Its stress is {}; no breaking stress is known for its material.",
                                        megapascals_text(figures.stress->value)));
    if (const auto& b = figures.inharmonicity)
        sentences.push_back(fmt::format("Inharmonicity B {} {:.2g} ({:.2g} to {:.2g}).",
                                        figures.inharmonicity_is_floor ? "at least" : "about", b->value,
                                        b->low, b->high));
    sentences.push_back(constants_remark(figures.weakest_constant));
    return sentences;
}

std::vector<std::string> pull_sentences(const HarpPull& pull, const std::string& origin,
                                        const StringingLevels& levels)
{
    std::vector<std::string> sentences;
    sentences.push_back(fmt::format(
        "{} pull {} together ({} to {}).", counted(static_cast<int>(pull.strings.size()), "string"),
        newtons_text(pull.total.value), newtons_text(pull.total.low), newtons_text(pull.total.high)));
    auto weakest = Sureness::measured;
    for (const auto& string : pull.strings) weakest = std::max(weakest, string.weakest_constant);
    sentences.push_back(fmt::format("Lengths and gauges: {}. {}", origin, constants_remark(weakest)));
    for (const auto& finding : findings_of(pull, levels)) sentences.push_back(finding_sentence(finding));
    sentences.emplace_back(cautions::many_strings);
    return sentences;
}

std::vector<std::string> change_sentences(const StringChange& change, const StringingLevels& levels)
{
    std::vector<std::string> sentences;
    const double feel = change.stiffness_ratio - 1.0;
    sentences.push_back(fmt::format(
        "{}: {} instead of {}; at the finger {} {} ({} instead of {}).", harp_name(change.after.place),
        newtons_text(change.after.tension.value), newtons_text(change.before.tension.value),
        percent_text(std::abs(feel)), feel < 0.0 ? "softer" : "stiffer",
        stiffness_text(change.after.stiffness.value), stiffness_text(change.before.stiffness.value)));
    sentences.push_back(fmt::format("The whole harp: {} instead of {}.", newtons_text(change.total_after),
                                    newtons_text(change.total_before)));
    for (const auto& finding : findings_of(change, levels)) sentences.push_back(finding_sentence(finding));
    sentences.push_back(
        constants_remark(std::max(change.before.weakest_constant, change.after.weakest_constant)));
    sentences.emplace_back(cautions::gauge);
    sentences.emplace_back(cautions::removal);
    return sentences;
}

std::string inharmonicity_sentence(const StringFigures& predicted, const InharmonicityComparison& comparison,
                                   const MeasuredInharmonicity& measured)
{
    const auto name = harp_name(predicted.place);
    const auto figures = fmt::format("measured B {:.2g} ± {:.1g}, planned {:.2g} to {:.2g}", measured.value,
                                     measured.standard_uncertainty, predicted.inharmonicity->low,
                                     predicted.inharmonicity->high);
    switch (comparison.verdict) {
    case InharmonicityVerdict::as_planned:
        return fmt::format("{} is as stiff as planned ({}).", name, figures);
    case InharmonicityVerdict::above_floor:
        return fmt::format("{} is stiffer than its bare core, as a wound string should be ({}).", name,
                           figures);
    case InharmonicityVerdict::more_supple:
        return fmt::format(
            "{} is more supple than planned ({}): a thinner or longer string, or another material?", name,
            figures);
    case InharmonicityVerdict::stiffer:
        break;
    }
    const auto as_if =
        comparison.equivalent_diameter
            ? fmt::format(", as if it were {} thick", millimetres_text(*comparison.equivalent_diameter))
            : std::string{};
    return fmt::format(
        "{} is stiffer than planned{} ({}): a thicker string, another material, or a worn one?", name, as_if,
        figures);
}

} // namespace harpkeep
