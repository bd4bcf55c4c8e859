// SPDX-License-Identifier: MIT
#include "core/base/parallel.hpp"

#include <algorithm>
#include <atomic>
#include <chrono>
#include <condition_variable>
#include <deque>
#include <memory>
#include <mutex>
#include <thread>
#include <vector>

#ifdef __linux__
#include <sched.h>
#endif

namespace bedlore {

namespace {

/// The core that the caller runs on, for a moment at least; -1 where nobody tells.
int coreHere() {
#ifdef __linux__
    return sched_getcpu();
#else
    return -1;
#endif
}

/// Threads that wait for work: starting one for each piece costs as much as many a piece. Whoever
/// asks for help works too, and what nobody has begun by then is taken back: that all helpers are
/// busy, or that there are none after a fork, costs time and nothing else.
class Helpers {
public:
    explicit Helpers(int count)
        : threads_(static_cast<std::size_t>(count)) {
        for (Helper& helper : threads_) {
            helper.thread = std::thread([this, &helper] { serve(helper); });
        }
    }
    ~Helpers() {
        {
            const std::scoped_lock lock(mutex_);
            over_ = true;
            for (Helper& helper : threads_) {
                helper.wake.notify_one();
            }
        }
        for (Helper& helper : threads_) {
            helper.thread.join();
        }
    }
    Helpers(const Helpers&) = delete;
    Helpers& operator=(const Helpers&) = delete;

    /// Calls `help` on up to `most` threads while `own` runs on the caller's; then waits for those
    /// that have begun.
    void
    besides(std::size_t most, const std::function<void()>& help, const std::function<void()>& own) {
        const auto call = std::make_shared<Call>(help);
        const std::size_t asked = std::min(most, threads_.size());
        if (asked > 0) {
            const std::scoped_lock lock(mutex_);
            const std::size_t able = lookingElsewhere();
            const std::size_t looking = able - std::min(able, waiting_.size());
            waiting_.insert(waiting_.end(), asked, call);
            anyWaiting_.store(true, std::memory_order_relaxed);
            // The last that worked comes first: what it needs is still near at hand.
            for (std::size_t i = looking; i < asked && !idle_.empty(); ++i) {
                idle_.back()->called = true;
                idle_.back()->wake.notify_one();
                idle_.pop_back();
            }
        }
        const Recall recall{*this, call};
        own();
    }

private:
    struct Call {
        explicit Call(const std::function<void()>& function)
            : help(function) {}
        const std::function<void()>& help;
        std::atomic<int> busy{0};
    };
    struct Helper {
        std::condition_variable wake;
        bool called = false;
        bool looking = false; ///< awake and without work
        std::atomic<int> core{-1};
        std::thread thread;
    };

    /// Also where `own` did not come to its end.
    struct Recall {
        Helpers& helpers;
        const std::shared_ptr<Call>& call;
        ~Recall() {
            std::unique_lock lock(helpers.mutex_);
            std::erase(helpers.waiting_, call);
            lock.unlock();
            const auto done = [this] { return call->busy.load(std::memory_order_acquire) == 0; };
            if (!soon(done)) {
                lock.lock();
                helpers.left_.wait(lock, done);
            }
        }
    };

    /// Looks for a moment whether something has come about. To sleep and be woken takes about as
    /// long, and a typed line has some twenty pieces of work, one soon after the other.
    template <class Condition>
    static bool soon(const Condition& condition) {
        constexpr std::chrono::microseconds moment{200};
        const auto end = std::chrono::steady_clock::now() + moment;
        do {
            if (condition()) {
                return true;
            }
            std::this_thread::yield(); // whoever has something to do goes first
        } while (std::chrono::steady_clock::now() < end);
        return condition();
    }

    /// Those that look for work on a core other than the caller's. One on the same core gets to it
    /// when the caller has nothing left to do, while the other cores stand idle: a helper that
    /// sleeps is sooner there, since the system wakes it on an idle core.
    [[nodiscard]] std::size_t lookingElsewhere() const {
        const int here = coreHere();
        const auto isAble = [&](const Helper& helper) {
            const int core = helper.core.load(std::memory_order_relaxed);
            return helper.looking && (here < 0 || core != here);
        };
        return static_cast<std::size_t>(std::count_if(threads_.begin(), threads_.end(), isAble));
    }

    void serve(Helper& helper) {
        std::unique_lock lock(mutex_);
        while (!over_) {
            if (waiting_.empty()) {
                anyWaiting_.store(false, std::memory_order_relaxed);
                helper.looking = true;
                lock.unlock();
                static_cast<void>(soon([&] {
                    helper.core.store(coreHere(), std::memory_order_relaxed);
                    return anyWaiting_.load(std::memory_order_relaxed);
                }));
                lock.lock();
                helper.looking = false;
                if (!waiting_.empty() || over_) {
                    continue;
                }
                helper.called = false;
                idle_.push_back(&helper);
                helper.wake.wait(lock, [&] { return helper.called || over_; });
                continue;
            }
            const std::shared_ptr<Call> call = waiting_.front();
            waiting_.pop_front();
            call->busy.fetch_add(1, std::memory_order_relaxed);
            lock.unlock();
            call->help();
            lock.lock();
            call->busy.fetch_sub(1, std::memory_order_release);
            left_.notify_all();
        }
    }

    std::mutex mutex_;
    /// Seldom untrue, and then for an instant: spares those who look for work the lock.
    std::atomic<bool> anyWaiting_{false};
    std::condition_variable left_;
    std::deque<std::shared_ptr<Call>> waiting_;
    std::vector<Helper*> idle_; ///< the last that worked is the last
    bool over_ = false;
    std::vector<Helper> threads_; ///< as many as at the start, since others point at them
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
    // Asked once: the answer is read from a file of the system.
    static const int all = std::max(1, static_cast<int>(std::thread::hardware_concurrency()));
    return all;
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
