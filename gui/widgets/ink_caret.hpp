// SPDX-License-Identifier: MIT
#pragma once

#include <QObject>
#include <QPointer>
#include <QProxyStyle>

class QWidget;

// The line that stands where he types.

namespace bedlore {

/// Paints it in the ink of the palette, steady: Qt would invert what is under it, which is white by
/// night, and let it blink. Follows the focus through line edits, boxes of numbers and pages for as
/// long as it lives; `CaretlessStyle` is to be the application's style.
class InkCaret : public QObject {
    Q_OBJECT

public:
    explicit InkCaret(QObject* parent);

    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void follow(QWidget* focused);
    void placeSoon();
    void place();

    QPointer<QWidget> edit_; ///< what is typed into, and what of it is painted
    QPointer<QWidget> canvas_;
    QPointer<QWidget> line_; ///< a child of the canvas
    bool isAsked_ = false;
};

/// The style that it is given, without a caret of its own.
class CaretlessStyle : public QProxyStyle {
    Q_OBJECT

public:
    using QProxyStyle::QProxyStyle;

    int pixelMetric(
        PixelMetric metric,
        const QStyleOption* option = nullptr,
        const QWidget* widget = nullptr) const override;
};

} // namespace bedlore
