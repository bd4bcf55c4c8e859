// SPDX-License-Identifier: MIT
#include "core/io/book_tables.hpp"
#include "gui/document/document.hpp"
#include "tests/gui/support.hpp"
#include "tests/support/run_tool.hpp"

#include <QSignalSpy>
#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace bedlore {
namespace {

using testing::FullDisk;
using testing::newBook;
using testing::openBook;
using testing::TempFolder;

Edits putWater(Document& document, const std::string& name) {
    Water water;
    water.id = document.freeIds().take<Water>();
    water.name = name;
    return {Put<Water>{water}};
}

TEST(Document, AnEditIsInTheFileBeforeItIsSaid) {
    const TempFolder folder;
    const auto document = newBook(folder / "pit.gpkg");
    std::size_t storedWhenSaid = 0;
    QObject::connect(document.get(), &Document::changed, document.get(), [&] {
        const auto stored = Document::open(folder / "pit.gpkg", BookAccess::ReadOnly);
        ASSERT_TRUE(stored.has_value()) << stored.error().message;
        storedWhenSaid = (*stored)->book()->all<Water>().size();
    });
    ASSERT_TRUE(document->apply("new water", putWater(*document, "Harl Pit")).has_value());
    EXPECT_EQ(storedWhenSaid, 1U);
    EXPECT_EQ(document->book()->all<Water>().begin()->name, "Harl Pit");
}

TEST(Document, UndoAndRedoLeadBackExactly) {
    const TempFolder folder;
    const auto document = newBook(folder / "pit.gpkg");
    const Book empty = *document->book();
    ASSERT_TRUE(document->apply("new water", putWater(*document, "Harl Pit")).has_value());
    const Book full = *document->book();
    EXPECT_EQ(document->undoWords(), QStringLiteral("new water"));
    ASSERT_TRUE(document->undo().has_value());
    EXPECT_TRUE(*document->book() == empty);
    EXPECT_FALSE(document->canUndo());
    EXPECT_EQ(document->redoWords(), QStringLiteral("new water"));
    ASSERT_TRUE(document->redo().has_value());
    EXPECT_TRUE(*document->book() == full);
    EXPECT_FALSE(document->canRedo());
}

TEST(Document, AnIdIsNotUsedAgainAfterUndo) {
    const TempFolder folder;
    const auto document = newBook(folder / "pit.gpkg");
    const std::int64_t first = document->freeIds().next();
    ASSERT_TRUE(document->apply("new water", putWater(*document, "Harl Pit")).has_value());
    ASSERT_TRUE(document->undo().has_value());
    EXPECT_GT(document->freeIds().next(), first);
}

/// Tables of a book whose ids up to 39 are given away, some to records that are gone.
ImportPlan planOfTables(const Document& document, const std::filesystem::path& folder) {
    Water water;
    water.id = Id<Water>{7};
    water.name = "Harl Pit";
    Book book;
    book.all<Water>().put(water);
    const auto written = writeBookTables(book, 40, folder);
    EXPECT_TRUE(written) << written.error().message;
    auto plan = planImport(*document.book(), document.freeIds().next(), {folder}, {});
    EXPECT_TRUE(plan) << plan.error().message;
    return *std::move(plan);
}

TEST(Document, AnIdThatATakenInBookGaveAwayIsNotUsedAgain) {
    const TempFolder folder;
    const auto document = newBook(folder / "pit.gpkg");
    const ImportPlan plan = planOfTables(*document, folder / "tables");
    ASSERT_TRUE(document->takeIn("import", plan).has_value());
    EXPECT_EQ(document->book()->all<Water>().size(), 1U);
    EXPECT_EQ(document->freeIds().next(), 40);
    ASSERT_TRUE(document->undo().has_value());
    EXPECT_EQ(document->freeIds().next(), 40);
    const auto stored = Document::open(folder / "pit.gpkg", BookAccess::ReadOnly);
    ASSERT_TRUE(stored.has_value());
    EXPECT_EQ((*stored)->freeIds().next(), 40);
}

TEST(Document, AnIdIsNotUsedAgainAlsoWhereNothingWasNew) {
    const TempFolder folder;
    const auto document = newBook(folder / "pit.gpkg");
    ImportPlan plan = planOfTables(*document, folder / "tables");
    plan.edits.clear(); // as for a book that holds all of it
    QSignalSpy writing(document.get(), &Document::writing);
    QSignalSpy changed(document.get(), &Document::changed);
    ASSERT_TRUE(document->takeIn("import", plan).has_value());
    EXPECT_EQ(writing.count(), 0) << "nobody is to wait for a change that does not come";
    EXPECT_EQ(changed.count(), 0);
    EXPECT_FALSE(document->canUndo()) << "there is nothing to take back";
    EXPECT_EQ(document->freeIds().next(), 40);
    const auto stored = Document::open(folder / "pit.gpkg", BookAccess::ReadOnly);
    ASSERT_TRUE(stored.has_value());
    EXPECT_EQ((*stored)->freeIds().next(), 40);
}

TEST(Document, WhileTheDiskIsWaitedForTheBookIsStillWhatIsKept) {
    const TempFolder folder;
    const auto document = newBook(folder / "pit.gpkg");
    const auto before = document->book();
    std::vector<std::string> said;
    const auto say = [&](const char* word) {
        said.emplace_back(word);
        said.back() += document->book() == before ? ": before" : ": after";
    };
    QObject::connect(document.get(), &Document::writing, [&] { say("writing"); });
    QObject::connect(document.get(), &Document::beingWritten, [&] { say("being written"); });
    QObject::connect(document.get(), &Document::changed, [&] { say("changed"); });
    ASSERT_TRUE(document->apply("one", putWater(*document, "One")).has_value());
    const std::vector<std::string> expected = {
        "writing: before", "being written: before", "changed: after"};
    EXPECT_EQ(said, expected);
}

TEST(Document, ANewActForgetsWhatWasUndone) {
    const TempFolder folder;
    const auto document = newBook(folder / "pit.gpkg");
    ASSERT_TRUE(document->apply("one", putWater(*document, "One")).has_value());
    ASSERT_TRUE(document->undo().has_value());
    ASSERT_TRUE(document->apply("two", putWater(*document, "Two")).has_value());
    EXPECT_FALSE(document->canRedo());
    EXPECT_FALSE(document->redo().has_value());
}

TEST(Document, AFailedWriteMovesNothingAndSaysWhy) {
    const TempFolder folder;
    const auto document = newBook(folder / "pit.gpkg");
    ASSERT_TRUE(document->apply("one", putWater(*document, "One")).has_value());
    const auto before = document->book();
    QSignalSpy changes(document.get(), &Document::changed);
    QSignalSpy failures(document.get(), &Document::failed);
    {
        const FullDisk disk;
        EXPECT_FALSE(document->apply("two", putWater(*document, "Two")).has_value());
        EXPECT_FALSE(document->undo().has_value());
    }
    EXPECT_EQ(document->book(), before);
    EXPECT_EQ(document->undoWords(), QStringLiteral("one"));
    EXPECT_EQ(changes.count(), 0);
    ASSERT_EQ(failures.count(), 2);
    EXPECT_FALSE(failures.at(0).at(0).toString().isEmpty());
    // Nothing is broken either: the same act succeeds once there is room again.
    ASSERT_TRUE(document->apply("two", putWater(*document, "Two")).has_value());
    EXPECT_EQ(document->book()->all<Water>().size(), 2U);
}

TEST(Document, AnEditThatPointsNowhereIsRefused) {
    const TempFolder folder;
    const auto document = newBook(folder / "pit.gpkg");
    Swim swim;
    swim.id = {10};
    swim.water = {9};
    QSignalSpy failures(document.get(), &Document::failed);
    EXPECT_FALSE(document->apply("swim", {Put<Swim>{swim}}).has_value());
    EXPECT_EQ(failures.count(), 1);
    EXPECT_TRUE(document->book()->all<Swim>().empty());
}

TEST(Document, ASecondOpenerOnlyReads) {
    const TempFolder folder;
    const auto first = newBook(folder / "pit.gpkg");
    const auto second = openBook(folder / "pit.gpkg");
    ASSERT_NE(second, nullptr);
    EXPECT_FALSE(second->isWritable());
    EXPECT_FALSE(second->notices().isEmpty());
    EXPECT_FALSE(second->canUndo());
    QSignalSpy failures(second.get(), &Document::failed);
    EXPECT_FALSE(second->apply("water", putWater(*second, "Other")).has_value());
    EXPECT_EQ(failures.count(), 1);
}

TEST(Document, WhatAnotherProgramChangedIsShownBeforeTheNextEdit) {
    const TempFolder folder;
    const auto document = newBook(folder / "pit.gpkg");
    ASSERT_TRUE(document->apply("one", putWater(*document, "One")).has_value());
    const testing::ToolRun changed = testing::runTool(
        "sqlite3 '" + (folder / "pit.gpkg").string() + "' \"UPDATE waters SET name = 'Theirs'\"");
    ASSERT_EQ(changed.status, 0) << changed.output;
    QSignalSpy changes(document.get(), &Document::changed);
    QSignalSpy failures(document.get(), &Document::failed);
    EXPECT_FALSE(document->apply("two", putWater(*document, "Two")).has_value());
    ASSERT_EQ(changes.count(), 1);
    ASSERT_EQ(failures.count(), 1);
    EXPECT_TRUE(failures.at(0).at(0).toString().contains(QStringLiteral("Another program")));
    EXPECT_EQ(document->book()->all<Water>().begin()->name, "Theirs");
    EXPECT_FALSE(document->canUndo());
    ASSERT_TRUE(document->apply("two", putWater(*document, "Two")).has_value());
    EXPECT_EQ(document->book()->all<Water>().size(), 2U);
    EXPECT_EQ(failures.count(), 1);
}

TEST(Document, UndoAfterAnotherProgramsChangeSaysThatThereIsNothingLeftToUndo) {
    const TempFolder folder;
    const auto document = newBook(folder / "pit.gpkg");
    ASSERT_TRUE(document->apply("one", putWater(*document, "One")).has_value());
    const testing::ToolRun changed = testing::runTool(
        "sqlite3 '" + (folder / "pit.gpkg").string() + "' \"UPDATE waters SET name = 'Theirs'\"");
    ASSERT_EQ(changed.status, 0) << changed.output;
    QSignalSpy failures(document.get(), &Document::failed);
    EXPECT_FALSE(document->undo().has_value());
    ASSERT_EQ(failures.count(), 1);
    EXPECT_TRUE(failures.at(0).at(0).toString().contains(QStringLiteral("cannot be undone")));
    EXPECT_EQ(document->book()->all<Water>().begin()->name, "Theirs");
}

TEST(Document, OneThatCanOnlyBeReadSaysHowToWriteAgain) {
    const TempFolder folder;
    const auto document = newBook(folder / "pit.gpkg");
    const auto reader = openBook(folder / "pit.gpkg");
    QSignalSpy failures(reader.get(), &Document::failed);
    EXPECT_FALSE(reader->apply("one", putWater(*document, "One")).has_value());
    ASSERT_EQ(failures.count(), 1);
    EXPECT_TRUE(failures.at(0).at(0).toString().contains(
        QStringLiteral("choose Open again in the Book menu; or save a copy")));
    EXPECT_TRUE(reader->book()->all<Water>().empty());
}

TEST(Document, CatchingUpIsSaidOnceAndOnlyWhereThereIsSomething) {
    const TempFolder folder;
    const auto document = newBook(folder / "pit.gpkg");
    const auto reader = openBook(folder / "pit.gpkg");
    ASSERT_FALSE(reader->isWritable());
    QSignalSpy said(reader.get(), &Document::caughtUp);
    EXPECT_EQ(reader->catchUp(), Result<bool>(false));
    ASSERT_TRUE(document->apply("one", putWater(*document, "One")).has_value());
    EXPECT_EQ(reader->catchUp(), Result<bool>(true));
    EXPECT_EQ(reader->catchUp(), Result<bool>(false));
    EXPECT_EQ(said.count(), 1);
    EXPECT_TRUE(*reader->book() == *document->book());
}

TEST(Document, TablesForOthersThatCannotBeWrittenAreSaid) {
    const TempFolder folder;
    const auto document = newBook(folder / "pit.gpkg");
    ASSERT_TRUE(document->apply("one", putWater(*document, "One")).has_value());
    const auto reader = openBook(folder / "pit.gpkg");
    QSignalSpy ofReader(reader.get(), &Document::failed);
    EXPECT_FALSE(reader->writeDerived({}).has_value());
    ASSERT_EQ(ofReader.count(), 1);
    EXPECT_TRUE(ofReader.at(0).at(0).toString().contains(QStringLiteral("reading only")));
    QSignalSpy ofWriter(document.get(), &Document::failed);
    {
        const FullDisk disk;
        EXPECT_FALSE(document->writeDerived({}).has_value());
    }
    ASSERT_EQ(ofWriter.count(), 1);
    EXPECT_TRUE(ofWriter.at(0).at(0).toString().startsWith(
        QStringLiteral("The tables for other programs were not written.")));
    EXPECT_TRUE(document->derivedIsStale());
    EXPECT_TRUE(document->writeDerived({}).has_value());
    EXPECT_FALSE(document->derivedIsStale());
    EXPECT_EQ(ofWriter.count(), 1);
}

TEST(Document, WhoGivesUpWritingLeavesItToTheNext) {
    const TempFolder folder;
    const auto first = newBook(folder / "pit.gpkg");
    ASSERT_TRUE(first->apply("one", putWater(*first, "One")).has_value());
    first->stopWriting();
    EXPECT_FALSE(first->isWritable());
    EXPECT_FALSE(first->canUndo());
    EXPECT_FALSE(first->apply("two", putWater(*first, "Two")).has_value());
    const auto second = openBook(folder / "pit.gpkg");
    EXPECT_TRUE(second->isWritable());
    EXPECT_TRUE(second->apply("two", putWater(*second, "Two")).has_value());
}

TEST(Document, NoEditsAreNoAct) {
    const TempFolder folder;
    const auto document = newBook(folder / "pit.gpkg");
    ASSERT_TRUE(document->apply("nothing", {}).has_value());
    EXPECT_FALSE(document->canUndo());
}

TEST(Document, ACopyHoldsTheSameBook) {
    const TempFolder folder;
    const auto document = newBook(folder / "pit.gpkg");
    ASSERT_TRUE(document->apply("one", putWater(*document, "One")).has_value());
    ASSERT_TRUE(document->saveCopy(folder / "copy.gpkg").has_value());
    const auto copy = openBook(folder / "copy.gpkg");
    EXPECT_TRUE(*copy->book() == *document->book());
}

TEST(Document, WhatIsNotABookIsRefusedInASentence) {
    const TempFolder folder;
    const auto missing = Document::open(folder / "none.gpkg");
    ASSERT_FALSE(missing.has_value());
    EXPECT_FALSE(missing.error().message.empty());
}

} // namespace
} // namespace bedlore
