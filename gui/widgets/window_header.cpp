// SPDX-License-Identifier: MIT
#include "gui/widgets/window_header.hpp"

#include <QEvent>

#include <algorithm>

namespace bedlore {

namespace {
constexpr int side = 8; // free on the left and the right
constexpr int edge = 4; // free above and below
} // namespace

WindowHeader::WindowHeader(QWidget* words, QWidget* buttons, QWidget* parent)
    : QWidget(parent)
    , words_(words)
    , buttons_(buttons) {
    setObjectName(QStringLiteral("headerLine"));
    setAttribute(Qt::WA_StyledBackground);
    setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Fixed);
    words_->setParent(this);
    buttons_->setParent(this);
}

QSize WindowHeader::sizeHint() const {
    const QSize words = words_->sizeHint();
    const QSize buttons = buttons_->sizeHint();
    return {
        words.width() + buttons.width() + 2 * side,
        std::max(words.height(), buttons.height()) + 2 * edge};
}

QSize WindowHeader::minimumSizeHint() const {
    return {words_->minimumSizeHint().width() + 2 * side, sizeHint().height()};
}

void WindowHeader::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    arrange();
}

bool WindowHeader::event(QEvent* event) {
    if (event->type() == QEvent::LayoutRequest) {
        updateGeometry();
        arrange();
    }
    return QWidget::event(event);
}

void WindowHeader::arrange() {
    const QRect inside = rect().adjusted(side, edge, -side, -edge);
    const int wanted = buttons_->sizeHint().width();
    const bool fits = sizeHint().width() <= width();
    buttons_->setVisible(fits);
    if (fits) {
        buttons_->setGeometry(inside.right() + 1 - wanted, inside.top(), wanted, inside.height());
    }
    words_->setGeometry(inside.adjusted(0, 0, fits ? -wanted : 0, 0));
}

} // namespace bedlore

#include "moc_window_header.cpp"
