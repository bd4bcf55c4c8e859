// SPDX-License-Identifier: MIT
#include "gui/dialogs/export_dialog.hpp"
#include "gui/dialogs/help_window.hpp"
#include "gui/dialogs/import_dialog.hpp"
#include "gui/dialogs/print_dialog.hpp"
#include "gui/paint/red_light.hpp"
#include "tests/gui/window/file_question.hpp"
#include "tests/gui/window/open_window.hpp"
#include "tests/gui/window/passing_dialogs.hpp"

#include <QAction>
#include <QDialog>
#include <QDialogButtonBox>
#include <QImage>
#include <QLineEdit>
#include <QProxyStyle>
#include <QPushButton>

#include <algorithm>
#include <fstream>

// By night everything on the screen is in red light: green and blue spoil eyes that are used to
// the dark. The bound is that of the palette's own test.

namespace bedlore::testing {
namespace {

/// The pixels with more green or blue than three quarters of their red, and one of them in words.
struct OtherLight {
    int count = 0;
    std::string worst;
};

OtherLight otherLight(const QImage& grabbed) {
    constexpr int rounding = 2; // where colours are mixed, each is rounded twice
    const QImage picture = grabbed.convertToFormat(QImage::Format_RGB32);
    OtherLight other;
    int most = 0;
    for (int y = 0; y < picture.height(); ++y) {
        for (int x = 0; x < picture.width(); ++x) {
            const QRgb colour = picture.pixel(x, y);
            const int over = std::max(qGreen(colour), qBlue(colour)) - 3 * qRed(colour) / 4;
            other.count += over > rounding ? 1 : 0;
            if (over > std::max(most, rounding)) {
                most = over;
                other.worst = QColor(colour).name().toStdString() + " at " + std::to_string(x) +
                              ", " + std::to_string(y);
            }
        }
    }
    return other;
}

void expectRed(QWidget& shown, const std::string& what) {
    const OtherLight other = otherLight(shown.grab().toImage());
    EXPECT_EQ(other.count, 0) << what << ": " << other.worst;
}

struct NightDesk : OpenWindow {
    NightDesk() {
        typePage(eveningPage());
        window.choosePalette(PaletteKind::Night);
        EXPECT_TRUE(waitUntilIdle(desk().jobs()));
    }
    ~NightDesk() { window.choosePalette(PaletteKind::Light); } // the other tests' colours
    NightDesk(const NightDesk&) = delete;
    NightDesk& operator=(const NightDesk&) = delete;
    NightDesk(NightDesk&&) = delete;
    NightDesk& operator=(NightDesk&&) = delete;
    void trigger(const char* name) { window.action(QString::fromLatin1(name))->trigger(); }
};

TEST(Night, OtherLightIsSeen) {
    QImage picture(3, 1, QImage::Format_RGB32);
    picture.setPixel(0, 0, qRgb(200, 150, 150)); // three quarters
    picture.setPixel(1, 0, qRgb(200, 153, 0));
    picture.setPixel(2, 0, qRgb(255, 255, 255));
    EXPECT_EQ(otherLight(picture).count, 2);
    EXPECT_EQ(otherLight(picture).worst, "#ffffff at 2, 0");
    EXPECT_EQ(otherLight(inRedLight(picture)).count, 0);
}

TEST(Night, TheWindowIsInRedLight) {
    NightDesk open;
    open.trigger("panelAims");
    open.trigger("panelShorthand");
    open.window.action(QStringLiteral("find"))->trigger();
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    expectRed(open.window, "the desk");
    ASSERT_TRUE(open.window.closeBook());
    expectRed(open.window, "the start");
}

/// Pixels of a part that are painted otherwise when the caret is put away.
int caretPixels(QWidget& edit, QWidget& canvas) {
    edit.window()->activateWindow();
    edit.setFocus();
    EXPECT_TRUE(QTest::qWaitFor([&] { return edit.hasFocus(); }));
    const auto grabbed = [&] {
        QCoreApplication::processEvents();
        QCoreApplication::processEvents(); // the caret follows what was painted
        return canvas.grab().toImage().convertToFormat(QImage::Format_RGB32);
    };
    const QImage with = grabbed();
    auto* line = canvas.findChild<QWidget*>(QStringLiteral("inkCaret"));
    EXPECT_NE(line, nullptr);
    line->hide();
    const QImage without = canvas.grab().toImage().convertToFormat(QImage::Format_RGB32);
    line->show();
    int count = 0;
    for (int y = 0; y < with.height(); ++y) {
        for (int x = 0; x < with.width(); ++x) {
            count += with.pixel(x, y) != without.pixel(x, y) ? 1 : 0;
        }
    }
    EXPECT_EQ(otherLight(with).count, 0);
    return count;
}

// Qt's own picture for it is grey by night too, and comes up so slowly that a look at the pixels
// may miss it.
TEST(Night, NoLineThatIsTypedIntoHasTheToolkitsGreyCross) {
    NightDesk open;
    open.window.action(QStringLiteral("find"))->trigger();
    open.trigger("help");
    int lines = 0;
    for (const QLineEdit* line : open.window.findChildren<QLineEdit*>()) {
        ++lines;
        EXPECT_FALSE(line->isClearButtonEnabled()) << line->objectName().toStdString();
    }
    EXPECT_GE(lines, 2) << "find, and the help's search";
}

TEST(Night, TheCaretStandsInInkWhereHeTypes) {
    NightDesk open;
    EXPECT_GT(caretPixels(open.editor(), *open.editor().viewport()), 10) << "the page";
    open.window.action(QStringLiteral("find"))->trigger();
    auto& find = open.part<QLineEdit>("findLine");
    QTest::keyClicks(&find, QStringLiteral("gravel"));
    EXPECT_GT(caretPixels(find, find), 10) << "a line edit";
}

TEST(Night, EveryPageOfTheHelpToo) {
    NightDesk open;
    open.trigger("help");
    auto& help = open.part<HelpWindow>("helpWindow");
    help.resize(960, 8000); // all of a page at once
    int pictures = 0;
    for (const HelpTopic& topic : help.topics()) {
        ASSERT_TRUE(help.show(topic.id));
        pictures += static_cast<int>(topic.markdown.count(QStringLiteral("![")));
        expectRed(help, topic.id.toStdString());
    }
    EXPECT_GT(pictures, 0);
}

TEST(Night, HelpThatIsOpenFollowsThePalette) {
    NightDesk open;
    open.window.choosePalette(PaletteKind::Light);
    open.trigger("help");
    auto& help = open.part<HelpWindow>("helpWindow");
    help.resize(960, 8000);
    const auto withPicture =
        std::find_if(help.topics().begin(), help.topics().end(), [](const HelpTopic& topic) {
            return topic.markdown.contains(QStringLiteral("!["));
        });
    ASSERT_NE(withPicture, help.topics().end());
    ASSERT_TRUE(help.show(withPicture->id));
    EXPECT_GT(otherLight(help.grab().toImage()).count, 0);
    open.window.choosePalette(PaletteKind::Night);
    EXPECT_EQ(help.topic(), withPicture->id);
    expectRed(help, "after dusk");
    open.window.choosePalette(PaletteKind::Light);
    EXPECT_GT(otherLight(help.grab().toImage()).count, 0) << "its own colours again";
}

TEST(Night, EveryDialogToo) {
    NightDesk open;
    for (const char* name : {"print", "keys", "swimPlace", "levelMark", "privateThings"}) {
        open.trigger(name);
    }
    auto* print = open.window.findChild<PrintDialog*>();
    ASSERT_NE(print, nullptr);
    ASSERT_TRUE(waitUntilIdle(print->jobs()));
    int opened = 0;
    for (QDialog* dialog : open.window.findChildren<QDialog*>()) {
        ++opened;
        expectRed(*dialog, dialog->objectName().toStdString());
    }
    EXPECT_EQ(opened, 5) << "sheet, list of keys, swim, level, what is private";
    ExportDialog files(
        open.desk().builder().map(),
        {.folder = QString::fromStdString(open.folder.path().string()),
         .name = QStringLiteral("Harl Pit"),
         .units = {}});
    files.show();
    expectRed(files, "export");
    PassingDialogs passing;
    for (QDialog* dialog : passing.all()) {
        expectRed(*dialog, dialog->objectName().toStdString());
    }
    std::ofstream(open.folder / "page.txt") << whole(eveningPage()) << "what is this\n";
    open.window.importFiles({open.folder / "page.txt"});
    ASSERT_TRUE(waitUntilIdle(open.desk().jobs()));
    expectRed(open.part<ImportDialog>("importDialog"), "import");
}

/// As on a desktop that puts a picture on every button of a dialog.
class StyleWithPictures : public QProxyStyle {
public:
    StyleWithPictures()
        : QProxyStyle(QStringLiteral("fusion")) {}
    int styleHint(
        StyleHint hint,
        const QStyleOption* option,
        const QWidget* widget,
        QStyleHintReturn* more) const override {
        return hint == SH_DialogButtonBox_ButtonsHaveIcons
                   ? 1
                   : QProxyStyle::styleHint(hint, option, widget, more);
    }
};

TEST(Night, ButtonsOfDialogsHaveNoPicturesWhateverTheDesktopLikes) {
    NightDesk open;
    StyleWithPictures pictures;
    EXPECT_EQ(pictures.styleHint(QStyle::SH_DialogButtonBox_ButtonsHaveIcons, {}, {}, {}), 1);
    QDialogButtonBox box;
    box.setStyle(&pictures);
    EXPECT_EQ(box.style()->styleHint(QStyle::SH_DialogButtonBox_ButtonsHaveIcons, {}, &box), 0);
    const QPushButton* button = box.addButton(QDialogButtonBox::Open);
    EXPECT_TRUE(button->icon().isNull()) << "it would come in colours of its own";
}

TEST(Night, FileDialogsAreOurOwnAndInRedLight) {
    NightDesk open;
    std::filesystem::create_directory(open.folder / "folder");
    open.window.settings().keepFolder(
        QStringLiteral("books"), QString::fromStdString(open.folder.path().string()));
    int asked = 0;
    for (const char* name : {"newBook", "openBook", "saveCopy", "saveTables", "import"}) {
        answerNextFileQuestion([&](QFileDialog& dialog) {
            ++asked;
            for (auto* edit : dialog.findChildren<QLineEdit*>()) {
                edit->setReadOnly(true); // no blinking line
            }
            expectRed(dialog, name);
            return QString();
        });
        open.trigger(name);
    }
    EXPECT_EQ(asked, 5);
    // Whether the system's own would come up cannot be seen without one: whether Qt is told not to.
    EXPECT_TRUE(QCoreApplication::testAttribute(Qt::AA_DontUseNativeDialogs));
    open.window.choosePalette(PaletteKind::Dark);
    EXPECT_FALSE(QCoreApplication::testAttribute(Qt::AA_DontUseNativeDialogs));
}

} // namespace
} // namespace bedlore::testing
