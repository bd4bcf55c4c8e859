// SPDX-License-Identifier: MIT
#pragma once

#include "gui/document/document.hpp"
#include "gui/document/level_mark.hpp"

#include <QDialog>

class QComboBox;
class QLabel;
class QLineEdit;

// What the water's level is read from.

namespace bedlore {

/// Says in words what a level on a page means then; nothing changes before it is kept, which is
/// one act that undo takes back. `document` must outlive it.
class LevelDialog : public QDialog {
    Q_OBJECT

public:
    /// Heights are said in `unit`, metre or foot.
    LevelDialog(Document& document, Id<Water> water, Unit unit, QWidget* parent);

    /// Stays open, with a sentence, where what is typed cannot be kept.
    void accept() override;

private:
    [[nodiscard]] TypedLevelMark typed() const;
    void sayTaken();

    Document& document_;
    Id<Water> water_;
    Unit unit_;
    QLineEdit* words_ = nullptr;
    QLineEdit* step_ = nullptr;
    QComboBox* counts_ = nullptr;
    QLabel* taken_ = nullptr;
    QLabel* fault_ = nullptr;
};

} // namespace bedlore
