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
        QString path; ///< folder and name without an ending
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

    std::shared_ptr<const BedMap> map_;
    DisplayUnits units_;
    QLineEdit* path_;
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
