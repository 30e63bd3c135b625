// SPDX-License-Identifier: MIT
#pragma once

#include <atomic>
#include <condition_variable>
#include <functional>
#include <memory>
#include <mutex>
#include <stop_token>
#include <string>
#include <thread>
#include <vector>

namespace harpkeep::dashboard {

/// What a job may tell and ask while it works.
class JobContext {
  public:
    /// Share of the work done, 0 to 1; wakes the window.
    void progress(double share);
    [[nodiscard]] bool cancelled() const { return stop_.stop_requested(); }
    [[nodiscard]] double share() const { return share_.load(); }

  private:
    friend class Jobs;
    std::atomic<double> share_ = 0.0;
    std::stop_token stop_;
    std::function<void()> wake_;
};

/// Work outside the frame. Jobs run one after another on one worker, in the order they were started; what
/// they bring back is handed over on the window's thread by collect().
class Jobs {
  public:
    /// What the window's thread does when the job has ended.
    using Finish = std::function<void()>;
    /// The job itself; returns what is to be done with its result.
    using Work = std::function<Finish(JobContext&)>;

    enum class Mode {
        threaded,
        inline_ ///< runs each job at its start, for tests
    };

    /// Given  wake  called from the worker when the window should draw; may be empty
    explicit Jobs(Mode mode, std::function<void()> wake = {});
    ~Jobs();
    Jobs(const Jobs&) = delete;
    Jobs& operator=(const Jobs&) = delete;

    /// Given    title  shown with the progress; empty for work too short to be shown
    /// Returns  its number among the running ones
    int start(std::string title, Work work);
    /// Runs what ended jobs left to do. Returns whether there was any.
    bool collect();

    struct Running {
        int id = 0;
        std::string title;
        double share = 0.0;
    };
    /// Jobs that wait or run.
    [[nodiscard]] std::vector<Running> running() const;
    void cancel(int id);
    /// True when nothing waits or runs and nothing is left to collect.
    [[nodiscard]] bool idle() const;

  private:
    struct Job {
        int id = 0;
        std::string title;
        Work work;
        std::stop_source stop;
        std::shared_ptr<JobContext> context;
    };
    void run(Job& job);
    void loop(const std::stop_token& stop);

    Mode mode_;
    std::function<void()> wake_;
    mutable std::mutex mutex_;
    std::condition_variable_any woken_;
    std::vector<std::shared_ptr<Job>> queue_; ///< the first is the one that runs
    std::vector<Finish> finished_;
    int next_id_ = 1;
    std::jthread worker_;
};

} // namespace harpkeep::dashboard
