// SPDX-License-Identifier: MIT
#pragma once

#include "gui/paint/sheet_painter.hpp"
#include "gui/paint/theme.hpp"

#include <QAbstractScrollArea>
#include <QPixmap>

#include <memory>

// A sheet as it will be printed, on the screen.

namespace bedlore {

/// Whole at first. Plus and minus come nearer and go back, 0 shows all of it, the arrow keys move
/// it.
class SheetView : public QAbstractScrollArea {
    Q_OBJECT

public:
    explicit SheetView(QWidget* parent = nullptr);

    /// Null while it is being worked out.
    void setSheet(std::shared_ptr<const MapDrawing> map, const SheetOptions& options);

    /// Of the screen: by night the sheet is shown in red light.
    void setColours(PaletteKind kind);

    void zoomBy(double factor);
    void fit();
    /// Pixels for each millimetre of the paper.
    [[nodiscard]] double scale() const;

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

private:
    [[nodiscard]] double fittingScale() const;
    [[nodiscard]] QSize sheetPixels() const;
    void settle();

    std::shared_ptr<const MapDrawing> map_;
    SheetOptions options_;
    PaletteKind colours_ = PaletteKind::Light;
    double nearer_ = 1.0; ///< beside the scale at which all of it is seen
    QPixmap picture_;
};

} // namespace bedlore
