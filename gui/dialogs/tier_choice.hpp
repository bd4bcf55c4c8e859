// SPDX-License-Identifier: MIT
#pragma once

#include "core/chart/map_drawing.hpp"

#include <QWidget>

class QButtonGroup;
class QCheckBox;

// How much of the map leaves.

namespace bedlore {

/// Depths alone to begin with, and nothing private, every time.
class TierChoice : public QWidget {
    Q_OBJECT

public:
    explicit TierChoice(QWidget* parent = nullptr);

    [[nodiscard]] SharingTier tier() const;
    [[nodiscard]] PrivateThings privateThings() const;

Q_SIGNALS:
    void changed();

private:
    void follow();

    QButtonGroup* tiers_;
    QCheckBox* private_;
};

} // namespace bedlore
