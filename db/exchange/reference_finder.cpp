// SPDX-License-Identifier: MIT
#include "db/exchange/reference_finder.hpp"

#include "db/ledger/things.hpp"
#include "records/name_key.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace harpkeep::db {

namespace {

std::string upper_case(std::string text)
{
    for (char& letter : text)
        if (letter >= 'a' && letter <= 'f') letter = static_cast<char>(letter - 'a' + 'A');
    return text;
}

std::string wanted(const std::string& kind)
{
    return kind.empty() ? "thing" : kind;
}

} // namespace

tl::expected<ThingNo, std::string> ReferenceFinder::by_query(Statement query, const std::string& text,
                                                             const std::string& kind) const
{
    std::vector<ThingNo> found;
    std::string other_kind;
    while (query.step()) {
        const ThingNo thing{query.integer()};
        std::string found_kind = query.text();
        if (kind.empty() || found_kind == kind)
            found.push_back(thing);
        else
            other_kind = std::move(found_kind);
    }
    if (found.size() == 1) return found.front();
    if (found.size() > 1)
        return tl::unexpected<std::string>(
            fmt::format("\"{}\" means {} things; write the whole key of one", text, found.size()));
    if (!other_kind.empty())
        return tl::unexpected<std::string>(fmt::format("\"{}\" is a {}, not a {}", text, other_kind, kind));
    return tl::unexpected<std::string>(fmt::format("there is no {} \"{}\"", wanted(kind), text));
}

tl::expected<ThingNo, std::string> ReferenceFinder::find(const std::string& text,
                                                         const std::string& kind) const
{
    if (text.starts_with('#')) {
        const auto found = labels_.find(text);
        if (found != labels_.end()) return found->second;
        return tl::unexpected<std::string>(fmt::format("no row before this one has the label {}", text));
    }
    constexpr const char* select =
        "SELECT t.thing_no, t.kind FROM thing t JOIN current_fact USING (thing_no) WHERE ";
    if (const auto id = uuid_from_string(text)) {
        auto query = database_.prepare(std::string{select} + "t.id = :id");
        query.bind(":id", *id);
        return by_query(std::move(query), text, kind);
    }
    const auto key = name_key(text);
    if (key && (kind.empty() || kind == "harp" || kind == "room")) {
        auto query = database_.prepare("SELECT c.thing_no, 'harp' FROM harp JOIN current_content c USING "
                                       "(fact_no) WHERE name_key = :key UNION ALL "
                                       "SELECT c.thing_no, 'room' FROM room JOIN current_content c USING "
                                       "(fact_no) WHERE name_key = :key");
        query.bind(":key", *key);
        const auto by_name = by_query(std::move(query), text, kind);
        if (by_name || !looks_like_handle(text)) return by_name;
    }
    if (!looks_like_handle(text))
        return tl::unexpected<std::string>(
            fmt::format("\"{}\" is no handle, key or label of a {}", text, wanted(kind)));
    auto query = database_.prepare(std::string{select} + "substr(hex(t.id), 25) = :handle");
    query.bind(":handle", upper_case(text));
    return by_query(std::move(query), text, kind);
}

} // namespace harpkeep::db
