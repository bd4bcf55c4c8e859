// SPDX-License-Identifier: MIT
#include "gui/panels/line_edits.hpp"

#include <QPlainTextEdit>
#include <QString>
#include <QStringList>
#include <QTextBlock>
#include <QTextCursor>

#include <algorithm>
#include <optional>

namespace bedlore {

namespace {

struct Lines {
    int first = 0;
    int last = 0; ///< inclusive
};

int lastTyped(const QTextDocument& document) {
    const int last = document.blockCount() - 1;
    return document.lastBlock().text().isEmpty() ? last - 1 : last;
}

/// The typed lines that are chosen; none where there are none.
std::optional<Lines> chosenLines(const QPlainTextEdit& editor) {
    const QTextCursor cursor = editor.textCursor();
    const QTextDocument& document = *editor.document();
    const QTextBlock first = document.findBlock(cursor.selectionStart());
    const QTextBlock last = document.findBlock(cursor.selectionEnd());
    Lines lines{.first = first.blockNumber(), .last = last.blockNumber()};
    // A selection of whole lines ends before the first letter of the next one.
    if (lines.last > lines.first && cursor.selectionEnd() == last.position()) {
        --lines.last;
    }
    lines.last = std::min(lines.last, lastTyped(document));
    return lines.first <= lines.last ? std::optional(lines) : std::nullopt;
}

QStringList textOf(const QPlainTextEdit& editor, const Lines& lines) {
    QStringList text;
    for (int i = lines.first; i <= lines.last; ++i) {
        text << editor.document()->findBlockByNumber(i).text();
    }
    return text;
}

void replace(QPlainTextEdit& editor, const Lines& lines, const QStringList& text) {
    const QTextBlock first = editor.document()->findBlockByNumber(lines.first);
    const QTextBlock last = editor.document()->findBlockByNumber(lines.last);
    QTextCursor cursor(first);
    cursor.setPosition(last.position() + last.length() - 1, QTextCursor::KeepAnchor);
    cursor.insertText(text.join(u'\n'));
}

/// Where cursor and anchor stand, so that they can go along with their lines.
struct Place {
    int line = 0;
    int column = 0;
};

Place placeOf(const QPlainTextEdit& editor, int position) {
    const QTextBlock block = editor.document()->findBlock(position);
    return {.line = block.blockNumber(), .column = position - block.position()};
}

int positionOf(const QPlainTextEdit& editor, const Place& place) {
    const QTextBlock block = editor.document()->findBlockByNumber(
        std::clamp(place.line, 0, editor.document()->blockCount() - 1));
    return block.position() + std::min(place.column, block.length() - 1);
}

struct Chosen {
    Place anchor;
    Place cursor;
};

Chosen chosenIn(const QPlainTextEdit& editor) {
    const QTextCursor cursor = editor.textCursor();
    return {
        .anchor = placeOf(editor, cursor.anchor()), .cursor = placeOf(editor, cursor.position())};
}

void choose(QPlainTextEdit& editor, Chosen chosen, int down) {
    chosen.anchor.line += down;
    chosen.cursor.line += down;
    QTextCursor cursor = editor.textCursor();
    cursor.setPosition(positionOf(editor, chosen.anchor));
    cursor.setPosition(positionOf(editor, chosen.cursor), QTextCursor::KeepAnchor);
    editor.setTextCursor(cursor);
}

} // namespace

bool moveLines(QPlainTextEdit& editor, int down) {
    const auto lines = chosenLines(editor);
    if (!lines || down == 0) {
        return false;
    }
    const int other = down > 0 ? lines->last + 1 : lines->first - 1;
    if (other < 0 || other > lastTyped(*editor.document())) {
        return false;
    }
    const Chosen chosen = chosenIn(editor);
    QStringList text = textOf(editor, *lines);
    const QString passed = editor.document()->findBlockByNumber(other).text();
    if (down > 0) {
        text.prepend(passed);
    } else {
        text.append(passed);
    }
    replace(
        editor,
        {.first = std::min(other, lines->first), .last = std::max(other, lines->last)},
        text);
    choose(editor, chosen, down > 0 ? 1 : -1);
    return true;
}

bool duplicateLines(QPlainTextEdit& editor) {
    const auto lines = chosenLines(editor);
    if (!lines) {
        return false;
    }
    const Chosen chosen = chosenIn(editor);
    const QStringList text = textOf(editor, *lines);
    replace(editor, *lines, text + text);
    choose(editor, chosen, static_cast<int>(text.size()));
    return true;
}

bool removeLines(QPlainTextEdit& editor) {
    const auto lines = chosenLines(editor);
    if (!lines) {
        return false;
    }
    const QTextDocument& document = *editor.document();
    const QTextBlock first = document.findBlockByNumber(lines->first);
    const QTextBlock next = document.findBlockByNumber(lines->last + 1);
    QTextCursor cursor(first);
    if (next.isValid()) {
        cursor.setPosition(next.position(), QTextCursor::KeepAnchor);
    } else {
        cursor.movePosition(QTextCursor::End, QTextCursor::KeepAnchor);
    }
    cursor.removeSelectedText();
    editor.setTextCursor(cursor);
    return true;
}

QString asLines(QString text) {
    text.replace(QStringLiteral("\r\n"), QStringLiteral("\n"));
    for (const QChar end :
         {QChar(u'\r'),
          QChar(u'\v'),
          QChar(u'\f'),
          QChar(QChar::LineSeparator),
          QChar(QChar::ParagraphSeparator)}) {
        text.replace(end, u'\n');
    }
    text.remove(QChar::Null);
    return text;
}

} // namespace bedlore
