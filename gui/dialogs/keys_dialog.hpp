// SPDX-License-Identifier: MIT
#pragma once

#include "gui/models/key_row.hpp"

#include <QDialog>

#include <vector>

// Every key of the window, with a line to look one up.

namespace bedlore {

class KeysDialog : public QDialog {
    Q_OBJECT

public:
    explicit KeysDialog(std::vector<KeyRow> rows, QWidget* parent = nullptr);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
};

} // namespace bedlore
