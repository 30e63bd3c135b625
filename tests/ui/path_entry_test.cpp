// SPDX-License-Identifier: MIT
#include "ui/dashboard/widgets/path_entry.hpp"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <filesystem>
#include <fstream>

#include <unistd.h>

using namespace harpkeep::dashboard;

namespace {

struct Folder {
    std::filesystem::path path =
        std::filesystem::temp_directory_path() / ("harpkeep-path-test-" + std::to_string(getpid()));
    Folder()
    {
        std::filesystem::create_directories(path / "recordings");
        for (const char* name : {"heron-flat.wav", "heron-natural.WAV", "notes.txt", ".hidden.wav"})
            std::ofstream{path / name} << "x";
    }
    ~Folder() { std::filesystem::remove_all(path); }
};

} // namespace

TEST_CASE("path: offers folders and files that fit, hidden ones only when asked", "[ui]")
{
    const Folder folder;
    const auto offers = path_offers(folder.path.string() + "/", {".wav"});
    REQUIRE(offers.size() == 3);
    CHECK(offers[0].name == "recordings");
    CHECK(offers[0].folder);
    CHECK(offers[2].name == "heron-natural.WAV");
    CHECK(path_offers(folder.path.string() + "/.h", {".wav"}).size() == 1);
    CHECK(path_offers(folder.path.string() + "/no/such/", {}).empty());
}

TEST_CASE("path: completes as far as all offers agree", "[ui]")
{
    CHECK(completed_path("/x/he", {{"heron-flat.wav"}, {"heron-natural.wav"}}) == "/x/heron-");
    CHECK(completed_path("/x/re", {{"recordings", true}}) == "/x/recordings/");
    CHECK(completed_path("/x/zz", {}) == "/x/zz");
    // Both begin with the first byte of a two-byte letter: half a letter is never typed.
    CHECK(completed_path("/x/", {{"h\u00e9ron"}, {"h\u00e8re"}}) == "/x/h");
}

TEST_CASE("path entry: a path is shortened by the home folder and expanded again", "[ui][property]")
{
    const char* home = std::getenv("HOME");
    REQUIRE(home != nullptr);
    const std::string own = std::string{home} + "/harps/school.harpkeep";
    CHECK(shortened_path(own) == "~/harps/school.harpkeep");
    CHECK(expanded_path(shortened_path(own)) == own);
    CHECK(shortened_path("/srv/school.harpkeep") == "/srv/school.harpkeep");
    CHECK(shortened_path(std::string{home} + "s/school.harpkeep") == std::string{home} + "s/school.harpkeep");
}
