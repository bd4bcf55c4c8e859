// SPDX-License-Identifier: MIT
#include "gui/panels/aims_panel.hpp"

#include "gui/models/aims_model.hpp"

#include <QHeaderView>
#include <QLabel>
#include <QTreeView>
#include <QVBoxLayout>

#include <utility>

namespace bedlore {

AimsPanel::AimsPanel(QWidget* parent)
    : QWidget(parent)
    , model_(new AimsModel(this))
    , tree_(new QTreeView(this)) {
    setObjectName(QStringLiteral("aimsPanel"));
    setAccessibleName(tr("Aims and casts"));
    auto* title = new QLabel(tr("AIMS, LEFT TO RIGHT"), this);
    title->setProperty("heading", true);
    title->setContentsMargins(16, 8, 16, 4);
    title->setWordWrap(true);
    tree_->setObjectName(QStringLiteral("aimsTree"));
    tree_->setAccessibleName(tr("Aims from left to right, with their casts and readings"));
    tree_->setModel(model_);
    tree_->setFrameShape(QFrame::NoFrame);
    tree_->setAllColumnsShowFocus(true);
    tree_->setUniformRowHeights(true);
    tree_->setSelectionMode(QAbstractItemView::SingleSelection);
    tree_->setTabKeyNavigation(false);
    tree_->setMinimumHeight(48);
    tree_->header()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(title);
    column->addWidget(tree_, 1);
    setFocusProxy(tree_);
    connect(
        tree_->selectionModel(),
        &QItemSelectionModel::currentRowChanged,
        this,
        [this](const QModelIndex& row) { tellChoice(row); });
    connect(tree_, &QTreeView::activated, this, [this](const QModelIndex& row) {
        if (const auto reading = model_->readingAt(row.siblingAtColumn(0))) {
            Q_EMIT lineWanted(*reading);
        }
    });
}

void AimsPanel::show(
    std::shared_ptr<const BedMap> map, std::vector<AimLine> aims, const DisplayUnits& units) {
    const QModelIndex now = tree_->currentIndex().siblingAtColumn(0);
    const auto reading = model_->readingAt(now);
    const auto aim = model_->aimAt(now);
    following_ = true;
    model_->show(std::move(map), std::move(aims), units);
    for (int i = 0; i < model_->rowCount(); ++i) {
        tree_->setFirstColumnSpanned(i, {}, true);
    }
    tree_->expandAll();
    for (int i = 0; i < AimsModel::Felt; ++i) {
        tree_->resizeColumnToContents(i);
    }
    following_ = false;
    setChosen(aim, reading);
}

void AimsPanel::setChosen(std::optional<std::size_t> aim, std::optional<Id<Reading>> reading) {
    QModelIndex row = reading ? model_->indexOfReading(*reading) : QModelIndex();
    const QModelIndex now = tree_->currentIndex().siblingAtColumn(0);
    if (!row.isValid() && aim) {
        // A reading of that aim which is chosen already says more.
        row = model_->aimAt(now) == aim ? now : model_->indexOfAim(*aim);
    }
    if (row != now) {
        following_ = true;
        lookAt(row);
        following_ = false;
    }
}

void AimsPanel::lookAt(const QModelIndex& row) {
    tree_->setCurrentIndex(row);
    if (row.isValid()) {
        tree_->scrollTo(row);
    }
}

void AimsPanel::tellChoice(const QModelIndex& row) {
    if (following_ || !row.isValid()) {
        return;
    }
    if (const auto reading = model_->readingAt(row)) {
        Q_EMIT readingChosen(*reading);
    } else if (const auto aim = model_->aimAt(row)) {
        Q_EMIT aimChosen(*aim);
    }
}

} // namespace bedlore

#include "moc_aims_panel.cpp"
