// SPDX-License-Identifier: MIT
#include "tests/core/io/import_bench.hpp"

#include <cmath>
#include <limits>

namespace bedlore::testing {

namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

class FixesImport : public ImportBench {
protected:
    std::filesystem::path
    fixes(std::initializer_list<std::string_view> rows, std::string_view header) {
        return write("fixes" + std::to_string(++count_) + ".csv", table(header, rows));
    }
    [[nodiscard]] FixSet onlySet() const {
        EXPECT_EQ(all<FixSet>().size(), 1U);
        return all<FixSet>().front();
    }

private:
    int count_ = 0;
};

constexpr std::string_view globe = "lat,lon,depth_m\n";
constexpr std::string_view plane = "east_m,north_m,depth_m\n";

TEST_F(FixesImport, KeepColumnsOfEqualLength) {
    const ImportPlan plan = import({fixes(
        {"52.2,-1.2,3.5,gravel,0.1,2025-04-12,0.35",
         "52.2001,-1.2001,0,weed,,,",
         "52.2002,-1.2002,-0.25,,0.2,1970-01-02,-1"},
        "lat,lon,depth_m,bottom,sigma_m,date,level_m\n")});
    EXPECT_EQ(plan.counts, (ImportCounts{.swims = 0, .casts = 0, .readings = 0, .fixes = 3}));
    const FixSet set = onlySet();
    EXPECT_EQ(set.name, "fixes1");
    EXPECT_EQ(set.frame, FixFrame::Geographic);
    ASSERT_TRUE(set.file.has_value());
    const FixColumns& columns = *set.columns;
    EXPECT_THAT(columns.y, ElementsAre(52.2, 52.2001, 52.2002));
    EXPECT_THAT(columns.x, ElementsAre(-1.2, -1.2001, -1.2002));
    EXPECT_THAT(columns.depth, ElementsAre(3.5, 0.0, -0.25));
    EXPECT_THAT(columns.sigma, ElementsAre(0.1F, ::testing::IsNan(), 0.2F));
    EXPECT_THAT(columns.level, ElementsAre(0.35F, ::testing::IsNan(), -1.0F));
    // Source: by hand. 1970-01-02 is day 1; 2025-04-12 is 55 years of 365 days, 14 leap days
    // (1972 to 2024), 31 + 28 + 31 days of January to March and 11 of April: 20190.
    EXPECT_THAT(columns.day, ElementsAre(20190, std::numeric_limits<std::int32_t>::min(), 1));
    EXPECT_THAT(
        columns.substrate, ElementsAre(static_cast<std::uint8_t>(Substrate::Gravel), 255, 255));
    EXPECT_THAT(columns.cover, ElementsAre(255, static_cast<std::uint8_t>(Cover::Weed), 255));
}

TEST_F(FixesImport, HaveNoColumnWhereTheFileHasNone) {
    import({fixes({"52.2,-1.2,3.5,"}, "lat,lon,depth_m,sigma_m\n")});
    const FixColumns& columns = *onlySet().columns;
    EXPECT_THAT(columns.sigma, IsEmpty());
    EXPECT_THAT(columns.level, IsEmpty());
    EXPECT_THAT(columns.day, IsEmpty());
    EXPECT_THAT(columns.substrate, IsEmpty());
}

// Source: by hand. Halfway between 52.2 and 52.2014 is 52.2007, between -1.2 and -1.2018 -1.2009,
// wherever the many lie.
TEST_F(FixesImport, GiveAWaterWithoutSwimsItsOriginFromTheirMiddle) {
    import({fixes({"52.2,-1.2,1", "52.2,-1.2,1", "52.2,-1.2,1", "52.2014,-1.2018,1"}, globe)});
    const auto origin = all<Water>().front().planeOrigin;
    ASSERT_TRUE(origin.has_value());
    EXPECT_NEAR(origin->latitude, 52.2007, 1e-12);
    EXPECT_NEAR(origin->longitude, -1.2009, 1e-12);

    import({fixes({"52.3,-1.2,1"}, globe)});
    EXPECT_EQ(all<Water>().front().planeOrigin, origin);
    import({write("s.csv", "swim,lat,lon,tip_height_m\nA,52.3,-1.2,1.8\n")});
    EXPECT_EQ(all<Water>().front().planeOrigin, origin);
}

TEST_F(FixesImport, LeaveTheOriginToSwimsOfTheSameImport) {
    import(
        {fixes({"52.2,-1.2,1"}, globe),
         write("s.csv", "swim,lat,lon,tip_height_m\nA,52.3,-1.3,1.8\n")});
    EXPECT_NEAR(all<Water>().front().planeOrigin->latitude, 52.3, 1e-12);
}

TEST_F(FixesImport, LetACompassBeReadInTheSameImport) {
    import(
        {write("r.csv", table(readingsHeader, {"A,2025-04-12,1,49,magnetic,30,m,,,,"})),
         fixes({"52.2,-1.2,1"}, globe)});
    EXPECT_EQ(all<Reading>().size(), 1U);
}

TEST_F(FixesImport, InMetresMakeAPlaneWithoutOrigin) {
    import({fixes({"402431.99,3283538.28,1.5"}, plane)});
    EXPECT_EQ(onlySet().frame, FixFrame::Plane);
    EXPECT_EQ(all<Water>().front().planeOrigin, std::nullopt);
    EXPECT_THAT(refused({fixes({"52.2,-1.2,1"}, globe)}), ElementsAre(isBadAt(1, "lat")));
    EXPECT_THAT(
        refused({write("s.csv", "swim,lat,lon,tip_height_m\nA,52.3,-1.2,1.8\n")}),
        ElementsAre(isBadAt(1, "lat")));
    EXPECT_THAT(
        refused({write("shore.csv", "part,lat,lon\n1,52,1\n1,52.1,1\n1,52,1.1\n")}),
        ElementsAre(isBadAt(1, "lat")));
}

TEST_F(FixesImport, InMetresGoIntoAWaterWithOrigin) {
    import({fixes({"52.2,-1.2,1"}, globe)});
    import({fixes({"10,20,1.5"}, plane)});
    EXPECT_EQ(all<FixSet>().size(), 2U);
}

TEST_F(FixesImport, RefuseCellsThatCannotBeUsed) {
    EXPECT_THAT(
        refused({fixes(
            {"91,-1.2,1,,,,",
             "52.2,181,1,,,,",
             "52.2,-1.2,,,,,",
             "52.2,-1.2,-9999,,,,",
             "52.2,-1.2,nan,,,,",
             "52.2,-1.2,1,custard,,,",
             "52.2,-1.2,1,,-0.1,,",
             "52.2,-1.2,1,,,2025-13-01,",
             "52.2,-1.2,1,,,,inf",
             ",,1,,,,",
             "52.2,-1.2,1,,,,"},
            "lat,lon,depth_m,bottom,sigma_m,date,level_m\n")}),
        ElementsAre(
            isBadAt(2, "lat"),
            isBadAt(3, "lon"),
            isBadAt(4, "depth_m"),
            isBadAt(5, "depth_m"),
            isBadAt(6, "depth_m"),
            isBadAt(7, "bottom"),
            isBadAt(8, "sigma_m"),
            isBadAt(9, "date"),
            isBadAt(10, "level_m"),
            isBadAt(11, "lat")));
}

TEST_F(FixesImport, RefuseAPlaceFarFromAllOthersAndKeepTheRestWhenAsked) {
    const auto path = fixes({"0,0,1", "52.2,-1.2,2", "52.2001,-1.2,3", "52.2002,-1.2,4"}, globe);
    EXPECT_THAT(refused({path}), ElementsAre(isBadAt(2, "lat")));
    const ImportPlan plan = import({path}, {.badRows = BadRows::Skip});
    EXPECT_EQ(plan.counts.fixes, 3U);
    EXPECT_THAT(onlySet().columns->depth, ElementsAre(2.0, 3.0, 4.0));
    EXPECT_NEAR(all<Water>().front().planeOrigin->latitude, 52.2001, 1e-12);
}

TEST_F(FixesImport, OfAHundredThousandRowsAreAllThere) {
    std::string text(globe);
    for (int i = 0; i < 100'000; ++i) {
        text += "52." + std::to_string(200'000 + i) + ",-1.2," + std::to_string(i % 70) + ".5\n";
    }
    const ImportPlan plan = import({write("boat.csv", text)});
    EXPECT_EQ(plan.counts.fixes, 100'000U);
    const FixColumns& columns = *onlySet().columns;
    EXPECT_EQ(columns.y[99'999], 52.299999);
    EXPECT_EQ(columns.depth[69], 69.5);
}

TEST_F(FixesImport, ListBadRowsUpToANumberAndSayHowManyMore) {
    std::string text(globe);
    for (int i = 0; i < 10'005; ++i) {
        text += "x,-1.2,1\n";
    }
    const auto planned = plan({write("bad.csv", text)});
    ASSERT_TRUE(planned.has_value());
    EXPECT_TRUE(planned->refused);
    EXPECT_EQ(planned->bad.size(), 10'000U);
    EXPECT_THAT(planned->notices, ::testing::Contains(HasSubstr("5 more bad rows")));
}

} // namespace

} // namespace bedlore::testing
