// SPDX-License-Identifier: MIT
#include "gui/document/swim_place.hpp"
#include "tests/gui/document/typed_book.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

// The place of a swim as it is typed. The expected places are what the words say.

namespace bedlore {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;
using testing::TypedBook;

Place read(const char* text) {
    const Result<Place> place = readTypedPlace(text);
    EXPECT_TRUE(place.has_value()) << text << ": " << (place ? "" : place.error().message);
    return place.value_or(Place());
}

Place onEarth(double latitude, double longitude) {
    return GeographicPoint{.latitude = latitude, .longitude = longitude};
}

TEST(SwimPlace, ReadsDegreesTheLatitudeFirstUnlessLettersSayOtherwise) {
    const Place place = onEarth(52.125, -1.5);
    for (const char* text :
         {"52.125, -1.5",
          "52.125,-1.5",
          "52.125 -1.5",
          "52,125; -1,5",
          "52.125 N, 1.5 W",
          "52.125° N 1.5° W",
          "52.125N 1.5W",
          "1.5 west, 52.125 north"}) {
        EXPECT_EQ(read(text), place) << text;
    }
    EXPECT_EQ(read("33.5 S, 151.25 E"), onEarth(-33.5, 151.25));
    EXPECT_EQ(read("  "), Place());
}

TEST(SwimPlace, ReadsLengthsInThePlane) {
    EXPECT_EQ(read("120 m east, 45 m north"), Place(Point{120.0, 45.0}));
    EXPECT_EQ(read("120 m, 45 m"), Place(Point{120.0, 45.0})) << "east before north";
    EXPECT_EQ(read("45 m south, 120 m west"), Place(Point{-120.0, -45.0}));
    // A yard is 0.9144 m by definition.
    const Place yards = read("100 yd east, 0 m north");
    ASSERT_TRUE(std::holds_alternative<Point>(yards));
    EXPECT_NEAR(std::get<Point>(yards).east, 91.44, 1e-9);
}

TEST(SwimPlace, ReadsBackWhatItPrints) {
    for (const Place& place : {onEarth(52.12345, -1.54321), Place(Point{-20.5, 45.25}), Place()}) {
        const Result<Place> again = readTypedPlace(typedPlace(place));
        ASSERT_TRUE(again.has_value());
        EXPECT_EQ(*again, place);
    }
    EXPECT_EQ(takenPlaceWords(onEarth(52.5, -1.5)), "taken as 52.5° north, 1.5° west");
}

TEST(SwimPlace, SaysWhatIsWrongWithAPlace) {
    const std::vector<std::pair<const char*, const char*>> faults{
        {"52.1", "two numbers"},
        {"by the oak", "two numbers"},
        {"91, 0", "from -90 to 90"},
        {"120, 45", "from -90 to 90"},
        {"52.1, 181", "from -180 to 180"},
        {"52.1, 40 m", "mixes degrees with a length"},
        {"52.1 N, 1.5 N", "one number north and one east"},
        {"52.1 N, 1.5", "one number north and one east"},
        {"nan, nan", "two numbers"},
        {"1e9 m, 0 m", "two numbers"},
        {"999999 m, 0 m", "farther off"}};
    for (const auto& [text, why] : faults) {
        const Result<Place> place = readTypedPlace(text);
        ASSERT_FALSE(place.has_value()) << text;
        EXPECT_THAT(place.error().message, HasSubstr(why)) << text;
        EXPECT_THAT(place.error().message, HasSubstr("52.12345, -1.54321")) << "what to type";
    }
}

struct Placed : TypedBook {
    Placed()
        : TypedBook({"A 28 9 gr", "20 8"}) {}
    [[nodiscard]] const Swim& swim() const { return *document->book()->all<Swim>().begin(); }
    [[nodiscard]] const Water& water() const { return *document->book()->all<Water>().begin(); }
    /// What went wrong, empty for nothing.
    std::string place(const TypedSwim& typed) {
        const Result<Edits> edits = placeSwim(*document->book(), swim().id, typed);
        if (!edits) {
            return edits.error().message;
        }
        const auto done = document->apply("placed", *edits);
        return done ? std::string() : done.error().message;
    }
};

TEST(SwimPlace, IsKeptAndGivesThePlaneItsOriginOnce) {
    Placed book;
    EXPECT_EQ(
        book.place({.place = "52.12345, -1.54321", .tipHeight = "6 ft", .standing = "left"}), "");
    EXPECT_EQ(book.swim().place, onEarth(52.12345, -1.54321));
    EXPECT_EQ(book.swim().tipHeight, (Entered{6.0, Unit::Foot, "6 ft"}));
    EXPECT_EQ(book.swim().standing, "left");
    // The first place rounded to 1e-4 degrees.
    const auto origin = book.water().planeOrigin;
    ASSERT_TRUE(origin.has_value());
    EXPECT_NEAR(origin->latitude, 52.1235, 1e-9);
    EXPECT_NEAR(origin->longitude, -1.5432, 1e-9);
    EXPECT_EQ(book.place({.place = "52.13, -1.55", .tipHeight = "6 ft", .standing = "left"}), "");
    EXPECT_EQ(book.water().planeOrigin, origin) << "it never moves";
    ASSERT_TRUE(book.document->undo().has_value());
    ASSERT_TRUE(book.document->undo().has_value());
    EXPECT_EQ(book.swim().place, Place());
    EXPECT_EQ(book.water().planeOrigin, std::nullopt);
}

TEST(SwimPlace, SaysNothingNewWhereNothingIsTyped) {
    Placed book;
    EXPECT_EQ(
        book.place({.place = "120 m east, 45 m north", .tipHeight = "1.8 m", .standing = {}}), "");
    EXPECT_EQ(book.water().planeOrigin, std::nullopt) << "metres alone give no origin";
    const Result<Edits> again =
        placeSwim(*book.document->book(), book.swim().id, typedSwim(book.swim()));
    ASSERT_TRUE(again.has_value());
    EXPECT_THAT(*again, IsEmpty());
    EXPECT_EQ(book.place({}), "");
    EXPECT_EQ(book.swim().place, Place());
    EXPECT_EQ(book.swim().tipHeight, std::nullopt);
}

TEST(SwimPlace, ThatDoesNotFitTheWaterIsRefused) {
    Placed book;
    EXPECT_EQ(book.place({.place = "52.12345, -1.54321", .tipHeight = {}, .standing = {}}), "");
    EXPECT_THAT(
        book.place({.place = "-1.54321, 52.12345", .tipHeight = {}, .standing = {}}),
        HasSubstr("changed about"));
    EXPECT_EQ(book.swim().place, onEarth(52.12345, -1.54321));
    EXPECT_THAT(
        book.place({.place = "52.12345, -1.54321", .tipHeight = "6", .standing = {}}),
        HasSubstr("\"6 ft\" or \"1.8 m\""));
    EXPECT_THAT(
        book.place({.place = "52.12345, -1.54321", .tipHeight = "-1 m", .standing = {}}),
        HasSubstr("no height"));
}

TEST(SwimPlace, OfALoneSwimMayChangeFromMetresToDegrees) {
    Placed book;
    EXPECT_EQ(book.place({.place = "10 m, 20 m", .tipHeight = {}, .standing = {}}), "");
    EXPECT_EQ(book.place({.place = "52.1, -1.5", .tipHeight = {}, .standing = {}}), "");
    // Beside another swim in metres nothing says where on the earth those lie.
    Placed two;
    Swim other;
    other.id = two.document->freeIds().take<Swim>();
    other.water = two.water().id;
    other.name = "the Gap";
    other.place = Point{0.0, 0.0};
    ASSERT_TRUE(two.document->apply("other", {Put<Swim>{other}}).has_value());
    EXPECT_THAT(
        two.place({.place = "52.1, -1.5", .tipHeight = {}, .standing = {}}),
        HasSubstr("metres east and north"));
}

} // namespace
} // namespace bedlore
