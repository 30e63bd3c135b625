// SPDX-License-Identifier: MIT
#pragma once

#include "fresh_school.hpp"
#include "tests/support/temporary_folder.hpp"

#include <algorithm>

namespace harpkeep::dashboard {

/// The invented school as a source, and its pages as values.
struct SchoolPages {
    explicit SchoolPages(int harps = 4) : source(fresh_school(folder / "school", {.harps = harps}))
    {
        choose("Heron");
    }
    void choose(const std::string& name)
    {
        const auto harps = source->harps().value();
        const auto found = std::find_if(harps.begin(), harps.end(),
                                        [&](const HarpChoice& harp) { return harp.name == name; });
        query.harp = found == harps.end() ? RecordKey{} : found->key;
    }
    template <class Model>
    Model page(Page page)
    {
        return std::get<Model>(source->load(page, query).value());
    }

    tests::TemporaryFolder folder;
    std::shared_ptr<Source> source;
    Query query;
};

} // namespace harpkeep::dashboard
