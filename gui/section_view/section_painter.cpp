// SPDX-License-Identifier: MIT
#include "gui/section_view/section_painter.hpp"

#include "core/book/kinds.hpp"
#include "core/units/format.hpp"
#include "gui/paint/rimmed_words.hpp"
#include "gui/paint/symbol_painter.hpp"
#include "gui/plan_view/plan_overlay.hpp"

#include <QFontMetricsF>
#include <QPainter>
#include <QPainterPath>
#include <QString>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

namespace bedlore {

namespace {

constexpr double leftMargin = 56.0;
constexpr double rightMargin = 24.0;
constexpr double tickSpacing = 52.0;
constexpr double hatchSpacing = 6.0;
constexpr double stripHeight = 7.0;
constexpr double stretchHeight = 6.0; // of a stretch on the plan at its usual size
constexpr double signSize = 1.2;      // of readings, beside those on the plan
constexpr double stripGap = 4.0;      // from the bed to a stretch under it
// The band that "within about" speaks of: 19 of 20.
constexpr double bandWidth = 1.96;

struct Drawing {
    QPainter& painter;
    const BedMap& map;
    const SectionProfile& section;
    const SectionStyle& style;
    const Palette& colours;
    SectionScale scale;
};

/// Stretches of samples that are all known or all unknown, as first and last index.
struct Run {
    std::size_t first = 0;
    std::size_t last = 0;
    bool known = false;
};

std::vector<Run> runsOf(const std::vector<SectionSample>& samples) {
    std::vector<Run> runs;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        if (runs.empty() || runs.back().known != samples[i].known) {
            runs.push_back({.first = i, .last = i, .known = samples[i].known});
        }
        runs.back().last = i;
    }
    return runs;
}

void paintHatch(const Drawing& d, const Run& run) {
    const auto& samples = d.section.samples;
    // Out to the middle of the neighbouring samples, so that hatch and bed meet.
    const double half = 0.5 * d.section.sampledTo / static_cast<double>(samples.size());
    const double left = d.scale.x(std::max(samples[run.first].range - half, 0.0));
    const double right = d.scale.x(std::min(samples[run.last].range + half, d.scale.reach));
    if (right <= left) {
        return; // beyond what is seen
    }
    const QRectF area(QPointF(left, d.scale.y(0.0)), QPointF(right, d.scale.plot.bottom()));
    QPainter& p = d.painter;
    p.save();
    p.setClipRect(area);
    p.setPen(QPen(d.colours.line, 1.0));
    // One lattice for the whole view: hatches of neighbouring areas line up.
    const double sum = area.left() + area.bottom();
    const double step = hatchSpacing * std::numbers::sqrt2;
    const double first = std::floor((area.left() + area.top()) / step) * step;
    for (int i = 0; first + i * step < sum + area.width(); ++i) {
        const double start = first + i * step;
        p.drawLine(
            QPointF(start - area.top(), area.top()), QPointF(start - area.bottom(), area.bottom()));
    }
    p.restore();
}

void paintBed(const Drawing& d, const Run& run) {
    QPolygonF bed;
    QPolygonF upper;
    QPolygonF lower;
    for (std::size_t i = run.first; i <= run.last; ++i) {
        const SectionSample& s = d.section.samples[i];
        bed << d.scale.at(s.range, s.depth);
        upper << d.scale.at(s.range, s.depth - bandWidth * s.sigma);
        lower << d.scale.at(s.range, s.depth + bandWidth * s.sigma);
    }
    QPolygonF ground = bed;
    ground << QPointF(bed.back().x(), d.scale.plot.bottom())
           << QPointF(bed.front().x(), d.scale.plot.bottom());
    QPolygonF band = upper;
    std::reverse(lower.begin(), lower.end());
    band += lower;
    QPainter& p = d.painter;
    p.setPen(Qt::NoPen);
    p.setBrush(d.colours.panel);
    p.drawPolygon(ground);
    QColor haze = d.colours.accent;
    haze.setAlphaF(0.18F);
    p.setBrush(haze);
    p.drawPolygon(band);
    p.setBrush(Qt::NoBrush);
    p.setPen(QPen(d.colours.ink, 1.5));
    p.drawPolyline(bed);
}

std::string bottomWord(const SectionReading& reading) {
    if (reading.cover && *reading.cover != Cover::Clear) {
        return std::string(word(*reading.cover));
    }
    return reading.substrate ? std::string(word(*reading.substrate)) : std::string();
}

/// Depth of the bed under a range, where the section knows it.
std::optional<double> bedDepth(const SectionProfile& section, double range) {
    const double at = range / section.sampledTo * static_cast<double>(section.samples.size() - 1);
    const auto i = static_cast<std::size_t>(
        std::clamp(std::round(at), 0.0, static_cast<double>(section.samples.size() - 1)));
    const SectionSample& sample = section.samples[i];
    return sample.known ? std::optional(sample.depth) : std::nullopt;
}

double stretchDepth(const SectionProfile& section, const SectionReading& reading) {
    return reading.depth.value_or(
        bedDepth(section, 0.5 * (reading.range + *reading.to)).value_or(section.deepest));
}

void paintStretch(const Drawing& d, const SectionReading& reading) {
    const double right = d.scale.x(reading.range);
    const double left = d.scale.x(*reading.to);
    const double depth = stretchDepth(d.section, reading);
    const QRectF strip(left, d.scale.y(depth) + stripGap, std::max(right - left, 2.0), stripHeight);
    // On a strip of its own paper, as on the plan, whatever the ground.
    SymbolPainter(d.painter, d.style.palette, stripHeight / stretchHeight)
        .stretch(
            QPointF(strip.left(), strip.center().y()),
            QPointF(strip.right(), strip.center().y()),
            reading.substrate,
            reading.cover);
    const QString text = QString::fromStdString(bottomWord(reading));
    const QFontMetricsF metrics(d.painter.font());
    const double width = metrics.horizontalAdvance(text);
    const double leftmost = d.scale.plot.left();
    const double rightmost = std::max(leftmost, d.scale.plot.right() - width);
    const double begin = std::clamp(strip.center().x() - 0.5 * width, leftmost, rightmost);
    d.painter.setPen(d.colours.softInk);
    d.painter.drawText(QPointF(begin, strip.bottom() + 1.0 + metrics.ascent()), text);
}

void paintReading(const Drawing& d, const SectionReading& reading) {
    QPainter& p = d.painter;
    if (reading.to) {
        paintStretch(d, reading);
    }
    if (!reading.depth) {
        const std::optional<double> bed = bedDepth(d.section, reading.range);
        if (bed && !reading.to) {
            // Felt but not sounded: its sign hangs on the bed by a small tick.
            const QPointF at = d.scale.at(reading.range, *bed);
            p.setPen(QPen(d.colours.ink, 1.0));
            p.drawLine(at + QPointF(0, 2), at + QPointF(0, 8));
            const MapInks inks{.ink = d.colours.ink, .paper = d.colours.paper};
            SymbolPainter(p, d.style.palette, signSize, inks)
                .reading(
                    at + QPointF(0, 11),
                    {.depth = false,
                     .drop = reading.drop,
                     .doubtful = reading.doubtful,
                     .outcome = reading.outcome});
        }
        return;
    }
    const MapInks inks{.ink = d.colours.ink, .paper = d.colours.paper};
    SymbolPainter(p, d.style.palette, signSize, inks)
        .reading(
            d.scale.at(reading.range, *reading.depth),
            {.depth = true,
             .drop = reading.drop,
             .doubtful = reading.doubtful,
             .outcome = reading.outcome});
}

/// A broken line from the tip to a place whose depth nobody knows, and no lead: it may lie anywhere
/// on the broken upright from the surface down, and that is said.
void paintLineToUnknown(const Drawing& d, double range) {
    QPainter& p = d.painter;
    const QPointF tip = d.scale.at(0.0, -d.section.tipHeight);
    const QPointF top = d.scale.at(range, 0.0);
    const QPointF foot(top.x(), d.scale.plot.bottom());
    const QPointF middle = 0.5 * (top + foot);
    QPen broken(d.colours.accent, 1.0);
    broken.setDashPattern({4.0, 4.0});
    p.setPen(broken);
    p.drawLine(tip, middle);
    p.drawLine(top, foot);
    p.setBrush(d.colours.accent);
    p.setPen(Qt::NoPen);
    p.drawEllipse(tip, 2.5, 2.5);
    const QString words = QStringLiteral("don't know");
    const QFontMetricsF metrics(p.font());
    const double width = metrics.horizontalAdvance(words);
    const bool fitsRight = middle.x() + 8.0 + width < d.scale.plot.right();
    paintRimmedWords(
        p,
        QPointF(
            fitsRight ? middle.x() + 8.0 : middle.x() - 8.0 - width,
            middle.y() + 0.5 * metrics.capHeight()),
        words,
        p.font(),
        {.ink = d.colours.softInk, .rim = d.colours.paper, .width = 2.0});
}

void paintLine(const Drawing& d) {
    std::optional<QPointF> lead;
    if (d.style.chosenRange && *d.style.chosenRange <= d.scale.reach) {
        const double range = *d.style.chosenRange;
        const std::optional<double> bed = bedDepth(d.section, range);
        if (!bed) {
            paintLineToUnknown(d, range);
            return;
        }
        lead = d.scale.at(range, *bed);
    } else {
        double farthest = -1.0;
        for (const SectionReading& reading : d.section.readings) {
            if (reading.depth && reading.range > farthest) {
                farthest = reading.range;
                lead = d.scale.at(reading.range, *reading.depth);
            }
        }
    }
    if (!lead) {
        return;
    }
    QPainter& p = d.painter;
    const QPointF tip = d.scale.at(0.0, -d.section.tipHeight);
    p.setPen(QPen(d.colours.accent, 1.0));
    p.drawLine(tip, *lead);
    p.setBrush(d.colours.accent);
    p.setPen(Qt::NoPen);
    p.drawEllipse(tip, 2.5, 2.5);
    p.drawEllipse(*lead, 3.5, 3.5);
}

void paintDepthScale(const Drawing& d) {
    QPainter& p = d.painter;
    const double unit = d.style.units.depth == Unit::Foot ? foot.si() : 1.0;
    const double pixels = d.scale.plot.height() / (d.scale.above + d.scale.below) * unit;
    const double apart = std::max(22.0, 1.2 * QFontMetricsF(p.font()).height());
    const double step =
        std::max(roundStep(apart / pixels), d.style.units.depth == Unit::Foot ? 1.0 : 0.5);
    QColor faint = d.colours.line;
    for (int i = 0; i * step * unit < d.scale.below; ++i) {
        const double y = d.scale.y(i * step * unit);
        p.setPen(QPen(faint, 1.0));
        p.drawLine(QPointF(d.scale.plot.left() - 4.0, y), QPointF(d.scale.plot.left(), y));
        QString text = QString::fromStdString(printNumber(i * step));
        if (i == 0) {
            text += u' ' + QString::fromUtf8(unitName(d.style.units.depth).data());
        }
        p.setPen(d.colours.softInk);
        p.drawText(
            QRectF(0.0, y - 10.0, d.scale.plot.left() - 8.0, 20.0),
            Qt::AlignRight | Qt::AlignVCenter | Qt::TextDontClip,
            text);
    }
}

void paintDistanceScale(const Drawing& d) {
    QPainter& p = d.painter;
    const Length unit = distanceUnitLength(d.style.units, d.section.aim.wrap);
    const double pixels = d.scale.plot.width() / d.scale.reach * unit.si();
    const double step = std::max(1.0, roundStep(tickSpacing / pixels));
    const double bottom = d.scale.plot.bottom();
    for (int i = 1; i < 200; ++i) {
        const Length range = rangeFor(d.map, d.section.aim, i * step * unit);
        if (range.si() > d.scale.reach) {
            break;
        }
        if (range.si() <= 0.0) {
            continue;
        }
        const double x = d.scale.x(range.si());
        p.setPen(QPen(d.colours.line, 1.0));
        p.drawLine(QPointF(x, bottom), QPointF(x, bottom + 4.0));
        p.setPen(d.colours.softInk);
        p.drawText(
            QRectF(x - 30.0, bottom + 6.0, 60.0, 18.0),
            Qt::AlignHCenter | Qt::AlignTop | Qt::TextDontClip,
            QString::fromStdString(printNumber(i * step)));
    }
    p.drawText(
        QRectF(0.0, bottom + 6.0, d.scale.plot.left() - 8.0, 18.0),
        Qt::AlignRight | Qt::AlignTop | Qt::TextDontClip,
        QString::fromUtf8(unitName(d.style.units.distance).data()));
}

/// The foot of the band [m]; where he is so unsure that it would fill the view, twice the depth.
double deepestDoubt(const SectionProfile& section, double reach) {
    double lowest = 0.0;
    for (const SectionSample& sample : section.samples) {
        if (sample.known && sample.range <= reach) {
            lowest = std::max(lowest, sample.depth + bandWidth * sample.sigma);
        }
    }
    return std::min(lowest, 2.0 * section.deepest);
}

/// The ground distance at the right edge: with the plan's scale where that shows all that must be
/// seen and does not waste much of the width, else what must be seen.
double reachFor(const SectionProfile& section, double width, std::optional<double> planScale) {
    const double shared = planScale && *planScale > 0.0 ? width / *planScale : 0.0;
    const bool suits = shared >= section.reach && shared <= section.sampledTo;
    return suits ? shared : section.reach;
}

} // namespace

SectionScale scaleOf(
    const SectionProfile& section,
    const QRectF& window,
    const QFont& font,
    std::optional<double> planScale) {
    const QFontMetricsF metrics(font);
    const double line = metrics.height();
    const double widest = metrics.horizontalAdvance(QStringLiteral("wraps ")) + 8.0;
    SectionScale scale;
    scale.plot =
        window.adjusted(std::max(leftMargin, widest), line + 13.0, -rightMargin, -(line + 13.0));
    scale.reach = reachFor(section, scale.plot.width(), planScale);
    scale.sharesPlan = planScale && scale.reach == scale.plot.width() / *planScale;
    scale.above = section.tipHeight * 1.1 + 0.1;
    scale.below = std::max({section.deepest * 1.1, deepestDoubt(section, scale.reach) * 1.05, 1.5});
    // A stretch and its word hang under the bed.
    const double hanging = stripGap + stripHeight + line + 4.0;
    const double share = std::min(hanging / std::max(scale.plot.height(), 1.0), 0.5);
    for (const SectionReading& reading : section.readings) {
        if (reading.to) {
            const double needed =
                (stretchDepth(section, reading) + share * scale.above) / (1.0 - share);
            scale.below = std::max(scale.below, needed);
        }
    }
    return scale;
}

void paintSection(
    QPainter& painter,
    const BedMap& map,
    const SectionProfile& section,
    const SectionStyle& style,
    const QRectF& window) {
    const Drawing d{
        .painter = painter,
        .map = map,
        .section = section,
        .style = style,
        .colours = palette(style.palette),
        .scale = scaleOf(section, window, painter.font(), style.planScale)};
    painter.fillRect(window, d.colours.paper);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.save();
    painter.setClipRect(d.scale.plot.adjusted(-6, -4, 6, 0));
    for (const Run& run : runsOf(section.samples)) {
        if (run.known) {
            paintBed(d, run);
        } else {
            paintHatch(d, run);
        }
    }
    painter.setPen(QPen(d.colours.accent, 1.0));
    painter.drawLine(d.scale.at(0.0, 0.0), d.scale.at(1.1 * d.scale.reach, 0.0));
    for (const SectionReading& reading : section.readings) {
        paintReading(d, reading);
    }
    paintLine(d);
    painter.restore();
    paintDepthScale(d);
    paintDistanceScale(d);
}

} // namespace bedlore
