// SPDX-License-Identifier: MIT
#include "gui/panels/page_editor.hpp"

#include "core/book/page_waiting.hpp"
#include "gui/panels/page_layout.hpp"
#include "gui/panels/page_margin.hpp"
#include "gui/panels/page_notes.hpp"
#include "gui/widgets/plain_text.hpp"

#include <QHelpEvent>
#include <QPainter>
#include <QScrollBar>
#include <QTextBlock>
#include <QToolTip>
#include <QtMath>

#include <algorithm>
#include <iterator>
#include <utility>

namespace bedlore {

namespace {

/// The line whose note alone is another.
std::optional<int>
onlyDifferent(const std::vector<LineNote>& before, const std::vector<LineNote>& now) {
    if (before.size() != now.size()) {
        return std::nullopt;
    }
    const auto first = std::mismatch(before.begin(), before.end(), now.begin());
    const bool isOne = first.second != now.end() &&
                       std::equal(std::next(first.first), before.end(), std::next(first.second));
    return isOne ? std::optional(static_cast<int>(first.second - now.begin())) : std::nullopt;
}

bool isWaiting(const QTextBlock& block) {
    return waitsToBeCompleted(block.text().toStdString());
}

} // namespace

PageEditor::~PageEditor() = default;

std::vector<KeyRow> PageEditor::keys() {
    const QString where = tr("on the page");
    return {
        {where, tr("Return"), tr("Keep the line and go to the next")},
        {where, tr("Shift+Return"), tr("Split the line in two")},
        {where, tr("Up, Down"), tr("Keep the line and go to another")},
        {where, tr("Alt+1 to Alt+9"), tr("Take up that answer to the question")},
        {where, tr("Ctrl+Y"), tr("Redo")},
        {where, tr("Tab"), tr("To the answers, then the plan")}};
}

PageEditor::PageEditor(QWidget* parent)
    : QPlainTextEdit(parent) {
    setObjectName(QStringLiteral("pageEditor"));
    setAccessibleName(tr("Page of notes"));
    setFrameShape(QFrame::NoFrame);
    setTabChangesFocus(true);
    auto* lines = new QTextDocument(this);
    layout_ = new PageLayout(lines);
    lines->setDocumentLayout(layout_);
    setDocument(lines);
    connect(lines, &QTextDocument::contentsChange, this, [this] { lines_.reset(); });
    setUndoRedoEnabled(false); // one history for everything: the book's
    setWordWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    document()->setDocumentMargin(PageNotes::textMargin);
    noteRows_ = std::make_unique<PageNotes>(*this, *layout_);
    margin_ = new PageMargin(*this);
    setViewportMargins(PageMargin::room, 0, 0, 0);
    connect(this, &QPlainTextEdit::cursorPositionChanged, this, &PageEditor::followCursor);
    connect(this, &QPlainTextEdit::cursorPositionChanged, margin_, qOverload<>(&QWidget::update));
    connect(this, &QPlainTextEdit::textChanged, this, [this] { typing_ = !settingLines_; });
    connect(this, &QPlainTextEdit::updateRequest, margin_, [this](const QRect& area, int scrolled) {
        if (scrolled != 0) {
            margin_->scroll(0, scrolled);
        } else {
            margin_->update(0, area.y(), margin_->width(), area.height());
        }
    });
}

QStringList PageEditor::lines() const {
    if (lines_) {
        return *lines_;
    }
    QStringList all = toPlainText().split(u'\n');
    if (!all.isEmpty() && all.back().isEmpty()) {
        all.pop_back();
    }
    lines_ = all;
    return all;
}

void PageEditor::setLines(const QStringList& lines) {
    const QStringList before = this->lines();
    const qsizetype both = std::min(before.size(), lines.size());
    qsizetype head = 0;
    while (head < both && before[head] == lines[head]) {
        ++head;
    }
    qsizetype tail = 0;
    while (tail < both - head &&
           before[before.size() - 1 - tail] == lines[lines.size() - 1 - tail]) {
        ++tail;
    }
    const QTextCursor cursor = textCursor();
    const int line = cursor.blockNumber();
    const int column = cursor.positionInBlock();
    const bool same = head == before.size() && head == lines.size();
    const qsizetype lastChanged = tail == 0 ? lines.size() : lines.size() - tail - 1;
    const int scrolled = verticalScrollBar()->value();
    opened_ = -1;
    settingLines_ = true;
    replaceLines(lines, head, before.size() - tail, lines.size() - tail);
    goToLine(same ? line : static_cast<int>(std::max(head, lastChanged)));
    if (same) {
        QTextCursor back = textCursor();
        back.setPosition(back.block().position() + std::min(column, back.block().length() - 1));
        setTextCursor(back);
    }
    settingLines_ = false;
    verticalScrollBar()->setValue(scrolled);
    ensureCursorVisible();
    arrive();
}

/// Puts the lines [first, endNow) of `lines` where [first, endBefore) stand, and the others nowhere
/// anew: to lay out a long page again takes longer than to draw its map.
void PageEditor::replaceLines(
    const QStringList& lines, qsizetype first, qsizetype endBefore, qsizetype endNow) {
    const auto block = [this](qsizetype line) {
        return document()->findBlockByNumber(static_cast<int>(line));
    };
    const bool waitsForLine = document()->lastBlock().text().isEmpty();
    if (lines.isEmpty() || !waitsForLine || !block(endBefore).isValid()) {
        setPlainText(lines.isEmpty() ? QString() : lines.join(u'\n') + u'\n');
        return;
    }
    const bool isOneForOne = endBefore == first + 1 && endNow == first + 1;
    QString text;
    for (qsizetype i = first; i < endNow; ++i) {
        text += isOneForOne ? lines[i] : lines[i] + u'\n';
    }
    QTextCursor place(document());
    place.setPosition(block(first).position());
    // Lines that only change in themselves leave all others where they are.
    place.setPosition(block(endBefore).position() - (isOneForOne ? 1 : 0), QTextCursor::KeepAnchor);
    place.insertText(text);
}

void PageEditor::setStart(const QStringList& lines) {
    opened_ = -1;
    settingLines_ = true;
    setPlainText(lines.join(u'\n'));
    QTextBlock block = document()->begin();
    while (block.isValid() && !isWaiting(block)) {
        block = block.next();
    }
    goToLine(block.isValid() ? block.blockNumber() : document()->blockCount() - 1);
    settingLines_ = false;
    arrive();
    start_ = toPlainText();
}

void PageEditor::setNotes(std::vector<LineNote> notes) {
    if (notes != notes_) {
        const std::optional<int> only = onlyDifferent(notes_, notes);
        notes_ = std::move(notes);
        const bool moved = noteRows_->layOut();
        if (only && !moved) {
            updateLine(*only);
        } else {
            viewport()->update();
        }
        margin_->update();
    }
    describeLine();
}

/// What a screen reader says of the line under the cursor: its meaning, or what is asked about it
/// and the keys that answer.
void PageEditor::describeLine() {
    const LineNote note = noteOf(currentLine());
    QStringList words{note.words, note.question};
    words.removeAll(QString());
    for (qsizetype i = 0; i < note.answers.size(); ++i) {
        const QString key = i == 0 ? tr("F2") : tr("Alt+%1").arg(i + 1);
        words << tr("%1 %2").arg(key, note.answers[i]);
    }
    setAccessibleDescription(words.join(QStringLiteral(", ")));
}

LineNote PageEditor::noteOf(int line) const {
    const auto at = static_cast<std::size_t>(line);
    return line >= 0 && at < notes_.size() ? notes_[at] : LineNote{};
}

void PageEditor::setColours(PaletteKind kind) {
    colours_ = kind;
    viewport()->update();
    margin_->update();
}

int PageEditor::currentLine() const {
    return textCursor().blockNumber();
}

int PageEditor::questionLine() const {
    int line = currentLine();
    while (line >= 0 && noteOf(line).question.isEmpty()) {
        --line;
    }
    return line;
}

void PageEditor::goToLine(int line) {
    QTextBlock block = document()->findBlockByNumber(line);
    if (!block.isValid()) {
        block = document()->lastBlock();
    }
    QTextCursor cursor(block);
    cursor.movePosition(QTextCursor::EndOfBlock);
    setTextCursor(cursor);
    ensureCursorVisible();
}

void PageEditor::goToNextQuestion() {
    const int count = document()->blockCount();
    for (int step = 1; step <= count; ++step) {
        const int line = (currentLine() + step) % count;
        if (!noteOf(line).question.isEmpty()) {
            goToLine(line);
            return;
        }
    }
}

QString PageEditor::chosenWord() const {
    QTextCursor cursor = textCursor();
    if (!cursor.hasSelection()) {
        cursor.select(QTextCursor::WordUnderCursor);
    }
    return cursor.selectedText().section(QChar::ParagraphSeparator, 0, 0).trimmed();
}

void PageEditor::keepTyped() {
    endTyping();
    Q_EMIT keepWanted();
}

void PageEditor::changeLines(const std::function<bool(QPlainTextEdit&)>& change) {
    if (isReadOnly()) {
        return;
    }
    keepTyped();
    settingLines_ = true;
    const bool changed = change(*this);
    settingLines_ = false;
    if (changed) {
        opened_ = -1; // moved or copied, it is a line
        arrive();
        ensureCursorVisible();
        Q_EMIT keepWanted();
        Q_EMIT currentLineChanged(line_);
    }
}

void PageEditor::followCursor() {
    if (settingLines_ || currentLine() == line_) {
        return;
    }
    updateLine(line_);
    leaveOpenedLine();
    arrive();
    updateLine(line_);
    keepTyped();
    describeLine();
    Q_EMIT currentLineChanged(line_);
}

/// Paints a line and its note anew.
void PageEditor::updateLine(int line) {
    const QTextBlock block = document()->findBlockByNumber(line);
    if (block.isValid()) {
        const QRectF area = blockBoundingGeometry(block).translated(contentOffset());
        viewport()->update(0, qFloor(area.top()), viewport()->width(), qCeil(area.height()) + 1);
    }
}

void PageEditor::arrive() {
    line_ = currentLine();
    cameToEmpty_ = textCursor().block().text().isEmpty();
}

std::optional<int> PageEditor::openedLine() const {
    const QTextBlock block = document()->findBlockByNumber(opened_);
    const bool isOpen = opened_ >= 0 && block.next().isValid() && block.text().trimmed().isEmpty();
    return isOpen ? std::optional(opened_) : std::nullopt;
}

bool PageEditor::closeOpenedLine() {
    const std::optional<int> line = openedLine();
    opened_ = -1;
    if (!line) {
        return false;
    }
    const QTextBlock block = document()->findBlockByNumber(*line);
    QTextCursor away(block);
    away.setPosition(block.next().position(), QTextCursor::KeepAnchor);
    settingLines_ = true;
    away.removeSelectedText();
    settingLines_ = false;
    arrive();
    return true;
}

void PageEditor::leaveOpenedLine() {
    if (!pressing_ && opened_ != currentLine()) {
        closeOpenedLine();
    }
}

/// From a line that stood there and was only mended: an empty line below it would part the cast.
bool PageEditor::moveOnFromMended() {
    const QTextCursor cursor = textCursor();
    const bool isLast = !cursor.block().next().isValid();
    if (!typing_ || cameToEmpty_ || isLast || cursor.hasSelection()) {
        return false;
    }
    goToLine(currentLine() + 1);
    return true;
}

bool PageEditor::moveToWaitingLine() {
    const QTextCursor cursor = textCursor();
    const QTextBlock next = cursor.block().next();
    if (!cursor.atBlockEnd() || !next.isValid() || !isWaiting(next)) {
        return false;
    }
    goToLine(next.blockNumber());
    return true;
}

void PageEditor::resizeEvent(QResizeEvent* event) {
    QPlainTextEdit::resizeEvent(event);
    const QRect inside = contentsRect();
    margin_->setGeometry(inside.left(), inside.top(), PageMargin::room, inside.height());
    noteRows_->layOut();
    // What is asked comes up below and must not hide the line that he goes on with.
    const int top = cursorRect().top();
    if (top >= 0 && top < event->oldSize().height()) {
        ensureCursorVisible();
    }
}

void PageEditor::changeEvent(QEvent* event) {
    QPlainTextEdit::changeEvent(event);
    if (event->type() == QEvent::FontChange && noteRows_ != nullptr) {
        noteRows_->layOut();
    }
}

bool PageEditor::viewportEvent(QEvent* event) {
    if (event->type() == QEvent::ToolTip) {
        const auto* help = static_cast<QHelpEvent*>(event);
        const LineNote note = noteOf(cursorForPosition(help->pos()).blockNumber());
        const bool both = !note.words.isEmpty() && !note.question.isEmpty();
        const QString text = note.words + (both ? QStringLiteral("\n") : QString()) + note.question;
        QToolTip::showText(help->globalPos(), plainTip(text), viewport());
        return true;
    }
    return QPlainTextEdit::viewportEvent(event);
}

void PageEditor::paintEvent(QPaintEvent* event) {
    if (!isReadOnly()) {
        QPainter under(viewport());
        const QRectF current =
            blockBoundingGeometry(textCursor().block()).translated(contentOffset());
        under.fillRect(
            QRectF(0.0, current.top(), viewport()->width(), current.height()),
            bedlore::palette(colours_).panel);
    }
    QPlainTextEdit::paintEvent(event);
    QPainter painter(viewport());
    noteRows_->paint(painter, event->rect());
}

} // namespace bedlore

#include "moc_page_editor.cpp"
