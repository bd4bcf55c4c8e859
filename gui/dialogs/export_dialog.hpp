// SPDX-License-Identifier: MIT
#pragma once

#include "gui/document/map_export.hpp"

#include <QDialog>
#include <QString>

#include <memory>
#include <optional>

class QCheckBox;
class QLabel;
class QLineEdit;
class QPushButton;
class QVBoxLayout;

// What leaves, how much of it, and where to.

namespace bedlore {

class ScrolledPart;
class TierChoice;

/// Which files are wanted.
struct MapFormats {
    bool geotiff = false;
    bool geojson = false;
    bool pdf = false;
    bool tables = false;
    friend bool operator==(const MapFormats&, const MapFormats&) = default;
};

/// Says before anything is written what each file will hold.
class ExportDialog : public QDialog {
    Q_OBJECT

public:
    struct Start {
        QString folder; ///< where the files are to go
        QString name;   ///< the book's; it is not offered where it would tell whose water it is
        DisplayUnits units;
        MapFormats formats = {.pdf = true}; ///< ticked to begin with
    };

    ExportDialog(std::shared_ptr<const BedMap> map, Start start, QWidget* parent = nullptr);

    [[nodiscard]] MapShare share() const;
    [[nodiscard]] MapFiles files() const;
    [[nodiscard]] MapFormats formats() const;

private:
    void addFormats(QLayout& column);
    void addWhereTo(QVBoxLayout& column);
    void refreshHoldings();
    void refresh();
    void browse();
    /// Folder and name without an ending.
    [[nodiscard]] QString offeredPath() const;

    std::shared_ptr<const BedMap> map_;
    Start start_;
    QLineEdit* path_;
    /// The map as it leaves, which costs some time to make.
    struct Shown {
        MapShare share;
        MapDrawing drawing;
    };
    std::optional<Shown> shown_;
    QString offered_; ///< what stands in `path_` while he has not changed it
    QCheckBox* geotiff_;
    QCheckBox* geojson_;
    QCheckBox* pdf_;
    QCheckBox* tables_;
    TierChoice* tier_;
    ScrolledPart* scroll_ = nullptr;
    QLabel* holdings_;
    QLabel* names_;
    QPushButton* write_;
};

} // namespace bedlore
