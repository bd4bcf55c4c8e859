// SPDX-License-Identifier: MIT
#pragma once

#include <QString>

#include <functional>
#include <vector>

class QMenu;

// The books that were open last.

namespace bedlore {

class Book;
class Settings;

/// `waters` is shown first, as it was when the book was open last; where it is empty, `name` alone.
/// `path` is there for whoever asks.
struct RecentBook {
    QString waters;
    QString name; ///< of the file
    QString path;
    QString waits = {}; ///< a sentence on pages that were left to be completed; empty for none
    bool isThere = false;
};

/// What it is called in the list.
[[nodiscard]] QString titleOf(const RecentBook& book);
/// The name of its file, where that is not its title already.
[[nodiscard]] QString fileBeside(const RecentBook& book);

/// The waters of a book in words: "Harl Pit", "Harl Pit and Low Mere", "Harl Pit and 3 more".
[[nodiscard]] QString waterNames(const Book& book);

/// The latest first. No book is opened for it; whether each is still there is looked up now.
[[nodiscard]] std::vector<RecentBook> recentBooks(const Settings& settings);

/// What the entries of the menu do.
struct RecentActs {
    std::function<void(const QString& path)> open;
    std::function<void(const std::vector<QString>& paths)> forget;
};

/// Fills `menu` with `books`: those that are gone say so, and can be taken off the list.
void fillRecentMenu(QMenu& menu, const std::vector<RecentBook>& books, const RecentActs& acts);

} // namespace bedlore
