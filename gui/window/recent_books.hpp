// SPDX-License-Identifier: MIT
#pragma once

#include <QString>

#include <functional>
#include <vector>

class QMenu;

// The books that were open last.

namespace bedlore {

class Settings;

/// `name` is shown alone; `path` is there for whoever asks.
struct RecentBook {
    QString name;
    QString path;
    bool isThere = false;
};

/// The latest first. Whether each is still there is looked up now.
[[nodiscard]] std::vector<RecentBook> recentBooks(const Settings& settings);

/// What the entries of the menu do.
struct RecentActs {
    std::function<void(const QString& path)> open;
    std::function<void(const std::vector<QString>& paths)> forget;
};

/// Fills `menu` with `books`: those that are gone say so, and can be taken off the list.
void fillRecentMenu(QMenu& menu, const std::vector<RecentBook>& books, const RecentActs& acts);

} // namespace bedlore
