// SPDX-License-Identifier: MIT
#pragma once

#include <QWidget>

class QLabel;
class QToolButton;

// The foot of the window: what is under the pointer, what is being done, whether the last line is
// kept.

namespace bedlore {

class FootLine : public QWidget {
    Q_OBJECT

public:
    explicit FootLine(QWidget* parent = nullptr);

    /// Rows for what is under the pointer: at a large text one is too few.
    void setRows(int rows);
    void setPointer(const QString& words);
    /// What is being done; with a way to stop it where it was asked for by hand.
    void setWork(const QString& words, bool canStop = false);
    /// How far it is, from 0 to 1.
    void setShare(double share);
    void setKept(bool kept, bool readOnly);
    [[nodiscard]] QString pointer() const;
    [[nodiscard]] QString kept() const;

Q_SIGNALS:
    void stopWanted();

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    void elide();

    QString pointerWords_;
    int rows_ = 1;
    QLabel* pointer_;
    QString workWords_;
    QLabel* work_;
    QToolButton* stop_;
    QLabel* kept_;
};

} // namespace bedlore
