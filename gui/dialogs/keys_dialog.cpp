// SPDX-License-Identifier: MIT
#include "gui/dialogs/keys_dialog.hpp"

#include "gui/models/keys_model.hpp"
#include "gui/widgets/list_table.hpp"
#include "gui/widgets/scrolled_part.hpp"

#include <QCoreApplication>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLineEdit>
#include <QPushButton>
#include <QTableView>
#include <QVBoxLayout>

#include <algorithm>
#include <utility>

namespace bedlore {

namespace {

/// What does not fit is cut off the words, which the tool tip has whole, never off the key.
void keepInSight(QTableView& table, int width) {
    constexpr int edges = 48; // [px] of the dialog, with the scroll bar
    const int others = table.columnWidth(KeysModel::Key) +
                       table.horizontalHeader()->sectionSizeHint(KeysModel::Where) + edges;
    const int room = std::max(width - others, width / 3);
    table.setColumnWidth(KeysModel::Words, std::min(table.columnWidth(KeysModel::Words), room));
}

} // namespace

KeysDialog::KeysDialog(std::vector<KeyRow> rows, QWidget* parent)
    : QDialog(parent) {
    setObjectName(QStringLiteral("keysDialog"));
    setWindowTitle(tr("Keys"));
    auto* model = new KeysModel(std::move(rows), this);
    auto* line = new QLineEdit(this);
    line->setObjectName(QStringLiteral("keysLine"));
    line->setAccessibleName(tr("Look up a key"));
    line->setPlaceholderText(tr("what you want to do, or a key"));
    QTableView* table = makeListTable(model, "keysTable", tr("Keys and what they do"), this);
    auto* close = new QPushButton(tr("&Close"), this);
    close->setObjectName(QStringLiteral("keysClose"));
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(16, 16, 16, 16);
    column->setSpacing(8);
    column->addWidget(line);
    column->addWidget(table, 1);
    column->addWidget(close, 0, Qt::AlignRight);
    resizeForText(*this, QSize(680, 560));
    fitColumns(*table, width());
    keepInSight(*table, width());
    line->installEventFilter(this);
    line->setFocus();
    connect(line, &QLineEdit::textChanged, model, &KeysModel::narrow);
    connect(close, &QPushButton::clicked, this, &QDialog::accept);
}

/// The arrow keys walk through the list while the cursor stays in the line.
bool KeysDialog::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::KeyPress) {
        const int key = static_cast<QKeyEvent*>(event)->key();
        if (key == Qt::Key_Up || key == Qt::Key_Down || key == Qt::Key_PageUp ||
            key == Qt::Key_PageDown) {
            QCoreApplication::sendEvent(findChild<QTableView*>(QStringLiteral("keysTable")), event);
            return true;
        }
    }
    return QDialog::eventFilter(watched, event);
}

} // namespace bedlore

#include "moc_keys_dialog.cpp"
