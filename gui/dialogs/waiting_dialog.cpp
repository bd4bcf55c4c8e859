// SPDX-License-Identifier: MIT
#include "gui/dialogs/waiting_dialog.hpp"

#include "gui/dialogs/dialog_parts.hpp"

#include <QLabel>
#include <QProgressBar>
#include <QPushButton>
#include <QVBoxLayout>

namespace bedlore {

WaitingDialog::WaitingDialog(const Words& words, QWidget* parent)
    : QDialog(parent)
    , progress_(new QProgressBar(this))
    , stop_(new QPushButton(words.stop, this)) {
    setObjectName(QStringLiteral("waitingDialog"));
    setWindowTitle(words.title);
    progress_->setObjectName(QStringLiteral("waitingProgress"));
    progress_->setAccessibleName(words.title);
    progress_->setRange(0, 100);
    progress_->setFormat(words.share);
    progress_->setMinimumWidth(fontMetrics().horizontalAdvance(words.share) + 32);
    stop_->setObjectName(QStringLiteral("waitingStop"));
    // What he typed last before this came up must not press it.
    stop_->setAutoDefault(false);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(16, 16, 16, 16);
    column->setSpacing(8);
    column->addWidget(plainWords(words.sentence, "waitingWords", this));
    column->addWidget(progress_);
    column->addWidget(stop_, 0, Qt::AlignRight);
    progress_->setFocus();
    connect(stop_, &QPushButton::clicked, this, &WaitingDialog::reject);
}

void WaitingDialog::showProgress(double share) {
    progress_->setValue(static_cast<int>(100.0 * share));
}

void WaitingDialog::end() {
    done(Accepted);
}

void WaitingDialog::reject() {
    if (stop_->isEnabled()) {
        stop_->setEnabled(false);
        progress_->setFormat(tr("stopping"));
        Q_EMIT stopWanted();
    }
}

} // namespace bedlore

#include "moc_waiting_dialog.cpp"
