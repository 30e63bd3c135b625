// SPDX-License-Identifier: MIT
#pragma once

#include <string>

namespace harpkeep::db {

/// The name of a file or folder under way; whatever has it at the end is removed, with the files that SQLite
/// puts beside a database. keep_as() gives it its name.
class UnfinishedFile {
  public:
    /// What a program that was killed left under that name is removed at once.
    explicit UnfinishedFile(std::string path);
    UnfinishedFile(const UnfinishedFile&) = delete;
    UnfinishedFile& operator=(const UnfinishedFile&) = delete;
    ~UnfinishedFile();

    [[nodiscard]] const std::string& path() const { return path_; }
    /// Throws LedgerFailure when the name is taken or the system refuses.
    void keep_as(const std::string& new_path) const;

  private:
    void remove() const;

    std::string path_;
};

/// Whether there is a file or folder of this name; a name that the system cannot have is not there.
[[nodiscard]] bool is_there(const std::string& path);

/// Throws LedgerFailure when the system refuses.
void move_file(const std::string& from, const std::string& to);

} // namespace harpkeep::db
