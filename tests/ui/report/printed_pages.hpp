// SPDX-License-Identifier: MIT
#pragma once

#include "tests/support/temporary_folder.hpp"

#include <array>
#include <cstdio>
#include <cstdlib>
#include <regex>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace harpkeep::test {

/// A word on a page and the box around it, in points from the top left.
struct PrintedWord {
    std::string word;
    double left = 0.0, top = 0.0, right = 0.0, bottom = 0.0;
};

struct PrintedPage {
    double width = 0.0;
    double height = 0.0;
    std::vector<PrintedWord> words;
};

/// A PDF file as poppler's tools see it.
class PrintedPages {
  public:
    explicit PrintedPages(const std::string& pdf) { tests::write_bytes(folder_ / "report.pdf", pdf); }

    [[nodiscard]] std::string info() const { return output_of("pdfinfo -isodates '" + file() + "'"); }
    /// Line by line as it stands on the page, runs of spaces made one.
    [[nodiscard]] std::string text() const
    {
        std::istringstream lines{output_of("pdftotext -layout '" + file() + "' -")};
        std::string text;
        for (std::string line; std::getline(lines, line);) {
            line = std::regex_replace(line, std::regex{"[ \f]+"}, " ");
            line.erase(0, line.find_first_not_of(' '));
            line.erase(line.find_last_not_of(' ') + 1);
            if (!line.empty()) text += line + "\n";
        }
        return text;
    }
    [[nodiscard]] std::vector<PrintedPage> pages() const
    {
        std::istringstream lines{output_of("pdftotext -bbox '" + file() + "' -")};
        std::vector<PrintedPage> pages;
        const std::regex page{R"re(<page width="([\d.]+)" height="([\d.]+)">)re"};
        const std::regex word{
            R"re(<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">(.*)</word>)re"};
        std::smatch found;
        for (std::string line; std::getline(lines, line);) {
            if (std::regex_search(line, found, page))
                pages.push_back({std::stod(found[1]), std::stod(found[2]), {}});
            if (std::regex_search(line, found, word))
                pages.back().words.push_back({found[5], std::stod(found[1]), std::stod(found[2]),
                                              std::stod(found[3]), std::stod(found[4])});
        }
        return pages;
    }
    /// Whether some point of some page is neither black, white nor grey.
    [[nodiscard]] bool has_colour() const
    {
        static_cast<void>(output_of("pdftoppm -r 40 '" + file() + "' '" + (folder_ / "page") + "'"));
        for (const auto& entry : std::filesystem::directory_iterator(folder_.path())) {
            if (entry.path().extension() != ".ppm") continue;
            std::istringstream picture{tests::read_bytes(entry.path().string())};
            std::string magic;
            int width = 0, height = 0, most = 0;
            picture >> magic >> width >> height >> most;
            picture.get();
            if (magic != "P6" || width * height == 0) throw std::runtime_error("no picture of a page");
            std::array<char, 3> rgb{};
            while (picture.read(rgb.data(), 3))
                if (rgb[0] != rgb[1] || rgb[1] != rgb[2]) return true;
        }
        return false;
    }

  private:
    [[nodiscard]] std::string file() const { return folder_ / "report.pdf"; }
    static std::string output_of(const std::string& command)
    {
        std::FILE* pipe = ::popen(command.c_str(), "r");
        if (pipe == nullptr) throw std::runtime_error("cannot run " + command);
        std::string output;
        std::array<char, 4096> buffer{};
        while (const auto count = std::fread(buffer.data(), 1, buffer.size(), pipe))
            output.append(buffer.data(), count);
        if (::pclose(pipe) != 0) throw std::runtime_error("failed: " + command);
        return output;
    }

    tests::TemporaryFolder folder_;
};

} // namespace harpkeep::test
