// SPDX-License-Identifier: MIT
#pragma once

#include <QWidget>

class QLabel;

// The foot of the window: what is under the pointer, what is being done, whether the last line is
// kept.

namespace bedlore {

class FootLine : public QWidget {
    Q_OBJECT

public:
    explicit FootLine(QWidget* parent = nullptr);

    void setPointer(const QString& words);
    void setWork(const QString& words);
    void setKept(bool kept, bool readOnly);
    [[nodiscard]] QString pointer() const;
    [[nodiscard]] QString kept() const;

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    void elide();

    QString pointerWords_;
    QLabel* pointer_;
    QLabel* work_;
    QLabel* kept_;
};

} // namespace bedlore
