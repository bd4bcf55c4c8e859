// SPDX-License-Identifier: MIT
#include "gui/widgets/ink_caret.hpp"

#include <QAbstractSpinBox>
#include <QApplication>
#include <QEvent>
#include <QLineEdit>
#include <QPainter>
#include <QPlainTextEdit>
#include <QTimer>

namespace bedlore {

namespace {

constexpr int width = 2; // pixels; at night a single one is hard to find

class Line : public QWidget {
public:
    explicit Line(QWidget* parent)
        : QWidget(parent) {
        setAttribute(Qt::WA_TransparentForMouseEvents);
        setFocusPolicy(Qt::NoFocus);
        setObjectName(QStringLiteral("inkCaret"));
    }

protected:
    void paintEvent(QPaintEvent*) override {
        QPainter(this).fillRect(rect(), QApplication::palette().color(QPalette::Text));
    }
};

/// On the canvas; empty where nothing can be typed.
QRect caretIn(const QWidget& edit) {
    if (const auto* page = qobject_cast<const QPlainTextEdit*>(&edit)) {
        return page->isReadOnly() ? QRect() : page->cursorRect();
    }
    const auto* line = qobject_cast<const QLineEdit*>(&edit);
    if (line == nullptr || line->isReadOnly()) {
        return {};
    }
    // As wide to either side as an input method wants it.
    const QRect around = line->inputMethodQuery(Qt::ImCursorRectangle).toRect();
    return {around.x() + (around.width() + 1) / 2, around.y(), width, around.height()};
}

} // namespace

InkCaret::InkCaret(QObject* parent)
    : QObject(parent) {
    connect(
        qApp, &QApplication::focusChanged, this, [this](QWidget*, QWidget* now) { follow(now); });
    follow(QApplication::focusWidget());
}

void InkCaret::follow(QWidget* focused) {
    if (canvas_ != nullptr) {
        canvas_->removeEventFilter(this);
    }
    delete line_;
    edit_ = focused;
    if (auto* numbers = qobject_cast<QAbstractSpinBox*>(focused)) {
        edit_ = numbers->findChild<QLineEdit*>();
    }
    auto* page = qobject_cast<QPlainTextEdit*>(edit_);
    canvas_ = page != nullptr                              ? page->viewport()
              : qobject_cast<QLineEdit*>(edit_) != nullptr ? edit_.data()
                                                           : nullptr;
    if (canvas_ != nullptr) {
        line_ = new Line(canvas_);
        canvas_->installEventFilter(this);
        place();
    }
}

bool InkCaret::eventFilter(QObject* watched, QEvent* event) {
    // Whatever moves the caret paints it anew; a line edit scrolls only then.
    if (watched == canvas_ && event->type() == QEvent::Paint) {
        placeSoon();
    }
    return false;
}

void InkCaret::placeSoon() {
    if (!isAsked_) {
        isAsked_ = true;
        QTimer::singleShot(0, this, &InkCaret::place);
    }
}

void InkCaret::place() {
    isAsked_ = false;
    if (line_ == nullptr || edit_ == nullptr) {
        return;
    }
    const QRect caret = caretIn(*edit_);
    line_->setVisible(caret.height() > 0);
    line_->setGeometry(caret.x(), caret.y(), width, caret.height());
}

int CaretlessStyle::pixelMetric(
    PixelMetric metric, const QStyleOption* option, const QWidget* widget) const {
    return metric == PM_TextCursorWidth ? 0 : QProxyStyle::pixelMetric(metric, option, widget);
}

} // namespace bedlore

#include "moc_ink_caret.cpp"
