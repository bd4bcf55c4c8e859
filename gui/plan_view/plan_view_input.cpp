// SPDX-License-Identifier: MIT
#include "gui/plan_view/plan_view.hpp"

#include <QApplication>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QWheelEvent>

#include <cmath>
#include <utility>
#include <vector>

// What the plan does under the hand: keys, mouse and wheel.

namespace bedlore {

namespace {

constexpr double rim = 18.0;        // pixels from the edge where a drag turns the plan
constexpr double keyStep = 40.0;    // pixels for each press of an arrow
constexpr double zoomStep = 1.25;   // for each press and each notch of the wheel
constexpr Angle turnStep = 5.0_deg; // for each press

} // namespace

std::vector<KeyRow> PlanView::keys() {
    const QString where = tr("on the plan");
    return {
        {where, tr("arrow keys"), tr("Move the plan under the middle")},
        {where, tr("+ and -"), tr("Nearer and farther")},
        {where, tr("[ and ]"), tr("Turn the plan")},
        {where, tr("Home"), tr("Show all of it")},
        {where, tr("Return or Space"), tr("Choose the place in the middle")},
        {where, tr("Escape"), tr("No chosen place")}};
}

void PlanView::zoomIn() {
    camera_.zoom(zoomStep, window().center(), window());
    moved();
    pointAgain();
}

void PlanView::zoomOut() {
    camera_.zoom(1.0 / zoomStep, window().center(), window());
    moved();
    pointAgain();
}

bool PlanView::isOnRim(QPointF position) const {
    const QRectF inner = window().adjusted(rim, rim, -rim, -rim);
    return !inner.contains(position);
}

void PlanView::wheelEvent(QWheelEvent* event) {
    const double notches = event->angleDelta().y() / 120.0;
    camera_.zoom(std::pow(zoomStep, notches), event->position(), window());
    moved();
    pointer_ = event->position();
    pointAgain();
    event->accept();
}

void PlanView::mousePressEvent(QMouseEvent* event) {
    if (event->button() != Qt::LeftButton && event->button() != Qt::MiddleButton) {
        return;
    }
    dragFrom_ = event->position();
    const bool turns = isOnRim(dragFrom_) && event->button() == Qt::LeftButton;
    drag_ = turns ? Drag::Turn : Drag::Waiting;
    keyPointer_ = false;
}

void PlanView::mouseMoveEvent(QMouseEvent* event) {
    const QPointF position = event->position();
    if (drag_ == Drag::Waiting &&
        QLineF(dragFrom_, position).length() >= QApplication::startDragDistance()) {
        drag_ = Drag::Pan;
        setCursor(Qt::ClosedHandCursor);
    }
    if (drag_ == Drag::Pan) {
        camera_.pan(position - dragFrom_);
        dragFrom_ = position;
        moved();
    } else if (drag_ == Drag::Turn) {
        const QPointF before = dragFrom_ - window().center();
        const QPointF after = position - window().center();
        const double by = std::atan2(after.y(), after.x()) - std::atan2(before.y(), before.x());
        camera_.turn(Angle::fromSi(by));
        dragFrom_ = position;
        moved();
        Q_EMIT turned();
    } else if (drag_ == Drag::None) {
        setCursor(isOnRim(position) ? Qt::SizeAllCursor : Qt::CrossCursor);
    }
    pointer_ = position;
    if (picture_ != nullptr) {
        Q_EMIT pointedAt(camera_.toPlane(position, window()));
    }
}

void PlanView::mouseReleaseEvent(QMouseEvent* event) {
    const bool clicked = drag_ == Drag::Waiting;
    drag_ = Drag::None;
    setCursor(Qt::CrossCursor);
    if (clicked && picture_ != nullptr && event->button() == Qt::LeftButton) {
        Q_EMIT placeChosen(camera_.toPlane(event->position(), window()));
    }
    // A drag that ended elsewhere took the pointer with it.
    if (!window().contains(event->position())) {
        pointer_.reset();
        Q_EMIT pointedAway();
    }
}

void PlanView::leaveEvent(QEvent* event) {
    QWidget::leaveEvent(event);
    if (drag_ == Drag::None) {
        pointer_.reset();
        Q_EMIT pointedAway();
    }
}

bool PlanView::handleMoveKey(int key) {
    switch (key) {
    case Qt::Key_Left:
        camera_.pan(QPointF(keyStep, 0));
        break;
    case Qt::Key_Right:
        camera_.pan(QPointF(-keyStep, 0));
        break;
    case Qt::Key_Up:
        camera_.pan(QPointF(0, keyStep));
        break;
    case Qt::Key_Down:
        camera_.pan(QPointF(0, -keyStep));
        break;
    case Qt::Key_Plus:
    case Qt::Key_Equal:
        camera_.zoom(zoomStep, window().center(), window());
        break;
    case Qt::Key_Minus:
        camera_.zoom(1.0 / zoomStep, window().center(), window());
        break;
    case Qt::Key_BracketLeft:
        camera_.turn(-turnStep);
        break;
    case Qt::Key_BracketRight:
        camera_.turn(turnStep);
        break;
    default:
        return false;
    }
    return true;
}

void PlanView::keyPressEvent(QKeyEvent* event) {
    if (picture_ == nullptr) {
        QWidget::keyPressEvent(event);
        return;
    }
    const Point middle = camera_.toPlane(window().center(), window());
    if (handleMoveKey(event->key())) {
        keyPointer_ = true;
        moved();
        Q_EMIT pointedAt(camera_.toPlane(window().center(), window()));
    } else if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Space) {
        keyPointer_ = true;
        Q_EMIT placeChosen(middle);
    } else if (event->key() == Qt::Key_Escape) {
        Q_EMIT placeCleared();
    } else if (event->key() == Qt::Key_Home) {
        showAll();
    } else {
        QWidget::keyPressEvent(event);
    }
}

void PlanView::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    const bool byKey = event->reason() == Qt::TabFocusReason ||
                       event->reason() == Qt::BacktabFocusReason ||
                       event->reason() == Qt::ShortcutFocusReason;
    keyPointer_ = byKey;
    if (byKey && picture_ != nullptr) {
        Q_EMIT pointedAt(camera_.toPlane(window().center(), window()));
    }
    update();
}

void PlanView::focusOutEvent(QFocusEvent* event) {
    QWidget::focusOutEvent(event);
    if (std::exchange(keyPointer_, false)) {
        Q_EMIT pointedAway();
    }
    update();
}

} // namespace bedlore
