// SPDX-License-Identifier: MIT
#pragma once

#include "gui/models/key_row.hpp"
#include "gui/paint/theme.hpp"
#include "gui/panels/line_note.hpp"

#include <QPlainTextEdit>
#include <QString>
#include <QStringList>

#include <functional>
#include <memory>
#include <optional>
#include <vector>

// A page of notes: what he typed in ink, what it was taken to mean in soft ink on the same line.

namespace bedlore {

class PageLayout;
class PageNotes;

/// A text editor that knows about lines and nothing about books. Return, leaving a changed line and
/// leaving the editor ask for the page to be kept.
class PageEditor : public QPlainTextEdit {
    Q_OBJECT

public:
    /// The keys that it takes while it has the focus, for the list of keys.
    [[nodiscard]] static std::vector<KeyRow> keys();

    explicit PageEditor(QWidget* parent = nullptr);
    ~PageEditor() override;
    PageEditor(const PageEditor&) = delete;
    PageEditor& operator=(const PageEditor&) = delete;
    PageEditor(PageEditor&&) = delete;
    PageEditor& operator=(PageEditor&&) = delete;

    /// The lines as they stand, without the empty line that waits at the end to be typed.
    [[nodiscard]] QStringList lines() const;
    /// Shows other lines, with an empty one at the end. The cursor stays where it was, or goes to
    /// the end of what differs.
    void setLines(const QStringList& lines);
    /// Lines that wait to be completed ("swim "): the cursor at the end of the first. Several lines
    /// that are pasted before anything is typed go in place of these, or behind them where they
    /// name no swim.
    void setStart(const QStringList& lines);

    void setNotes(std::vector<LineNote> notes);
    [[nodiscard]] const std::vector<LineNote>& notes() const { return notes_; }
    /// None for a line without one.
    [[nodiscard]] LineNote noteOf(int line) const;
    void setColours(PaletteKind kind);

    /// The empty line that Return opened between others, as long as the cursor is on it and nothing
    /// stands there: no line of the page yet. It is taken away when he leaves it empty; Return on
    /// it makes it a line, so that a blank line wanted there takes Return twice.
    [[nodiscard]] std::optional<int> openedLine() const;
    /// Takes the opened line away. False where there is none.
    bool closeOpenedLine();
    /// Opens an empty line below the one under the cursor.
    void openLineBelow();

    [[nodiscard]] int currentLine() const;
    /// Whether the line under the cursor was changed since the cursor came to it: what it says may
    /// be half a line.
    [[nodiscard]] bool isTyping() const { return typing_; }
    void endTyping() { typing_ = false; }
    /// The line that an answer goes to: this one, or the nearest above with a question; -1 for
    /// none.
    [[nodiscard]] int questionLine() const;
    void goToLine(int line);
    /// To the next line with a question below the cursor, from the top again after the last.
    void goToNextQuestion();
    /// The word under the cursor, or what is selected on its line.
    [[nodiscard]] QString chosenWord() const;

    /// One act of its own: what was typed until now is kept before `change`, and the lines after
    /// it if it says that it changed any. Nothing on a page that is for reading only.
    void changeLines(const std::function<bool(QPlainTextEdit&)>& change);
    /// What was typed until now is an act of its own.
    void keepTyped();

Q_SIGNALS:
    /// The page is to be kept now.
    void keepWanted();
    void undoWanted();
    void redoWanted();
    /// Answer `number` (from 0) to the question of `questionLine()`.
    void answered(int number);
    void currentLineChanged(int line);

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    /// Files are the window's to take, wherever they are dropped.
    [[nodiscard]] bool canInsertFromMimeData(const QMimeData* source) const override;
    void insertFromMimeData(const QMimeData* source) override;
    bool viewportEvent(QEvent* event) override;

private:
    friend class PageMargin;
    friend class PageNotes;

    void followCursor();
    void describeLine();
    void updateLine(int line);
    void placePaste(const QString& text);
    [[nodiscard]] bool handleCommandKey(QKeyEvent* event);
    void arrive();
    void leaveOpenedLine();
    [[nodiscard]] bool moveOnFromMended();
    [[nodiscard]] bool moveToWaitingLine();
    void breakLine();
    void
    replaceLines(const QStringList& lines, qsizetype first, qsizetype endBefore, qsizetype endNow);

    std::vector<LineNote> notes_;
    PageLayout* layout_ = nullptr;
    std::unique_ptr<PageNotes> noteRows_;
    mutable std::optional<QStringList> lines_; ///< empty since the text changed
    QString start_; ///< what `setStart` gave, until something else stands there
    PaletteKind colours_ = PaletteKind::Light;
    QWidget* margin_ = nullptr;
    int line_ = 0;
    int opened_ = -1;       ///< the line that was opened last and not left since; -1 for none
    bool pressing_ = false; ///< a mouse button is down: no line may slip away under the pointer
    bool settingLines_ = false;
    bool typing_ = false;
    bool cameToEmpty_ = false; ///< the line had no letter when the cursor came to it
};

} // namespace bedlore
