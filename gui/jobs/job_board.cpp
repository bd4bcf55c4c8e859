// SPDX-License-Identifier: MIT
#include "gui/jobs/job_board.hpp"

#include "core/base/contract.hpp"

#include <QCoreApplication>
#include <QEvent>
#include <QRunnable>
#include <QStringList>

#include <algorithm>
#include <atomic>
#include <exception>
#include <iterator>

namespace bedlore {

namespace {
// Reports closer together than this share of the work would only fill the event queue.
constexpr double reportStep = 0.02;

/// The order between the thread that makes something and the one that uses it. Qt's queues keep
/// that order too, but by locks inside Qt: to a checker of threads that sees our code alone, each
/// hand-over would look like a race, and a race like one more of these.
class Handover {
public:
    void give() { given_.store(true, std::memory_order_release); }
    void take() const { static_cast<void>(given_.load(std::memory_order_acquire)); }

private:
    std::atomic<bool> given_{false};
};

/// Work on its way to a thread of the pool.
class Task final : public QRunnable {
public:
    explicit Task(std::function<void()> work)
        : work_(std::move(work)) {
        handover_.give();
    }

    void run() override {
        handover_.take();
        work_();
    }

private:
    std::function<void()> work_;
    Handover handover_;
};

/// Something to do on the board's own thread, on its way there.
class Errand final : public QEvent {
public:
    static constexpr Type kind = User;

    explicit Errand(std::function<void()> action)
        : QEvent(kind)
        , action_(std::move(action)) {
        handover_.give();
    }
    ~Errand() override { handover_.take(); }
    Q_DISABLE_COPY_MOVE(Errand)

    void carryOut() const {
        handover_.take();
        action_();
    }

private:
    std::function<void()> action_;
    Handover handover_;
};

/// A computation that ran out of memory ends without a result instead of taking the window along.
std::function<void()> guarded(
    const std::function<std::function<void()>(const Progress&)>& run, const Progress& progress) {
    try {
        return run(progress);
    } catch (const std::exception&) {
        return [] {};
    }
}
} // namespace

JobBoard::JobBoard(QObject* parent)
    : QObject(parent) {
    // A stopped computation may need a moment to notice; the newer one must not wait for it.
    pool_.setMaxThreadCount(std::max(2, QThread::idealThreadCount()));
}

JobBoard::~JobBoard() {
    for (auto& [kind, job] : running_) {
        job.stop.request_stop();
    }
    pool_.clear();
    pool_.waitForDone();
    static_cast<void>(posted_.load(std::memory_order_acquire)); // all of theirs comes before
}

void JobBoard::launch(const QString& kind, const QString& words, IfStopped ifStopped, Run run) {
    if (const auto older = running_.find(kind); older != running_.end()) {
        const bool isGone = askToStop(older->second);
        BEDLORE_EXPECTS(isGone);
        running_.erase(older);
    }
    Running& job = running_[kind];
    job.generation = ++generation_;
    job.words = words;
    job.ifStopped = ifStopped;

    const auto report = [this,
                         kind,
                         generation = job.generation,
                         last = std::make_shared<std::atomic<double>>(0.0)](double share) {
        if (share < last->load() + reportStep) {
            return;
        }
        last->store(share);
        onOwnThread([this, kind, generation, share] {
            if (isCurrent(kind, generation)) {
                Q_EMIT progressed(kind, share);
            }
        });
    };
    const Progress progress(job.stop.get_token(), report);
    auto task = [this, kind, generation = job.generation, progress, run = std::move(run)] {
        Deliver give = guarded(run, progress);
        onOwnThread(
            [this, kind, generation, give = std::move(give)] { deliver(kind, generation, give); });
    };
    pool_.start(std::make_unique<Task>(std::move(task)).release());
    Q_EMIT changed();
}

void JobBoard::onOwnThread(std::function<void()> action) {
    auto errand = std::make_unique<Errand>(std::move(action));
    // Its kind is read before the errand itself can say that it was handed over.
    posted_.fetch_add(1, std::memory_order_release);
    QCoreApplication::postEvent(this, errand.release());
}

void JobBoard::customEvent(QEvent* event) {
    static_cast<void>(posted_.load(std::memory_order_acquire));
    if (event->type() == Errand::kind) {
        static_cast<const Errand*>(event)->carryOut();
    }
}

void JobBoard::deliver(const QString& kind, std::uint64_t generation, const Deliver& give) {
    if (!isCurrent(kind, generation)) {
        return;
    }
    running_.erase(kind);
    give();
    Q_EMIT changed();
}

bool JobBoard::askToStop(Running& job) {
    job.stop.request_stop();
    if (job.ifStopped == IfStopped::AwaitEnd) {
        job.words = tr("stopping");
        return false;
    }
    return true;
}

void JobBoard::stop(const QString& kind) {
    if (const auto job = running_.find(kind); job != running_.end()) {
        if (askToStop(job->second)) {
            running_.erase(job);
        }
        Q_EMIT changed();
    }
}

void JobBoard::stopAll() {
    for (auto job = running_.begin(); job != running_.end();) {
        job = askToStop(job->second) ? running_.erase(job) : std::next(job);
    }
    Q_EMIT changed();
}

bool JobBoard::isRunning(const QString& kind) const {
    return running_.contains(kind);
}

bool JobBoard::isCurrent(const QString& kind, std::uint64_t generation) const {
    const auto job = running_.find(kind);
    return job != running_.end() && job->second.generation == generation;
}

QString JobBoard::words() const {
    QStringList all;
    for (const auto& [kind, job] : running_) {
        if (!job.words.isEmpty()) {
            all << job.words;
        }
    }
    return all.join(QStringLiteral(" · "));
}

} // namespace bedlore

#include "moc_job_board.cpp"
