// SPDX-License-Identifier: MIT
#include "gui/paint/chart_geometry.hpp"
#include "gui/paint/furniture_painter.hpp"
#include "gui/paint/symbol_painter.hpp"

#include <QPainter>
#include <QStringList>

#include <algorithm>
#include <vector>

// The furniture that is words about the whole map.

namespace bedlore {

namespace {

/// Rows no longer than `width`, but for a single word that is.
QStringList brokenInto(const QString& text, const QFontMetricsF& metrics, double width) {
    QStringList rows;
    for (const QString& word : text.split(u' ', Qt::SkipEmptyParts)) {
        const QString longer = rows.isEmpty() ? word : rows.back() + u' ' + word;
        if (rows.isEmpty() || metrics.horizontalAdvance(longer) > width) {
            rows.append(word);
        } else {
            rows.back() = longer;
        }
    }
    return rows;
}

} // namespace

void Furniture::placeGuessedWords() {
    if (!map_.anglesGuessed) {
        return;
    }
    const QString text = QStringLiteral("angles guessed");
    addWords(
        QRectF(
            view_.window.left() + 14.0 * size_,
            view_.window.top() + 10.0 * size_,
            metrics_.horizontalAdvance(text),
            metrics_.height()),
        text,
        WordsKind::Name);
}

// Above the scale bar, in rows as long as leave the bed free; where none do, on a sheet on the bed,
// since depths say little without their level.
void Furniture::placeLevelWords() {
    if (map_.levelWords.empty() || map_.contours.shown.empty()) {
        return;
    }
    const QFontMetricsF metrics(fonts_.note);
    const QRectF& w = view_.window;
    const QString text = QStringLiteral("depths ") + QString::fromStdString(map_.levelWords);
    const double scaleBar = metrics_.height() + 32.0 * size_; // with its numbers, and room
    std::vector<QRectF> boxes;
    QStringList rows;
    const auto isPlaced = [&](double share, bool onBed) {
        rows = brokenInto(text, metrics, share * w.width());
        boxes.clear();
        const int count = static_cast<int>(rows.size());
        for (int i = 0; i < count; ++i) {
            boxes.emplace_back(
                w.left() + 14.0 * size_,
                w.bottom() - scaleBar - (count - i) * metrics.height(),
                metrics.horizontalAdvance(rows[i]),
                metrics.height());
        }
        return std::all_of(boxes.begin(), boxes.end(), [&](const QRectF& box) {
            return w.contains(box) && isFree(box) && (onBed || !liesOnBed(box));
        });
    };
    const bool besideBed = isPlaced(0.45, false) || isPlaced(0.3, false) || isPlaced(0.2, false);
    const double most = w.height() / 3.0;
    if (!besideBed &&
        !(isPlaced(0.45, true) && static_cast<double>(boxes.size()) * metrics.height() < most)) {
        return;
    }
    if (!besideBed) {
        placeSheetBehind(boxes);
    }
    for (std::size_t i = 0; i < boxes.size(); ++i) {
        addWords(boxes[i], rows[static_cast<qsizetype>(i)], WordsKind::Note);
    }
}

void Furniture::placeSheetBehind(const std::vector<QRectF>& boxes) {
    QRectF all;
    for (const QRectF& box : boxes) {
        all |= box;
    }
    const double pad = 5.0 * size_;
    const QRectF sheet = all.adjusted(-pad, -pad, pad, pad);
    draw(sheet, [this, sheet](QPainter& painter, const auto&) { paintSheet(painter, sheet); });
}

void Furniture::paintSheet(QPainter& painter, const QRectF& sheet) const {
    const double round = 4.0 * size_;
    painter.setPen(Qt::NoPen);
    painter.setBrush(faded(palette(style_.palette).paper, paperBehindWords));
    painter.drawRoundedRect(sheet, round, round);
}

void Furniture::placeEmptyWords() {
    if (map_.emptyWords.empty()) {
        return;
    }
    const QString text = QString::fromStdString(map_.emptyWords);
    const QRectF room(0.0, 0.0, 0.8 * view_.window.width(), 0.8 * view_.window.height());
    QRectF box = metrics_.boundingRect(room, Qt::AlignCenter | Qt::TextWordWrap, text);
    box.moveCenter(view_.window.center());
    const double pad = 8.0 * size_;
    // A swim's dot stands where nothing else could.
    for (const DrawnSwim& swim : map_.swims) {
        const QPointF at = view_.toView.map(toQt(swim.tip));
        const double clear = pad + 12.0 * size_;
        if (!box.adjusted(-clear, -clear, clear, clear).contains(at)) {
            continue;
        }
        const bool above = at.y() - clear - box.height() - pad > view_.window.top();
        if (above) {
            box.moveBottom(at.y() - clear);
        } else {
            box.moveTop(at.y() + clear);
        }
    }
    const QRectF sheet = box.adjusted(-pad, -pad, pad, pad);
    take(sheet);
    draw(sheet, [=, this](QPainter& painter, const auto& fonts) {
        painter.setPen(Qt::NoPen);
        painter.setBrush(palette(style_.palette).paper);
        painter.drawRoundedRect(sheet, pad, pad);
        painter.setFont(fonts.name);
        painter.setPen(palette(style_.palette).ink);
        painter.drawText(box, Qt::AlignCenter | Qt::TextWordWrap | Qt::TextDontClip, text);
    });
}

} // namespace bedlore
