// SPDX-License-Identifier: MIT
#include "gui/window/main_window.hpp"
#include "gui/window/tour_guide.hpp"
#include "tests/gui/drive.hpp"
#include "tests/gui/packaged_fonts.hpp"

#include <QApplication>
#include <QStringList>
#include <QTemporaryDir>
#include <QTimer>

#include <cstdio>
#include <cstdlib>

// Makes a picture of the window with a book on it: screenshot BOOK OUT.png [light|dark|night]
// [width height] [aim letter] [text size, 1 is usual]. "-" in place of a book is the start, and
// "tour:one-wrap" the practice water at that step of its tour. Nothing of the book is changed; no
// display is needed.

namespace {

using namespace bedlore;
using testing::waitUntilIdle;

PaletteKind paletteNamed(const QString& name) {
    return name == QLatin1String("dark")    ? PaletteKind::Dark
           : name == QLatin1String("night") ? PaletteKind::Night
                                            : PaletteKind::Light;
}

void choose(Desk& desk, const QString& letter) {
    for (std::size_t i = 0; i < desk.aims().size(); ++i) {
        if (desk.aims()[i].label == letter.toStdString()) {
            desk.chooseAim(i);
        }
    }
    if (desk.chosenAim()) {
        const AimLine& aim = desk.aims()[*desk.chosenAim()];
        desk.choosePlace(placeOn(aim.tip, aim.direction, 0.8 * aim.reach));
    }
}

/// The practice water with the tour at the step of that name, gone to its line.
void openTour(MainWindow& window, const QString& name) {
    window.openPractice();
    if (window.desk() == nullptr) {
        return;
    }
    waitUntilIdle(window.desk()->jobs());
    const auto wanted = tourStepNamed(name.toStdString());
    for (std::size_t i = 0; wanted && i < tourStepCount && window.guide().step() != *wanted; ++i) {
        window.guide().goOn();
    }
    window.guide().goToPlace();
}

} // namespace

int main(int argc, char** argv) {
    const QTemporaryDir folder;
    setenv("QT_QPA_PLATFORM", "offscreen", 1);
    testing::usePackagedFonts(folder.path().toStdString());
    QApplication application(argc, argv);
    QApplication::setCursorFlashTime(0); // the caret is there, however long the bed took
    const QStringList arguments = QApplication::arguments();
    if (arguments.size() < 3) {
        std::fputs(
            "usage: screenshot BOOK OUT.png [palette] [width height] [aim] [text]\n", stderr);
        return 2;
    }
    MainWindow window(
        {.practice = folder.filePath(QStringLiteral("wrackle-mere.gpkg")).toStdString(),
         .settings = folder.filePath(QStringLiteral("settings.ini")).toStdString()});
    window.choosePalette(paletteNamed(arguments.value(3)));
    window.setTextScale(arguments.value(7, "1").toDouble());
    window.resize(arguments.value(4, "1280").toInt(), arguments.value(5, "720").toInt());
    window.show();
    const QString book = arguments.at(1);
    const QString tour = QStringLiteral("tour:");
    if (book.startsWith(tour)) {
        openTour(window, book.mid(tour.size()));
    } else if (book != QLatin1String("-") && !window.openBook(book.toStdString())) {
        std::fputs("the book could not be opened\n", stderr);
        return 1;
    }
    if (Desk* desk = window.desk()) {
        waitUntilIdle(desk->jobs());
        if (!book.startsWith(tour)) {
            choose(*desk, arguments.value(6));
        }
        waitUntilIdle(desk->jobs());
    }
    QCoreApplication::processEvents();
    return window.grab().save(arguments.at(2)) ? 0 : 1;
}
