// SPDX-License-Identifier: MIT
#include "gui/document/document.hpp"
#include "tests/gui/held_book.hpp"
#include "tests/gui/support.hpp"

#include <QSignalSpy>
#include <gtest/gtest.h>

#include <optional>

// Something long is written to the book while the window goes on.

namespace bedlore::testing {
namespace {

class LongWrite : public ::testing::Test {
protected:
    TempFolder folder_;
    std::filesystem::path path_ = folder_ / "pit.gpkg";
    std::unique_ptr<Document> document_ = newBook(path_);
    QSignalSpy failures_{document_.get(), &Document::failed};
    QSignalSpy changes_{document_.get(), &Document::changed};
    std::optional<JobBoard> jobs_{std::in_place};
    std::vector<Result<Change>> taken_;

    [[nodiscard]] Document::Behind behind() {
        return {
            .jobs = *jobs_, .kind = QStringLiteral("write"), .words = QStringLiteral("writing")};
    }
    [[nodiscard]] Edits putWater(const std::string& name) const {
        Water water;
        water.id = document_->freeIds().take<Water>();
        water.name = name;
        return {Put<Water>{water}};
    }
    void takeIn(const std::string& water) {
        auto plan = std::make_shared<ImportPlan>();
        plan->edits = putWater(water);
        document_->takeInBehind(
            behind(), "import", plan, [this](const Result<Change>& end) { taken_.push_back(end); });
    }
    [[nodiscard]] std::size_t waters() const { return document_->book()->all<Water>().size(); }
    [[nodiscard]] std::size_t watersOnTheDisk() const {
        const auto stored = BookFile::open(path_, BookAccess::ReadOnly);
        EXPECT_TRUE(stored.has_value()) << stored.error().message;
        return stored ? stored->book().all<Water>().size() : 0;
    }
};

TEST_F(LongWrite, BookStandsAsItWasUntilItIsAllKept) {
    takeIn("Harl Pit");
    EXPECT_TRUE(document_->isBusy());
    EXPECT_EQ(waters(), 0U);
    EXPECT_TRUE(taken_.empty());
    ASSERT_TRUE(waitUntilIdle(*jobs_));
    EXPECT_FALSE(document_->isBusy());
    ASSERT_EQ(taken_.size(), 1U);
    EXPECT_TRUE(taken_[0].has_value());
    EXPECT_EQ(waters(), 1U);
    EXPECT_EQ(watersOnTheDisk(), 1U);
    EXPECT_EQ(changes_.count(), 1);
    EXPECT_EQ(document_->undoWords(), QStringLiteral("import"));
    ASSERT_TRUE(document_->undo().has_value());
    EXPECT_EQ(waters(), 0U) << "one act";
}

TEST_F(LongWrite, WhateverElseWouldWriteIsRefusedInASentence) {
    ASSERT_TRUE(document_->apply("new water", putWater("Wrackle Mere")).has_value());
    takeIn("Harl Pit");
    const auto before = document_->book();
    EXPECT_FALSE(document_->canUndo());
    EXPECT_FALSE(document_->apply("new water", putWater("Third")).has_value());
    EXPECT_FALSE(document_->goOn(putWater("Third")).has_value());
    EXPECT_FALSE(document_->undo().has_value());
    EXPECT_FALSE(document_->saveCopy(folder_ / "copy.gpkg").has_value());
    EXPECT_EQ(failures_.count(), 4);
    for (const auto& failure : failures_) {
        EXPECT_TRUE(failure[0].toString().contains(QLatin1String("being written to")));
    }
    EXPECT_FALSE(document_->writeDerived({}).has_value());
    EXPECT_EQ(failures_.count(), 4) << "what nobody asked for is not said";
    EXPECT_FALSE(document_->catchUp().value());
    EXPECT_EQ(document_->book(), before);
    takeIn("Fourth");
    ASSERT_EQ(taken_.size(), 1U) << "not two at a time";
    EXPECT_FALSE(taken_[0].has_value());
    ASSERT_TRUE(waitUntilIdle(*jobs_));
    EXPECT_EQ(watersOnTheDisk(), 2U);
    EXPECT_TRUE(document_->apply("new water", putWater("Third")).has_value()) << "free again";
}

TEST_F(LongWrite, StoppedBeforeItIsKeptItLeavesNothing) {
    HeldBook other(path_);
    takeIn("Harl Pit");
    jobs_->stop(behind().kind);
    EXPECT_TRUE(document_->isBusy()) << "until the file is free of it";
    other.letGo();
    ASSERT_TRUE(waitUntilIdle(*jobs_));
    EXPECT_FALSE(document_->isBusy());
    ASSERT_EQ(taken_.size(), 1U);
    ASSERT_FALSE(taken_[0].has_value());
    EXPECT_EQ(taken_[0].error().fault, Fault::Cancelled);
    EXPECT_EQ(failures_.count(), 0) << "he stopped it himself";
    EXPECT_EQ(changes_.count(), 0);
    EXPECT_EQ(watersOnTheDisk(), 0U);
    ASSERT_TRUE(document_->apply("new water", putWater("Harl Pit")).has_value());
    EXPECT_EQ(watersOnTheDisk(), 1U);
}

TEST_F(LongWrite, OneThatFailsSaysWhyAndFreesTheBook) {
    {
        const FullDisk full;
        takeIn("Harl Pit");
        ASSERT_TRUE(waitUntilIdle(*jobs_));
    }
    ASSERT_EQ(taken_.size(), 1U);
    EXPECT_FALSE(taken_[0].has_value());
    EXPECT_EQ(failures_.count(), 1);
    EXPECT_EQ(waters(), 0U);
    takeIn("Harl Pit");
    ASSERT_TRUE(waitUntilIdle(*jobs_));
    EXPECT_EQ(watersOnTheDisk(), 1U);
}

TEST_F(LongWrite, BookIsWholeWhereTheWindowGoesInTheMiddle) {
    takeIn("Harl Pit");
    jobs_.reset();
    document_.reset();
    auto stored = BookFile::open(path_, BookAccess::ReadOnly);
    ASSERT_TRUE(stored.has_value()) << stored.error().message;
    EXPECT_EQ(stored->integrity(), "ok");
    EXPECT_LE(stored->book().all<Water>().size(), 1U);
    EXPECT_TRUE(taken_.empty()) << "nobody is there to be told";
}

TEST_F(LongWrite, TablesForOthersAreOfThisBookOnlyWhenTheyAreWritten) {
    ASSERT_TRUE(document_->apply("new water", putWater("Harl Pit")).has_value());
    std::vector<Result<void>> ends;
    const auto write = [&] {
        document_->writeDerivedBehind(
            behind(),
            [](const Progress&) { return Result<std::vector<Reduction>>(std::vector<Reduction>{}); },
            [&ends](const Result<void>& end) { ends.push_back(end); });
    };
    {
        HeldBook other(path_);
        write();
        jobs_->stop(behind().kind);
        other.letGo();
        ASSERT_TRUE(waitUntilIdle(*jobs_));
    }
    ASSERT_EQ(ends.size(), 1U);
    ASSERT_FALSE(ends[0].has_value());
    EXPECT_EQ(ends[0].error().fault, Fault::Cancelled);
    EXPECT_EQ(failures_.count(), 0);
    EXPECT_TRUE(document_->derivedIsStale());
    write();
    ASSERT_TRUE(waitUntilIdle(*jobs_));
    EXPECT_TRUE(ends.back().has_value());
    EXPECT_FALSE(document_->derivedIsStale());
    EXPECT_FALSE(openBook(path_)->derivedIsStale()) << "the file says so too";
    ASSERT_TRUE(document_->undo().has_value());
    EXPECT_TRUE(document_->derivedIsStale());
}

} // namespace
} // namespace bedlore::testing
