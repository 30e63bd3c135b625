// SPDX-License-Identifier: MIT
#include "ui/dashboard/jobs.hpp"

#include <algorithm>

namespace harpkeep::dashboard {

void JobContext::progress(double share)
{
    share_.store(share);
    if (wake_) wake_();
}

Jobs::Jobs(Mode mode, std::function<void()> wake) : mode_(mode), wake_(std::move(wake))
{
    if (mode_ == Mode::threaded) worker_ = std::jthread{[this](const std::stop_token& stop) { loop(stop); }};
}

Jobs::~Jobs()
{
    {
        const std::scoped_lock lock{mutex_};
        for (const auto& job : queue_) job->stop.request_stop();
    }
    worker_.request_stop();
    woken_.notify_all();
}

int Jobs::start(std::string title, Work work)
{
    auto job = std::make_shared<Job>();
    job->title = std::move(title);
    job->work = std::move(work);
    job->context = std::make_shared<JobContext>();
    job->context->stop_ = job->stop.get_token();
    job->context->wake_ = wake_;
    {
        const std::scoped_lock lock{mutex_};
        job->id = next_id_++;
        queue_.push_back(job);
    }
    const int id = job->id;
    if (mode_ == Mode::inline_)
        run(*job);
    else
        woken_.notify_all();
    return id;
}

void Jobs::run(Job& job)
{
    Finish finish = job.work(*job.context);
    {
        const std::scoped_lock lock{mutex_};
        std::erase_if(queue_, [&](const auto& queued) { return queued.get() == &job; });
        if (finish) finished_.push_back(std::move(finish));
    }
    if (wake_) wake_();
}

void Jobs::loop(const std::stop_token& stop)
{
    while (!stop.stop_requested()) {
        std::shared_ptr<Job> job;
        {
            std::unique_lock lock{mutex_};
            if (!woken_.wait(lock, stop, [this] { return !queue_.empty(); })) return;
            job = queue_.front();
        }
        run(*job);
    }
}

bool Jobs::collect()
{
    std::vector<Finish> ready;
    {
        const std::scoped_lock lock{mutex_};
        ready.swap(finished_);
    }
    for (const auto& finish : ready) finish();
    return !ready.empty();
}

std::vector<Jobs::Running> Jobs::running() const
{
    const std::scoped_lock lock{mutex_};
    std::vector<Running> out;
    for (const auto& job : queue_) out.push_back({job->id, job->title, job->context->share()});
    return out;
}

void Jobs::cancel(int id)
{
    const std::scoped_lock lock{mutex_};
    for (const auto& job : queue_)
        if (job->id == id) job->stop.request_stop();
}

bool Jobs::idle() const
{
    const std::scoped_lock lock{mutex_};
    return queue_.empty() && finished_.empty();
}

} // namespace harpkeep::dashboard
