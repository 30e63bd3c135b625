// SPDX-License-Identifier: MIT
#include "ui/cli/live_json.hpp"

#include <string>

namespace harpkeep::cli {

namespace {

nlohmann::json setting_json(const LetterPositions& setting)
{
    nlohmann::json letters = nlohmann::json::object();
    for (const Letter letter : pedal_order)
        if (const auto position = setting[static_cast<std::size_t>(letter)])
            letters[std::string(1, letter_name(letter))] = std::string{position_name(*position)};
    return letters;
}

} // namespace

nlohmann::json target_json(const CheckTarget& target)
{
    return {{"place", harp_name(target.place)}, {"position", std::string{position_name(target.position)}}};
}

nlohmann::json notice_json(const CheckNotice& notice, HarpKind kind)
{
    nlohmann::json line{{"event", "notice"},
                        {"notice", std::string{notice_name(notice.kind)}},
                        {"text", notice_text(notice, kind)}};
    if (notice.target) line.update(target_json(*notice.target));
    if (notice.alternative) line["alternative"] = target_json(*notice.alternative);
    if (notice.doubt) line["doubt"] = std::string{doubt_name(*notice.doubt)};
    if (notice.uncertainty) line["uncertainty_cents"] = notice.uncertainty->value();
    if (notice.count > 0) line["count"] = notice.count;
    return line;
}

nlohmann::json kept_json(const KeptReading& kept)
{
    const Reading& reading = kept.reading;
    nlohmann::json line{{"event", "kept"},
                        {"part", kept.station + 1},
                        {"start_s", reading.pluck.start_s},
                        {"frequency_hz", reading.pluck.frequency_hz},
                        {"uncertainty_cents", reading.pluck.uncertainty_cents}};
    line.update(target_json({reading.place, reading.position}));
    line["doubts"] = nlohmann::json::array();
    for (const Doubt doubt : reading.pluck.doubts) line["doubts"].push_back(std::string{doubt_name(doubt)});
    return line;
}

nlohmann::json next_json(const GuidedCheckView& view)
{
    nlohmann::json line{{"event", view.complete ? "complete" : "next"},
                        {"part", view.station + 1},
                        {"parts", view.station_count},
                        {"setting", setting_json(view.setting)},
                        {"done", view.done},
                        {"total", view.total}};
    if (view.next) line.update(target_json(*view.next));
    if (view.time_left) line["time_left_s"] = view.time_left->value();
    line["move"] = nlohmann::json::array();
    for (const Letter letter : view.to_move) line["move"].push_back(std::string(1, letter_name(letter)));
    line["passed_over"] = nlohmann::json::array();
    for (const CheckTarget& target : view.passed_over) line["passed_over"].push_back(target_json(target));
    if (view.drift)
        line["drift"] = {{"shift_cents", view.drift->shift.value()},
                         {"uncertainty_cents", view.drift->uncertainty.value()},
                         {"strings", view.drift->strings}};
    return line;
}

nlohmann::json heard_json(const HeardNow& heard)
{
    nlohmann::json line{{"event", "heard"},
                        {heard.is_step ? "step_error_cents" : "deviation_cents", heard.deviation.value()},
                        {"uncertainty_cents", heard.uncertainty.value()},
                        {"good", heard.good}};
    line.update(target_json(heard.target));
    return line;
}

nlohmann::json room_json(const RoomReport& report)
{
    nlohmann::json line{{"event", "room"},
                        {"listened_s", report.listened.value()},
                        {"clipped_samples", report.clipped_samples},
                        {"offset", report.offset}};
    if (report.noise) line["noise_db"] = report.noise->value();
    if (report.hum) line["hum_db"] = report.hum->value();
    if (report.mains) line["mains_hz"] = report.mains->value();
    if (report.pluck) line["pluck_db"] = report.pluck->value();
    line["problems"] = nlohmann::json::array();
    for (const RoomProblem problem : report.problems)
        line["problems"].push_back({{"problem", std::string{problem_name(problem)}},
                                    {"advice", std::string{problem_advice(problem)}}});
    return line;
}

nlohmann::json gap_json(const StreamGap& gap)
{
    nlohmann::json line{{"event", "gap"}};
    if (gap.counted) line["lost_frames"] = gap.lost_frames;
    return line;
}

nlohmann::json pitch_json(const TuningView& view)
{
    nlohmann::json line{{"event", "pitch"}, {"pass", view.pass}, {"done", view.done}};
    if (view.target) {
        line.update(target_json({view.target->place, view.target->position}));
        line["target_hz"] = view.target->frequency.value();
    }
    if (view.pitch) {
        line["deviation_cents"] = view.pitch->deviation.value();
        line["uncertainty_cents"] = view.pitch->uncertainty.value();
        line["turning"] = view.pitch->turning;
    }
    return line;
}

} // namespace harpkeep::cli
