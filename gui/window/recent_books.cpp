// SPDX-License-Identifier: MIT
#include "gui/window/recent_books.hpp"

#include "core/book/book.hpp"
#include "gui/widgets/plain_text.hpp"
#include "gui/window/settings.hpp"

#include <QAction>
#include <QCoreApplication>
#include <QFileInfo>
#include <QMenu>

namespace bedlore {

namespace {

QString tr(const char* text) {
    return QCoreApplication::translate("bedlore::RecentBooks", text);
}

/// Its title, and its file where that says more.
QString wholeName(const RecentBook& book) {
    const QString file = fileBeside(book);
    return file.isEmpty() ? titleOf(book) : tr("%1 (%2)").arg(titleOf(book), file);
}

} // namespace

QString titleOf(const RecentBook& book) {
    return book.waters.isEmpty() ? book.name : book.waters;
}

QString fileBeside(const RecentBook& book) {
    return titleOf(book).compare(book.name, Qt::CaseInsensitive) == 0 ? QString() : book.name;
}

QString waterNames(const Book& book) {
    const Table<Water>& waters = book.all<Water>();
    QStringList names;
    for (const Water& water : waters) {
        names << QString::fromStdString(water.name);
    }
    if (names.size() <= 2) {
        return names.join(tr(" and "));
    }
    return tr("%1 and %2 more").arg(names.front()).arg(names.size() - 1);
}

std::vector<RecentBook> recentBooks(const Settings& settings) {
    std::vector<RecentBook> books;
    for (const QString& path : settings.lastBooks()) {
        books.push_back(
            {.waters = settings.watersOf(path),
             .name = QFileInfo(path).completeBaseName(),
             .path = path,
             .waits = settings.leftBook(path).waits,
             .isThere = QFileInfo::exists(path)});
    }
    return books;
}

void fillRecentMenu(QMenu& menu, const std::vector<RecentBook>& books, const RecentActs& acts) {
    menu.clear();
    menu.setToolTipsVisible(true);
    std::vector<QString> gone;
    int number = 0;
    for (const RecentBook& book : books) {
        const QString name = plainInMenu(wholeName(book));
        ++number;
        QAction* action = menu.addAction(
            book.isThere ? QStringLiteral("&%1  %2").arg(number).arg(name)
                         : tr("&%1  %2: not there any more").arg(number).arg(name));
        action->setToolTip(plainTip(book.path));
        action->setEnabled(book.isThere);
        QObject::connect(action, &QAction::triggered, &menu, [open = acts.open, path = book.path] {
            open(path);
        });
        if (!book.isThere) {
            gone.push_back(book.path);
        }
    }
    if (books.empty()) {
        menu.addAction(tr("No book was open yet"))->setEnabled(false);
    }
    if (!gone.empty()) {
        menu.addSeparator();
        QAction* away = menu.addAction(tr("&Take off the list what is not there any more"));
        away->setObjectName(QStringLiteral("forgetGoneBooks"));
        QObject::connect(
            away, &QAction::triggered, &menu, [forget = acts.forget, gone] { forget(gone); });
    }
}

} // namespace bedlore
