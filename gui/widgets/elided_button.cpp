// SPDX-License-Identifier: MIT
#include "gui/widgets/elided_button.hpp"

#include <QStyleOptionToolButton>
#include <QStylePainter>

#include <algorithm>

namespace bedlore {

ElidedButton::ElidedButton(QWidget* parent)
    : QToolButton(parent) {
    setSizePolicy(QSizePolicy::Maximum, QSizePolicy::Fixed);
}

QSize ElidedButton::minimumSizeHint() const {
    const QSize whole = sizeHint();
    const int few = fontMetrics().horizontalAdvance(QStringLiteral("abcd…")) + 16;
    return {std::min(few, whole.width()), whole.height()};
}

void ElidedButton::paintEvent(QPaintEvent*) {
    QStylePainter painter(this);
    QStyleOptionToolButton option;
    initStyleOption(&option);
    const int lacking = sizeHint().width() - width();
    if (lacking > 0) {
        const int room = fontMetrics().horizontalAdvance(text()) - lacking;
        option.text = fontMetrics().elidedText(
            text(), Qt::ElideMiddle, std::max(room, 0), Qt::TextShowMnemonic);
    }
    painter.drawComplexControl(QStyle::CC_ToolButton, option);
}

void ElidedButton::resizeEvent(QResizeEvent* event) {
    QToolButton::resizeEvent(event);
    const bool isCut = width() < sizeHint().width();
    setToolTip(
        isCut ? text().replace(QStringLiteral("&&"), QStringLiteral("&")).toHtmlEscaped()
              : QString());
}

} // namespace bedlore

#include "moc_elided_button.cpp"
