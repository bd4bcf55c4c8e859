// SPDX-License-Identifier: MIT
#include "gui/widgets/foot_line.hpp"

#include "gui/widgets/plain_text.hpp"

#include <QHBoxLayout>
#include <QLabel>
#include <QToolButton>

namespace bedlore {

namespace {

QLabel* plainLabel(const QString& name, QWidget* parent) {
    auto* label = new QLabel(parent);
    label->setObjectName(name);
    label->setTextFormat(Qt::PlainText);
    return label;
}

} // namespace

FootLine::FootLine(QWidget* parent)
    : QWidget(parent)
    , pointer_(plainLabel(QStringLiteral("pointerReadout"), this))
    , work_(plainLabel(QStringLiteral("work"), this))
    , stop_(new QToolButton(this))
    , kept_(plainLabel(QStringLiteral("kept"), this)) {
    setObjectName(QStringLiteral("foot"));
    setAttribute(Qt::WA_StyledBackground);
    pointer_->setMinimumWidth(80);
    pointer_->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    stop_->setObjectName(QStringLiteral("stopButton"));
    stop_->setText(tr("Stop"));
    stop_->setAutoRaise(true);
    stop_->hide();
    connect(stop_, &QToolButton::clicked, this, &FootLine::stopWanted);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(16, 4, 16, 4);
    row->setSpacing(16);
    row->addWidget(pointer_, 1);
    row->addWidget(work_);
    row->addWidget(stop_);
    row->addWidget(kept_);
}

void FootLine::setPointer(const QString& words) {
    pointerWords_ = words;
    elide();
}

void FootLine::setRows(int rows) {
    rows_ = rows;
    pointer_->setWordWrap(rows > 1);
    elide();
}

void FootLine::elide() {
    const QFontMetrics metrics = pointer_->fontMetrics();
    // Room for all rows at all times: the plan must not jump while the pointer moves.
    pointer_->setMinimumHeight(rows_ > 1 ? rows_ * metrics.lineSpacing() : 0);
    // Rows break at words, so they do not hold quite as much as their width says.
    const int room = rows_ > 1 ? pointer_->width() * (10 * rows_ - 2) / 10 : pointer_->width();
    pointer_->setText(metrics.elidedText(pointerWords_, Qt::ElideRight, room));
    pointer_->setToolTip(plainTip(pointerWords_));
    pointer_->setAccessibleName(pointerWords_);
}

void FootLine::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    layout()->activate();
    elide();
}

void FootLine::setWork(const QString& words, bool canStop) {
    workWords_ = words;
    work_->setText(words.isEmpty() ? QString() : words + QStringLiteral(" …"));
    stop_->setVisible(canStop && !words.isEmpty());
}

void FootLine::setShare(double share) {
    if (!workWords_.isEmpty()) {
        const int hundredths = static_cast<int>(100.0 * share);
        work_->setText(tr("%1 … %2 %").arg(workWords_).arg(hundredths));
    }
}

void FootLine::setKept(bool kept, bool readOnly) {
    kept_->setText(readOnly ? tr("reading only") : kept ? tr("kept ✓") : tr("not kept yet"));
    kept_->setAccessibleName(kept_->text());
    kept_->setMinimumWidth(kept_->fontMetrics().horizontalAdvance(tr("not kept yet")));
    kept_->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
}

QString FootLine::pointer() const {
    return pointerWords_;
}

QString FootLine::kept() const {
    return kept_->text();
}

} // namespace bedlore

#include "moc_foot_line.cpp"
