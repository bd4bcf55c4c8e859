// SPDX-License-Identifier: MIT
#include "gui/plan_view/plan_view.hpp"

#include "gui/plan_view/plan_render.hpp"

#include <QAccessible>
#include <QPainter>
#include <QPainterPath>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <utility>

namespace bedlore {

namespace {

/// Pixels free around what is shown; a low plan needs its height for the bed.
double fitMargin(const QRectF& window) {
    return std::min(48.0, 0.15 * std::min(window.width(), window.height()));
}
// Painting follows when a movement rests for this long; until then the last picture is moved.
constexpr std::chrono::milliseconds settleTime{30};
// By eye: long enough to be no jump, over before the next line is typed.
constexpr std::chrono::milliseconds fadeTime{250};

/// Whether the bed is of the same notes as the one before, only with what a line does not wait for.
bool onlySettles(const BedPicture& before, const BedPicture& now) {
    return !before.bed->settled && now.bed->settled && before.bed->book == now.bed->book &&
           before.look == now.look;
}

} // namespace

PlanView::PlanView(QWidget* parent)
    : QWidget(parent) {
    setObjectName(QStringLiteral("planView"));
    setAccessibleName(tr("Plan of the bed"));
    setFocusPolicy(Qt::StrongFocus);
    setMouseTracking(true);
    setAttribute(Qt::WA_OpaquePaintEvent);
    settle_.setObjectName(QStringLiteral("settle"));
    settle_.setSingleShot(true);
    settle_.setInterval(settleTime);
    connect(&settle_, &QTimer::timeout, this, [this] {
        cacheIsOld_ = true;
        update();
    });
    fade_.setStartValue(0.0);
    fade_.setEndValue(1.0);
    fade_.setDuration(static_cast<int>(fadeTime.count()));
    connect(&fade_, &QVariantAnimation::valueChanged, this, [this] { update(); });
    connect(&fade_, &QVariantAnimation::finished, this, [this] { fadeFrom_ = {}; });
}

void PlanView::setPicture(std::shared_ptr<const BedPicture> picture) {
    const bool otherWater = picture_ == nullptr || picture == nullptr ||
                            picture->bed->request != picture_->bed->request;
    if (!otherWater && onlySettles(*picture_, *picture)) {
        beginFade();
    } else if (picture != picture_) {
        endFade();
    }
    picture_ = std::move(picture);
    if (otherWater) {
        untouched_ = true;
        fit();
    } else {
        fitIfHidden();
    }
    tellScale();
    cacheIsOld_ = true;
    update();
}

/// From what is on the screen, which must be of the place he looks at.
void PlanView::beginFade() {
    endFade();
    if (isVisible() && !cache_.isNull() && cacheCamera_ == camera_) {
        fadeFrom_ = cache_.copy();
        fadeCamera_ = cacheCamera_;
        fade_.start();
    }
}

void PlanView::endFade() {
    fade_.stop();
    fadeFrom_ = {};
}

void PlanView::setAims(std::vector<AimLine> aims) {
    overlay_.aims = std::move(aims);
    cacheIsOld_ = true;
    update();
}

void PlanView::setChosenAim(std::optional<std::size_t> aim) {
    overlay_.chosenAim = aim;
    update();
}

void PlanView::setChosenPlace(std::optional<Point> place) {
    overlay_.chosenPlace = place;
    update();
}

void PlanView::setColours(PaletteKind kind) {
    colours_ = kind;
    update();
}

void PlanView::setEmptyWords(const QString& words) {
    if (emptyWords_ != words) {
        emptyWords_ = words;
        update();
    }
}

QPointF PlanView::positionOf(Point place) const {
    return camera_.toView(place, window());
}

PlaneBearing PlanView::uprightDirection() const {
    return northUp_ || picture_ == nullptr ? PlaneBearing{} : picture_->drawing->up;
}

void PlanView::pointAgain() {
    const auto at = keyPointer_ ? std::optional(window().center()) : pointer_;
    if (picture_ != nullptr && at) {
        Q_EMIT pointedAt(camera_.toPlane(*at, window()));
    }
}

void PlanView::fit() {
    if (picture_ != nullptr) {
        camera_ =
            cameraFor(picture_->drawing->extent, uprightDirection(), window(), fitMargin(window()));
    }
}

void PlanView::fitIfHidden() {
    if (!untouched_ || picture_ == nullptr) {
        return;
    }
    const PlanCamera best =
        cameraFor(picture_->drawing->extent, uprightDirection(), window(), fitMargin(window()));
    // A picture that jumps at every line typed is worse than one that is not quite centred.
    const double times = best.scale / camera_.scale;
    const QPointF middle = camera_.toView(best.centre, window());
    const double off = QLineF(middle, window().center()).length();
    const double turned = std::abs((best.up - camera_.up) / degree);
    if (times < 0.97 || times > 1.4 || off > 0.15 * width() || turned > 5.0) {
        camera_ = best;
    }
}

void PlanView::showAll() {
    untouched_ = true;
    fit();
    tellScale();
    cacheIsOld_ = true;
    update();
    pointAgain();
}

void PlanView::lookFromBank() {
    northUp_ = false;
    showAll();
    Q_EMIT turned();
}

void PlanView::lookNorthUp() {
    northUp_ = true;
    showAll();
    Q_EMIT turned();
}

void PlanView::tellScale() {
    if (picture_ != nullptr && toldScale_ != camera_.scale) {
        toldScale_ = camera_.scale;
        Q_EMIT scaled(camera_.scale);
    }
}

void PlanView::describe(const QString& words) {
    setAccessibleDescription(words);
    QAccessibleEvent changed(this, QAccessible::NameChanged);
    QAccessible::updateAccessibility(&changed);
}

void PlanView::moved() {
    endFade();
    tellScale();
    untouched_ = false;
    settle_.start();
    update();
}

void PlanView::renderCache() {
    const double ratio = devicePixelRatioF();
    const QSize pixels = size() * ratio;
    if (cache_.size() != pixels) {
        cache_ = QImage(pixels, QImage::Format_RGB32);
        // At a ratio that is not whole the last pixels may be half the window's.
        cache_.fill(bedlore::palette(colours_).paper);
    }
    cache_.setDevicePixelRatio(1.0);
    renderPlan(
        cache_,
        {.picture = *picture_,
         .overlay = overlay_,
         .view = {.toView = camera_.toView(window()), .window = window()},
         .letters = font(),
         .ratio = ratio});
    cache_.setDevicePixelRatio(ratio);
    cacheCamera_ = camera_;
    cacheIsOld_ = false;
}

/// The last picture where it has moved to, and what has come into view beside it.
void PlanView::paintMoved(QPainter& painter) const {
    const QTransform toView = camera_.toView(window());
    const QTransform moved = cacheCamera_.toView(window()).inverted() * toView;
    QPainterPath fresh;
    fresh.addRect(window());
    const QPolygonF old = moved.map(QPolygonF(window()));
    QPainterPath covered;
    covered.addPolygon(old);
    fresh = fresh.subtracted(covered);
    if (!fresh.isEmpty()) {
        painter.save();
        painter.setClipPath(fresh);
        picture_->painter->paint(
            painter, {.toView = toView, .window = window()}, ChartPainter::Detail::WithoutWords);
        painter.restore();
    }
    painter.save();
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    painter.setTransform(moved);
    painter.drawImage(0, 0, cache_);
    painter.restore();
}

void PlanView::paintEvent(QPaintEvent*) {
    const Palette& colours = bedlore::palette(colours_);
    QPainter painter(this);
    if (picture_ == nullptr) {
        painter.fillRect(rect(), colours.paper);
        painter.setPen(colours.softInk);
        painter.drawText(
            window().adjusted(48, 48, -48, -48), Qt::AlignCenter | Qt::TextWordWrap, emptyWords_);
        drawHints(painter);
        return;
    }
    if (cacheIsOld_ || cache_.size() != size() * devicePixelRatioF()) {
        renderCache();
    }
    const bool isOver = fadeFrom_.size() != cache_.size() || !(fadeCamera_ == camera_);
    if (cacheCamera_ == camera_ && isFading() && !isOver) {
        painter.drawImage(0, 0, fadeFrom_);
        painter.setOpacity(fade_.currentValue().toDouble());
        painter.drawImage(0, 0, cache_);
        painter.setOpacity(1.0);
    } else if (cacheCamera_ == camera_) {
        painter.drawImage(0, 0, cache_);
    } else {
        paintMoved(painter);
    }
    painter.setFont(font());
    paintChosen(painter, overlay_, camera_.toView(window()), picture_->look.palette);
    drawHints(painter);
}

void PlanView::drawHints(QPainter& painter) const {
    const Palette& colours = bedlore::palette(colours_);
    if (keyPointer_ && picture_ != nullptr) {
        paintKeyPointer(painter, window().center(), colours_);
    }
    if (hasFocus() && keyPointer_) {
        painter.setRenderHint(QPainter::Antialiasing, false);
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(colours.accent, 1.0));
        painter.drawRect(rect().adjusted(0, 0, -1, -1));
    }
}

void PlanView::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    if (untouched_) {
        fit();
    }
    tellScale();
    cacheIsOld_ = true;
}

} // namespace bedlore

#include "moc_plan_view.cpp"
