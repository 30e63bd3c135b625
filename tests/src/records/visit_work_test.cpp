// SPDX-License-Identifier: MIT
#include "records/visit_record.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;

TEST_CASE("visit work: reads where, what and parts", "[records]")
{
    CHECK(visit_work_from_text("3A: new disc [1 disc]") ==
          VisitWork{place_from_harp_name("3A"), {}, "new disc", "1 disc"});
    CHECK(visit_work_from_text("pedal F:felt replaced") == VisitWork{{}, Letter::F, "felt replaced", ""});
    CHECK(visit_work_from_text("harp: regulated") == VisitWork{{}, {}, "regulated", ""});
    CHECK(visit_work_from_text("regulated") == VisitWork{{}, {}, "regulated", ""});
    CHECK(visit_work_from_text("found: a crack") == VisitWork{{}, {}, "found: a crack", ""});
}

TEST_CASE("visit work: round trips", "[records][property]")
{
    for (const VisitWork& work : {VisitWork{place_from_harp_name("0G"), {}, "nut moved", ""},
                                  VisitWork{{}, Letter::C, "4C: looks like a place", "rod, felt"},
                                  VisitWork{{}, {}, "pedal D: looks like one", ""}})
        CHECK(visit_work_from_text(visit_work_text(work)) == work);
}
