// SPDX-License-Identifier: MIT
#pragma once

#include "harp/harp_layout.hpp"
#include "reason/step_verdict.hpp"
#include "records/harp_record.hpp"
#include "records/string_record.hpp"
#include "records/visit_record.hpp"
#include "report/document.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace harpkeep::report {

// Small pieces that several reports share.

/// "pedal harp, 47 strings 7C to 0G, built 2009, serial 1234"
[[nodiscard]] std::string harp_subtitle(const HarpDetails& harp);

/// "gut 0.91 mm", "steel 0.75 mm in copper 2.10 mm"; "not known" when nothing is.
[[nodiscard]] std::string make_words(StringPlace place, const StringMake& make);

/// "+6.2 ± 0.6": value and half the 95 % interval, cents.
[[nodiscard]] std::string cents_cell(const Measured& error);
/// Half the 95 % interval.
[[nodiscard]] double half_interval_cents(const Measured& error);

[[nodiscard]] Mark mark_of(const StepVerdict& verdict);

/// "4C, 4D and 3A"; a run of five or more neighbours as "4C to 3B".
[[nodiscard]] std::string places_words(std::vector<StringPlace> places, const HarpLayout& layout);
/// "4C 4D 3A": for programs.
[[nodiscard]] std::string places_field(std::span<const StringPlace> places);

/// "3A: new disc [1 disc]; harp: regulated"
[[nodiscard]] std::string work_words(const Visit& visit);

/// The last visit on or before a day.
[[nodiscard]] const VisitRecord* last_visit(std::span<const VisitRecord> visits, Date today);

/// "180.00 EUR"; empty when unknown.
[[nodiscard]] std::string money_words(const std::optional<Money>& money);
/// "cost_minor_units" and "cost_currency", null when unknown.
[[nodiscard]] std::vector<Field> money_fields(const std::string& name, const std::optional<Money>& money);

/// Sums by currency: amounts in different currencies are not added up.
class MoneySum {
  public:
    void add(const std::optional<Money>& money);
    /// "180.00 EUR" or "180.00 EUR and 20.00 CHF"; empty when there was none.
    [[nodiscard]] std::string words() const;
    [[nodiscard]] const std::vector<Money>& totals() const { return totals_; }

  private:
    std::vector<Money> totals_;
};

[[nodiscard]] inline Field place_field(StringPlace place)
{
    return {"place", harp_name(place)};
}

} // namespace harpkeep::report
