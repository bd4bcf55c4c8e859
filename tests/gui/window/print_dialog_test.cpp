// SPDX-License-Identifier: MIT
#include "gui/dialogs/print_dialog.hpp"
#include "gui/widgets/sheet_view.hpp"
#include "tests/gui/window/open_window.hpp"

#include <QAction>
#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QPushButton>
#include <QRadioButton>

#include <fstream>
#include <iterator>

// The sheet before it is printed.

namespace bedlore::testing {
namespace {

class Printing : public ::testing::Test {
protected:
    OpenWindow open_;

    PrintDialog& dialog() {
        if (shown_ == nullptr) {
            if (open_.window.findChild<PrintDialog*>() == nullptr) {
                open_.typePage(eveningPage());
                open_.window.action(QStringLiteral("print"))->trigger();
            }
            shown_ = &open_.part<PrintDialog>("printDialog");
        }
        EXPECT_TRUE(waitUntilIdle(shown_->jobs()));
        return *shown_;
    }
    template <class Part>
    Part& part(const char* name) {
        auto* found = dialog().findChild<Part*>(QString::fromLatin1(name));
        EXPECT_NE(found, nullptr) << name;
        return *found;
    }
    void choose(const char* name) {
        QTest::keyClick(&part<QRadioButton>(name), Qt::Key_Space);
        EXPECT_TRUE(waitUntilIdle(dialog().jobs()));
    }
    std::string written(const std::string& name) {
        const auto path = open_.folder / name;
        dialog().writePdf(path);
        EXPECT_TRUE(waitUntilIdle(dialog().jobs()));
        std::ifstream in(path, std::ios::binary);
        return {std::istreambuf_iterator<char>(in), {}};
    }

private:
    PrintDialog* shown_ = nullptr;
};

/// Whether any pixel of the picture has a colour and is not grey.
bool hasColour(const QImage& picture) {
    for (int y = 0; y < picture.height(); ++y) {
        for (int x = 0; x < picture.width(); ++x) {
            const QColor c = picture.pixelColor(x, y);
            if (std::abs(c.red() - c.blue()) > 40) {
                return true;
            }
        }
    }
    return false;
}

TEST_F(Printing, ShowsTheSheetInColourOrBlackOnWhite) {
    auto& sheet = part<SheetView>("sheetView");
    EXPECT_TRUE(hasColour(sheet.grab().toImage()));
    choose("inkBlack");
    EXPECT_EQ(dialog().fill(), DepthFill::Plain);
    part<QRadioButton>("inkBlack").setFocus(); // the frame of what has the focus has a colour
    EXPECT_FALSE(hasColour(sheet.viewport()->grab().toImage()));
}

TEST_F(Printing, HoldsTheLineThatWasBeingTyped) {
    open_.typePage(eveningPage());
    const std::size_t before = open_.records()->all<Reading>().size();
    open_.press("15 9");
    open_.window.action(QStringLiteral("print"))->trigger();
    ASSERT_TRUE(
        QTest::qWaitFor([&] { return open_.window.findChild<PrintDialog*>() != nullptr; }, 60'000));
    choose("tier_all");
    const QString words = part<QLabel>("printHoldings").text();
    EXPECT_TRUE(words.contains(QString::number(before + 1) + QStringLiteral(" readings")))
        << words.toStdString();
}

TEST_F(Printing, ComesNearerAndFitsByKeys) {
    auto& sheet = part<SheetView>("sheetView");
    const double whole = sheet.scale();
    QTest::keyClick(&sheet, Qt::Key_Plus);
    EXPECT_GT(sheet.scale(), whole);
    QTest::keyClick(&sheet, Qt::Key_Minus);
    EXPECT_DOUBLE_EQ(sheet.scale(), whole);
    QTest::keyClick(&sheet, Qt::Key_Minus);
    EXPECT_DOUBLE_EQ(sheet.scale(), whole) << "no farther than all of it";
    QTest::keyClick(&sheet, Qt::Key_Plus);
    QTest::keyClick(&sheet, Qt::Key_0);
    EXPECT_DOUBLE_EQ(sheet.scale(), whole);
}

TEST_F(Printing, SmallerPaperIsShownLarger) {
    auto& sheet = part<SheetView>("sheetView");
    const double a4 = sheet.scale();
    choose("paperA6");
    // Source: ISO 216. A4 is 297 mm high, A6 148 mm: twice, and half a millimetre over.
    EXPECT_NEAR(sheet.scale() / a4, 297.0 / 148.0, 0.01);
}

TEST_F(Printing, WritesThePaperThatIsChosen) {
    // Source: ISO 216 in points of 1/72 in: A4 210 mm × 297 mm is 595 × 842, A5 148 × 210 is
    // 420 × 595.
    EXPECT_NE(written("a4.pdf").find("/MediaBox [0 0 595"), std::string::npos);
    choose("paperA5");
    EXPECT_NE(written("a5.pdf").find("/MediaBox [0 0 420"), std::string::npos);
    const QString said = part<QLabel>("printSaid").text();
    EXPECT_TRUE(said.startsWith(QStringLiteral("Written: a5.pdf, in "))) << said.toStdString();
}

TEST_F(Printing, HoldsDepthsAloneUntilAskedForMore) {
    auto& holds = part<QLabel>("printHoldings");
    EXPECT_TRUE(holds.text().contains(QStringLiteral("no casts")));
    choose("tier_all");
    EXPECT_TRUE(holds.text().contains(QStringLiteral("51 readings")));
    EXPECT_TRUE(holds.text().contains(QStringLiteral("private spots and marks are left out")));
    QTest::keyClick(&part<QCheckBox>("exportPrivate"), Qt::Key_Space);
    EXPECT_TRUE(waitUntilIdle(dialog().jobs()));
    EXPECT_TRUE(holds.text().contains(QStringLiteral("private spots and marks too")));
}

TEST_F(Printing, SaysThatEverySheetHasTheDayOfPrinting) {
    auto& holds = part<QLabel>("printHoldings");
    for (const char* tier : {"tier_all", "tier_bottom", "tier_depth"}) {
        choose(tier);
        EXPECT_TRUE(holds.text().contains(QStringLiteral("the day of printing"))) << tier;
    }
    EXPECT_TRUE(holds.text().contains(QStringLiteral("no casts, readings, swims, spots, names or "
                                                     "other dates")));
}

TEST_F(Printing, SaysWhatToDoWhereAPrinterDoesNotAnswer) {
    auto& printers = part<QComboBox>("printers");
    printers.addItem(QStringLiteral("no such printer"));
    printers.setCurrentIndex(printers.count() - 1);
    part<QPushButton>("printPrint").click();
    const QString said = part<QLabel>("printSaid").text();
    EXPECT_TRUE(
        said.startsWith(QStringLiteral("The printer no such printer does not answer. See ")))
        << said.toStdString();
    EXPECT_TRUE(said.contains(QStringLiteral("or write a PDF")));
}

TEST_F(Printing, SaysWhenThereIsNoPrinter) {
    if (part<QComboBox>("printers").count() > 0) {
        GTEST_SKIP() << "this machine has a printer";
    }
    EXPECT_TRUE(
        part<QLabel>("printSaid").text().startsWith(QStringLiteral("No printer is set up")));
    EXPECT_TRUE(part<QPushButton>("printPrint").isHidden());
}

TEST_F(Printing, SaysWhyAPdfCannotBeWritten) {
    dialog().writePdf(open_.folder / "no such folder" / "map.pdf");
    EXPECT_TRUE(waitUntilIdle(dialog().jobs()));
    EXPECT_FALSE(part<QLabel>("printSaid").text().isEmpty());
    EXPECT_TRUE(part<QLabel>("printSaid").property("warning").toBool());
}

TEST_F(Printing, RemembersPaperAndInkButNotHowMuch) {
    choose("paperA5");
    choose("inkBlack");
    choose("tier_all");
    QTest::keyClick(&dialog(), Qt::Key_Escape);
    QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
    open_.window.action(QStringLiteral("print"))->trigger();
    auto& again = open_.part<PrintDialog>("printDialog");
    EXPECT_TRUE(waitUntilIdle(again.jobs()));
    EXPECT_EQ(again.paper(), SheetPaper::A5);
    EXPECT_EQ(again.fill(), DepthFill::Plain);
    EXPECT_TRUE(again.findChild<QRadioButton*>(QStringLiteral("tier_depth"))->isChecked());
}

} // namespace
} // namespace bedlore::testing
