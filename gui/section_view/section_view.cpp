// SPDX-License-Identifier: MIT
#include "gui/section_view/section_view.hpp"

#include "core/units/format.hpp"
#include "gui/document/readout.hpp"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>

#include <cmath>
#include <limits>
#include <utility>

namespace bedlore {

namespace {
const auto jobKind = QStringLiteral("side view");
} // namespace

std::vector<KeyRow> SectionView::keys() {
    const QString where = tr("on the side view");
    return {
        {where, tr("Left or Page Up"), tr("Next aim to the left")},
        {where, tr("Right or Page Down"), tr("Next aim to the right")},
        {where, tr("Up, Down"), tr("The line to the next reading out or in")}};
}

SectionView::SectionView(JobBoard& jobs, QWidget* parent)
    : QWidget(parent)
    , jobs_(jobs) {
    setObjectName(QStringLiteral("sectionView"));
    setAccessibleName(tr("Side view along the chosen aim"));
    setFocusPolicy(Qt::StrongFocus);
    setMouseTracking(true);
    setCursor(Qt::CrossCursor);
}

void SectionView::setMap(std::shared_ptr<const BedMap> map, std::vector<AimLine> aims) {
    map_ = std::move(map);
    aims_ = std::move(aims);
    make();
}

void SectionView::setChosenAim(std::optional<std::size_t> aim) {
    if (aim_ != aim) {
        aim_ = aim;
        make();
    }
}

void SectionView::setChosenRange(std::optional<Length> range) {
    style_.chosenRange = range ? std::optional(range->si()) : std::nullopt;
    describe();
    update();
}

void SectionView::setPlanScale(double scale) {
    if (style_.planScale != scale) {
        style_.planScale = scale;
        update();
    }
}

void SectionView::setColours(PaletteKind kind) {
    style_.palette = kind;
    update();
}

void SectionView::setUnits(const DisplayUnits& units) {
    style_.units = units;
    describe();
    update();
}

void SectionView::make() {
    if (map_ == nullptr || !aim_ || *aim_ >= aims_.size()) {
        jobs_.stop(jobKind);
        section_.reset();
        describe();
        update();
        Q_EMIT drawn();
        return;
    }
    jobs_.start(
        jobKind,
        QString(),
        [map = map_, aim = aims_[*aim_]](const Progress& progress) {
            return makeSection(*map, aim, progress);
        },
        [this, map = map_](Result<SectionProfile> section) {
            if (section) {
                section_ = std::move(*section);
                sectionMap_ = map;
                describe();
                update();
                Q_EMIT drawn();
            }
        });
}

QString SectionView::title() const {
    if (!section_) {
        return {};
    }
    const AimLine& aim = section_->aim;
    QString name = tr("aim %1").arg(QString::fromStdString(aim.label));
    if (!aim.mark.empty()) {
        name += tr(", on the %1").arg(QString::fromStdString(aim.mark));
    }
    return tr("Side view, %1").arg(name);
}

/// The aim, and as much about the scales as there is room for.
QString SectionView::heading(const QFontMetricsF& metrics, double room) const {
    const SectionScale now = scale();
    const double times = now.taller();
    const QString tall =
        times > 1.5 ? tr("depths %1 times as tall · ").arg(std::round(times)) : QString();
    const QString shared = now.sharesPlan ? tr("as wide as on the plan · ") : QString();
    const QString steps = aims_.size() > 1 ? QStringLiteral("   ‹ ›") : QString();
    for (const QString& before : {shared + tall, tall, QString()}) {
        QString whole = before + title() + steps;
        if (metrics.horizontalAdvance(whole) <= room) {
            return whole;
        }
    }
    return metrics.elidedText(title() + steps, Qt::ElideMiddle, room);
}

SectionScale SectionView::scale() const {
    return scaleOf(*section_, QRectF(rect()), smallFont(), style_.planScale);
}

QFont SectionView::smallFont() const {
    QFont small = font();
    small.setPointSizeF(font().pointSizeF() * 0.905); // notes 9.5 beside 10.5
    return small;
}

/// In words what is drawn: where the line leads to, and what was felt along the aim.
void SectionView::describe() {
    if (!section_) {
        setAccessibleDescription(tr("No cast to look along yet."));
        return;
    }
    QStringList words{title()};
    if (style_.chosenRange) {
        const Point lead =
            placeOn(section_->aim.tip, section_->aim.direction, *style_.chosenRange * metre);
        words << tr("the line leads to %1")
                     .arg(QString::fromStdString(
                         readPlace(*sectionMap_, aims_, lead, style_.units).line()));
    }
    words << tr("%1 readings from far to near").arg(section_->readings.size());
    for (const SectionReading& reading : section_->readings) {
        if (const Reading* record = sectionMap_->book->find(reading.reading)) {
            const std::string felt = feltWords(*record);
            words << QString::fromStdString(
                printEntered(record->from) + (felt.empty() ? "" : ", " + felt));
        }
    }
    setAccessibleDescription(words.join(QStringLiteral("; ")));
}

void SectionView::paintEvent(QPaintEvent*) {
    const Palette& colours = bedlore::palette(style_.palette);
    QPainter painter(this);
    const QRectF window(rect());
    if (!section_) {
        painter.fillRect(rect(), colours.paper);
        painter.setPen(colours.softInk);
        painter.drawText(
            window.adjusted(16, 16, -16, -16),
            Qt::AlignCenter | Qt::TextWordWrap,
            tr("The bed from the side, once there is a cast to look along."));
        return;
    }
    painter.setFont(smallFont());
    paintSection(painter, *sectionMap_, *section_, style_, window);
    painter.setPen(colours.softInk);
    const QRectF head = window.adjusted(16, 6, -16, 0);
    painter.drawText(
        head, Qt::AlignRight | Qt::AlignTop, heading(QFontMetricsF(painter.font()), head.width()));
    if (hasFocus()) {
        painter.setRenderHint(QPainter::Antialiasing, false);
        painter.setPen(QPen(colours.accent, 1.0));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(rect().adjusted(0, 0, -1, -1));
    }
}

std::optional<Point> SectionView::placeAt(QPointF position) const {
    if (!section_) {
        return std::nullopt;
    }
    const SectionScale scale = this->scale();
    const double range = scale.range(position.x());
    if (range < 0.0 || range > scale.reach) {
        return std::nullopt;
    }
    return placeOn(section_->aim.tip, section_->aim.direction, range * metre);
}

void SectionView::stepAim(int by) {
    if (aims_.empty()) {
        return;
    }
    const int count = static_cast<int>(aims_.size());
    const int now = static_cast<int>(aim_.value_or(0));
    Q_EMIT aimWanted(static_cast<std::size_t>((now + by + count) % count));
}

/// The place on the aim that the line leads to [m of ground]; none far out where nothing is
/// chosen yet.
double SectionView::rangeOfLead() const {
    return style_.chosenRange.value_or(std::numeric_limits<double>::infinity());
}

/// Chooses the next reading nearer (by = 1) or farther (by = -1) than the lead.
void SectionView::stepReading(int by) {
    if (!section_) {
        return;
    }
    // A hair's breadth: the reading that is chosen is not the next one.
    constexpr double hair = 0.01;
    std::optional<double> next;
    for (const SectionReading& reading : section_->readings) { // from far to near
        const bool nearer = reading.range < rangeOfLead() - hair;
        const bool farther = reading.range > rangeOfLead() + hair;
        if ((by > 0 && nearer && !next) || (by < 0 && farther)) {
            next = reading.range;
        }
    }
    if (next) {
        Q_EMIT placeChosen(placeOn(section_->aim.tip, section_->aim.direction, *next * metre));
    }
}

void SectionView::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Left || event->key() == Qt::Key_PageUp) {
        stepAim(-1);
    } else if (event->key() == Qt::Key_Right || event->key() == Qt::Key_PageDown) {
        stepAim(1);
    } else if (event->key() == Qt::Key_Down) {
        stepReading(1);
    } else if (event->key() == Qt::Key_Up) {
        stepReading(-1);
    } else {
        QWidget::keyPressEvent(event);
    }
}

void SectionView::mouseMoveEvent(QMouseEvent* event) {
    if (const auto place = placeAt(event->position())) {
        Q_EMIT pointedAt(*place);
    } else {
        Q_EMIT pointedAway();
    }
}

void SectionView::mousePressEvent(QMouseEvent* event) {
    if (event->button() != Qt::LeftButton) {
        return;
    }
    if (const auto place = placeAt(event->position())) {
        Q_EMIT placeChosen(*place);
    }
}

void SectionView::leaveEvent(QEvent* event) {
    QWidget::leaveEvent(event);
    Q_EMIT pointedAway();
}

void SectionView::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    update();
}

void SectionView::focusOutEvent(QFocusEvent* event) {
    QWidget::focusOutEvent(event);
    update();
}

} // namespace bedlore

#include "moc_section_view.cpp"
