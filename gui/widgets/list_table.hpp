// SPDX-License-Identifier: MIT
#pragma once

#include <QString>

class QAbstractItemModel;
class QTableView;
class QWidget;

// Tables to read from.

namespace bedlore {

/// A table of plain text to read: the arrow keys go by rows, Tab goes on to the next thing. Rows
/// are of one height, so that it stays quick however many there are.
[[nodiscard]] QTableView* makeListTable(
    QAbstractItemModel* model, const char* objectName, const QString& spoken, QWidget* parent);

/// Makes the columns as wide as what the first rows say, none wider than `most` [px].
void fitColumns(QTableView& table, int most);

} // namespace bedlore
