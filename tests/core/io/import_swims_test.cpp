// SPDX-License-Identifier: MIT
#include "tests/core/io/import_bench.hpp"

namespace bedlore::testing {

namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;

class SwimsImport : public ImportBench {
protected:
    std::filesystem::path
    swims(std::initializer_list<std::string_view> rows, std::string_view header = swimsHeader) {
        return write("swims" + std::to_string(++count_) + ".csv", table(header, rows));
    }
    [[nodiscard]] Water onlyWater() const {
        EXPECT_EQ(all<Water>().size(), 1U);
        return all<Water>().front();
    }

private:
    int count_ = 0;
};

constexpr std::string_view planeHeader = "swim,east_m,north_m,tip_height_m\n";

TEST_F(SwimsImport, KeepsPlaceAndTipAsTyped) {
    const ImportPlan plan = import({swims({"the Point,52.20001,-1.2,1.80", "P2,52.2,-1.2,"})});
    EXPECT_EQ(plan.counts.swims, 2U);
    const auto found = all<Swim>();
    ASSERT_EQ(found.size(), 2U);
    EXPECT_EQ(found[0].name, "the Point");
    EXPECT_EQ(found[0].place, (Place{GeographicPoint{52.20001, -1.2}}));
    EXPECT_EQ(found[0].tipHeight, (Entered{1.8, Unit::Metre, "1.80"}));
    EXPECT_EQ(found[1].tipHeight, std::nullopt);
}

TEST_F(SwimsImport, TakesMetresEastAndNorth) {
    import({swims({"A,-12.5,40,1.8"}, planeHeader)});
    EXPECT_EQ(all<Swim>().front().place, (Place{Point{-12.5, 40.0}}));
    EXPECT_EQ(onlyWater().planeOrigin, std::nullopt);
}

// Source: by hand. The mean of 52.20014 and 52.20034 is 52.20024, of -1.20008 and -1.20028
// -1.20018; to 1e-4 degrees 52.2002 and -1.2002.
TEST_F(SwimsImport, SetsTheOriginOnceFromTheFirstSwims) {
    import({swims({"A,52.20014,-1.20008,1.8"}), swims({"B,52.20034,-1.20028,1.8"})});
    const auto origin = onlyWater().planeOrigin;
    ASSERT_TRUE(origin.has_value());
    EXPECT_NEAR(origin->latitude, 52.2002, 1e-12);
    EXPECT_NEAR(origin->longitude, -1.2002, 1e-12);

    import({swims({"C,52.3,-1.3,1.8"})});
    EXPECT_EQ(onlyWater().planeOrigin, origin);
}

TEST_F(SwimsImport, LatitudesComeFirstWhateverTheOrderOfTheFiles) {
    import({swims({"B,10,20,1.8"}, planeHeader), swims({"A,52.2,-1.2,1.8"})});
    EXPECT_EQ(all<Swim>().size(), 2U);
    EXPECT_TRUE(onlyWater().planeOrigin.has_value());
}

TEST_F(SwimsImport, RefusesLatitudesInAWaterOfMetresAlone) {
    import({swims({"A,0,0,1.8"}, planeHeader)});
    const auto path = swims({"B,52.2,-1.2,1.8"});
    EXPECT_THAT(refused({path}), ElementsAre(isBadAt(1, "lat")));
    EXPECT_THAT(refused({path}, {.badRows = BadRows::Skip}), ElementsAre(isBadAt(1, "lat")));
}

TEST_F(SwimsImport, TakesTheSameSwimAgainAndRefusesAnother) {
    import({swims({"A,52.2,-1.2,1.8"})});
    const ImportPlan same = import({swims({"a,52.20,-1.200,1.80", "A,,,1.8", "A,52.2,-1.2,"})});
    EXPECT_EQ(same.counts.swims, 0U);
    EXPECT_EQ(all<Swim>().size(), 1U);
    EXPECT_THAT(
        refused({swims({"A,52.2001,-1.2,1.8", "A,52.2,-1.2,1.9", "A,52.3,-1.2,2"})}),
        ElementsAre(
            isBadAt(2, "lat"),
            isBadAt(3, "tip_height_m"),
            isBadAt(4, "lat"),
            isBadAt(4, "tip_height_m")));
}

TEST_F(SwimsImport, RefusesASwimThatAFileSaysTwiceInTwoWays) {
    EXPECT_THAT(
        refused({swims({"A,52.2,-1.2,1.8", "A,52.2,-1.2,1.8", "A,52.2001,-1.2,1.8"})}),
        ElementsAre(isBadAt(4, "lat")));
}

TEST_F(SwimsImport, GivesAPlaceToASwimThatHadNone) {
    import({write("r.csv", table(readingsHeader, {"A,2025-04-12,1,49,true,30,m,,,,"}))});
    EXPECT_EQ(all<Swim>().front().place, Place{});
    const ImportPlan plan = import({swims({"A,52.2,-1.2,1.8"})});
    EXPECT_EQ(plan.counts.swims, 0U);
    ASSERT_THAT(all<Swim>(), SizeIs(1));
    EXPECT_EQ(all<Swim>().front().place, (Place{GeographicPoint{52.2, -1.2}}));
    EXPECT_TRUE(onlyWater().planeOrigin.has_value());
}

TEST_F(SwimsImport, RefusesCellsThatCannotBeUsed) {
    EXPECT_THAT(
        refused({swims({
            ",52.2,-1.2,1.8",
            "B,90.1,-1.2,1.8",
            "C,52.2,-180.1,1.8",
            "D,52.2,,1.8",
            "E,,-1.2,1.8",
            "F,52.2,-1.2,-0.1",
            "G,52.2,-1.2,51",
            "H,52.2,-1.2,nan",
            "I,north,-1.2,1.8",
            "J,52.2,-1.2,1.8",
        })}),
        ElementsAre(
            isBadAt(2, "swim"),
            isBadAt(3, "lat"),
            isBadAt(4, "lon"),
            isBadAt(5, "lon"),
            isBadAt(6, "lat"),
            isBadAt(7, "tip_height_m"),
            isBadAt(8, "tip_height_m"),
            isBadAt(9, "tip_height_m"),
            isBadAt(10, "lat")));
}

TEST_F(SwimsImport, RefusesASwimFarFromTheOthers) {
    // Latitude and longitude swapped: about 5,800 km away.
    EXPECT_THAT(
        refused({swims({"A,52.2,-1.2,1.8", "B,52.21,-1.2,1.8", "C,-1.2,52.2,1.8"})}),
        ElementsAre(isBadAt(4, "lat")));
    import({swims({"A,52.2,-1.2,1.8"})});
    EXPECT_THAT(refused({swims({"C,-1.2,52.2,1.8"})}), ElementsAre(isBadAt(2, "lat")));
}

TEST_F(SwimsImport, LeavesOutASecondKindOfPlaceAndSaysSo) {
    const ImportPlan plan =
        import({swims({"A,52.2,-1.2,1,2,1.8"}, "swim,lat,lon,east_m,north_m,tip_height_m\n")});
    EXPECT_THAT(plan.notices, ::testing::Contains(HasSubstr("\"east_m\", \"north_m\"")));
    EXPECT_EQ(all<Swim>().front().place, (Place{GeographicPoint{52.2, -1.2}}));
}

TEST_F(SwimsImport, NeedsColumnsThatSayWhere) {
    EXPECT_THAT(refused({swims({}, "swim,lat,tip_height_m\n")}), ElementsAre(isBadAt(1, "lat")));
}

TEST_F(SwimsImport, NeedsAShortNameOnOneLine) {
    EXPECT_THAT(
        refused({swims({std::string(201, 'x') + ",52.2,-1.2,1.8", "\"a", "b\",52.2,-1.2,1.8"})}),
        ElementsAre(isBadAt(2, "swim"), isBadAt(3, "swim")));
}

TEST_F(SwimsImport, ATableWithoutRowsIsFine) {
    const ImportPlan plan = import({swims({})});
    EXPECT_EQ(plan.counts, ImportCounts{});
}

// ---- reels

using ReelsImport = ImportBench;

TEST_F(ReelsImport, GathersThePairsOfEachReel) {
    import(
        {write("reels.csv", "reel,turns,distance_m\nbig pit,50,45.0\nR2,10,8\nBig Pit,100,88\n")});
    const auto found = all<Reel>();
    ASSERT_EQ(found.size(), 2U);
    const Reel* big = findReel(book_, "big pit");
    ASSERT_NE(big, nullptr);
    EXPECT_THAT(
        big->calibration,
        ElementsAre(
            CalibrationPair{50.0, {45.0, Unit::Metre, "45.0"}},
            CalibrationPair{100.0, {88.0, Unit::Metre, "88"}}));
}

TEST_F(ReelsImport, AddsNewPairsToAReelAndTakesKnownOnesOnce) {
    import({write("a.csv", "reel,turns,distance_m\nR1,50,45\n")});
    import({write("b.csv", "reel,turns,distance_m\nR1,50,45.0\nR1,100,88\n")});
    ASSERT_EQ(all<Reel>().size(), 1U);
    EXPECT_THAT(all<Reel>().front().calibration, SizeIs(2));
}

TEST_F(ReelsImport, RefusesWhatIsNoMeasurement) {
    EXPECT_THAT(
        refused({write(
            "reels.csv",
            "reel,turns,distance_m\n,50,45\nR1,0,45\nR1,50,0\nR1,50,401\nR1,x,45\nR1,50,inf\nR1,,"
            "\n")}),
        ElementsAre(
            isBadAt(2, "reel"),
            isBadAt(3, "turns"),
            isBadAt(4, "distance_m"),
            isBadAt(5, "distance_m"),
            isBadAt(6, "turns"),
            isBadAt(7, "distance_m"),
            isBadAt(8, "turns"),
            isBadAt(8, "distance_m")));
}

// ---- which water

using WaterChoice = ImportBench;
constexpr std::string_view oneSwim = "swim,lat,lon,tip_height_m\nA,52.2,-1.2,1.8\n";

TEST_F(WaterChoice, MakesAWaterInABookWithoutOneAndSaysSo) {
    const ImportPlan plan = import({write("s.csv", oneSwim)});
    ASSERT_EQ(all<Water>().size(), 1U);
    EXPECT_EQ(all<Water>().front().name, "The water");
    EXPECT_THAT(plan.notices, ElementsAre(HasSubstr("\"The water\"")));
}

TEST_F(WaterChoice, TakesTheNamedWaterOrMakesIt) {
    import({write("s.csv", oneSwim)}, {.water = "Harl Pit"});
    import({write("t.csv", "swim,lat,lon,tip_height_m\nB,52.2,-1.2,1.8\n")}, {.water = "harl pit"});
    EXPECT_EQ(all<Water>().size(), 1U);
    import({write("u.csv", "swim,lat,lon,tip_height_m\nC,53.2,-1.2,1.8\n")}, {.water = "Mere"});
    ASSERT_EQ(all<Water>().size(), 2U);
    EXPECT_EQ(all<Water>()[1].name, "Mere");
    EXPECT_NE(all<Water>()[0].planeOrigin, all<Water>()[1].planeOrigin);
}

TEST_F(WaterChoice, TakesTheOnlyWater) {
    import({write("s.csv", oneSwim)}, {.water = "Harl Pit"});
    import({write("t.csv", "swim,lat,lon,tip_height_m\nB,52.2,-1.2,1.8\n")});
    EXPECT_EQ(all<Water>().size(), 1U);
}

TEST_F(WaterChoice, AsksWhichOfSeveral) {
    import({write("s.csv", oneSwim)}, {.water = "Harl Pit"});
    import({write("t.csv", "swim,lat,lon,tip_height_m\nB,53.2,-1.2,1.8\n")}, {.water = "Mere"});
    const auto planned = plan({write("u.csv", "swim,lat,lon,tip_height_m\nC,53.2,-1.2,1.8\n")});
    ASSERT_FALSE(planned.has_value());
    EXPECT_EQ(planned.error().fault, Fault::Usage);
    EXPECT_THAT(planned.error().message, HasSubstr("Harl Pit, Mere"));
}

TEST_F(WaterChoice, NeedsAFile) {
    EXPECT_THAT(failure({}), HasSubstr("No file"));
}

TEST_F(WaterChoice, TheSwimsOfAnotherWaterAreOthers) {
    import({write("s.csv", oneSwim)}, {.water = "Harl Pit"});
    import({write("t.csv", "swim,lat,lon,tip_height_m\nA,53.2,-1.2,1.8\n")}, {.water = "Mere"});
    EXPECT_EQ(all<Swim>().size(), 2U);
}

TEST_F(WaterChoice, StopsWhenAsked) {
    std::stop_source stop;
    stop.request_stop();
    const auto planned =
        planImport(book_, nextId_, {write("s.csv", oneSwim)}, {}, Progress(stop.get_token()));
    ASSERT_FALSE(planned.has_value());
    EXPECT_EQ(planned.error().fault, Fault::Cancelled);
}

} // namespace

} // namespace bedlore::testing
