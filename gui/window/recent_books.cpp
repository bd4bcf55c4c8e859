// SPDX-License-Identifier: MIT
#include "gui/window/recent_books.hpp"

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

} // namespace

std::vector<RecentBook> recentBooks(const Settings& settings) {
    std::vector<RecentBook> books;
    for (const QString& path : settings.lastBooks()) {
        books.push_back(
            {.name = QFileInfo(path).completeBaseName(),
             .path = path,
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
        const QString name = plainInMenu(book.name);
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
