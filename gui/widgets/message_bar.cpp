// SPDX-License-Identifier: MIT
#include "gui/widgets/message_bar.hpp"

#include "gui/widgets/announce.hpp"

#include <QHBoxLayout>
#include <QLabel>
#include <QStyle>
#include <QToolButton>

namespace bedlore {

MessageBar::MessageBar(QWidget* parent)
    : QWidget(parent)
    , words_(new QLabel(this)) {
    setObjectName(QStringLiteral("messageBar"));
    setAttribute(Qt::WA_StyledBackground);
    words_->setObjectName(QStringLiteral("message"));
    words_->setTextFormat(Qt::PlainText);
    words_->setWordWrap(true);
    words_->setTextInteractionFlags(Qt::TextSelectableByMouse);
    auto* away = new QToolButton(this);
    away->setObjectName(QStringLiteral("messageAway"));
    away->setText(tr("Put away"));
    away->setAutoRaise(true);
    connect(away, &QToolButton::clicked, this, &MessageBar::clear);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(16, 4, 8, 4);
    row->setSpacing(8);
    row->addWidget(words_, 1);
    row->addWidget(away, 0, Qt::AlignTop);
    hide();
}

void MessageBar::say(const QString& sentence) {
    show(sentence, false);
}

void MessageBar::warn(const QString& sentence) {
    show(sentence, true);
}

void MessageBar::sayToStay(const QString& sentence) {
    show(sentence, false);
    stays_ = true;
}

void MessageBar::show(const QString& sentence, bool isWarning) {
    stays_ = false;
    words_->setText(sentence);
    setProperty("warning", isWarning);
    style()->unpolish(words_);
    style()->polish(words_);
    setVisible(!sentence.isEmpty());
    words_->setAccessibleName(sentence);
    if (!sentence.isEmpty()) {
        announce(*words_);
    }
}

QString MessageBar::text() const {
    return isHidden() ? QString() : words_->text();
}

void MessageBar::clear() {
    words_->clear();
    hide();
}

void MessageBar::clearPassing() {
    if (!stays_) {
        clear();
    }
}

} // namespace bedlore

#include "moc_message_bar.cpp"
