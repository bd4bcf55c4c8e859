// SPDX-License-Identifier: MIT
#pragma once

#include "gui/jobs/job_board.hpp"

#include <QCoreApplication>
#include <QEventLoop>
#include <QKeyEvent>
#include <QString>
#include <QTimer>
#include <QWidget>

// What drives a window when nobody sits before it: in tests, and to make pictures of it.

namespace bedlore::testing {

/// Runs events until nothing is worked out any more; false after a minute without news.
inline bool waitUntilIdle(JobBoard& jobs) {
    constexpr int patience = 60'000; // [ms]
    bool isSilent = false;
    QEventLoop loop;
    QTimer silence;
    silence.setSingleShot(true);
    QObject::connect(&silence, &QTimer::timeout, &loop, [&] {
        isSilent = true;
        loop.quit();
    });
    QObject::connect(&jobs, &JobBoard::changed, &loop, &QEventLoop::quit);
    while (!jobs.isIdle() && !isSilent) {
        silence.start(patience);
        loop.exec();
    }
    QCoreApplication::processEvents();
    return jobs.isIdle();
}

/// Presses the keys of `letters`, one after another.
inline void pressKeys(QWidget& editor, const QString& letters) {
    for (const QChar letter : letters) {
        const int key = letter == u'\n'  ? int(Qt::Key_Return)
                        : letter == u' ' ? int(Qt::Key_Space)
                                         : 0;
        QKeyEvent press(QEvent::KeyPress, key, Qt::NoModifier, QString(letter));
        QCoreApplication::sendEvent(&editor, &press);
    }
}

} // namespace bedlore::testing
