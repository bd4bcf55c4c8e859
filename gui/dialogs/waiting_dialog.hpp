// SPDX-License-Identifier: MIT
#pragma once

#include <QDialog>
#include <QString>

class QProgressBar;
class QPushButton;

// What he waits for, how far it is, and how to go on without it.

namespace bedlore {

/// Stands before the window while something is written that the window has to wait for. It stays
/// until `end` is called, also where he wants it stopped.
class WaitingDialog : public QDialog {
    Q_OBJECT

public:
    struct Words {
        QString title;
        QString sentence; ///< what is done, and what it means to stop
        QString share;    ///< with the figure, as in "writing, %p %"
        QString stop;     ///< on the button
    };
    explicit WaitingDialog(const Words& words, QWidget* parent = nullptr);

    void showProgress(double share);
    void end();

public Q_SLOTS:
    void reject() override;

Q_SIGNALS:
    void stopWanted();

private:
    QProgressBar* progress_;
    QPushButton* stop_;
};

} // namespace bedlore
