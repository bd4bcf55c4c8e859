// SPDX-License-Identifier: MIT
#include "gui/jobs/job_board.hpp"

#include <QStringList>
#include <QtConcurrentRun>

#include <algorithm>
#include <atomic>
#include <new>

namespace bedlore {

namespace {
// Reports closer together than this share of the work would only fill the event queue.
constexpr double reportStep = 0.02;

/// A computation that ran out of memory ends without a result instead of taking the window along.
std::function<void()> guarded(
    const std::function<std::function<void()>(const Progress&)>& run, const Progress& progress) {
    try {
        return run(progress);
    } catch (const std::bad_alloc&) {
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
}

void JobBoard::launch(
    const QString& kind, const QString& words, std::function<Deliver(const Progress&)> run) {
    if (const auto older = running_.find(kind); older != running_.end()) {
        older->second.stop.request_stop();
    }
    Running& job = running_[kind];
    job = Running{.generation = ++generation_, .stop = std::stop_source(), .words = words};

    const auto report = [this,
                         kind,
                         generation = job.generation,
                         last = std::make_shared<std::atomic<double>>(0.0)](double share) {
        if (share < last->load() + reportStep) {
            return;
        }
        last->store(share);
        QMetaObject::invokeMethod(
            this,
            [this, kind, generation, share] {
                if (isCurrent(kind, generation)) {
                    Q_EMIT progressed(kind, share);
                }
            },
            Qt::QueuedConnection);
    };
    const Progress progress(job.stop.get_token(), report);
    const auto task = [this, kind, generation = job.generation, progress, run = std::move(run)] {
        Deliver give = guarded(run, progress);
        QMetaObject::invokeMethod(
            this,
            [this, kind, generation, give = std::move(give)] { deliver(kind, generation, give); },
            Qt::QueuedConnection);
    };
    static_cast<void>(QtConcurrent::run(&pool_, task));
    Q_EMIT changed();
}

void JobBoard::deliver(const QString& kind, std::uint64_t generation, const Deliver& give) {
    if (!isCurrent(kind, generation)) {
        return;
    }
    running_.erase(kind);
    give();
    Q_EMIT changed();
}

void JobBoard::stop(const QString& kind) {
    if (const auto job = running_.find(kind); job != running_.end()) {
        job->second.stop.request_stop();
        running_.erase(job);
        Q_EMIT changed();
    }
}

void JobBoard::stopAll() {
    for (auto& [kind, job] : running_) {
        job.stop.request_stop();
    }
    running_.clear();
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
