// SPDX-License-Identifier: MIT
#include "gui/paint/sheet_painter.hpp"

#include "core/chart/map_words.hpp"
#include "core/io/output_file.hpp"
#include "gui/paint/legend_painter.hpp"
#include "gui/paint/pdf_properties.hpp"

#include <QBuffer>
#include <QByteArray>
#include <QFont>
#include <QFontMetricsF>
#include <QGuiApplication>
#include <QMarginsF>
#include <QPageSize>
#include <QPainter>
#include <QPdfWriter>
#include <QPen>
#include <QString>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace bedlore {

namespace {

/// Drawing units for each millimetre: letters are sized in whole units, so they must be small.
constexpr double unitsPerPixel = 4.0;
constexpr double unitsPerMillimetre = unitsPerPixel * 96.0 / 25.4;
constexpr double unitsPerPoint = unitsPerPixel * 96.0 / 72.0;

/// How big things are on a paper, from its shorter side: A4 is 1.
double sizeFor(const QSizeF& millimetres) {
    constexpr double a4 = 210.0;
    const double share = std::min(millimetres.width(), millimetres.height()) / a4;
    // Letters shrink less than the paper does: they are read at the same arm's length.
    return std::clamp(std::pow(share, 0.6), 0.4, 1.6);
}

QFont fontOf(double points, QFont::Weight weight = QFont::Normal) {
    QFont font = QGuiApplication::font();
    font.setPixelSize(std::max(1, static_cast<int>(std::lround(points * unitsPerPoint))));
    font.setWeight(weight);
    font.setHintingPreference(QFont::PreferNoHinting);
    return font;
}

/// Lays the parts of one sheet out from top and bottom; the map gets what is left between.
class Sheet {
public:
    Sheet(
        QPainter& painter, const MapDrawing& map, const QSizeF& units, const SheetOptions& options)
        : painter_(painter)
        , map_(map)
        , options_(options)
        , size_(sizeFor(units / unitsPerMillimetre))
        , gap_(8.0 * unitsPerPixel * size_) {
        const double margin = 12.0 * unitsPerMillimetre * size_;
        free_ = QRectF(margin, margin, units.width() - 2.0 * margin, units.height() - 2.0 * margin);
        style_.palette = PaletteKind::Print;
        style_.fill = options.fill;
        style_.size = unitsPerPixel * size_;
        style_.textSize = 8.5;
        style_.readingLabels = true;
        style_.everyContourLabelled = true;
        style_.aimLetters = true;
    }

    void paint(const Progress& progress) {
        painter_.setRenderHint(QPainter::Antialiasing);
        painter_.setRenderHint(QPainter::TextAntialiasing);
        using Part = void (Sheet::*)();
        constexpr std::array<Part, 4> parts{
            &Sheet::paintHead, &Sheet::paintFoot, &Sheet::paintCautions, &Sheet::paintLegendBlock};
        for (const Part part : parts) {
            if (!progress.cancelled()) {
                (this->*part)();
            }
        }
        paintMap(progress);
    }

private:
    void paintHead() {
        const QFont large = fontOf(18.0 * size_, QFont::DemiBold);
        const QFont small = fontOf(10.0 * size_);
        addLineAtTop(QString::fromStdString(map_.title), large);
        for (const std::string& line : map_.subtitle) {
            addLineAtTop(QString::fromStdString(line), small);
        }
        QString level = QString::fromStdString("Depths " + map_.levelWords);
        addLineAtTop(level, fontOf(10.0 * size_, QFont::DemiBold));
        free_.setTop(free_.top() + gap_);
    }

    void paintFoot() {
        QString words = map_.asSeenFromBank ? QStringLiteral("As seen from the bank.")
                        : map_.trueNorth    ? QStringLiteral("North is at the top.")
                                            : QString();
        if (options_.printed) {
            words += (words.isEmpty() ? QString() : QStringLiteral("  ")) +
                     QStringLiteral("Printed ") +
                     QString::fromStdString(dateInWords(*options_.printed)) + QStringLiteral(".");
        }
        for (const std::string& note : map_.notes) {
            words +=
                (words.isEmpty() ? QString() : QStringLiteral("  ")) + QString::fromStdString(note);
        }
        if (!words.isEmpty()) {
            addWordsAtBottom(words, fontOf(8.0 * size_));
        }
    }

    void paintCautions() {
        QStringList all;
        for (const std::string& caution : map_.cautions) {
            all.append(QString::fromStdString(caution));
        }
        if (!all.isEmpty()) {
            addWordsAtBottom(all.join(QStringLiteral(" ")), fontOf(8.0 * size_, QFont::DemiBold));
            free_.setBottom(free_.bottom() - 0.5 * gap_);
        }
    }

    void paintLegendBlock() {
        const QFont font = fontOf(8.5 * size_);
        const double height = legendHeight(map_, style_, font, free_.width());
        if (height <= 0.0) {
            return;
        }
        const QRectF area(free_.left(), free_.bottom() - height, free_.width(), height);
        paintLegend(painter_, map_, style_, font, area);
        free_.setBottom(area.top() - gap_);
    }

    void paintMap(const Progress& progress) {
        if (free_.height() <= 0.0 || progress.cancelled()) {
            return;
        }
        // The map keeps its own pointer; the sheet's map outlives the painting.
        const std::shared_ptr<const MapDrawing> shared(std::shared_ptr<void>(), &map_);
        const double margin = 26.0 * style_.size;
        const ChartView view = viewOf(std::span<const Point>(map_.framed), map_.up, free_, margin);
        ChartPainter(shared, style_).paint(painter_, view, ChartPainter::Detail::Whole, progress);
        painter_.setBrush(Qt::NoBrush);
        painter_.setPen(QPen(Qt::black, 0.8 * style_.size));
        painter_.drawRect(free_);
    }

    void addLineAtTop(const QString& text, const QFont& font) {
        const QFontMetricsF metrics(font);
        painter_.setFont(font);
        painter_.setPen(Qt::black);
        painter_.drawText(
            QPointF(free_.left(), free_.top() + metrics.ascent()),
            metrics.elidedText(text, Qt::ElideRight, free_.width()));
        free_.setTop(free_.top() + 1.15 * metrics.height());
    }

    void addWordsAtBottom(const QString& text, const QFont& font) {
        const QFontMetricsF metrics(font);
        const QRectF room(free_.left(), 0.0, free_.width(), free_.height());
        const int flags = Qt::AlignLeft | Qt::TextWordWrap;
        const double height = metrics.boundingRect(room, flags, text).height();
        const QRectF box(free_.left(), free_.bottom() - height, free_.width(), height);
        painter_.setFont(font);
        painter_.setPen(Qt::black);
        painter_.drawText(box, flags | Qt::TextDontClip, text);
        free_.setBottom(box.top() - 0.25 * gap_);
    }

    QPainter& painter_;
    const MapDrawing& map_;
    const SheetOptions& options_;
    double size_;
    double gap_;
    QRectF free_; ///< what is left of the sheet
    ChartStyle style_;
};

QPageSize::PageSizeId pageSize(SheetPaper paper) {
    switch (paper) {
    case SheetPaper::A4:
        return QPageSize::A4;
    case SheetPaper::A5:
        return QPageSize::A5;
    case SheetPaper::A6:
        return QPageSize::A6;
    }
    return QPageSize::A4;
}

} // namespace

QSizeF paperSize(SheetPaper paper) {
    return QPageSize(pageSize(paper)).size(QPageSize::Millimeter);
}

void paintSheet(
    QPainter& painter,
    const MapDrawing& map,
    const QSizeF& millimetres,
    const SheetOptions& options,
    const Progress& progress) {
    painter.save();
    painter.scale(1.0 / unitsPerMillimetre, 1.0 / unitsPerMillimetre);
    Sheet(painter, map, millimetres * unitsPerMillimetre, options).paint(progress);
    painter.restore();
}

Result<void> writeSheetPdf(
    const std::filesystem::path& path,
    const MapDrawing& map,
    const SheetOptions& options,
    const Progress& progress) {
    // A file that cannot be written is refused before the work.
    auto target = OutputFile::create(path);
    if (!target) {
        return fail(std::move(target).error());
    }
    QByteArray bytes;
    {
        QBuffer buffer(&bytes);
        buffer.open(QIODevice::WriteOnly);
        QPdfWriter writer(&buffer);
        constexpr int dotsPerInch = 600;
        writer.setResolution(dotsPerInch);
        writer.setPageSize(QPageSize(pageSize(options.paper)));
        writer.setPageMargins(QMarginsF());
        writer.setCreator(QString());
        writer.setTitle(QString());
        QPainter painter;
        if (!painter.begin(&writer)) {
            return fail(machineError("The sheet could not be made ready for printing."));
        }
        // Pictures as they are, not as JPEG.
        painter.setRenderHint(QPainter::LosslessImageRendering);
        const double scale = dotsPerInch / 25.4;
        painter.scale(scale, scale);
        paintSheet(painter, map, paperSize(options.paper), options, progress);
        if (progress.cancelled()) {
            return fail(cancelledError());
        }
        progress.at(0.8);
        painter.end();
    }
    withoutPdfProperties(bytes);
    return target->finish({bytes.constData(), static_cast<std::size_t>(bytes.size())}, progress);
}

} // namespace bedlore
