// SPDX-License-Identifier: MIT
#include "gui/widgets/window_header.hpp"

#include <QEvent>

namespace bedlore {

namespace {
constexpr int side = 8; // free on the left and the right
constexpr int edge = 4; // free above and below
} // namespace

WindowHeader::WindowHeader(QWidget* words, QWidget* buttons, QWidget* instead, QWidget* parent)
    : QWidget(parent)
    , words_(words)
    , buttons_(buttons)
    , instead_(instead) {
    setObjectName(QStringLiteral("headerLine"));
    setAttribute(Qt::WA_StyledBackground);
    QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Fixed);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
    words_->setParent(this);
    buttons_->setParent(this);
    instead_->setParent(this);
}

QSize WindowHeader::sizeHint() const {
    const QSize words = words_->sizeHint();
    const QSize buttons = buttons_->sizeHint();
    return {
        words.width() + buttons.width() + 2 * side,
        std::max(words.height(), buttons.height()) + 2 * edge};
}

QSize WindowHeader::minimumSizeHint() const {
    return {
        words_->minimumSizeHint().width() + instead_->sizeHint().width() + 2 * side,
        heightForWidth(width())};
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

WindowHeader::Buttons WindowHeader::placeOfButtons(int width) const {
    if (sizeHint().width() <= width) {
        return Buttons::Beside;
    }
    const bool mayGoBelow = other_ == nullptr || other_->isHidden();
    const bool fits = buttons_->sizeHint().width() + 2 * side <= width;
    return mayGoBelow && fits && hasRoomBelow() ? Buttons::Below : Buttons::Instead;
}

int WindowHeader::heightWithButtonsBelow() const {
    return words_->sizeHint().height() + buttons_->sizeHint().height() + 2 * edge;
}

/// In a low window the page and its lists need the height: the head may take a seventh
/// of it, by eye.
bool WindowHeader::hasRoomBelow() const {
    const QWidget* parent = parentWidget();
    return parent == nullptr || 7 * heightWithButtonsBelow() <= parent->height();
}

void WindowHeader::giveWayTo(QWidget* other) {
    other_ = other;
    other->installEventFilter(this);
}

bool WindowHeader::eventFilter(QObject* watched, QEvent* event) {
    const bool isOther = watched == other_;
    if (isOther &&
        (event->type() == QEvent::ShowToParent || event->type() == QEvent::HideToParent)) {
        updateGeometry();
        arrange();
    }
    return QWidget::eventFilter(watched, event);
}

int WindowHeader::heightForWidth(int width) const {
    const int one = sizeHint().height();
    return placeOfButtons(width) == Buttons::Below ? heightWithButtonsBelow() : one;
}

void WindowHeader::arrange() {
    const QRect inside = rect().adjusted(side, edge, -side, -edge);
    const Buttons where = placeOfButtons(width());
    const bool hadKeys = buttons_->isAncestorOf(focusWidget());
    instead_->setVisible(where == Buttons::Instead);
    if (where == Buttons::Instead && hadKeys) {
        instead_->setFocus(Qt::OtherFocusReason);
    }
    buttons_->setVisible(where != Buttons::Instead);
    QWidget* shown = where == Buttons::Instead ? instead_ : buttons_;
    const QSize wanted = shown->sizeHint();
    const int right = inside.right() + 1 - wanted.width();
    QRect words = inside;
    if (where == Buttons::Below) {
        words.setHeight(words_->sizeHint().height());
        shown->setGeometry(right, words.bottom() + 1, wanted.width(), wanted.height());
    } else {
        shown->setGeometry(right, inside.top(), wanted.width(), inside.height());
        words.setWidth(inside.width() - wanted.width());
    }
    words_->setGeometry(words);
}

} // namespace bedlore

#include "moc_window_header.cpp"
