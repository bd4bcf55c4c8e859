// SPDX-License-Identifier: MIT
#pragma once

#include <QString>
#include <QWidget>

class QLabel;

// One line for what he should know, instead of a box in his way.

namespace bedlore {

/// Hidden while there is nothing to say. A new sentence takes the place of the last.
class MessageBar : public QWidget {
    Q_OBJECT

public:
    explicit MessageBar(QWidget* parent = nullptr);

    void say(const QString& sentence);
    /// In the colour of warnings, until he puts it away.
    void warn(const QString& sentence);
    [[nodiscard]] QString text() const;

public Q_SLOTS:
    void clear();

private:
    void show(const QString& sentence, bool isWarning);

    QLabel* words_;
};

} // namespace bedlore
