// SPDX-License-Identifier: MIT
#include "reason/harp_verdict.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace harpkeep {

namespace {

/// Reasons that speak for calling now, for the next visit, and for neither, as they are found.
class Weighing {
  public:
    Weighing(const HarpEvidence& evidence, const HarpVerdictSettings& settings)
        : evidence_(evidence), settings_(settings)
    {
        for (const auto& condition : evidence.conditions)
            if (condition.kind == ConditionKind::settling || condition.kind == ConditionKind::false_string)
                excused_.insert(condition.place);
    }

    HarpVerdict verdict()
    {
        count_steps();
        weigh_steps();
        weigh_causes();
        weigh_conditions();
        weigh_forecasts();
        weigh_visits();
        const bool too_little = weigh_data();
        verdict_.urgency = call_        ? Urgency::call_now
                           : next_      ? Urgency::next_visit
                           : too_little ? Urgency::cannot_say
                                        : Urgency::not_needed;
        if (verdict_.urgency == Urgency::not_needed) weigh_soundness();
        sort_reasons();
        verdict_.check_age_days = evidence_.check_age_days;
        return verdict_;
    }

  private:
    enum class Points { to_call, to_visit, away, nowhere };

    void add(Points points, Reason reason)
    {
        call_ |= points == Points::to_call;
        next_ |= points == Points::to_visit;
        // What decides stands before what does not.
        reason.weight += points == Points::to_call ? 100.0 : points == Points::to_visit ? 10.0 : 0.0;
        verdict_.all_reasons.push_back(reason);
    }

    void count_steps()
    {
        verdict_.expected = evidence_.steps_expected;
        for (const auto& step : evidence_.steps) {
            if (!step.step) continue;
            ++verdict_.measured;
            verdict_.within += step.conformity == Conformity::within;
            verdict_.not_proven += step.conformity == Conformity::not_proven;
            verdict_.out += step.conformity == Conformity::out;
            verdict_.watched += step.watch;
            if (step.conformity == Conformity::within)
                verdict_.expected_wrong_within += 1.0 - step.probability_within;
        }
        const bool all_within = verdict_.within > 0 && verdict_.within >= verdict_.expected;
        verdict_.conformity = verdict_.out > 0 ? Conformity::out
                              : all_within     ? Conformity::within
                                               : Conformity::not_proven;
    }

    void weigh_steps()
    {
        Reason out{.kind = ReasonKind::steps_out, .of = verdict_.measured, .rests_on = verdict_.measured};
        Reason far = out;
        far.kind = ReasonKind::steps_far_out;
        double worst = 0.0;
        for (const auto& step : evidence_.steps) {
            if (!step.step || step.conformity != Conformity::out || excused_.count(step.place) > 0) continue;
            const double used = tolerance_used(step.error.value, step.tolerance);
            ++out.count;
            far.count += used > settings_.far_out;
            if (used <= worst) continue;
            worst = used;
            out.place = far.place = step.place;
            out.cents = far.cents = step.error.value;
            out.lower_cents = far.lower_cents = step.error.value - 1.96 * step.error.uncertainty;
            out.upper_cents = far.upper_cents = step.error.value + 1.96 * step.error.uncertainty;
        }
        if (far.count > 0) {
            far.weight = 3.0 * far.count;
            add(far.count >= settings_.steps_far_out_to_call ? Points::to_call : Points::to_visit, far);
        }
        if (out.count > 0) {
            out.weight = out.count;
            add(out.count >= settings_.steps_out_to_call ? Points::to_call : Points::to_visit, out);
        }
        if (verdict_.measured > 0 &&
            verdict_.watched > settings_.watched_share * static_cast<double>(verdict_.measured))
            add(Points::to_visit, {.kind = ReasonKind::many_watched,
                                   .weight = 0.1 * verdict_.watched,
                                   .count = verdict_.watched,
                                   .of = verdict_.measured,
                                   .rests_on = verdict_.measured});
    }

    /// A pedal beyond the tolerance of a plain step touches every octave: that is for now.
    void weigh_causes()
    {
        if (!evidence_.causes) return;
        Reason strings{.kind = ReasonKind::string_off, .cause = CauseKind::string};
        for (const auto& fault : evidence_.causes->faults) {
            const auto& effect = *std::max_element(
                fault.effects.begin(), fault.effects.end(),
                [](const auto& a, const auto& b) { return std::abs(a.cents) < std::abs(b.cents); });
            Reason reason{.pedal = fault.pedal,
                          .place = fault.place,
                          .cause = fault.kind,
                          .cents = effect.cents,
                          .lower_cents = effect.lower_cents,
                          .upper_cents = effect.upper_cents,
                          .probability = effect.probability,
                          .rests_on = effect.rests_on};
            if (fault.kind == CauseKind::string) {
                if (excused_.count(*fault.place) > 0) continue;
                const int count = strings.count + 1;
                if (count == 1) strings = reason; // faults come greatest first
                strings.count = count;
                strings.kind = ReasonKind::string_off;
                continue;
            }
            reason.kind = fault.kind == CauseKind::pedal ? ReasonKind::pedal_off : ReasonKind::neck_off;
            reason.weight = 2.0 * std::abs(effect.cents);
            const bool grave = fault.kind == CauseKind::pedal && std::abs(effect.cents) > plain_limit();
            add(grave ? Points::to_call : Points::to_visit, reason);
        }
        if (strings.count > 0) {
            strings.weight = 0.5 * std::abs(strings.cents) + strings.count;
            add(Points::to_visit, strings);
        }
    }

    /// The upper limit of a step in the middle octaves, as the steps were judged.
    [[nodiscard]] double plain_limit() const
    {
        for (const auto& step : evidence_.steps)
            if (step.step && step.place.harp_octave() > 1) return step.tolerance.upper;
        return ToleranceSettings{}.standard.upper;
    }

    void weigh_conditions()
    {
        struct Part {
            ConditionKind condition;
            ReasonKind reason;
            Points points;
        };
        for (const auto& part :
             {Part{ConditionKind::poor_ring, ReasonKind::poor_ring, Points::to_visit},
              Part{ConditionKind::no_return, ReasonKind::no_return, Points::to_visit},
              Part{ConditionKind::false_string, ReasonKind::false_strings, Points::nowhere},
              Part{ConditionKind::settling, ReasonKind::settling, Points::nowhere}}) {
            Reason reason{.kind = part.reason};
            for (const auto& condition : evidence_.conditions) {
                if (condition.kind != part.condition || condition.certainty != Conformity::out) continue;
                if (part.points == Points::to_visit && excused_.count(condition.place) > 0) continue;
                if (++reason.count > 1) continue;
                reason.place = condition.place;
                reason.cents = condition.value;
                reason.rests_on = condition.rests_on;
            }
            reason.weight = reason.count;
            if (reason.count > 0) add(part.points, reason);
        }
    }

    void weigh_forecasts()
    {
        Reason reason{.kind = ReasonKind::leaving, .months = settings_.months_ahead};
        const auto month = static_cast<std::size_t>(settings_.months_ahead - 1);
        for (const auto& forecast : evidence_.forecasts) {
            if (forecast.gap || month >= forecast.left_by_month.size() || forecast.out_now > 0.5) continue;
            if (forecast.left_by_month[month] < settings_.leaving_probability) continue;
            if (++reason.count > 1) continue; // the soonest comes first
            reason.place = forecast.place;
            reason.probability = forecast.left_by_month[month];
            reason.rests_on = forecast.checks;
        }
        reason.weight = reason.count;
        if (reason.count > 0) add(Points::to_visit, reason);
    }

    void weigh_visits()
    {
        if (!evidence_.days_since_visit) return;
        const int days = *evidence_.days_since_visit;
        if (days > settings_.usual_days_between_visits)
            add(Points::to_visit, {.kind = ReasonKind::visit_due,
                                   .weight = static_cast<double>(days) / settings_.usual_days_between_visits,
                                   .days = days});
    }

    /// Returns whether there is too little to say that all is well.
    bool weigh_data()
    {
        const bool few =
            verdict_.measured < settings_.least_measured_share * static_cast<double>(verdict_.expected) ||
            verdict_.measured == 0;
        const bool doubtful =
            verdict_.not_proven > settings_.most_not_proven_share * static_cast<double>(verdict_.measured);
        if (few)
            add(Points::nowhere, {.kind = ReasonKind::few_measured,
                                  .weight = 5.0,
                                  .count = verdict_.measured,
                                  .of = verdict_.expected});
        if (doubtful)
            add(Points::nowhere, {.kind = ReasonKind::many_not_proven,
                                  .weight = 4.0,
                                  .count = verdict_.not_proven,
                                  .of = verdict_.measured,
                                  .rests_on = verdict_.measured});
        return few || doubtful;
    }

    void weigh_soundness()
    {
        add(Points::away, {.kind = ReasonKind::all_within,
                           .weight = 9.0,
                           .count = verdict_.within,
                           .of = verdict_.measured,
                           .rests_on = verdict_.measured});
        if (evidence_.causes)
            add(Points::away, {.kind = ReasonKind::no_fault_found,
                               .weight = 8.0,
                               .rests_on = evidence_.causes->steps_used});
        if (evidence_.days_since_visit)
            add(Points::away,
                {.kind = ReasonKind::visit_recent, .weight = 7.0, .days = *evidence_.days_since_visit});
    }

    void sort_reasons()
    {
        std::stable_sort(verdict_.all_reasons.begin(), verdict_.all_reasons.end(),
                         [](const Reason& a, const Reason& b) { return a.weight > b.weight; });
        const auto count = std::min<std::size_t>(3, verdict_.all_reasons.size());
        verdict_.reasons.assign(verdict_.all_reasons.begin(),
                                verdict_.all_reasons.begin() + static_cast<std::ptrdiff_t>(count));
    }

    const HarpEvidence& evidence_;
    const HarpVerdictSettings& settings_;
    std::set<StringPlace> excused_; ///< settling or false: the string comes first
    HarpVerdict verdict_;
    bool call_ = false;
    bool next_ = false;
};

} // namespace

HarpVerdict judge_harp(const HarpEvidence& evidence, const HarpVerdictSettings& settings)
{
    return Weighing(evidence, settings).verdict();
}

} // namespace harpkeep
