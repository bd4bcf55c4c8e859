// SPDX-License-Identifier: MIT
#include "gui/panels/page_notes.hpp"

#include "gui/panels/page_editor.hpp"
#include "gui/panels/page_layout.hpp"

#include <QFontDatabase>
#include <QPainter>
#include <QScrollBar>
#include <QTextBlock>

#include <algorithm>
#include <utility>
#include <vector>

namespace bedlore {

namespace {

constexpr int noteGap = 16;         // between what he typed and what it was taken to mean
constexpr double noteColumn = 0.42; // where notes begin, as a share of the width, if there is room
constexpr double noteIndent = 24.0; // of what stands under a line
constexpr double noteFoot = 4.0;    // free under that

} // namespace

void PageNotes::paint(QPainter& painter, const QRect& clip) const {
    const QFont face = noteFont();
    const QFontMetricsF metrics(face);
    painter.setFont(face);
    QTextBlock block = editor_.firstVisibleBlock();
    while (block.isValid()) {
        const QRectF area =
            editor_.blockBoundingGeometry(block).translated(editor_.contentOffset());
        if (area.top() > clip.bottom()) {
            break;
        }
        if (area.bottom() >= clip.top()) {
            paintNote(painter, block, area, metrics);
        }
        block = block.next();
    }
}

void PageNotes::paintNote(
    QPainter& painter,
    const QTextBlock& block,
    const QRectF& area,
    const QFontMetricsF& metrics) const {
    const LineNote note = editor_.noteOf(block.blockNumber());
    if (note == LineNote{} || block.layout()->lineCount() == 0) {
        return;
    }
    const double room = besideRoom(block);
    const NotePlaces places = placesAt(block, note, metrics);
    const Palette& colours = bedlore::palette(editor_.colours_);
    const QColor asked = note.question.isEmpty() ? colours.softInk : colours.warn;
    painter.setPen(note.words.isEmpty() ? asked : colours.softInk);
    const QTextLine first = block.layout()->lineAt(0);
    const double right = editor_.viewport()->width() - textMargin;
    // A long note begins before the column of the others, as far as the typed line lets it.
    const double column = std::min(
        noteColumn * editor_.viewport()->width(),
        right - metrics.horizontalAdvance(places.beside) - 1.0);
    painter.drawText(
        QPointF(std::max(right - room, column), area.top() + first.y() + first.ascent()),
        places.beside);
    if (!places.below.isEmpty()) {
        painter.setPen(asked);
        const double height = layout_.roomBelow(block);
        painter.drawText(
            QRectF(
                textMargin + noteIndent,
                area.bottom() - height,
                right - textMargin - noteIndent,
                height),
            Qt::TextWordWrap,
            places.below);
    }
}

/// Those laid out, unless he has typed on since.
NotePlaces PageNotes::placesAt(
    const QTextBlock& block, const LineNote& note, const QFontMetricsF& metrics) const {
    const auto line = static_cast<std::size_t>(block.blockNumber());
    const double room = besideRoom(block);
    const bool isLaid =
        line < laid_.size() && laid_[line].beside == room && laid_[line].note == note;
    return isLaid ? laid_[line].places : placesOf(note, metrics, room);
}

QFont PageNotes::noteFont() const {
    QFont face = QFontDatabase::systemFont(QFontDatabase::GeneralFont);
    face.setPointSizeF(editor_.font().pointSizeF() * 0.905); // notes 9.5 beside 10.5
    return face;
}

/// What is free beside the words of a line.
double PageNotes::besideRoom(const QTextBlock& block) const {
    const double right = editor_.viewport()->width() - textMargin;
    const double typed =
        block.layout()->lineCount() > 0 ? block.layout()->lineAt(0).naturalTextWidth() : 0.0;
    return right - (textMargin + typed + noteGap);
}

double PageNotes::roomFor(const NotePlaces& places, const QFontMetricsF& metrics) const {
    const QString& below = places.below;
    if (below.isEmpty()) {
        return 0.0;
    }
    const double width = laidWidth_ - 2.0 * textMargin - noteIndent;
    const QRectF rows =
        metrics.boundingRect(QRectF(0.0, 0.0, std::max(width, 1.0), 1e6), Qt::TextWordWrap, below);
    return rows.height() + noteFoot;
}

bool PageNotes::layOut() {
    const QFont font = noteFont();
    const QFontMetricsF metrics(font);
    const double width = editor_.viewport()->width();
    if (laidFont_ != font || laidWidth_ != width) {
        laid_.clear();
        laidFont_ = font;
        laidWidth_ = width;
    }
    std::vector<Laid> now;
    std::vector<double> room;
    const auto lines = static_cast<std::size_t>(editor_.document()->blockCount());
    const std::size_t before = laid_.size();
    for (QTextBlock block = editor_.document()->begin(); block.isValid(); block = block.next()) {
        static_cast<void>(editor_.blockBoundingRect(block)); // lays the line out
        Laid line{
            .note = editor_.noteOf(block.blockNumber()),
            .beside = besideRoom(block),
            .places = {},
            .room = 0.0};
        const std::size_t fromTop = now.size();
        const std::size_t fromFoot = before + fromTop - lines; // beyond the end where there is none
        const auto isAsBefore = [&](std::size_t i) {
            return i < before && laid_[i].beside == line.beside && laid_[i].note == line.note;
        };
        if (isAsBefore(fromTop) || isAsBefore(fromFoot)) {
            line = laid_[isAsBefore(fromTop) ? fromTop : fromFoot];
        } else {
            line.places = placesOf(line.note, metrics, line.beside);
            line.room = roomFor(line.places, metrics);
        }
        room.push_back(line.room);
        now.push_back(std::move(line));
    }
    laid_ = std::move(now);
    const bool moved = layout_.setRoomBelow(std::move(room));
    if (moved) {
        keepNoteInView();
    }
    return moved;
}

/// The note under the line that he types is as much to be seen as the line.
void PageNotes::keepNoteInView() {
    QScrollBar* bar = editor_.verticalScrollBar();
    const QTextBlock block = editor_.textCursor().block();
    while (bar->value() < bar->maximum()) {
        const QRectF area =
            editor_.blockBoundingGeometry(block).translated(editor_.contentOffset());
        if (area.bottom() <= editor_.viewport()->height() || area.top() <= 0.0) {
            break;
        }
        bar->setValue(bar->value() + 1);
    }
}

} // namespace bedlore
