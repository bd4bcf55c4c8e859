// SPDX-License-Identifier: MIT
#include "gui/section_view/section_view.hpp"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>

#include <utility>

namespace bedlore {

namespace {
const auto jobKind = QStringLiteral("side view");
} // namespace

std::vector<KeyRow> SectionView::keys() {
    const QString where = tr("on the side view");
    return {
        {where, tr("Left or Page Up"), tr("Next aim to the left")},
        {where, tr("Right or Page Down"), tr("Next aim to the right")}};
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
    update();
}

void SectionView::setColours(PaletteKind kind) {
    style_.palette = kind;
    update();
}

void SectionView::setUnits(const DisplayUnits& units) {
    style_.units = units;
    update();
}

void SectionView::make() {
    if (map_ == nullptr || !aim_ || *aim_ >= aims_.size()) {
        jobs_.stop(jobKind);
        section_.reset();
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
                setAccessibleDescription(title());
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

QFont SectionView::smallFont() const {
    QFont small = font();
    small.setPointSizeF(font().pointSizeF() * 0.905); // notes 9.5 beside 10.5
    return small;
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
    painter.drawText(
        window.adjusted(16, 6, -16, 0),
        Qt::AlignRight | Qt::AlignTop,
        aims_.size() > 1 ? tr("%1   ‹ ›").arg(title()) : title());
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
    const SectionScale scale = scaleOf(*section_, QRectF(rect()), smallFont());
    const double range = scale.range(position.x());
    if (range < 0.0 || range > section_->reach) {
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

void SectionView::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Left || event->key() == Qt::Key_PageUp) {
        stepAim(-1);
    } else if (event->key() == Qt::Key_Right || event->key() == Qt::Key_PageDown) {
        stepAim(1);
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
