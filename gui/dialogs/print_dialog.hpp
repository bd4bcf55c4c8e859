// SPDX-License-Identifier: MIT
#pragma once

#include "gui/document/map_export.hpp"
#include "gui/jobs/job_board.hpp"
#include "gui/paint/sheet_painter.hpp"

#include <QDialog>
#include <QString>

#include <filesystem>
#include <memory>

class QButtonGroup;
class QComboBox;
class QLabel;
class QLayout;
class QPushButton;

// The sheet as it will be printed, and where it goes: to a PDF or to a printer.

namespace bedlore {

class SheetView;
class TierChoice;

/// The sheet is drawn on another thread, on the grid that files are written on; what is written or
/// printed is that very sheet.
class PrintDialog : public QDialog {
    Q_OBJECT

public:
    struct Start {
        QString folder; ///< where a PDF is to go
        QString name;   ///< the book's; it is not offered where it would tell whose water it is
        DisplayUnits units;
        SheetPaper paper = SheetPaper::A4;
        DepthFill fill = DepthFill::Colour;
        PaletteKind colours = PaletteKind::Light; ///< of the screen: the paper keeps its own
        Date printed{};                           ///< the day that the sheet carries
    };

    PrintDialog(std::shared_ptr<const BedMap> map, const Start& start, QWidget* parent = nullptr);

    [[nodiscard]] SheetPaper paper() const;
    [[nodiscard]] DepthFill fill() const;
    [[nodiscard]] JobBoard& jobs() { return jobs_; }

    /// Writes the sheet that is shown; the dialog says how that went.
    void writePdf(const std::filesystem::path& path);

private:
    [[nodiscard]] QWidget* buildSide();
    void addChoices(QLayout& column);
    void addPrinters(QLayout& column);
    void drawAgain();
    void showSheet();
    void askPdf();
    void print();
    void say(const QString& words, bool isWarning = false);
    [[nodiscard]] MapShare share() const;
    [[nodiscard]] SheetOptions options() const;

    std::shared_ptr<const BedMap> map_;
    Start start_;
    std::shared_ptr<const MapDrawing> sheet_;
    SheetView* view_;
    QButtonGroup* papers_ = nullptr;
    QButtonGroup* inks_ = nullptr;
    TierChoice* tier_ = nullptr;
    QLabel* holdings_ = nullptr;
    QComboBox* printers_ = nullptr;
    QPushButton* print_ = nullptr;
    QPushButton* pdf_ = nullptr;
    QLabel* said_ = nullptr;
    JobBoard jobs_;
};

} // namespace bedlore
