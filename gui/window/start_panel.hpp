// SPDX-License-Identifier: MIT
#pragma once

#include "gui/window/recent_books.hpp"

#include <QWidget>

#include <vector>

class QVBoxLayout;

// What stands in the window before a book is open.

namespace bedlore {

class StartPanel : public QWidget {
    Q_OBJECT

public:
    /// Where there is no last book yet, the practice water is what the Return key opens.
    explicit StartPanel(const std::vector<RecentBook>& lastBooks, QWidget* parent = nullptr);

Q_SIGNALS:
    void newWanted();
    void openWanted();
    void practiceWanted();
    void bookWanted(const QString& path);
    /// A book that is gone is to leave the list.
    void forgetWanted(const QString& path);

protected:
    void changeEvent(QEvent* event) override;

private:
    void addBook(const RecentBook& book, QVBoxLayout& column);
    /// Lines as long as are easy to read, at any size of text.
    void fitWords();

    QWidget* column_ = nullptr;
};

} // namespace bedlore
