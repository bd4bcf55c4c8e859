// SPDX-License-Identifier: MIT
#include "core/base/parallel.hpp"

#include <algorithm>
#include <atomic>
#include <condition_variable>
#include <deque>
#include <memory>
#include <mutex>
#include <thread>
#include <vector>

namespace bedlore {

namespace {

/// Threads that wait for work: starting one for each piece costs as much as many a piece. Whoever
/// asks for help works too, and what nobody has begun by then is taken back: that all helpers are
/// busy, or that there are none after a fork, costs time and nothing else.
class Helpers {
public:
    explicit Helpers(int count) {
        for (int i = 0; i < count; ++i) {
            threads_.emplace_back([this](const std::stop_token& stop) { serve(stop); });
        }
    }

    /// Calls `help` on up to `most` threads while `own` runs on the caller's; then waits for those
    /// that have begun.
    void
    besides(std::size_t most, const std::function<void()>& help, const std::function<void()>& own) {
        const auto call = std::make_shared<Call>(Call{.help = help});
        const std::size_t asked = std::min(most, threads_.size());
        if (asked > 0) {
            const std::scoped_lock lock(mutex_);
            waiting_.insert(waiting_.end(), asked, call);
        }
        for (std::size_t i = 0; i < asked; ++i) {
            more_.notify_one();
        }
        const Recall recall{*this, call};
        own();
    }

private:
    struct Call {
        const std::function<void()>& help;
        int busy = 0;
    };

    /// Also where `own` did not come to its end.
    struct Recall {
        Helpers& helpers;
        const std::shared_ptr<Call>& call;
        ~Recall() {
            std::unique_lock lock(helpers.mutex_);
            std::erase(helpers.waiting_, call);
            helpers.left_.wait(lock, [this] { return call->busy == 0; });
        }
    };

    void serve(const std::stop_token& stop) {
        std::unique_lock lock(mutex_);
        while (more_.wait(lock, stop, [this] { return !waiting_.empty(); })) {
            const std::shared_ptr<Call> call = waiting_.front();
            waiting_.pop_front();
            ++call->busy;
            lock.unlock();
            call->help();
            lock.lock();
            --call->busy;
            left_.notify_all();
        }
    }

    std::mutex mutex_;
    std::condition_variable_any more_;
    std::condition_variable left_;
    std::deque<std::shared_ptr<Call>> waiting_;
    std::vector<std::jthread> threads_; ///< last: they end before what they use
};

Helpers& helpers() {
    // Some on any machine: that nothing hangs on their number must show on two cores too.
    constexpr int fewest = 7;
    static Helpers all(std::max(usualThreads() - 1, fewest));
    return all;
}

/// Both ways of sharing out pieces; without own work, `own` does nothing.
bool share(
    const std::function<void()>& own,
    std::size_t count,
    int threads,
    const Progress& progress,
    const std::function<void(std::size_t)>& work) {
    std::atomic<std::size_t> next{0};
    const auto takeWork = [&](bool reporting) {
        while (!progress.cancelled()) {
            const std::size_t i = next.fetch_add(1, std::memory_order_relaxed);
            if (i >= count) {
                return;
            }
            work(i);
            if (reporting) {
                progress.at(static_cast<double>(i + 1) / static_cast<double>(count));
            }
        }
    };
    const auto most = std::min(static_cast<std::size_t>(std::max(threads, 1) - 1), count);
    helpers().besides(
        most,
        [&] { takeWork(false); },
        [&] {
            own();
            takeWork(true);
        });
    return !progress.cancelled();
}

} // namespace

int usualThreads() {
    return std::max(1, static_cast<int>(std::thread::hardware_concurrency()));
}

bool inParallel(
    std::size_t count,
    int threads,
    const Progress& progress,
    const std::function<void(std::size_t)>& work) {
    return share([] {}, count, threads, progress, work);
}

void inParallelBeside(
    const std::function<void()>& own,
    std::size_t count,
    int threads,
    const std::function<void(std::size_t)>& work) {
    static_cast<void>(share(own, count, threads, {}, work));
}

} // namespace bedlore
