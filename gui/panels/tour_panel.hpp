// SPDX-License-Identifier: MIT
#pragma once

#include "gui/models/key_row.hpp"

#include <QString>
#include <QWidget>

#include <vector>

class QLabel;
class QLayout;
class QPushButton;
class QToolButton;

// The tour above the desk: says one step at a time, and asks on itself what has to be asked.

namespace bedlore {

class ScrolledPart;

/// What the panel shows. `praise` is about what he has just done, `remark` about what is not right
/// yet; any of them may be empty.
struct TourPage {
    int number = 1; ///< from 1
    int count = 1;
    QString title;
    QString praise;
    QString text;
    QString remark;
    QString caution;
    bool hasPlace = false; ///< there is a line to go to
    friend bool operator==(const TourPage&, const TourPage&) = default;
};

/// Knows nothing of books: it shows a page and says which key was pressed.
class TourPanel : public QWidget {
    Q_OBJECT

public:
    explicit TourPanel(QWidget* parent = nullptr);
    /// Its keys, for the list of keys.
    [[nodiscard]] static std::vector<KeyRow> keys();

    /// All that it may come to show: it is as high for each page as for the longest, so that what
    /// stands below it does not jump from step to step.
    void setPages(std::vector<TourPage> pages);
    void show(const TourPage& page);
    /// Asks in place of the step whether to begin anew; `words` say what happens then.
    void ask(const QString& words);
    [[nodiscard]] bool isAsking() const { return asking_; }

Q_SIGNALS:
    void placeWanted();
    void onWanted();
    void backWanted();
    void closeWanted();
    /// He wants to begin anew: ask him.
    void anewWanted();
    void anewConfirmed();
    void anewDeclined();

protected:
    void keyPressEvent(QKeyEvent* event) override;
    bool event(QEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    QPushButton* button(const QString& words, const QKeySequence& key, const char* name);
    void arrange();
    void fitWords();
    [[nodiscard]] int heightOf(const TourPage& page, int width) const;
    void announce();
    void setAsking(bool asking);

    std::vector<TourPage> pages_;
    TourPage page_;
    bool asking_ = false;
    ScrolledPart* scroll_ = nullptr;
    QLayout* keys_ = nullptr;
    QLabel* title_;
    QLabel* praise_;
    QLabel* text_;
    QLabel* remark_;
    QLabel* caution_;
    QPushButton* place_;
    QPushButton* back_;
    QPushButton* on_;
    QPushButton* yes_;
    QPushButton* no_;
    QToolButton* anew_;
    QToolButton* close_;
};

} // namespace bedlore
