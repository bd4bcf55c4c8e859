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
    /// In the colour of warnings.
    void warn(const QString& sentence);
    /// Until he puts it away: it does not pass with the next line that he types.
    void sayToStay(const QString& sentence);
    [[nodiscard]] QString text() const;

public Q_SLOTS:
    void clear();
    /// The book has gone on, and what was said before is over, unless it was said to stay.
    void clearPassing();

private:
    void show(const QString& sentence, bool isWarning);

    QLabel* words_;
    bool stays_ = false;
};

} // namespace bedlore
