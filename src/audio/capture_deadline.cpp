// SPDX-License-Identifier: MIT
#include "audio/capture_deadline.hpp"

#include <chrono>
#include <future>
#include <memory>
#include <thread>
#include <utility>

namespace harpkeep {

bool ends_within(Seconds deadline, std::function<void()> work)
{
    auto done = std::make_shared<std::promise<void>>();
    auto ended = done->get_future();
    std::thread([done, work = std::move(work)] {
        work();
        done->set_value();
    }).detach();
    return ended.wait_for(std::chrono::duration<double>(deadline.value())) == std::future_status::ready;
}

} // namespace harpkeep
