// SPDX-License-Identifier: MIT
#include "gui/window/start_panel.hpp"

#include "gui/widgets/plain_text.hpp"
#include "gui/widgets/scrolled_part.hpp"
#include "gui/widgets/wrapped_row.hpp"

#include <QEvent>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QToolButton>
#include <QVBoxLayout>

#include <algorithm>

namespace bedlore {

namespace {

QPushButton* button(const QString& text, const char* name, QLayout& row, QWidget* parent) {
    auto* made = new QPushButton(text, parent);
    made->setObjectName(QString::fromLatin1(name));
    row.addWidget(made);
    return made;
}

/// What the practice water is, for whoever has not seen it.
QLabel* hint(const char* name, QWidget* parent) {
    auto* made = new QLabel(
        StartPanel::tr("The practice water is invented. In ten minutes it shows how a page becomes "
                       "a map, and hides seven mistakes to find and mend."),
        parent);
    made->setObjectName(QString::fromLatin1(name));
    made->setWordWrap(true);
    return made;
}

} // namespace

StartPanel::StartPanel(const std::vector<RecentBook>& lastBooks, QWidget* parent)
    : QWidget(parent) {
    setObjectName(QStringLiteral("startPanel"));
    auto* title = new QLabel(tr("Bedlore"), this);
    title->setObjectName(QStringLiteral("startTitle"));
    auto* words = new QLabel(
        tr("Type a page of notes from the marker rod, and see the bed that they describe, with "
           "what is not known left open."),
        this);
    words->setObjectName(QStringLiteral("startWords"));
    words->setWordWrap(true);
    auto* row = new WrappedRow;
    row->setSpacing(8);
    QPushButton* fresh = button(tr("New book…"), "startNew", *row, this);
    QPushButton* open = button(tr("Open a book…"), "startOpen", *row, this);
    QPushButton* practice = button(tr("Practice water and tour"), "startPractice", *row, this);
    column_ = new QWidget;
    auto* column = new QVBoxLayout(column_);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(8);
    column->addWidget(title);
    column->addWidget(words);
    column->addSpacing(8);
    column->addLayout(row);
    column->addWidget(hint("startPracticeWords", this));
    column->addSpacing(16);
    for (const RecentBook& book : lastBooks) {
        addBook(book, *column);
    }
    auto* inside = new QWidget;
    auto* middle = new QHBoxLayout;
    middle->addStretch(1);
    middle->addWidget(column_, 1000); // as far as a line may be long, then room on both sides
    middle->addStretch(1);
    auto* whole = new QVBoxLayout(inside);
    whole->setContentsMargins(32, 32, 32, 32);
    whole->addStretch(2);
    whole->addLayout(middle);
    whole->addStretch(3);
    auto* only = new QVBoxLayout(this);
    only->setContentsMargins(0, 0, 0, 0);
    only->addWidget(new ScrolledPart(inside, "startScroll", {}, this));
    fitWords();
    setFocusProxy(lastBooks.empty() ? practice : fresh);
    connect(fresh, &QPushButton::clicked, this, &StartPanel::newWanted);
    connect(open, &QPushButton::clicked, this, &StartPanel::openWanted);
    connect(practice, &QPushButton::clicked, this, &StartPanel::practiceWanted);
}

void StartPanel::fitWords() {
    constexpr int longestLine = 64; // letters
    column_->setMaximumWidth(std::max(
        longestLine * fontMetrics().averageCharWidth(),
        column_->layout()->totalMinimumSize().width()));
}

void StartPanel::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::FontChange) {
        fitWords();
    }
}

void StartPanel::addBook(const RecentBook& book, QVBoxLayout& column) {
    auto* row = new QHBoxLayout;
    row->setSpacing(8);
    auto* last = new QToolButton(this);
    last->setObjectName(QStringLiteral("recentBook"));
    last->setText(plainInMenu(titleOf(book)));
    last->setToolTip(plainTip(book.path));
    last->setAccessibleDescription(book.path);
    last->setEnabled(book.isThere);
    row->addWidget(last);
    if (const QString file = fileBeside(book); !file.isEmpty()) {
        auto* beside = new QLabel(this);
        beside->setObjectName(QStringLiteral("recentFile"));
        beside->setTextFormat(Qt::PlainText);
        beside->setProperty("heading", true);
        beside->setText(file);
        row->addWidget(beside);
    }
    connect(
        last, &QToolButton::clicked, this, [this, path = book.path] { Q_EMIT bookWanted(path); });
    if (!book.isThere) {
        auto* gone = new QLabel(tr("not there any more"), this);
        gone->setProperty("heading", true);
        auto* away = new QToolButton(this);
        away->setObjectName(QStringLiteral("forgetBook"));
        away->setText(tr("Take off the list"));
        away->setAccessibleName(tr("Take %1 off the list").arg(titleOf(book)));
        row->addWidget(gone);
        row->addWidget(away);
        connect(away, &QToolButton::clicked, this, [this, path = book.path] {
            Q_EMIT forgetWanted(path);
        });
    }
    row->addStretch();
    column.addLayout(row);
    if (book.isThere && !book.waits.isEmpty()) {
        auto* waits = new QLabel(book.waits, this);
        waits->setObjectName(QStringLiteral("recentWaits"));
        waits->setTextFormat(Qt::PlainText);
        waits->setWordWrap(true);
        last->setAccessibleDescription(book.path + QStringLiteral(". ") + book.waits);
        column.addWidget(waits);
    }
}

} // namespace bedlore

#include "moc_start_panel.cpp"
