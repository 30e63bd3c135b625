// SPDX-License-Identifier: MIT
#pragma once

#include "db/exchange/exchange_column.hpp"
#include "db/ledger/action.hpp"

#include <map>
#include <string>

namespace harpkeep::db {

/// Finds the things that cells speak of: by the name of a harp or a room, by handle or key, or by a label
/// that stands for a thing of the same import.
class ReferenceFinder {
  public:
    explicit ReferenceFinder(const Database& database) : database_(database) {}

    void note_label(const std::string& label, ThingNo thing) { labels_[label] = thing; }
    [[nodiscard]] bool has_label(const std::string& label) const { return labels_.contains(label); }

    /// Given    kind  what it must be; empty: anything
    /// Returns  the thing that holds now, or why there is none
    [[nodiscard]] tl::expected<ThingNo, std::string> find(const std::string& text,
                                                          const std::string& kind) const;

  private:
    [[nodiscard]] tl::expected<ThingNo, std::string> by_query(Statement query, const std::string& text,
                                                              const std::string& kind) const;

    const Database& database_;
    std::map<std::string, ThingNo> labels_;
};

} // namespace harpkeep::db
