// SPDX-License-Identifier: MIT
#include "gui/panels/aims_panel.hpp"

#include "gui/document/aim_words.hpp"
#include "gui/models/aims_model.hpp"

#include <QHeaderView>
#include <QLabel>
#include <QScrollArea>
#include <QScrollBar>
#include <QTreeView>
#include <QVBoxLayout>

#include <algorithm>

namespace bedlore {

AimsPanel::AimsPanel(QWidget* parent)
    : QWidget(parent)
    , model_(new AimsModel(this))
    , guessed_(new QLabel)
    , guessedArea_(new QScrollArea(this))
    , tree_(new QTreeView(this)) {
    setObjectName(QStringLiteral("aimsPanel"));
    setAccessibleName(tr("Aims and casts"));
    auto* title = new QLabel(tr("AIMS, LEFT TO RIGHT"), this);
    title->setProperty("heading", true);
    title->setContentsMargins(16, 8, 16, 4);
    title->setWordWrap(true);
    guessed_->setObjectName(QStringLiteral("aimsGuessed"));
    guessed_->setTextFormat(Qt::PlainText);
    guessed_->setWordWrap(true);
    guessed_->setContentsMargins(16, 0, 16, 4);
    guessedArea_->setFrameShape(QFrame::NoFrame);
    guessedArea_->setWidgetResizable(true);
    guessedArea_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    guessedArea_->setFocusPolicy(Qt::NoFocus);
    guessedArea_->setMinimumHeight(1); // in a low window the page needs the room
    guessedArea_->setWidget(guessed_);
    guessedArea_->hide();
    tree_->setObjectName(QStringLiteral("aimsTree"));
    tree_->setAccessibleName(tr("Aims from left to right, with their casts and readings"));
    tree_->setModel(model_);
    tree_->setFrameShape(QFrame::NoFrame);
    tree_->setAllColumnsShowFocus(true);
    tree_->setUniformRowHeights(true);
    tree_->setSelectionMode(QAbstractItemView::SingleSelection);
    tree_->setTabKeyNavigation(false);
    tree_->header()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(title);
    column->addWidget(guessedArea_, 1);
    column->addWidget(tree_, 2);
    column->addStretch(0);
    setFocusProxy(tree_);
    connect(tree_->horizontalScrollBar(), &QScrollBar::rangeChanged, this, &AimsPanel::fitRows);
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
    const std::shared_ptr<const BedMap>& map,
    const std::vector<AimLine>& aims,
    const DisplayUnits& units) {
    const QModelIndex now = tree_->currentIndex().siblingAtColumn(0);
    const auto reading = model_->readingAt(now);
    const auto aim = model_->aimAt(now);
    const std::string words = map != nullptr ? guessedWords(*map, aims) : std::string();
    guessed_->setText(QString::fromStdString(words));
    guessedArea_->setVisible(!words.empty());
    fitGuessed();
    tree_->setAccessibleDescription(guessed_->text());
    following_ = true;
    model_->show(map, aims, units);
    for (int i = 0; i < model_->rowCount(); ++i) {
        tree_->setFirstColumnSpanned(i, {}, true);
    }
    tree_->expandAll();
    for (int i = 0; i < AimsModel::Felt; ++i) {
        tree_->resizeColumnToContents(i);
    }
    following_ = false;
    fitRows();
    setChosen(aim, reading);
}

void AimsPanel::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    fitGuessed();
    fitRows();
}

/// Whole rows, since half a row says nothing, and at least four of them at the usual size of text;
/// at a larger one the page needs the height, and they are scrolled to.
void AimsPanel::fitRows() {
    const int row = std::max(tree_->sizeHintForRow(0), fontMetrics().height() + 4);
    const QScrollBar* bar = tree_->horizontalScrollBar();
    const int below = bar->maximum() > 0 ? bar->sizeHint().height() : 0;
    const int head = tree_->header()->sizeHint().height() + 2 * tree_->frameWidth() + 2 + below;
    constexpr int most = 140; // pixels that the page can spare in a small window
    constexpr int least = 48;
    tree_->setMinimumHeight(head + 4 * row <= most ? head + 4 * row : least);
    layout()->activate();
    const int room = height() - tree_->y();
    tree_->setMaximumHeight(std::max(tree_->minimumHeight(), head + (room - head) / row * row));
}

/// As high as its words, and at most half of the panel: the aims are what he came for.
void AimsPanel::fitGuessed() {
    if (!guessed_->text().isEmpty()) {
        guessedArea_->setMaximumHeight(guessed_->heightForWidth(width()));
    }
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
