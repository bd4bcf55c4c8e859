// SPDX-License-Identifier: MIT
#include "tests/gui/packaged_fonts.hpp"
#include "tests/support/run_tool.hpp"
#include "tests/support/temp_folder.hpp"

#include <QColor>
#include <QImage>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <map>
#include <string>

// The pictures of the README and of the help show the program as it is: they are made anew, as
// tests/screenshot does, and compared.

namespace bedlore::testing {
namespace {

namespace fs = std::filesystem;

const fs::path resources = fs::path(BEDLORE_SOURCE_DIR) / "resources";
constexpr int tile = 16; // pixels

/// The most that one square of two pictures differs, each channel from 0 to 255 on the average of
/// its pixels. 255 where they are not of one size.
double mostDifference(const fs::path& one, const fs::path& other) {
    const QImage a =
        QImage(QString::fromStdString(one.string())).convertToFormat(QImage::Format_RGB32);
    const QImage b =
        QImage(QString::fromStdString(other.string())).convertToFormat(QImage::Format_RGB32);
    if (a.isNull() || a.size() != b.size()) {
        return 255.0;
    }
    double most = 0.0;
    for (int top = 0; top < a.height(); top += tile) {
        for (int left = 0; left < a.width(); left += tile) {
            int sum = 0;
            int pixels = 0;
            for (int y = top; y < std::min(top + tile, a.height()); ++y) {
                for (int x = left; x < std::min(left + tile, a.width()); ++x) {
                    const QRgb p = a.pixel(x, y);
                    const QRgb q = b.pixel(x, y);
                    sum += std::abs(qRed(p) - qRed(q)) + std::abs(qGreen(p) - qGreen(q)) +
                           std::abs(qBlue(p) - qBlue(q));
                    ++pixels;
                }
            }
            most = std::max(most, sum / (3.0 * pixels));
        }
    }
    return most;
}

std::map<std::string, fs::path> picturesIn(const fs::path& folder) {
    std::map<std::string, fs::path> pictures;
    for (const auto& entry : fs::directory_iterator(folder)) {
        pictures[entry.path().filename().string()] = entry.path();
    }
    return pictures;
}

/// Those of `committed` beside what the program makes.
void expectAsMade(const fs::path& committed, const fs::path& made) {
    // Source: by hand. On one machine they come out the same to the pixel (two runs, all five); a
    // colour rounded otherwise on another is 1 or 2 off. A letter that changes turns some 40 pixels
    // of a square of 256 from ink to paper, which are 200 apart: 31.
    constexpr double bound = 8.0;
    const auto anew = picturesIn(made);
    const auto old = picturesIn(committed);
    ASSERT_FALSE(anew.empty());
    EXPECT_EQ(anew.size(), old.size()) << "a picture that nobody makes, or one not committed";
    for (const auto& [name, path] : anew) {
        ASSERT_TRUE(old.contains(name)) << name;
        EXPECT_LE(mostDifference(old.at(name), path), bound)
            << name << " shows the program as it was: run tests/screenshot and look at it";
    }
}

class Pictures : public ::testing::Test {
protected:
    TempFolder folder_;
    fs::path book_ = folder_ / "harl-pit.gpkg";
    fs::path made_ = folder_ / "made";

    void SetUp() override {
        if (!fs::exists(packagedFonts / "DejaVuSansMono.ttf")) {
            GTEST_SKIP() << "they are made with the fonts of " << packagedFonts;
        }
        fs::create_directory(made_);
        fs::copy_file(fs::path(BEDLORE_SOURCE_DIR) / "samples/harl-pit/harl-pit.gpkg", book_);
    }
    void make(const std::string& program, const std::string& arguments) const {
        const ToolRun run = runTool(program + " '" + book_.string() + "' " + arguments);
        ASSERT_EQ(run.status, 0) << run.output;
    }
};

TEST_F(Pictures, OfTheReadmeIsTheWindowAsItIs) {
    // As tests/screenshot calls it.
    make(BEDLORE_SCREENSHOT, "'" + (made_ / "window.png").string() + "' light 1280 720 C");
    expectAsMade(resources / "pictures", made_);
}

TEST_F(Pictures, OfTheHelpAreTheProgramAsItIs) {
    make(BEDLORE_HELP_PICTURES, "'" + made_.string() + "'");
    expectAsMade(resources / "help" / "pictures", made_);
}

TEST(PictureDifference, OneLetterIsNoticedAndAColourRoundedOtherwiseIsNot) {
    const TempFolder folder;
    QImage picture(64, 48, QImage::Format_RGB32);
    picture.fill(QColor(251, 248, 242));
    const auto save = [&](const char* name) {
        EXPECT_TRUE(picture.save(QString::fromStdString((folder / name).string())));
        return folder / name;
    };
    const fs::path paper = save("paper.png");
    EXPECT_EQ(mostDifference(paper, paper), 0.0);
    for (int i = 0; i < 40; ++i) { // the upright of a letter and its bar
        picture.setPixelColor(20 + (i % 4), 18 + i / 4, QColor(36, 33, 28));
    }
    EXPECT_GT(mostDifference(paper, save("letter.png")), 8.0);
    picture.fill(QColor(249, 246, 244));
    EXPECT_LT(mostDifference(paper, save("rounded.png")), 8.0);
    EXPECT_EQ(mostDifference(paper, folder / "none.png"), 255.0);
}

} // namespace
} // namespace bedlore::testing
