// SPDX-License-Identifier: MIT
#pragma once

#include "gui/panels/line_note.hpp"

#include <QFont>
#include <QRect>

#include <vector>

class QFontMetricsF;
class QPainter;
class QTextBlock;

// Where what the lines were taken to mean stands on the page.

namespace bedlore {

class PageEditor;
class PageLayout;

/// Draws the notes of an editor beside its lines, and under them where there is no room. Both must
/// outlive it.
class PageNotes {
public:
    /// Pixels around the text of the page.
    static constexpr int textMargin = 8;

    PageNotes(PageEditor& editor, PageLayout& layout)
        : editor_(editor)
        , layout_(layout) {}

    /// Makes room under each line for what stands there. To be called whenever notes, lines, width
    /// or letters have changed. True where lines have moved by it.
    bool layOut();
    void paint(QPainter& painter, const QRect& clip) const;

private:
    void keepNoteInView();
    /// In the letters of the notes, which the painter has already.
    void paintNote(
        QPainter& painter,
        const QTextBlock& block,
        const QRectF& area,
        const QFontMetricsF& metrics) const;
    [[nodiscard]] QFont noteFont() const;
    [[nodiscard]] double besideRoom(const QTextBlock& block) const;

    /// What a line's places hung on, its places, and the room that they need under it.
    struct Laid {
        LineNote note;
        double beside = 0.0;
        NotePlaces places;
        double room = 0.0;
    };
    [[nodiscard]] double roomFor(const NotePlaces& places, const QFontMetricsF& metrics) const;
    [[nodiscard]] NotePlaces
    placesAt(const QTextBlock& block, const LineNote& note, const QFontMetricsF& metrics) const;

    PageEditor& editor_;
    PageLayout& layout_;
    /// As laid out last, for that font and width: to measure every note with every line typed would
    /// take longer than all else that the editor does.
    std::vector<Laid> laid_;
    QFont laidFont_;
    double laidWidth_ = 0.0;
};

} // namespace bedlore
