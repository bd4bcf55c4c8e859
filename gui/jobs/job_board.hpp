// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"

#include <QObject>
#include <QString>
#include <QThreadPool>

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
        using Value = std::invoke_result_t<const Work&, const Progress&>;
        auto run = [work = std::move(work),
                    done = std::move(done)](const Progress& progress) -> std::function<void()> {
            // A shared value, because a function object has to be copyable.
            auto value = std::make_shared<Value>(work(progress));
            return [value, done] { done(std::move(*value)); };
        };
        launch(kind, words, std::move(run));
    }

    /// Stops the running computation of `kind`; its `done` is not called any more.
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

    struct Running {
        std::uint64_t generation = 0;
        std::stop_source stop;
        QString words;
    };

    void launch(const QString& kind, const QString& words, std::function<Deliver(const Progress&)>);
    /// Leaves `action` to this object's thread; called on any.
    void onOwnThread(std::function<void()> action);
    void deliver(const QString& kind, std::uint64_t generation, const Deliver& give);
    [[nodiscard]] bool isCurrent(const QString& kind, std::uint64_t generation) const;

    std::map<QString, Running> running_;
    std::uint64_t generation_ = 0;
    QThreadPool pool_;
};

} // namespace bedlore
