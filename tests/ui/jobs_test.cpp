// SPDX-License-Identifier: MIT
#include "ui/dashboard/jobs.hpp"

#include <catch2/catch.hpp>

#include <chrono>
#include <latch>

using namespace harpkeep::dashboard;

namespace {

void collect_all(Jobs& jobs)
{
    for (int i = 0; i < 2000 && !jobs.idle(); ++i) {
        jobs.collect();
        std::this_thread::sleep_for(std::chrono::milliseconds{1});
    }
}

} // namespace

TEST_CASE("jobs: run in order on a worker, finish on the thread that collects", "[ui]")
{
    std::vector<int> finished;
    const auto here = std::this_thread::get_id();
    Jobs jobs{Jobs::Mode::threaded};
    for (int i = 0; i < 20; ++i)
        jobs.start("job", [&, i](JobContext&) -> Jobs::Finish {
            const auto worker = std::this_thread::get_id();
            return [&, i, worker] {
                CHECK(worker != here);
                CHECK(std::this_thread::get_id() == here);
                finished.push_back(i);
            };
        });
    collect_all(jobs);
    REQUIRE(finished.size() == 20);
    CHECK(std::is_sorted(finished.begin(), finished.end()));
}

TEST_CASE("jobs: progress wakes the window, cancel reaches the job", "[ui]")
{
    std::atomic<int> woken = 0;
    std::latch started{1};
    bool cancelled = false;
    Jobs jobs{Jobs::Mode::threaded, [&] { ++woken; }};
    jobs.start("long", [&](JobContext& context) -> Jobs::Finish {
        context.progress(0.25);
        started.count_down();
        while (!context.cancelled()) std::this_thread::sleep_for(std::chrono::milliseconds{1});
        return [&] { cancelled = true; };
    });
    started.wait();
    const auto running = jobs.running();
    REQUIRE(running.size() == 1);
    CHECK(running.front().share == 0.25);
    jobs.cancel(running.front().id);
    collect_all(jobs);
    CHECK(cancelled);
    CHECK(woken >= 2);
}

TEST_CASE("jobs: going away while one runs cancels it and waits for it", "[ui]")
{
    std::atomic<bool> ended = false;
    {
        std::latch started{1};
        Jobs jobs{Jobs::Mode::threaded};
        jobs.start("long", [&](JobContext& context) -> Jobs::Finish {
            started.count_down();
            while (!context.cancelled()) std::this_thread::sleep_for(std::chrono::milliseconds{1});
            ended = true;
            return {};
        });
        started.wait();
    }
    CHECK(ended);
}
