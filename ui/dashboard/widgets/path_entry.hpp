// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/ui.hpp"

#include <string>
#include <vector>

namespace harpkeep::dashboard {

/// A file or folder that the typed path could go on to.
struct PathOffer {
    std::string name;
    bool folder = false;
};

struct PathEntry {
    std::string path;
    std::vector<std::string> extensions; ///< with the dot, small; empty: every file
    bool save = false;                   ///< the file need not exist
    // What the typed path can go on to, made by update_offers().
    std::vector<PathOffer> offers;
    std::string offers_for;
    bool fresh = true; ///< takes the keyboard when first shown
};

/// "~" and "~/..." with the home folder in their place.
[[nodiscard]] std::string expanded_path(const std::string& path);
/// The path with "~" for the home folder, as people write it.
[[nodiscard]] std::string shortened_path(const std::string& path);

/// Entries of the folder named so far whose names begin with what is typed after it: folders first, at most
/// 200. Hidden ones only when a dot is typed. An unreadable folder offers nothing.
[[nodiscard]] std::vector<PathOffer> path_offers(const std::string& path,
                                                 const std::vector<std::string>& extensions);

/// The path lengthened by what all offers agree on; a single folder gets its slash.
[[nodiscard]] std::string completed_path(const std::string& path, const std::vector<PathOffer>& offers);

/// Reads the folder when the path has changed; called between frames.
void update_offers(PathEntry& entry);

enum class PathAnswer { none, taken, cancelled };
/// The field, the list of offers and the buttons. `tab` completes.
PathAnswer show_path_entry(const Ui& ui, std::string_view name, PathEntry& entry, bool tab, bool enter);

} // namespace harpkeep::dashboard
