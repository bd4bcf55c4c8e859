// SPDX-License-Identifier: MIT
#pragma once

#include "gui/document/bed_picture.hpp"
#include "gui/models/key_row.hpp"
#include "gui/plan_view/plan_camera.hpp"
#include "gui/plan_view/plan_overlay.hpp"

#include <QImage>
#include <QPointF>
#include <QTimer>
#include <QVariantAnimation>
#include <QWidget>

#include <memory>
#include <optional>
#include <vector>

// The bed seen from above.

namespace bedlore {

/// Shows a picture of the bed, to be moved, zoomed and turned by mouse or keys. As seen from the
/// bank at first. What was painted is kept, so that moving it costs next to nothing.
class PlanView : public QWidget {
    Q_OBJECT

public:
    /// The keys that it takes while it has the focus, for the list of keys.
    [[nodiscard]] static std::vector<KeyRow> keys();

    explicit PlanView(QWidget* parent = nullptr);

    /// Null shows paper only. What he looks at stays where it is, unless the new bed would not be
    /// seen. A bed that only settles comes up through the one before it: nothing he typed changed
    /// it, so nothing jumps.
    void setPicture(std::shared_ptr<const BedPicture> picture);
    void setAims(std::vector<AimLine> aims);
    void setChosenAim(std::optional<std::size_t> aim);
    void setChosenPlace(std::optional<Point> place);
    void setColours(PaletteKind kind);
    /// What stands on the empty paper.
    void setEmptyWords(const QString& words);
    /// The same where the paper is empty; null where a picture is shown.
    [[nodiscard]] QString wordsOnPaper() const {
        return picture_ != nullptr ? QString() : emptyWords_;
    }

    /// Null where there is only paper.
    [[nodiscard]] const std::shared_ptr<const BedPicture>& picture() const { return picture_; }
    [[nodiscard]] const PlanCamera& camera() const { return camera_; }
    [[nodiscard]] bool isNorthUp() const { return northUp_; }
    /// Whether one bed still comes up through another.
    [[nodiscard]] bool isFading() const { return fade_.state() == QAbstractAnimation::Running; }
    /// What a screen reader says of what is chosen or pointed at by keys.
    void describe(const QString& words);

    [[nodiscard]] QPointF positionOf(Point place) const;
    /// Says anew what the pointer is on, if it is on the plan: the bed under it has changed.
    void pointAgain();
    /// Whether the cross in the middle, moved by keys, is what points.
    [[nodiscard]] bool isPointedByKeys() const { return keyPointer_; }

    [[nodiscard]] QSize sizeHint() const override { return {640, 420}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {240, 120}; }

public Q_SLOTS:
    void showAll();
    void lookFromBank();
    void lookNorthUp();
    void zoomIn();
    void zoomOut();

Q_SIGNALS:
    /// Where the pointer is, or the middle of the plan while it is moved by keys.
    void pointedAt(bedlore::Point place);
    void pointedAway();
    void placeChosen(bedlore::Point place);
    void placeCleared();
    void turned();
    /// Other pixels for each metre than before.
    void scaled(double pixelsPerMetre);

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void leaveEvent(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

private:
    enum class Drag : std::uint8_t { None, Waiting, Pan, Turn };

    [[nodiscard]] QRectF window() const { return {rect()}; }
    [[nodiscard]] bool isOnRim(QPointF position) const;
    [[nodiscard]] PlaneBearing uprightDirection() const;
    [[nodiscard]] bool handleMoveKey(int key);
    void fit();
    void fitIfHidden();
    void moved();
    void tellScale();
    void beginFade();
    void endFade();
    void renderCache();
    void paintMoved(QPainter& painter) const;
    void drawHints(QPainter& painter) const;

    std::shared_ptr<const BedPicture> picture_;
    PlanOverlay overlay_;
    PaletteKind colours_ = PaletteKind::Light;
    QString emptyWords_;
    PlanCamera camera_;
    double toldScale_ = 0.0;
    bool northUp_ = false;
    bool untouched_ = true; ///< he has not moved it: it may be fitted again

    QImage cache_;
    PlanCamera cacheCamera_;
    bool cacheIsOld_ = true;
    QTimer settle_{this};
    QImage fadeFrom_;
    PlanCamera fadeCamera_;  ///< what `fadeFrom_` was painted for
    QVariantAnimation fade_; ///< from 0 to 1

    Drag drag_ = Drag::None;
    QPointF dragFrom_;
    bool keyPointer_ = false;
    std::optional<QPointF> pointer_; ///< the mouse's, while it is on the plan
};

} // namespace bedlore
