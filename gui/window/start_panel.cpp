// SPDX-License-Identifier: MIT
#include "gui/window/start_panel.hpp"

#include <QFileInfo>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QToolButton>
#include <QVBoxLayout>

namespace bedlore {

namespace {

QPushButton* button(const QString& text, const char* name, QLayout& row, QWidget* parent) {
    auto* made = new QPushButton(text, parent);
    made->setObjectName(QString::fromLatin1(name));
    row.addWidget(made);
    return made;
}

} // namespace

StartPanel::StartPanel(const QStringList& lastBooks, bool hasPractice, QWidget* parent)
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
    words->setMaximumWidth(480);
    auto* row = new QHBoxLayout;
    row->setSpacing(8);
    QPushButton* fresh = button(tr("New book…"), "startNew", *row, this);
    QPushButton* open = button(tr("Open a book…"), "startOpen", *row, this);
    QPushButton* practice = button(tr("Open the practice water"), "startPractice", *row, this);
    practice->setVisible(hasPractice);
    row->addStretch();
    auto* column = new QVBoxLayout;
    column->setSpacing(8);
    column->addWidget(title);
    column->addWidget(words);
    column->addSpacing(8);
    column->addLayout(row);
    column->addSpacing(16);
    for (const QString& path : lastBooks) {
        if (!QFileInfo::exists(path)) {
            continue;
        }
        auto* last = new QToolButton(this);
        last->setText(QFileInfo(path).completeBaseName().replace(u'&', QStringLiteral("&&")));
        last->setToolTip(path.toHtmlEscaped());
        column->addWidget(last);
        connect(last, &QToolButton::clicked, this, [this, path] { Q_EMIT bookWanted(path); });
    }
    auto* middle = new QHBoxLayout;
    middle->addStretch(1);
    middle->addLayout(column);
    middle->addStretch(1);
    auto* whole = new QVBoxLayout(this);
    whole->setContentsMargins(48, 48, 48, 48);
    whole->addStretch(2);
    whole->addLayout(middle);
    whole->addStretch(3);
    setFocusProxy(fresh);
    connect(fresh, &QPushButton::clicked, this, &StartPanel::newWanted);
    connect(open, &QPushButton::clicked, this, &StartPanel::openWanted);
    connect(practice, &QPushButton::clicked, this, &StartPanel::practiceWanted);
}

} // namespace bedlore

#include "moc_start_panel.cpp"
