// SPDX-License-Identifier: MIT
#pragma once

#include <QWidget>

// The line at the head of the window: words that always show, and buttons while there is room.

namespace bedlore {

/// `words` on the left get what room they want; `buttons` on the right are hidden where both do not
/// fit, so whatever they do must stand in a menu too.
class WindowHeader : public QWidget {
    Q_OBJECT

public:
    WindowHeader(QWidget* words, QWidget* buttons, QWidget* parent = nullptr);

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

protected:
    void resizeEvent(QResizeEvent* event) override;
    bool event(QEvent* event) override;

private:
    void arrange();

    QWidget* words_;
    QWidget* buttons_;
};

} // namespace bedlore
