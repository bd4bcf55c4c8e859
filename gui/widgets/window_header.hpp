// SPDX-License-Identifier: MIT
#pragma once

#include <QWidget>

#include <cstdint>

// The line at the head of the window: words that always show, and buttons beside or below them.

namespace bedlore {

/// `words` on the left get what room they want; `buttons` stand to their right, or below them where
/// both do not fit side by side. Where there is no room for that, in width or in a low window,
/// `instead` stands for them, which must lead to whatever they do.
class WindowHeader : public QWidget {
    Q_OBJECT

public:
    WindowHeader(QWidget* words, QWidget* buttons, QWidget* instead, QWidget* parent = nullptr);
    /// While `other` shows it needs the height: then the buttons do not go below the words.
    void giveWayTo(QWidget* other);

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;
    [[nodiscard]] bool hasHeightForWidth() const override { return true; }
    [[nodiscard]] int heightForWidth(int width) const override;

protected:
    void resizeEvent(QResizeEvent* event) override;
    bool event(QEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    enum class Buttons : std::uint8_t { Beside, Below, Instead };
    [[nodiscard]] Buttons placeOfButtons(int width) const;
    [[nodiscard]] int heightWithButtonsBelow() const;
    [[nodiscard]] bool hasRoomBelow() const;
    void arrange();

    QWidget* words_;
    QWidget* buttons_;
    QWidget* instead_;
    QWidget* other_ = nullptr;
};

} // namespace bedlore
