// SPDX-License-Identifier: MIT
#pragma once

#include <csignal>
#include <cstdlib>
#include <functional>
#include <stdexcept>
#include <sys/types.h>
#include <sys/wait.h>
#include <unistd.h>
#include <utility>

namespace harpkeep::test {

/// Work done in a process of its own; what is open in this one must not be used there.
class ChildProcess {
  public:
    /// Given  work  its result is the exit code
    explicit ChildProcess(const std::function<int()>& work) : pid_(fork())
    {
        if (pid_ < 0) throw std::runtime_error("no process could be made");
        if (pid_ != 0) return;
        // Not the handlers of the test's own process, which would report the end of this one as its own.
        for (const int signal_number : {SIGABRT, SIGSEGV, SIGTERM, SIGINT, SIGFPE, SIGILL})
            signal(signal_number, SIG_DFL);
        _exit(work());
    }
    ChildProcess(const ChildProcess&) = delete;
    ChildProcess(ChildProcess&& other) noexcept : pid_(std::exchange(other.pid_, 0)) {}
    ChildProcess& operator=(const ChildProcess&) = delete;
    ChildProcess& operator=(ChildProcess&&) = delete;
    ~ChildProcess()
    {
        if (pid_ <= 0) return;
        kill();
        (void)wait();
    }

    void kill() const { ::kill(pid_, SIGKILL); }
    /// Its exit code, or -1 less the signal that ended it.
    int wait()
    {
        int status = 0;
        waitpid(std::exchange(pid_, 0), &status, 0);
        return WIFEXITED(status) ? WEXITSTATUS(status) : -1 - WTERMSIG(status);
    }

  private:
    pid_t pid_;
};

/// A way for a child process to tell numbers to the one that made it.
class NumberPipe {
  public:
    NumberPipe()
    {
        if (pipe(ends_) != 0) throw std::runtime_error("no pipe could be made");
    }
    NumberPipe(const NumberPipe&) = delete;
    NumberPipe& operator=(const NumberPipe&) = delete;
    ~NumberPipe()
    {
        close(ends_[0]);
        if (ends_[1] >= 0) close(ends_[1]);
    }
    void tell(int number) const
    {
        if (write(ends_[1], &number, sizeof number) != sizeof number) _exit(9);
    }
    /// Waits for the next number; -1 when nobody is left to tell one. Called by the one that made the pipe.
    int next()
    {
        if (ends_[1] >= 0) close(std::exchange(ends_[1], -1));
        int number = -1;
        return read(ends_[0], &number, sizeof number) == sizeof number ? number : -1;
    }

  private:
    int ends_[2] = {-1, -1};
};

} // namespace harpkeep::test
