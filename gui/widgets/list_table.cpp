// SPDX-License-Identifier: MIT
#include "gui/widgets/list_table.hpp"

#include <QHeaderView>
#include <QTableView>

#include <algorithm>

namespace bedlore {

QTableView* makeListTable(
    QAbstractItemModel* model, const char* objectName, const QString& spoken, QWidget* parent) {
    auto* table = new QTableView(parent);
    table->setObjectName(QString::fromLatin1(objectName));
    table->setAccessibleName(spoken);
    table->setModel(model);
    table->setFrameShape(QFrame::NoFrame);
    table->setShowGrid(false);
    table->setSelectionBehavior(QAbstractItemView::SelectRows);
    table->setSelectionMode(QAbstractItemView::SingleSelection);
    table->setTabKeyNavigation(false);
    table->setWordWrap(false);
    table->verticalHeader()->hide();
    table->verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    table->verticalHeader()->setDefaultSectionSize(table->fontMetrics().height() + 8);
    table->horizontalHeader()->setStretchLastSection(true);
    table->horizontalHeader()->setHighlightSections(false);
    table->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    table->horizontalHeader()->setResizeContentsPrecision(100);
    return table;
}

void fitColumns(QTableView& table, int most) {
    table.resizeColumnsToContents();
    for (int i = 0; i < table.model()->columnCount(); ++i) {
        table.setColumnWidth(i, std::min(table.columnWidth(i), most));
    }
}

} // namespace bedlore
