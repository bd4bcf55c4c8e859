// SPDX-License-Identifier: MIT
#pragma once

#include <QToolButton>

// A button of words that may become narrower than they are.

namespace bedlore {

/// Shows as much of its text as there is room for, and all of it when the pointer rests on it.
class ElidedButton : public QToolButton {
    Q_OBJECT

public:
    explicit ElidedButton(QWidget* parent = nullptr);

    [[nodiscard]] QSize minimumSizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
};

} // namespace bedlore
