// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"

#include <QObject>
#include <QString>
#include <QThreadPool>

#include <atomic>
#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <stop_token>
#include <type_traits>
#include <utility>

// Long work off the window's thread: what is running, and which result still counts.

namespace bedlore {

/// Runs computations on snapshots, one current computation of each kind. A newer start of a kind
/// stops the older one, whose result is dropped however late it comes. Results are delivered on the
/// thread of this object. Its destructor stops everything and waits.
class JobBoard : public QObject {
    Q_OBJECT

public:
    explicit JobBoard(QObject* parent = nullptr);
    ~JobBoard() override;

    /// Starts `work(progress)` on another thread and hands what it returns to `done` on this one,
    /// unless a newer start of `kind`, `stop` or the destructor came first. `work` must hold only
    /// values and snapshots that nobody changes.
    template <class Work, class Done>
    void start(const QString& kind, const QString& words, Work work, Done done) {
        launch(kind, words, IfStopped::Drop, runOf(std::move(work), std::move(done)));
    }
    /// As `start`, for work that leaves something behind: stopped, it still counts as running until
    /// it has come to its end, and `done` is told how it ended. `work` must not throw, and none of
    /// its kind may be running.
    template <class Work, class Done>
    void startToTheEnd(const QString& kind, const QString& words, Work work, Done done) {
        launch(kind, words, IfStopped::AwaitEnd, runOf(std::move(work), std::move(done)));
    }

    /// Stops the running computation of `kind`; its `done` is not called any more, but where it was
    /// started to the end.
    void stop(const QString& kind);
    void stopAll();

    [[nodiscard]] bool isRunning(const QString& kind) const;
    [[nodiscard]] bool isIdle() const { return running_.empty(); }
    /// What is being done, in words for the foot of the window; empty when idle.
    [[nodiscard]] QString words() const;

Q_SIGNALS:
    /// Something started, ended or was stopped.
    void changed();
    /// `share` (0 to 1) of the current computation of `kind`.
    void progressed(const QString& kind, double share);

protected:
    void customEvent(QEvent* event) override;

private:
    using Deliver = std::function<void()>;

    using Run = std::function<Deliver(const Progress&)>;
    enum class IfStopped : std::uint8_t { Drop, AwaitEnd };

    struct Running {
        std::uint64_t generation = 0;
        std::stop_source stop;
        QString words;
        IfStopped ifStopped = IfStopped::Drop;
    };

    template <class Work, class Done>
    static Run runOf(Work work, Done done) {
        using Value = std::invoke_result_t<const Work&, const Progress&>;
        return
            [work = std::move(work), done = std::move(done)](const Progress& progress) -> Deliver {
                // A shared value, because a function object has to be copyable.
                auto value = std::make_shared<Value>(work(progress));
                return [value, done] { done(std::move(*value)); };
            };
    }
    void launch(const QString& kind, const QString& words, IfStopped ifStopped, Run run);
    /// Whether it is gone from the running ones by that.
    static bool askToStop(Running& job);
    /// Leaves `action` to this object's thread; called on any.
    void onOwnThread(std::function<void()> action);
    void deliver(const QString& kind, std::uint64_t generation, const Deliver& give);
    [[nodiscard]] bool isCurrent(const QString& kind, std::uint64_t generation) const;

    std::map<QString, Running> running_;
    std::uint64_t generation_ = 0;
    std::atomic<std::uint64_t> posted_{0}; ///< errands on their way here, ever
    QThreadPool pool_;
};

} // namespace bedlore
