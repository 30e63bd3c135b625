// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"
#include "reason/tune_around.hpp"

#include <optional>
#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace harpkeep::cli {

/// What was written about a piece to tune for.
struct PieceWords {
    std::vector<std::string> settings;
    std::string piece; ///< a file with one setting a line
    std::string score; ///< a MusicXML file
    std::string temperament = "equal";
    std::string goal = "greatest";
    std::optional<double> a4_hz;

    [[nodiscard]] bool names_settings() const
    {
        return !settings.empty() || !piece.empty() || !score.empty();
    }
};

void add_piece_options(CLI::App& app, PieceWords& words);

/// The settings of the piece, from the one of the three ways in which they were given.
[[nodiscard]] Result<std::vector<UsedSetting>> settings_of(const PieceWords& words);
[[nodiscard]] TuneGoal goal_of(const PieceWords& words);
[[nodiscard]] Temperament temperament_of(const PieceWords& words);

} // namespace harpkeep::cli
