// SPDX-License-Identifier: MIT
#pragma once

#include "gui/document/page_session.hpp"
#include "gui/panels/page_editor.hpp"
#include "gui/panels/page_remarks.hpp"

#include <QTimer>
#include <QWidget>

#include <optional>
#include <utility>

class QLabel;

// The page beside the plan: types into the book line by line.

namespace bedlore {

class WrappedRow;

/// Keeps the page as it is typed. `document` must outlive it.
class PagePanel : public QWidget {
    Q_OBJECT

public:
    explicit PagePanel(Document& document, QWidget* parent = nullptr);

    void open(Id<Page> page);
    /// A new page of `water`, waiting for its swim and its date; `swim` is filled in where there is
    /// one.
    void begin(std::optional<Id<Water>> water, const QString& swim);
    [[nodiscard]] std::optional<Id<Page>> page() const { return session_.page(); }

    /// Keeps what is typed now. False where it could not be kept.
    bool keep();
    [[nodiscard]] bool hasUnkept() const;
    /// Whether the last thing kept is a line that may still go on.
    [[nodiscard]] bool hasOpenLine() const { return session_.hasOpenLine(); }
    /// Shows the page as the book has it; what is typed and not kept is gone.
    void reload();
    /// What stands beside lines that are understood, in sentences.
    void setRemarks(PageRemarks remarks);
    /// The reading of the line that the cursor is on.
    [[nodiscard]] std::optional<Id<Reading>> currentReading() const;
    void setColours(PaletteKind kind);
    /// Nothing where the page has no such line.
    void goToLine(Id<PageLine> line);

    [[nodiscard]] PageEditor& editor() { return *editor_; }

    /// A question is never cut, however low the panel.
    [[nodiscard]] QSize minimumSizeHint() const override;

    /// Takes up answer `number` (from 0) to the question at or above the cursor.
    void answer(int number);

public Q_SLOTS:
    /// He rests in the middle of a line: it is kept as far as it goes.
    void keepInPause();

Q_SIGNALS:
    /// The page is another one than before, or has come into the book.
    void pageChanged();
    /// The page was kept, or something is typed that is not kept yet.
    void keptChanged(bool kept);
    /// The machine stands in the way; what is typed stays in the window and is tried again.
    void couldNotKeep(const QString& sentence);
    void currentReadingChanged();
    void undoWanted();
    void redoWanted();

private:
    bool keepAs(PageSession::Typing typing);
    [[nodiscard]] Result<void> write(PageSession::Typing typing);
    void followBook();
    void mergeTyped(const std::vector<std::string>& typed);
    void refreshNotes();
    void refreshQuestion();
    void refreshWaiting();
    void showStart();
    /// The editor's lines without one that is only opened.
    [[nodiscard]] QStringList linesThatCount() const;
    /// Which of these the editor's `line` is; none for one that is only opened.
    [[nodiscard]] std::optional<std::size_t> countOf(int line) const;
    [[nodiscard]] std::vector<std::string> typedLines() const;
    /// Without what stands ready on a new page.
    [[nodiscard]] std::vector<std::string> typedLines(bool isNewPage) const;

    Document& document_;
    PageSession session_;
    PageEditor* editor_;
    QWidget* strip_;
    QLabel* question_;
    QLabel* waiting_; ///< what the page lacks before its readings count
    WrappedRow* answers_;
    using Asked = std::pair<int, LineNote>;
    Asked asked_{-1, {}}; ///< the line and the question that the strip shows
    PageMeaning meaning_;
    PageRemarks remarks_;
    QString startSwim_;
    bool keeping_ = false;
    std::vector<std::string> known_; ///< the page as the book had it when it was last shown or kept
    QTimer pause_{this};
    QTimer again_{this}; ///< until what could not be kept is tried again
};

} // namespace bedlore
