// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/book.hpp"

#include <QWidget>

#include <memory>

class QLabel;
class QTableView;

// A visit that came from files: its readings, where there is no page to show.

namespace bedlore {

class ReadingsModel;

class VisitPanel : public QWidget {
    Q_OBJECT

public:
    explicit VisitPanel(QWidget* parent = nullptr);
    void show(std::shared_ptr<const Book> book, Id<Visit> visit);
    /// What he is to know of its level; empty where there is nothing.
    void setRemark(const QString& sentence);
    /// The row of a reading, where it is one of them.
    void choose(Id<Reading> reading);

Q_SIGNALS:
    void readingChosen(bedlore::Id<bedlore::Reading> reading);

private:
    void say();

    QString remark_;
    QLabel* words_;
    QTableView* table_;
    ReadingsModel* model_;
};

} // namespace bedlore
