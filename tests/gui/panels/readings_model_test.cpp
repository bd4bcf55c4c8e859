// SPDX-License-Identifier: MIT
#include "gui/models/readings_model.hpp"
#include "tests/gui/document/typed_book.hpp"

#include <QAbstractItemModelTester>
#include <gtest/gtest.h>

namespace bedlore {
namespace {

using testing::TypedBook;

QString cell(const ReadingsModel& model, int row, int column) {
    return model.index(row, column).data().toString();
}

TEST(ReadingsModel, ShowsAVisitsReadingsInHisOrder) {
    const TypedBook typed({"aim A = 0", "A 28½ 9 gr tap", "27-25 si glide", "A 30 7½ wd"});
    ReadingsModel model;
    const QAbstractItemModelTester tester(
        &model, QAbstractItemModelTester::FailureReportingMode::Fatal);
    const auto book = typed.document->book();
    model.show(book, book->all<Visit>().begin()->id);
    ASSERT_EQ(model.rowCount(), 3);
    EXPECT_EQ(cell(model, 0, ReadingsModel::Aim), QStringLiteral("A"));
    EXPECT_EQ(cell(model, 0, ReadingsModel::LineOut), QStringLiteral("28½ wraps"));
    EXPECT_EQ(cell(model, 0, ReadingsModel::Depth), QStringLiteral("9 ft"));
    EXPECT_EQ(cell(model, 0, ReadingsModel::Felt), QStringLiteral("gravel, tap"));
    // The second reading of a cast needs no name; a stretch says both its ends.
    EXPECT_EQ(cell(model, 1, ReadingsModel::Aim), QString());
    EXPECT_EQ(cell(model, 1, ReadingsModel::LineOut), QStringLiteral("27 wraps to 25 wraps"));
    EXPECT_EQ(cell(model, 1, ReadingsModel::Depth), QString());
    EXPECT_EQ(cell(model, 2, ReadingsModel::Felt), QStringLiteral("weed"));
}

TEST(ReadingsModel, FollowsFromBookToBook) {
    TypedBook typed({"aim A = 0", "A 28 9"});
    ReadingsModel model;
    const QAbstractItemModelTester tester(
        &model, QAbstractItemModelTester::FailureReportingMode::Fatal);
    const auto first = typed.document->book();
    const Id<Visit> visit = first->all<Visit>().begin()->id;
    model.show(first, visit);
    std::vector<std::string> lines = typed.session.keptLines();
    lines.emplace_back("26 8");
    ASSERT_TRUE(typed.session.keep(lines).has_value());
    model.show(typed.document->book(), visit);
    EXPECT_EQ(model.rowCount(), 2);
    model.show(typed.document->book(), std::nullopt);
    EXPECT_EQ(model.rowCount(), 0);
}

} // namespace
} // namespace bedlore
