// SPDX-License-Identifier: MIT
#pragma once

#include <QApplication>
#include <QFileDialog>
#include <QTimer>
#include <gtest/gtest.h>

#include <functional>

// An answer to a question for a file, which waits for one in a loop of its own.

namespace bedlore::testing {

/// `answer` looks at the next file dialog and gives the name to be chosen in it; empty to turn
/// back.
inline void answerNextFileQuestion(std::function<QString(QFileDialog&)> answer) {
    // Runs in the dialog's own loop: nothing before it lets events through.
    QTimer::singleShot(0, qApp, [answer = std::move(answer)] {
        auto* dialog = qobject_cast<QFileDialog*>(QApplication::activeModalWidget());
        ASSERT_NE(dialog, nullptr) << "no file is asked for";
        const QString name = answer(*dialog);
        // Without this a second question would wait for an answer for good.
        dialog->setOption(QFileDialog::DontConfirmOverwrite);
        if (!name.isEmpty()) {
            dialog->selectFile(name);
            QMetaObject::invokeMethod(dialog, "accept");
            EXPECT_FALSE(dialog->isVisible()) << "the name was not taken";
        }
        if (dialog->isVisible()) {
            dialog->reject();
        }
    });
}

} // namespace bedlore::testing
