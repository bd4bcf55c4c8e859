// SPDX-License-Identifier: MIT
#pragma once

#include <QStringList>
#include <QWidget>

// What stands in the window before a book is open.

namespace bedlore {

class StartPanel : public QWidget {
    Q_OBJECT

public:
    /// `hasPractice`: whether there is a practice water to open.
    StartPanel(const QStringList& lastBooks, bool hasPractice, QWidget* parent = nullptr);

Q_SIGNALS:
    void newWanted();
    void openWanted();
    void practiceWanted();
    void bookWanted(const QString& path);
};

} // namespace bedlore
