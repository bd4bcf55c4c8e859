// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/leaving_book.hpp"
#include "core/chart/sharing.hpp"

#include <QDialog>

class QCheckBox;
class QLabel;

// What the tables of a whole book will hold, before they are written.

namespace bedlore {

/// Asks whether what is private goes along; it stays at home unless he ticks it, every time.
class TablesDialog : public QDialog {
    Q_OBJECT

public:
    explicit TablesDialog(const PrivateCounts& counts, QWidget* parent = nullptr);

    [[nodiscard]] PrivateThings privateThings() const;

private:
    void showHoldings();

    QString words_; ///< how much is private
    QLabel* holds_;
    QCheckBox* private_;
};

} // namespace bedlore
