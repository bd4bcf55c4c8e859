// SPDX-License-Identifier: MIT
#include "core/geodesy/local_frame.hpp"
#include "tests/support/csv_table.hpp"
#include "tests/support/matchers.hpp"

#include <gtest/gtest.h>
#include <ogr_spatialref.h>

#include <cmath>
#include <limits>
#include <thread>

namespace bedlore {
namespace {

using testing::CsvTable;
using testing::isWithin;

CsvTable reference(const std::string& name) {
    return testing::readCsvTable(std::string(BEDLORE_REFERENCE_DIR) + "/" + name);
}

double distance(Point a, Point b) {
    return std::hypot(a.east - b.east, a.north - b.north);
}

// Source: six geodesics of 50 to 400 m on which C++, Python and JavaScript GeographicLib, PROJ geod
// and pyproj agree to 1e-13° (Karney 2013, J. Geod. 87). The plane's scale at 400 m is 1 + 2e-9.
TEST(LocalFrame, PlaneDistancesAndBearingsAreTheEarthsOwnNearTheOrigin) {
    const CsvTable table = reference("case06_geodesic_direct.csv");
    ASSERT_GE(table.rows.size(), 5U);
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        const auto frame = LocalFrame::atOrigin({table.number(i, "lat1"), table.number(i, "lon1")});
        ASSERT_TRUE(frame.has_value());
        const Point there = frame->toPlane({table.number(i, "lat2"), table.number(i, "lon2")});
        EXPECT_NEAR(std::hypot(there.east, there.north), table.number(i, "s12_m"), 1e-5);
        const Angle turned = PlaneBearing(std::atan2(there.east, there.north) * radian) -
                             PlaneBearing(table.number(i, "azi1_deg") * degree);
        EXPECT_NEAR(turned / degree, 0.0, 1e-5);
    }
}

// Source: UTM coordinates, convergence and scale by PROJ 9.1.1 and GeographicLib 2.1.2, which agree
// to 1e-4 m. UTM is the same projection from the equator, shrunk by 0.9996 and moved 500 km east.
TEST(LocalFrame, IsTheTransverseMercatorProjectionOfTheUtmZones) {
    const CsvTable table = reference("case06_transverse_mercator.csv");
    int checked = 0;
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        if (table.text(i, "case") != "UTM") {
            continue;
        }
        ++checked;
        const int zone = std::stoi(table.text(i, "crs").substr(8));
        const auto frame = LocalFrame::atOrigin({0.0, zone * 6.0 - 183.0});
        const GeographicPoint place{table.number(i, "lat"), table.number(i, "lon")};
        const Point plane = frame->toPlane(place);
        EXPECT_NEAR(500000.0 + 0.9996 * plane.east, table.number(i, "easting_m"), 2e-4);
        EXPECT_NEAR(0.9996 * plane.north, table.number(i, "northing_m"), 2e-4);
        EXPECT_NEAR(frame->convergence(plane) / degree, table.number(i, "convergence_deg"), 1e-6);
    }
    EXPECT_EQ(checked, 5);
}

TEST(LocalFrame, ThereAndBackIsExactToAHundredthOfAMillimetre) {
    const auto frame = LocalFrame::atOrigin({52.2, -1.2});
    for (const Point place : {Point{0.0, 0.0}, Point{350.5, -120.25}, Point{-9000.0, 9000.0}}) {
        EXPECT_LT(distance(frame->toPlane(frame->toGeographic(place)), place), 1e-5);
    }
}

TEST(LocalFrame, ABearingGoesToThePlaneAndBack) {
    const auto frame = LocalFrame::atOrigin({52.2, -1.2});
    const Point place{5000.0, 100.0};
    // By hand: 5 km east at 52.2° N is 0.0732° of longitude; times sin(52.2°) that is 0.0578° of
    // convergence, positive east of the origin's meridian.
    EXPECT_THAT(frame->convergence(place), isWithin(0.0002 * degree, 0.0578 * degree));
    const PlaneBearing plane = frame->toPlane(Bearing(30.0 * degree), place);
    EXPECT_NEAR(plane.degrees(), 30.0 - 0.0578, 0.0002);
    EXPECT_NEAR(frame->toTrue(plane, place).degrees(), 30.0, 1e-12);
}

TEST(LocalFrame, WithoutOriginNorthIsNorth) {
    const LocalFrame frame = LocalFrame::withoutOrigin();
    EXPECT_FALSE(frame.hasOrigin());
    EXPECT_DOUBLE_EQ(frame.toPlane(Bearing(30.0 * degree), {1.0, 2.0}).degrees(), 30.0);
}

TEST(LocalFrame, RefusesAnOriginThatIsNotOnTheEarth) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    for (const GeographicPoint wrong :
         {GeographicPoint{90.5, 0.0}, GeographicPoint{0.0, 181.0}, GeographicPoint{nan, 0.0}}) {
        const auto frame = LocalFrame::atOrigin(wrong);
        ASSERT_FALSE(frame.has_value());
        EXPECT_EQ(frame.error().fault, Fault::Input);
    }
}

TEST(LocalFrame, SeveralThreadsAndSeveralPlanesDoNotDisturbEachOther) {
    const auto here = LocalFrame::atOrigin({52.2, -1.2});
    const auto there = LocalFrame::atOrigin({48.5, 4.75});
    const Point expectedHere = here->toPlane({52.201, -1.201});
    const Point expectedThere = there->toPlane({48.501, 4.751});
    std::vector<int> wrong(4, 0);
    {
        std::vector<std::jthread> threads;
        for (int& count : wrong) {
            threads.emplace_back([&] {
                for (int i = 0; i < 200; ++i) {
                    count += here->toPlane({52.201, -1.201}) == expectedHere ? 0 : 1;
                    count += there->toPlane({48.501, 4.751}) == expectedThere ? 0 : 1;
                }
            });
        }
    }
    EXPECT_EQ(wrong, std::vector<int>(4, 0));
}

// Source: GDAL, the program through which other people read our files.
TEST(LocalFrame, GdalReadsThePlaneAsTheSameProjection) {
    const auto frame = LocalFrame::atOrigin({52.2, -1.2});
    OGRSpatialReference plane;
    ASSERT_EQ(plane.importFromWkt(frame->wkt().c_str()), OGRERR_NONE);
    ASSERT_TRUE(plane.IsProjected());
    EXPECT_STREQ(plane.GetName(), "Water's plane");
    EXPECT_DOUBLE_EQ(plane.GetProjParm(SRS_PP_LATITUDE_OF_ORIGIN), 52.2);
    EXPECT_DOUBLE_EQ(plane.GetProjParm(SRS_PP_CENTRAL_MERIDIAN), -1.2);
    EXPECT_DOUBLE_EQ(plane.GetLinearUnits(), 1.0);
    plane.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
    OGRSpatialReference earth;
    earth.importFromEPSG(4326);
    earth.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
    const std::unique_ptr<OGRCoordinateTransformation> transformation(
        OGRCreateCoordinateTransformation(&earth, &plane));
    ASSERT_NE(transformation, nullptr);
    double x = -1.195;
    double y = 52.203;
    ASSERT_TRUE(transformation->Transform(1, &x, &y));
    const Point ours = frame->toPlane({52.203, -1.195});
    EXPECT_NEAR(x, ours.east, 1e-6);
    EXPECT_NEAR(y, ours.north, 1e-6);
}

TEST(LocalFrame, ANeutralPlaneStartsAtAHundredthOfADegreeAndIsShiftedByWholeMillimetres) {
    const LocalFrame frame = LocalFrame::atOrigin({55.9988, 2.9877}).value();
    const LocalFrame neutral = LocalFrame::atOrigin({56.0, 2.99}).value();
    const Point centre{40.0, 90.0};
    const NeutralPlane plane = frame.neutralAbout(centre);
    ASSERT_TRUE(plane.plane.hasOrigin());
    EXPECT_DOUBLE_EQ(plane.plane.origin()->latitude, 56.0);
    EXPECT_DOUBLE_EQ(plane.plane.origin()->longitude, 2.99);
    EXPECT_DOUBLE_EQ(plane.shift.east, std::round(plane.shift.east * 1e3) / 1e3);
    EXPECT_DOUBLE_EQ(plane.shift.north, std::round(plane.shift.north * 1e3) / 1e3);
    const Point there = neutral.toPlane(frame.toGeographic(centre));
    EXPECT_NEAR(plane.shift.east, there.east - centre.east, 0.00051); // half a millimetre
    EXPECT_NEAR(plane.shift.north, there.north - centre.north, 0.00051);
}

TEST(LocalFrame, APlaceByTheNeutralPlaneIsWhereItIs) {
    const LocalFrame frame = LocalFrame::atOrigin({55.9988, 2.9877}).value();
    const NeutralPlane plane = frame.neutralAbout({0.0, 0.0});
    // Norths that differ by less than 0.005° move a place 120 m away by 120 m x 8.7e-5 = 1 cm.
    const Point back = frame.toPlane(plane.toGeographic({0.0, 120.0}));
    EXPECT_NEAR(back.east, 0.0, 0.011);
    EXPECT_NEAR(back.north, 120.0, 0.011);
}

TEST(LocalFrame, GdalReadsAPlaneWithoutOriginAsALocalOne) {
    OGRSpatialReference plane;
    ASSERT_EQ(plane.importFromWkt(LocalFrame::withoutOrigin().wkt().c_str()), OGRERR_NONE);
    EXPECT_TRUE(plane.IsLocal());
    EXPECT_FALSE(plane.IsProjected());
    EXPECT_FALSE(plane.IsGeographic());
    EXPECT_DOUBLE_EQ(plane.GetLinearUnits(), 1.0);
}

TEST(PlaneOrigin, IsTheMeanRoundedToATenThousandthOfADegree) {
    // By hand: mean of 52.20004 and 52.20032 is 52.20018, of -1.2 and -1.2001 is -1.20005.
    const GeographicPoint origin = planeOriginFor({{52.20004, -1.2}, {52.20032, -1.2001}});
    EXPECT_DOUBLE_EQ(origin.latitude, 52.2002);
    EXPECT_NEAR(origin.longitude, -1.20005, 0.00006);
    EXPECT_DOUBLE_EQ(planeOriginFor({{0.00002, -0.00002}}).longitude, 0.0);
    EXPECT_FALSE(std::signbit(planeOriginFor({{0.00002, -0.00002}}).longitude));
}

TEST(PlaneOrigin, KeepsAWaterOnTheDateLineTogether) {
    const GeographicPoint origin = planeOriginFor({{-17.0, 179.9990}, {-17.0, -179.9980}});
    EXPECT_DOUBLE_EQ(origin.longitude, -179.9995);
}

} // namespace
} // namespace bedlore
