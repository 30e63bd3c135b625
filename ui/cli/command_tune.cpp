// SPDX-License-Identifier: MIT
#include "db/ledger/file_bytes.hpp"
#include "harp/temperament.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/ledger_access.hpp"
#include "ui/cli/live_device.hpp"
#include "ui/cli/tune_live.hpp"
#include "units/interval.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <charconv>
#include <memory>

namespace harpkeep::cli {

namespace {

constexpr std::int64_t largest_list_bytes = 1'048'576;

struct TuneWords {
    ui::DeviceChoice device;
    std::string harp;
    double a4_hz = 440.0;
    bool from_tone = false;
    std::string temperament = "equal";
    std::string tuned_in = "open";
    std::vector<std::string> offsets;
    std::string list_path; ///< what `harpkeep tune-around --json` printed
    double tolerance_cents = 1.0;
};

/// "4C=-1.5": a string and its offset from the temperament in cents.
Result<StringOffset> offset_from(const std::string& text)
{
    const auto equals = text.find('=');
    const auto place = place_from_harp_name(std::string_view{text}.substr(0, equals));
    double cents = 0.0;
    bool is_number = false;
    if (equals != std::string::npos) {
        const char* const end = text.data() + text.size();
        const char* begin = text.data() + equals + 1;
        if (begin < end && *begin == '+') ++begin;
        const auto read = std::from_chars(begin, end, cents);
        is_number = read.ec == std::errc{} && read.ptr == end;
    }
    if (!place || !is_number)
        return failure(
            ErrorCode::invalid_argument,
            fmt::format("\"{}\" is no offset; write a string and cents, for example 4C=-1.5", text));
    return StringOffset{*place, Cents{cents}};
}

Result<TuningRequest> request_from(const TuneWords& words)
{
    TuningRequest request{.a4 = Hertz{words.a4_hz}};
    const auto tuned_in = tuned_in_from_name(words.tuned_in);
    if (!tuned_in)
        return failure(ErrorCode::invalid_argument,
                       fmt::format("\"{}\" is no way to hold a harp while tuning; write open or naturals",
                                   words.tuned_in));
    request.tuned_in = *tuned_in;
    const Temperament* temperament = find_temperament(words.temperament);
    if (!temperament)
        return failure(ErrorCode::invalid_argument,
                       fmt::format("there is no temperament \"{}\"; harpkeep temperament lists them",
                                   words.temperament));
    request.temperament = [deviations = deviations_cents(*temperament)](int key) {
        return Cents{deviations[static_cast<std::size_t>(((key % 12) + 12) % 12)]};
    };
    for (const std::string& text : words.offsets) {
        const auto offset = offset_from(text);
        if (!offset) return failure(offset.error());
        request.offsets.push_back(*offset);
    }
    return request;
}

/// Takes A4, temperament and the place of each string from a list to tune around.
Result<void> take_list(const std::string& path, const HarpLayout& layout, TuneWords& words,
                       TuningRequest& request)
{
    const auto bytes = db::file_bytes(path, largest_list_bytes);
    if (!bytes) return failure(bytes.error());
    const auto unusable = failure(
        ErrorCode::unusable_input,
        fmt::format("{} is no tuning list; harpkeep tune-around --json ... >{} makes one", path, path));
    const auto list = nlohmann::json::parse(bytes->begin(), bytes->end(), nullptr, false);
    if (!list.is_object() || !list.contains("strings") || !list["strings"].is_array() ||
        !list.value("a4_hz", nlohmann::json{}).is_number() ||
        !list.value("temperament", nlohmann::json{}).is_string())
        return unusable;
    words.a4_hz = list["a4_hz"].get<double>();
    words.temperament = list["temperament"].get<std::string>();
    auto base = request_from(words);
    if (!base) return failure(base.error());
    request = std::move(*base);
    const auto plain = tuning_targets(layout, request);
    if (!plain) return failure(plain.error());
    for (const auto& string : list["strings"]) {
        if (!string.is_object() || !string.value("place", nlohmann::json{}).is_string() ||
            !string.value("frequency_hz", nlohmann::json{}).is_number())
            return unusable;
        const auto place = place_from_harp_name(string["place"].get<std::string>());
        const double frequency_hz = string["frequency_hz"].get<double>();
        const auto target = std::find_if(plain->begin(), plain->end(), [&](const TuningTarget& each) {
            return place && each.place == *place;
        });
        if (target == plain->end() || frequency_hz <= 0.0)
            return failure(ErrorCode::unusable_input,
                           fmt::format("{} is the list of another harp: {} is no string of this one", path,
                                       string["place"].get<std::string>()));
        request.offsets.push_back({*place, interval(target->frequency, Hertz{frequency_hz})});
    }
    return {};
}

std::string words_for_setting(const TuneWords& words, HarpKind kind)
{
    const Temperament* temperament = find_temperament(words.temperament);
    std::string_view held = kind == HarpKind::pedal ? "all pedals up" : "all levers open";
    if (words.tuned_in == "naturals") held = "all pedals in the middle";
    return fmt::format("{}{}, {}", words.list_path.empty() ? "" : "around a piece, ",
                       temperament ? temperament->title : std::string_view{}, held);
}

Result<void> tune(const Common& common, const TuneWords& words)
{
    const auto place = open_harp(common, db::Access::read, words.harp);
    if (!place) return failure(place.error());
    const HarpDetails& harp = place->harp.details;
    auto request = request_from(words);
    if (!request) return failure(request.error());
    TuneWords all = words;
    if (!words.list_path.empty())
        if (auto taken = take_list(words.list_path, harp.layout, all, *request); !taken) return taken;
    return tune_live({.device = words.device,
                      .harp_name = harp.name,
                      .request = {.layout = harp.layout,
                                  .tuning = *request,
                                  .tolerance = Cents{words.tolerance_cents},
                                  .a4_from_tone = words.from_tone},
                      .tuned_to = words_for_setting(all, harp.layout.kind)},
                     common.json);
}

} // namespace

void add_command_tune(CLI::App& app, Common& common, Work& work)
{
    auto words = std::make_shared<TuneWords>();
    auto* command = app.add_subcommand("tune", "help to tune a harp, string by string, by listening");
    command->footer(
        "The sounding string is drawn as a line that is straight in tune. Turn pins slowly and never\n"
        "many strings far at once: the strings of a concert harp pull about 10 kN together.");
    command->add_option("--harp", words->harp, "name of the harp (default: the only one)");
    command->add_option("--a4", words->a4_hz, "pitch of A4 in Hz, 392 to 466")->capture_default_str();
    command->add_flag("--from-tone", words->from_tone,
                      "take A4 from a reference tone first: a fork, an oboe, any A");
    command->add_option("--temperament", words->temperament, "as harpkeep temperament lists them")
        ->capture_default_str();
    command->add_option("--tuned-in", words->tuned_in, "open (pedals up, levers open) or naturals")
        ->capture_default_str();
    command->add_option("--offset", words->offsets,
                        "cents beside the temperament for one string, for example 4C=-1.5; may be repeated");
    command
        ->add_option("--list", words->list_path,
                     "tune by this list, which harpkeep tune-around --json printed into a file: its A4, "
                     "temperament and strings")
        ->excludes("--a4")
        ->excludes("--temperament")
        ->excludes("--offset")
        ->excludes("--tuned-in");
    command->add_option("--tolerance", words->tolerance_cents, "cents within which a string is in tune")
        ->check(CLI::Range(0.1, 20.0))
        ->capture_default_str();
    add_device_options(*command, words->device);
    add_common_options(*command, common);
    command->callback([words, &common, &work] { work = [words, &common] { return tune(common, *words); }; });
}

} // namespace harpkeep::cli
