// SPDX-License-Identifier: MIT
#pragma once

#include "core/io/import.hpp"

#include <QDialog>

// Rows of files that cannot be used: all of them, and whether to go on without them.

namespace bedlore {

/// Accepted: take in the rest without these rows. Rejected: nothing is taken in.
class BadRowsDialog : public QDialog {
    Q_OBJECT

public:
    explicit BadRowsDialog(const std::vector<BadRow>& rows, QWidget* parent = nullptr);
};

} // namespace bedlore
