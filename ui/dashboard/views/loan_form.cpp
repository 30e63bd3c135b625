// SPDX-License-Identifier: MIT
#include "ui/dashboard/views/loan_form.hpp"

#include "ui/dashboard/figures.hpp"
#include "ui/dashboard/guards.hpp"
#include "ui/dashboard/text.hpp"
#include "ui/dashboard/views/shared.hpp"
#include "ui/dashboard/widgets/controls.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace harpkeep::dashboard {

namespace {

using Asks = LoanFormState::Asks;

constexpr std::size_t loans_shown = 3;

std::string line_of(const LoanLine& loan)
{
    std::string out = fmt::format(text::loan_line_format, loan.borrower, iso_date(loan.from));
    if (loan.back)
        out += fmt::format(text::loan_back_format, iso_date(*loan.back));
    else if (loan.until)
        out += fmt::format(text::loan_until_format, iso_date(*loan.until));
    if (!loan.condition_out.empty()) out += fmt::format(text::loan_condition_out_format, loan.condition_out);
    if (!loan.condition_back.empty())
        out += fmt::format(text::loan_condition_back_format, loan.condition_back);
    return out;
}

void begin(LoanFormState& state, Asks asks, const RoomRow& row, Day today)
{
    state = {.asks = asks, .harp = row.key, .from = day_text(today)};
    if (asks != Asks::change) return;
    const auto& loan = row.loans.front();
    state.borrower = loan.borrower;
    state.from = iso_date(loan.from);
    if (loan.until) state.until = iso_date(*loan.until);
    state.condition = loan.condition_out;
}

void field(const Ui& ui, const char* name, const char* label, std::string& value, float width,
           const char* hint, const char* why)
{
    flow(ui, std::string{label} + "00000000000000000000");
    ImGui::AlignTextToFramePadding();
    words(ui, label);
    ImGui::SameLine();
    text_field(ui, name, value, width, hint, why);
}

/// The action that the form asks for; nothing, and its trouble set, when it cannot be.
std::optional<Action> wish_of(LoanFormState& state, const RoomRow& row)
{
    const auto from = date_from_iso(state.from);
    if (!from) {
        state.trouble = fmt::format(text::loan_date_wrong_format, state.from);
        return std::nullopt;
    }
    if (state.asks == Asks::give_back) return ReturnHarp{row.key, *from, state.condition};
    std::optional<Date> until;
    if (!state.until.empty()) {
        until = date_from_iso(state.until);
        if (!until) {
            state.trouble = fmt::format(text::loan_date_wrong_format, state.until);
            return std::nullopt;
        }
    }
    if (state.borrower.find_first_not_of(' ') == std::string::npos) {
        state.trouble = text::loan_who_missing;
        return std::nullopt;
    }
    if (state.asks == Asks::change)
        return ChangeLoan{row.loans.front().key, state.borrower, *from, until, state.condition};
    return LendHarp{row.key, state.borrower, *from, until, state.condition};
}

void show_form(const Ui& ui, const RoomRow& row, LoanFormState& state, Actions& actions)
{
    const bool back = state.asks == Asks::give_back;
    subheading(ui, back                         ? text::loan_back_title
                   : state.asks == Asks::change ? text::loan_change_title
                                                : text::loan_lend_title);
    if (!back) {
        ImGui::AlignTextToFramePadding();
        words(ui, text::loan_who);
        ImGui::SameLine();
        text_field(ui, "room.loan_who", state.borrower, 220.0F, text::loan_who_hint, text::loan_who_why);
        field(ui, "room.loan_from", text::loan_from, state.from, 108.0F, text::day_hint, text::loan_from_why);
        field(ui, "room.loan_until", text::loan_until, state.until, 108.0F, text::day_hint,
              text::loan_until_why);
    } else {
        ImGui::AlignTextToFramePadding();
        words(ui, text::loan_back_on);
        ImGui::SameLine();
        text_field(ui, "room.loan_from", state.from, 108.0F, text::day_hint, text::loan_back_on_why);
    }
    field(ui, "room.loan_condition", text::loan_condition, state.condition, 280.0F, text::loan_condition_hint,
          back ? text::loan_condition_back_why : text::loan_condition_why);
    if (!state.trouble.empty()) paragraph(ui, state.trouble, Tint::out);
    if (button(ui, "room.loan_save", text::save, text::loan_save_why, Weight::chief)) {
        state.trouble.clear();
        if (const auto wish = wish_of(state, row)) {
            actions.push_back(*wish);
            state = {};
        }
    }
    ImGui::SameLine();
    if (button(ui, "room.loan_cancel", text::cancel, text::loan_cancel_why)) state = {};
}

} // namespace

void show_loans(const Ui& ui, const RoomRow& row, Day today, LoanFormState& state, Actions& actions)
{
    if (state.harp != row.key) state = {};
    const bool out = !row.loans.empty() && !row.loans.front().back;
    if (state.asks != Asks::nothing) {
        show_form(ui, row, state, actions);
        return;
    }
    if (!out) {
        flow(ui, text::lend);
        if (button(ui, "room.lend", text::lend, text::lend_why)) begin(state, Asks::lend, row, today);
    } else {
        flow(ui, text::give_back);
        if (button(ui, "room.give_back", text::give_back, text::give_back_why))
            begin(state, Asks::give_back, row, today);
        flow(ui, text::change_loan);
        if (button(ui, "room.change_loan", text::change_loan, text::change_loan_why))
            begin(state, Asks::change, row, today);
    }
    const std::size_t shown = std::min(row.loans.size(), loans_shown);
    for (std::size_t i = 0; i < shown; ++i)
        paragraph(ui, line_of(row.loans[i]), i == 0 && out ? Tint::ink : Tint::quiet_ink);
    if (row.loans.size() > shown)
        words(ui, fmt::format(text::more_loans_format, row.loans.size() - shown), Tint::quiet_ink);
}

} // namespace harpkeep::dashboard
