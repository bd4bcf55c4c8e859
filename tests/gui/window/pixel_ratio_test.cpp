// SPDX-License-Identifier: MIT
#include "gui/dialogs/print_dialog.hpp"
#include "gui/widgets/sheet_view.hpp"
#include "tests/gui/window/open_window.hpp"

#include <QAction>
#include <QImage>
#include <QPixmap>

#include <algorithm>
#include <cmath>
#include <cstdlib>

// The window on screens with more pixels than it counts. The program is run once for each ratio,
// which the environment says: see CMakeLists.txt.

namespace bedlore::testing {
namespace {

double ratioOfTheScreen() {
    const QByteArray said = qgetenv("QT_SCALE_FACTOR");
    return said.isEmpty() ? 1.0 : said.toDouble();
}

/// As if it had been painted for a screen of ratio 1 and blown up.
QImage blownUp(const QImage& image, double ratio) {
    const QSize coarse = image.size() / ratio;
    return image.scaled(coarse, Qt::IgnoreAspectRatio, Qt::SmoothTransformation)
        .scaled(image.size(), Qt::IgnoreAspectRatio, Qt::SmoothTransformation)
        .convertToFormat(QImage::Format_RGB32);
}

/// How much of a picture would be lost by blowing it up: the mean step of grey.
double fineDetail(const QImage& image, double ratio) {
    const QImage coarse = blownUp(image, ratio);
    double sum = 0.0;
    for (int y = 0; y < image.height(); ++y) {
        for (int x = 0; x < image.width(); ++x) {
            sum += std::abs(qGray(image.pixel(x, y)) - qGray(coarse.pixel(x, y)));
        }
    }
    return sum / (double(image.width()) * image.height());
}

/// The mean step of grey between two columns, or two rows.
double stepBetween(const QImage& image, QPoint from, QPoint to, QPoint along, int count) {
    double sum = 0.0;
    for (int i = 0; i < count; ++i) {
        sum += std::abs(qGray(image.pixel(from + i * along)) - qGray(image.pixel(to + i * along)));
    }
    return sum / count;
}

struct Shown : OpenWindow {
    Shown() {
        window.resize(1001, 643); // so that at 1.5 no edge is at a whole pixel
        typePage(eveningPage());
    }
    static QImage picture(QWidget& part) {
        return part.grab().toImage().convertToFormat(QImage::Format_RGB32);
    }
};

void expectSharp(QWidget& part) {
    const double ratio = ratioOfTheScreen();
    const QImage shown = Shown::picture(part);
    const std::string name = part.objectName().toStdString();
    ASSERT_DOUBLE_EQ(part.devicePixelRatioF(), ratio) << name;
    EXPECT_EQ(shown.size(), part.size() * ratio) << name;
    if (ratio > 1.0) {
        // A picture that was blown up has next to nothing left to lose.
        EXPECT_GT(fineDetail(shown, ratio), 2.0 * fineDetail(blownUp(shown, ratio), ratio)) << name;
    }
}

TEST(PixelRatio, EveryPartIsDrawnAtTheScreensOwnResolution) {
    Shown open;
    for (QWidget* part :
         {static_cast<QWidget*>(&open.desk().plan()),
          static_cast<QWidget*>(&open.desk().sideView()),
          static_cast<QWidget*>(&open.editor())}) {
        expectSharp(*part);
    }
}

TEST(PixelRatio, ThePlanIsSharpAgainOnceItHasBeenMovedAndZoomed) {
    Shown open;
    PlanView& plan = open.desk().plan();
    plan.zoomIn();
    QTest::keyClick(&plan, Qt::Key_Left);
    Shown::picture(plan); // at once, from the last picture
    auto* settle = plan.findChild<QTimer*>(QStringLiteral("settle"));
    ASSERT_NE(settle, nullptr);
    if (settle->isActive()) {
        QSignalSpy settled(settle, &QTimer::timeout);
        ASSERT_TRUE(settled.wait());
    }
    expectSharp(plan);
}

TEST(PixelRatio, TheSheetIsSharpBeforeItIsPrinted) {
    Shown open;
    open.window.action(QStringLiteral("print"))->trigger();
    auto& dialog = open.part<PrintDialog>("printDialog");
    EXPECT_TRUE(waitUntilIdle(dialog.jobs()));
    expectSharp(*dialog.findChild<SheetView*>(QStringLiteral("sheetView"))->viewport());
}

TEST(PixelRatio, ThePlanReachesTheLastPixel) {
    Shown open;
    PlanView& plan = open.desk().plan();
    for (const int more : {0, 1, 2, 3}) {
        plan.resize(plan.width() + more, plan.height() + more);
        const QImage shown = Shown::picture(plan);
        const int right = shown.width() - 1;
        const int foot = shown.height() - 1;
        // The edge is hatched paper like what is beside it, and never what was in memory.
        constexpr double likeBeside = 40.0;
        EXPECT_LT(
            stepBetween(shown, {right, 0}, {right - 4, 0}, {0, 1}, shown.height()), likeBeside)
            << plan.width();
        EXPECT_LT(stepBetween(shown, {0, foot}, {0, foot - 4}, {1, 0}, shown.width()), likeBeside)
            << plan.height();
    }
}

} // namespace
} // namespace bedlore::testing
