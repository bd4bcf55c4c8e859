// SPDX-License-Identifier: MIT
#pragma once

#include <QScrollArea>

// What does not fit on the screen at a large text, and how large a window may be on it.

namespace bedlore {

/// Shows a widget whole where there is room, and scrolls it where there is none.
class ScrolledPart : public QScrollArea {
public:
    /// With a name for a screen reader it takes the focus, and the arrow keys scroll it; without
    /// one it is scrolled by what is in it.
    ScrolledPart(QWidget* inside, const char* objectName, const QString& spoken, QWidget* parent);

    /// The height with nothing to scroll, at this width.
    [[nodiscard]] int heightAt(int width) const;
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

private:
    [[nodiscard]] int barWidth() const;
};

/// What a window may take of its screen, its frame left out.
[[nodiscard]] QSize roomOnScreen(const QWidget& window);

/// Gives `window` this size, made larger with the text, as far as the screen has room.
void resizeForText(QWidget& window, QSize atUsualText);

/// Makes `dialog` large enough to show `part`, a row of its layout, whole, as far as the screen has
/// room. It does not get smaller where it fits.
void growToShow(QWidget& dialog, const ScrolledPart& part);

} // namespace bedlore
