// SPDX-License-Identifier: MIT
#pragma once

#include "base/error.hpp"

#include <string>
#include <vector>

namespace harpkeep::dashboard {

enum class MessageKind { done, trouble };

struct Message {
    MessageKind kind = MessageKind::done;
    std::string text;
    bool undoable = false;
    double born_s = 0.0; ///< on the clock of the frames
};

/// What the window has to say, newest last. Nothing is lost: a message leaves the foot of the window after a
/// while (trouble only when it is put away) but stays in the list that the foot unfolds.
class Messages {
  public:
    void done(std::string text, bool undoable, double now_s)
    {
        // Only the last action can be undone.
        for (auto& message : all_) message.undoable = message.undoable && !undoable;
        add({MessageKind::done, std::move(text), undoable, now_s});
    }
    void trouble(const Error& error, double now_s)
    {
        add({MessageKind::trouble, error.message, false, now_s});
    }
    void no_more_undo()
    {
        for (auto& message : all_) message.undoable = false;
    }
    void put_away() { shown_ = false; }
    /// The message at the foot of the window now, or none.
    [[nodiscard]] const Message* current(double now_s) const
    {
        if (all_.empty() || !shown_) return nullptr;
        const auto& last = all_.back();
        const double stays_s = last.undoable ? 12.0 : 6.0;
        return last.kind == MessageKind::trouble || now_s - last.born_s < stays_s ? &last : nullptr;
    }
    [[nodiscard]] const std::vector<Message>& all() const { return all_; }

  private:
    void add(Message message)
    {
        constexpr std::size_t most = 200;
        if (all_.size() >= most) all_.erase(all_.begin());
        all_.push_back(std::move(message));
        shown_ = true;
    }
    std::vector<Message> all_;
    bool shown_ = false;
};

} // namespace harpkeep::dashboard
