// SPDX-License-Identifier: MIT
#include "gui/dialogs/bad_rows_dialog.hpp"

#include <QDialogButtonBox>
#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>

namespace bedlore {

BadRowsDialog::BadRowsDialog(const std::vector<BadRow>& rows, QWidget* parent)
    : QDialog(parent) {
    setObjectName(QStringLiteral("badRowsDialog"));
    setWindowTitle(tr("Rows that cannot be used"));
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(16, 16, 16, 16);
    column->setSpacing(8);
    auto* words = new QLabel(
        tr("Nothing was taken in yet. Mend these rows in the file and import it again, or go on "
           "without them."),
        this);
    words->setWordWrap(true);
    column->addWidget(words);
    auto* table = new QTableWidget(static_cast<int>(rows.size()), 5, this);
    table->setObjectName(QStringLiteral("badRows"));
    table->setHorizontalHeaderLabels(
        {tr("file"), tr("line"), tr("field"), tr("found"), tr("expected")});
    table->setEditTriggers(QAbstractItemView::NoEditTriggers);
    table->setShowGrid(false);
    table->verticalHeader()->hide();
    table->horizontalHeader()->setStretchLastSection(true);
    for (int i = 0; i < table->rowCount(); ++i) {
        const BadRow& row = rows[static_cast<std::size_t>(i)];
        const std::string cells[] = {
            row.file, std::to_string(row.line), row.field, row.found, row.expected};
        int place = 0;
        for (const std::string& cell : cells) {
            table->setItem(i, place++, new QTableWidgetItem(QString::fromStdString(cell)));
        }
    }
    table->resizeColumnsToContents();
    column->addWidget(table, 1);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel, this);
    auto* skip = buttons->addButton(tr("Go on without them"), QDialogButtonBox::AcceptRole);
    skip->setObjectName(QStringLiteral("skipBadRows"));
    connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    column->addWidget(buttons);
    resize(720, 420);
}

} // namespace bedlore

#include "moc_bad_rows_dialog.cpp"
