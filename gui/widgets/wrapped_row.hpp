// SPDX-License-Identifier: MIT
#pragma once

#include <QLayout>
#include <QList>

// Widgets side by side, going on below where the row is full.

namespace bedlore {

/// Each widget has the size that it asks for, so that no word on a button is cut.
class WrappedRow : public QLayout {
public:
    WrappedRow() = default;
    ~WrappedRow() override;
    WrappedRow(const WrappedRow&) = delete;
    WrappedRow& operator=(const WrappedRow&) = delete;
    WrappedRow(WrappedRow&&) = delete;
    WrappedRow& operator=(WrappedRow&&) = delete;

    void addItem(QLayoutItem* item) override;
    [[nodiscard]] int count() const override;
    [[nodiscard]] QLayoutItem* itemAt(int index) const override;
    QLayoutItem* takeAt(int index) override;
    [[nodiscard]] bool hasHeightForWidth() const override { return true; }
    [[nodiscard]] int heightForWidth(int width) const override;
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSize() const override;
    void setGeometry(const QRect& area) override;

private:
    enum class Move : std::uint8_t { No, Yes };
    /// Gives the height that is needed.
    [[nodiscard]] int arrange(const QRect& area, Move move) const;

    QList<QLayoutItem*> items_;
};

} // namespace bedlore
