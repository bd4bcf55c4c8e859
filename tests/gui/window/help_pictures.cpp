// SPDX-License-Identifier: MIT
#include "gui/window/main_window.hpp"
#include "tests/gui/drive.hpp"
#include "tests/gui/packaged_fonts.hpp"

#include <QApplication>
#include <QFile>
#include <QStringList>
#include <QTemporaryDir>

#include <cstdio>
#include <cstdlib>

// Makes the help's pictures from the program as it is: help_pictures BOOK FOLDER. A copy of the
// book is used; no display is needed.

namespace {

using namespace bedlore;
using testing::pressKeys;
using testing::waitUntilIdle;

constexpr int pageWidth = 620; // pixels that a page of the help has

class Pictures {
public:
    Pictures(MainWindow& window, QString folder)
        : window_(window)
        , folder_(std::move(folder)) {}

    void take(QWidget& part, const QString& name) {
        QCoreApplication::processEvents();
        const QPixmap picture = part.grab();
        const QPixmap fitting = picture.width() > pageWidth
                                    ? picture.scaledToWidth(pageWidth, Qt::SmoothTransformation)
                                    : picture;
        if (!fitting.save(folder_ + u'/' + name + QStringLiteral(".png"))) {
            std::fprintf(stderr, "%s cannot be written\n", name.toLocal8Bit().constData());
            failed_ = true;
        }
    }

    /// The window on an aim of the sample, then its parts.
    void takeMap() {
        Desk& desk = *window_.desk();
        waitUntilIdle(desk.jobs());
        for (std::size_t i = 0; i < desk.aims().size(); ++i) {
            if (desk.aims()[i].label == "C") {
                desk.chooseAim(i);
            }
        }
        if (desk.chosenAim()) {
            const AimLine& aim = desk.aims()[*desk.chosenAim()];
            desk.choosePlace(placeOn(aim.tip, aim.direction, 0.8 * aim.reach));
        }
        waitUntilIdle(desk.jobs());
        take(window_, QStringLiteral("first-map"));
        take(desk.plan(), QStringLiteral("map"));
        take(desk.sideView(), QStringLiteral("side-view"));
    }

    /// A page with a line that has to be asked about.
    void takeQuestion() {
        window_.newPage();
        Desk& desk = *window_.desk();
        PageEditor& editor = desk.page().editor();
        editor.selectAll();
        pressKeys(
            editor,
            QStringLiteral("swim the Point\ndate 2025-04-12\nsticks 12 ft\ndistances wraps\n"
                           "depths ft\naim A = dead pine\nA 32 6'\n30 7½ wd\n28½ 11.6 gr\n"));
        waitUntilIdle(desk.jobs());
        take(desk.page(), QStringLiteral("question"));
    }

    [[nodiscard]] bool failed() const { return failed_; }

private:
    MainWindow& window_;
    QString folder_;
    bool failed_ = false;
};

} // namespace

int main(int argc, char** argv) {
    const QTemporaryDir folder;
    setenv("QT_QPA_PLATFORM", "offscreen", 1);
    testing::usePackagedFonts(folder.path().toStdString());
    QApplication application(argc, argv);
    QApplication::setCursorFlashTime(0); // the caret is there, however long the bed took
    const QStringList arguments = QApplication::arguments();
    if (arguments.size() != 3) {
        std::fputs("usage: help_pictures BOOK FOLDER\n", stderr);
        return 2;
    }
    const QString copy = folder.filePath(QStringLiteral("Harl Pit.gpkg"));
    MainWindow window({.settings = folder.filePath(QStringLiteral("settings.ini")).toStdString()});
    window.resize(1120, 680);
    window.show();
    if (!QFile::copy(arguments.at(1), copy) || !window.openBook(copy.toStdString())) {
        std::fputs("the book could not be opened\n", stderr);
        return 1;
    }
    Pictures pictures(window, arguments.at(2));
    pictures.takeMap();
    pictures.takeQuestion();
    return pictures.failed() ? 1 : 0;
}
