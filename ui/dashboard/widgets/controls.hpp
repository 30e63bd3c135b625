// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/ui.hpp"

#include <span>
#include <string>
#include <string_view>

namespace harpkeep::dashboard {

enum class Weight { plain, chief };

/// Text and headings.
void heading(const Ui& ui, std::string_view words);
void subheading(const Ui& ui, std::string_view words);
void words(const Ui& ui, std::string_view text, Tint tint = Tint::ink);
/// Wrapped at the right edge of what holds it, or after `width` units.
void paragraph(const Ui& ui, std::string_view text, Tint tint = Tint::ink, float width = 0.0F);

/// The little window under the pointer that explains a figure; wrapped, above everything.
void explain(const Ui& ui, std::string_view text);
/// explain() when the last item is under the pointer or holds the keyboard.
void explain_last(const Ui& ui, std::string_view text);

/// Controls. `name` is noted in the registry and is the same in every language; `why` is the explanation.
bool button(const Ui& ui, std::string_view name, std::string_view label, std::string_view why = {},
            Weight weight = Weight::plain);
bool small_button(const Ui& ui, std::string_view name, std::string_view label, std::string_view why = {});
[[nodiscard]] float small_button_width(const Ui& ui, std::string_view label);
[[nodiscard]] float button_width(const Ui& ui, std::string_view label);
bool toggle(const Ui& ui, std::string_view name, std::string_view label, bool& value,
            std::string_view why = {});
/// A row of choices of which one holds; breaks into lines where the room ends. Returns the new choice.
int choice(const Ui& ui, std::string_view name, std::span<const std::string> labels, int chosen,
           std::string_view why = {});
/// A list that folds out. Returns the new choice.
int drop_list(const Ui& ui, std::string_view name, std::span<const std::string> labels, int chosen,
              float width, std::string_view why = {});
/// The same behind a picture of 32 by 32 units, where there is no room for the name.
int folded_list(const Ui& ui, std::string_view name, std::span<const std::string> labels, int chosen,
                const Picture& picture, std::string_view why = {});
bool text_field(const Ui& ui, std::string_view name, std::string& value, float width, std::string_view hint,
                std::string_view why = {});
/// A number with buttons for less and more; kept within [low, high].
bool number_field(const Ui& ui, std::string_view name, std::string_view label, double& value, double step,
                  double low, double high, int decimals, std::string_view why = {});

/// A card: a panel of its own ground that grows with what it holds.
class Card {
  public:
    /// Given  width  units of design; 0 takes the room there is
    Card(const Ui& ui, std::string_view name, float width = 0.0F, bool accent = false);
    ~Card();
    Card(const Card&) = delete;
    Card& operator=(const Card&) = delete;
    [[nodiscard]] float inner_width() const { return inner_; }

  private:
    const Ui& ui_;
    ImVec2 origin_;
    float width_pixels_ = 0.0F;
    float inner_ = 0.0F;
    float outer_content_right_ = 0.0F;
    float outer_work_right_ = 0.0F;
    ImDrawListSplitter splitter_;
    bool accent_;
    std::string name_;
};

/// A line of words that ends in an ellipsis where its room in pixels ends.
void cut_words(const Ui& ui, std::string_view text, float pixels, Tint tint = Tint::ink);

/// How far a task has got, with words beside it.
void progress(const Ui& ui, std::string_view name, double share, std::string_view label, float width);

/// Room left to the right of the cursor in units of design.
[[nodiscard]] float room(const Ui& ui);

} // namespace harpkeep::dashboard
