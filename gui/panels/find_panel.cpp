// SPDX-License-Identifier: MIT
#include "gui/panels/find_panel.hpp"

#include "gui/models/found_model.hpp"
#include "gui/widgets/list_table.hpp"

#include <QCoreApplication>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QTableView>
#include <QToolButton>
#include <QVBoxLayout>

#include <algorithm>

namespace bedlore {

namespace {

const auto findJob = QStringLiteral("find");
constexpr std::size_t mostShown = 500;
constexpr int mostRowsHigh = 6;

/// What a look through the book came to, and the book made ready for the next letter.
struct Look {
    std::shared_ptr<const BookSearch> search;
    Found found;
};

} // namespace

FindPanel::FindPanel(Document& document, JobBoard& jobs, QWidget* parent)
    : QWidget(parent)
    , document_(document)
    , jobs_(jobs)
    , line_(new QLineEdit(this))
    , count_(new QLabel(this))
    , model_(new FoundModel(this)) {
    setObjectName(QStringLiteral("findPanel"));
    setAttribute(Qt::WA_StyledBackground);
    line_->setObjectName(QStringLiteral("findLine"));
    line_->setAccessibleName(tr("Find in the whole book"));
    line_->setPlaceholderText(tr("words of a line, a note, a swim, a spot, a mark"));
    count_->setObjectName(QStringLiteral("findCount"));
    count_->setTextFormat(Qt::PlainText);
    count_->setMinimumWidth(160);
    list_ = makeListTable(model_, "findResults", tr("What was found"), this);
    list_->horizontalHeader()->hide();
    auto* away = new QToolButton(this);
    away->setObjectName(QStringLiteral("findAway"));
    away->setText(tr("Put away"));
    away->setAutoRaise(true);
    auto* row = new QHBoxLayout;
    row->setSpacing(8);
    row->addWidget(line_, 1);
    row->addWidget(count_);
    row->addWidget(away);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(16, 8, 16, 8);
    column->setSpacing(4);
    column->addLayout(row);
    column->addWidget(list_);
    list_->hide();
    hide();
    line_->installEventFilter(this);
    list_->installEventFilter(this);
    connect(line_, &QLineEdit::textChanged, this, &FindPanel::look);
    connect(list_, &QTableView::clicked, this, &FindPanel::go);
    connect(away, &QToolButton::clicked, this, &FindPanel::close);
    connect(&document_, &Document::changed, this, [this] {
        if (!isHidden()) {
            look();
        }
    });
}

void FindPanel::begin() {
    setVisible(true);
    line_->setFocus(Qt::ShortcutFocusReason);
    line_->selectAll();
    look();
}

void FindPanel::look() {
    const QString typed = line_->text();
    if (typed.trimmed().isEmpty()) {
        jobs_.stop(findJob);
        show({});
        count_->clear();
        return;
    }
    jobs_.start(
        findJob,
        QString(),
        [book = document_.book(), ready = search_, typed](const Progress& progress) {
            Look look;
            look.search = ready != nullptr && ready->book() == book
                              ? ready
                              : std::make_shared<const BookSearch>(book);
            look.found = look.search->find(typed, mostShown, progress);
            return look;
        },
        [this](const Look& look) {
            search_ = look.search;
            show(look.found);
        });
}

void FindPanel::show(const Found& found) {
    model_->show(found.lines);
    const auto shown = found.lines.size();
    count_->setText(
        found.count == 0      ? tr("nothing found")
        : found.count > shown ? tr("the first %1 of %2 lines").arg(shown).arg(found.count)
        : shown == 1          ? tr("1 line")
                              : tr("%1 lines").arg(shown));
    const int rows = std::min(static_cast<int>(shown), mostRowsHigh);
    list_->setFixedHeight(rows * list_->verticalHeader()->defaultSectionSize() + 4);
    list_->setVisible(rows > 0);
    if (rows > 0) {
        list_->setColumnWidth(FoundModel::Text, std::max(240, width() / 2));
        list_->selectRow(0);
    }
}

void FindPanel::go() {
    const QModelIndex row = list_->currentIndex();
    if (row.isValid()) {
        Q_EMIT wanted(model_->lineAt(row.row()).place);
    }
}

void FindPanel::close() {
    hide();
    Q_EMIT putAway();
}

bool FindPanel::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() != QEvent::KeyPress) {
        return QWidget::eventFilter(watched, event);
    }
    switch (static_cast<QKeyEvent*>(event)->key()) {
    case Qt::Key_Escape:
        close();
        return true;
    case Qt::Key_Return:
    case Qt::Key_Enter:
        go();
        return true;
    case Qt::Key_Up:
    case Qt::Key_Down:
    case Qt::Key_PageUp:
    case Qt::Key_PageDown:
        if (watched == line_) {
            QCoreApplication::sendEvent(list_, event);
            return true;
        }
        break;
    default:
        break;
    }
    return QWidget::eventFilter(watched, event);
}

} // namespace bedlore

#include "moc_find_panel.cpp"
