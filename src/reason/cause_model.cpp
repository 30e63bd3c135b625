// SPDX-License-Identifier: MIT
#include "reason/cause_model.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace harpkeep {

namespace {

// Sizes that each kind of effect may well have, in cents, and how often one is there; own choice. They matter
// little: ten times the odds move the threshold by half a standard uncertainty.
constexpr double general_deviation = 2.0;
constexpr double along_neck_deviation = 3.0;
constexpr double pedal_deviation = 6.0;
constexpr double string_deviation = 10.0;
constexpr double along_neck_probability = 0.1;
constexpr double pedal_probability = 0.1;
constexpr double string_probability = 0.03;

/// An observation and what it is of; `step` is nothing for flat to sharp.
struct Row {
    StringPlace place;
    std::optional<Step> step;
    double along_neck = 0.0;
};

class Builder {
  public:
    explicit Builder(const HarpLayout& layout) : layout_(layout) {}

    void add_steps(std::span<const StepError> steps)
    {
        for (const auto& step : steps) {
            if (!has_step(step.place, step.step)) continue;
            place_index_[{step.place, step.step}] = rows_.size();
            add_row({step.place, step.step, along_neck(step.place)}, step.error_cents, step.uncertainty_cents,
                    1.0);
        }
    }

    void add_whole_steps(std::span<const WholeStepError> whole_steps)
    {
        for (const auto& whole : whole_steps) {
            const auto lower = place_index_.find({whole.place, Step::lower});
            const auto upper = place_index_.find({whole.place, Step::upper});
            if (lower != place_index_.end() && upper != place_index_.end())
                share_natural(lower->second, upper->second, whole.uncertainty_cents);
            else if (lower == place_index_.end() && upper == place_index_.end() &&
                     has_step(whole.place, Step::upper))
                add_row({whole.place, std::nullopt, along_neck(whole.place)}, whole.error_cents,
                        whole.uncertainty_cents, 2.0);
        }
    }

    CauseModel finish()
    {
        for (const Step step : {Step::lower, Step::upper}) {
            add_along_neck(CauseKind::general, step, general_deviation);
            add_along_neck(CauseKind::slope, step, along_neck_deviation);
            add_along_neck(CauseKind::bend, step, along_neck_deviation);
        }
        if (layout_.kind != HarpKind::lever) add_pedals();
        add_strings();
        return std::move(model_);
    }

  private:
    [[nodiscard]] bool has_step(StringPlace place, Step step) const
    {
        const HarpString* string = find_string(layout_, place);
        if (string == nullptr) return false;
        const auto steps = steps_of(layout_.kind, *string);
        return std::find(steps.begin(), steps.end(), step) != steps.end();
    }

    [[nodiscard]] double along_neck(StringPlace place) const
    {
        const auto has_disc = [](const HarpString& string) { return string.has_natural_disc; };
        const auto lowest = std::find_if(layout_.strings.begin(), layout_.strings.end(), has_disc);
        const auto highest = std::find_if(layout_.strings.rbegin(), layout_.strings.rend(), has_disc);
        const double first = lowest->place.diatonic_index();
        const double last = highest->place.diatonic_index();
        return last > first ? 2.0 * (place.diatonic_index() - first) / (last - first) - 1.0 : 0.0;
    }

    void add_row(const Row& row, double error_cents, double uncertainty_cents, double scatter_share)
    {
        rows_.push_back(row);
        model_.observations.push_back({error_cents, uncertainty_cents * uncertainty_cents, scatter_share});
    }

    /// The whole step's variance is the sum of both and twice their covariance, which the natural makes.
    void share_natural(std::size_t lower, std::size_t upper, double whole_uncertainty_cents)
    {
        const double a = model_.observations[lower].known_variance;
        const double b = model_.observations[upper].known_variance;
        const double covariance = 0.5 * (whole_uncertainty_cents * whole_uncertainty_cents - a - b);
        const double most = 0.95 * std::sqrt(a * b); // rounded inputs must leave a covariance matrix
        model_.shared.push_back({lower, upper, std::clamp(covariance, -most, most)});
    }

    void add(const CauseTerm& term, stats::CandidateEffect candidate)
    {
        if (candidate.parts.empty()) return;
        model_.terms.push_back(term);
        model_.terms.back().rests_on = static_cast<int>(candidate.parts.size());
        model_.candidates.push_back(std::move(candidate));
    }

    /// A step that the row holds, alone or as one of two.
    [[nodiscard]] static bool holds(const Row& row, Step step) { return !row.step || *row.step == step; }

    void add_along_neck(CauseKind kind, Step step, double deviation)
    {
        stats::CandidateEffect candidate{.prior_deviation = deviation,
                                         .prior_probability = along_neck_probability,
                                         .always_present = true};
        for (std::size_t i = 0; i < rows_.size(); ++i) {
            if (!holds(rows_[i], step)) continue;
            const double x = rows_[i].along_neck;
            // Slope counts from end to end; bend is middle against ends, P2(0) - P2(1) = -1.5.
            const double factor = kind == CauseKind::general ? 1.0
                                  : kind == CauseKind::slope ? 0.5 * x
                                                             : -(1.5 * x * x - 0.5) / 1.5;
            candidate.parts.push_back({i, factor});
        }
        add({.kind = kind, .step = step}, std::move(candidate));
    }

    void add_pedals()
    {
        for (const Letter letter : pedal_order) {
            for (const Step step : {Step::lower, Step::upper}) {
                stats::CandidateEffect candidate{.prior_deviation = pedal_deviation,
                                                 .prior_probability = pedal_probability};
                for (std::size_t i = 0; i < rows_.size(); ++i)
                    if (rows_[i].place.letter == letter && holds(rows_[i], step))
                        candidate.parts.push_back({i, 1.0});
                add({.kind = CauseKind::pedal, .pedal = letter, .step = step}, std::move(candidate));
            }
        }
    }

    void add_strings()
    {
        for (std::size_t i = 0; i < rows_.size(); ++i)
            add({.kind = CauseKind::string, .place = rows_[i].place, .step = rows_[i].step},
                {.parts = {{i, 1.0}},
                 .prior_deviation = string_deviation,
                 .prior_probability = string_probability});
    }

    const HarpLayout& layout_;
    std::vector<Row> rows_;
    std::map<std::pair<StringPlace, Step>, std::size_t> place_index_;
    CauseModel model_;
};

} // namespace

CauseModel make_cause_model(const HarpLayout& layout, std::span<const StepError> steps,
                            std::span<const WholeStepError> whole_steps)
{
    Builder builder(layout);
    builder.add_steps(steps);
    builder.add_whole_steps(whole_steps);
    return builder.finish();
}

} // namespace harpkeep
