// SPDX-License-Identifier: MIT
#pragma once

#include "core/io/import_preview.hpp"
#include "gui/paint/theme.hpp"

#include <QAbstractTableModel>

// The first lines of a file and what each would become.

namespace bedlore {

/// A line to look at has a mark behind its number, so that it is told by more than its colour.
class PreviewModel : public QAbstractTableModel {
    Q_OBJECT

public:
    using QAbstractTableModel::QAbstractTableModel;

    void show(FilePreview file);
    void setColours(PaletteKind kind) { colours_ = kind; }
    [[nodiscard]] const FilePreview& file() const { return file_; }

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant
    headerData(int section, Qt::Orientation orientation, int role) const override;

private:
    FilePreview file_;
    PaletteKind colours_ = PaletteKind::Light;
};

} // namespace bedlore
