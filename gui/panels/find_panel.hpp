// SPDX-License-Identifier: MIT
#pragma once

#include "gui/document/book_search.hpp"
#include "gui/document/document.hpp"
#include "gui/jobs/job_board.hpp"

#include <QWidget>

#include <memory>

class QLabel;
class QLineEdit;
class QTableView;

// A line to type in and what the book says with those words.

namespace bedlore {

class FoundModel;

/// Looks through the book off the window's thread with every letter that is typed. Up and Down
/// walk through what was found while the cursor stays in the line, Return goes there, Escape puts
/// the panel away. `document` and `jobs` must outlive it.
class FindPanel : public QWidget {
    Q_OBJECT

public:
    FindPanel(Document& document, JobBoard& jobs, QWidget* parent = nullptr);

    /// Comes up, or comes back, with what was typed last ready to be typed over.
    void begin();

Q_SIGNALS:
    void wanted(const bedlore::FoundPlace& place);
    void putAway();

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void look();
    void show(const Found& found);
    void go();
    void close();

    Document& document_;
    JobBoard& jobs_;
    std::shared_ptr<const BookSearch> search_;
    QLineEdit* line_;
    QLabel* count_;
    QTableView* list_;
    FoundModel* model_;
};

} // namespace bedlore
