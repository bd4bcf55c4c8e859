// SPDX-License-Identifier: MIT
#pragma once

#include "gui/document/document.hpp"
#include "gui/document/swim_place.hpp"

#include <QDialog>

class QLabel;
class QLineEdit;

// Where the swim that he is in lies, and how high the rod tip is there.

namespace bedlore {

/// Says in words what is typed and what follows from it; nothing changes before it is kept, which
/// is one act that undo takes back. `document` must outlive it.
class SwimDialog : public QDialog {
    Q_OBJECT

public:
    SwimDialog(Document& document, Id<Swim> swim, QWidget* parent);

    /// Stays open, with a sentence, where what is typed cannot be kept.
    void accept() override;

private:
    [[nodiscard]] TypedSwim typed() const;
    void sayTaken();

    Document& document_;
    Id<Swim> swim_;
    QLineEdit* place_ = nullptr;
    QLineEdit* tip_ = nullptr;
    QLineEdit* standing_ = nullptr;
    QLabel* taken_ = nullptr;
    QLabel* fault_ = nullptr;
};

} // namespace bedlore
