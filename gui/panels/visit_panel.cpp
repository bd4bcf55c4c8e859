// SPDX-License-Identifier: MIT
#include "gui/panels/visit_panel.hpp"

#include "gui/models/readings_model.hpp"

#include <QHeaderView>
#include <QLabel>
#include <QTableView>
#include <QVBoxLayout>

#include <utility>

namespace bedlore {

VisitPanel::VisitPanel(QWidget* parent)
    : QWidget(parent)
    , words_(new QLabel(this))
    , table_(new QTableView(this))
    , model_(new ReadingsModel(this)) {
    setObjectName(QStringLiteral("visitPanel"));
    words_->setObjectName(QStringLiteral("visitWords"));
    words_->setTextFormat(Qt::PlainText);
    words_->setWordWrap(true);
    table_->setObjectName(QStringLiteral("readingsTable"));
    table_->setAccessibleName(tr("Readings of this visit"));
    table_->setModel(model_);
    table_->setFrameShape(QFrame::NoFrame);
    table_->setShowGrid(false);
    table_->setSelectionBehavior(QAbstractItemView::SelectRows);
    table_->setSelectionMode(QAbstractItemView::SingleSelection);
    table_->setTabKeyNavigation(false);
    table_->verticalHeader()->hide();
    table_->horizontalHeader()->setStretchLastSection(true);
    table_->horizontalHeader()->setHighlightSections(false);
    table_->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(words_);
    column->addWidget(table_, 1);
    setFocusProxy(table_);
    connect(
        table_->selectionModel(),
        &QItemSelectionModel::currentRowChanged,
        this,
        [this](const QModelIndex& row) {
            if (row.isValid()) {
                Q_EMIT readingChosen(model_->readingAt(row.row()));
            }
        });
}

void VisitPanel::show(std::shared_ptr<const Book> book, Id<Visit> visit) {
    model_->show(std::move(book), visit);
    say();
    table_->resizeColumnsToContents();
}

void VisitPanel::setRemark(const QString& sentence) {
    remark_ = sentence;
    say();
}

void VisitPanel::say() {
    const QString words = tr("These %1 readings came from a file. A page of notes can be added to "
                             "them with New page.")
                              .arg(model_->rowCount());
    words_->setText(remark_.isEmpty() ? words : words + u'\n' + remark_);
}

void VisitPanel::choose(Id<Reading> reading) {
    for (int row = 0; row < model_->rowCount(); ++row) {
        if (model_->readingAt(row) == reading) {
            table_->selectRow(row);
            table_->scrollTo(model_->index(row, 0));
        }
    }
}

} // namespace bedlore

#include "moc_visit_panel.cpp"
