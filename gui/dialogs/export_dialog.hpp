// SPDX-License-Identifier: MIT
#pragma once

#include "gui/document/map_export.hpp"

#include <QDialog>
#include <QString>

#include <memory>

class QButtonGroup;
class QCheckBox;
class QLabel;
class QLineEdit;
class QPushButton;

// What leaves, how much of it, and where to.

namespace bedlore {

class ExportDialog : public QDialog {
    Q_OBJECT

public:
    enum class Purpose : std::uint8_t { Files, Print };

    struct Start {
        Purpose purpose = Purpose::Files;
        QString folder; ///< where the files are to go
        QString name;   ///< the book's; it is not offered where it would tell whose water it is
        DisplayUnits units;
    };

    ExportDialog(std::shared_ptr<const BedMap> map, const Start& start, QWidget* parent = nullptr);

    [[nodiscard]] MapShare share() const;
    [[nodiscard]] MapFiles files() const;

private:
    void addFormats(QLayout& column, Purpose purpose);
    void addTiers(QLayout& column);
    void refresh();
    void browse();
    /// Folder and name without an ending.
    [[nodiscard]] QString offeredPath() const;

    std::shared_ptr<const BedMap> map_;
    Start start_;
    QLineEdit* path_;
    QString offered_; ///< what stands in `path_` while he has not changed it
    QCheckBox* geotiff_;
    QCheckBox* geojson_;
    QCheckBox* pdf_;
    QButtonGroup* tiers_;
    QCheckBox* private_;
    QLabel* holdings_;
    QLabel* names_;
    QPushButton* write_;
};

} // namespace bedlore
