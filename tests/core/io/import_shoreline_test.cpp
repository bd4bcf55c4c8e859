// SPDX-License-Identifier: MIT
#include "tests/core/io/import_bench.hpp"

namespace bedlore::testing {

namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;

class ShorelineImport : public ImportBench {
protected:
    [[nodiscard]] std::vector<ShorePart> shore() const {
        EXPECT_EQ(all<Water>().size(), 1U);
        return all<Water>().front().shore;
    }
};

// A lake of a hundredth of a degree with an island in it, and a pond on the island.
constexpr std::string_view lakeCsv = "part,lat,lon\n"
                                     "lake,52.20,-1.20\n"
                                     "lake,52.20,-1.19\n"
                                     "lake,52.21,-1.19\n"
                                     "lake,52.21,-1.20\n"
                                     "lake,52.20,-1.20\n"
                                     "island,52.204,-1.196\n"
                                     "island,52.204,-1.194\n"
                                     "island,52.206,-1.195\n"
                                     "pond,52.2045,-1.1955\n"
                                     "pond,52.2045,-1.1945\n"
                                     "pond,52.2050,-1.1950\n";

TEST_F(ShorelineImport, TellsBanksFromIslandsByWhatLiesInWhat) {
    import({write("shore.csv", lakeCsv)});
    const auto parts = shore();
    ASSERT_THAT(parts, SizeIs(3));
    EXPECT_EQ(parts[0].kind, ShoreKind::Bank);
    EXPECT_EQ(parts[1].kind, ShoreKind::Island);
    EXPECT_EQ(parts[2].kind, ShoreKind::Bank);
    // The closing vertex is not repeated.
    ASSERT_THAT(parts[0].vertices, SizeIs(4));
    EXPECT_EQ(parts[0].vertices[1], (Place{GeographicPoint{52.20, -1.19}}));
}

TEST_F(ShorelineImport, TheSamePartTwiceIsKeptOnce) {
    import({write("shore.csv", lakeCsv)});
    const ImportPlan plan = import({write(
        "more.csv",
        "part,lat,lon\n9,52.20,-1.20\n9,52.20,-1.19\n9,52.21,-1.19\n9,52.21,-1.20\n"
        "8,52.207,-1.196\n8,52.207,-1.195\n8,52.208,-1.196\n")});
    EXPECT_THAT(shore(), SizeIs(4));
    EXPECT_THAT(plan.notices, ElementsAre(HasSubstr("had a shoreline already")));
}

TEST_F(ShorelineImport, RefusesRowsThatCannotBeUsed) {
    EXPECT_THAT(
        refused({write(
            "shore.csv",
            "part,lat,lon\na,52.2,-1.2\na,52.3,x\na,,\na,52.3,-1.2\nb,95,-1.2\nc,52.2,-1.2\n")}),
        ElementsAre(
            isBadAt(2, ""),
            isBadAt(3, "lon"),
            isBadAt(4, "lat"),
            isBadAt(6, "lat"),
            isBadAt(7, "")));
}

TEST_F(ShorelineImport, DoesNotSetTheOrigin) {
    import({write("shore.csv", lakeCsv)});
    EXPECT_EQ(all<Water>().front().planeOrigin, std::nullopt);
    EXPECT_THAT(
        refused({write("s.csv", "swim,east_m,north_m,tip_height_m\nA,0,0,1.8\n")}),
        ElementsAre(isBadAt(1, "east_m")));
}

// ---- GeoJSON

// Source: RFC 7946, appendix A.3: a polygon with a hole, moved.
constexpr std::string_view polygon = R"({"type":"Polygon","coordinates":[
    [[0.100,50.0],[0.101,50.0],[0.101,50.001],[0.100,50.001],[0.100,50.0]],
    [[0.1008,50.0008],[0.1008,50.0002],[0.1002,50.0002],[0.1002,50.0008],[0.1008,50.0008]]]})";

TEST_F(ShorelineImport, ReadsGeoJsonOfEveryKindOfLineAndArea) {
    import({write("a.geojson", polygon)}, {.water = "a"});
    const std::vector<ShorePart> parts = shore();
    ASSERT_THAT(parts, SizeIs(2));
    EXPECT_EQ(parts[0].kind, ShoreKind::Bank);
    EXPECT_EQ(parts[1].kind, ShoreKind::Island);
    EXPECT_EQ(parts[1].vertices.front(), (Place{GeographicPoint{50.0008, 0.1008}}));

    const std::string feature = R"({"type":"FeatureCollection","features":[
        {"type":"Feature","properties":null,"geometry":{"type":"LineString","coordinates":
            [[1.0,50,7],[1.1,50,7],[1.1,50.1,7]]}},
        {"type":"Feature","properties":{},"geometry":null},
        {"type":"Feature","properties":{},"geometry":{"type":"GeometryCollection","geometries":[
            {"type":"MultiLineString","coordinates":[[[2,50],[2.1,50],[2.1,50.1]]]},
            {"type":"MultiPolygon","coordinates":[[[[3,50],[3.1,50],[3.1,50.1],[3,50]]]]},
            {"type":"Point","coordinates":[1,50]}]}}]})";
    const auto planned = planImport(Book(), 1, {write("b.json", feature)}, {});
    ASSERT_TRUE(planned.has_value());
    EXPECT_FALSE(planned->refused);
    const Book book = applyEdits(Book(), planned->edits)->book;
    EXPECT_THAT(book.all<Water>().begin()->shore, SizeIs(3));
    EXPECT_THAT(planned->notices, ::testing::Contains(HasSubstr("points are no shoreline")));
}

TEST_F(ShorelineImport, RefusesGeoJsonThatIsNone) {
    EXPECT_THAT(
        refused({write("a.geojson", "{\"type\":\n\"Polygon\",\n oops}")}),
        ElementsAre(isBadAt(3, "")));
    EXPECT_THAT(refused({write("b.geojson", "[1,2,3]")}), ElementsAre(isBadAt(1, "$.type")));
    EXPECT_THAT(
        refused({write("c.geojson", R"({"type":"FeatureCollection"})")}),
        ElementsAre(isBadAt(1, "$.features")));
    EXPECT_THAT(
        refused({write("d.geojson", R"({"type":"Point","coordinates":[1,2]})")}),
        ElementsAre(isBadAt(1, "type")));
    EXPECT_THAT(
        refused({write("e.geojson", R"({"type":"Polygon"})")}),
        ElementsAre(isBadAt(1, "$.coordinates")));
    EXPECT_THAT(refused({write("f.geojson", "")}), SizeIs(1));
    EXPECT_THAT(refused({write("g.geojson", "NaN")}), SizeIs(1));
    // An area with a place that is none loses its whole line.
    EXPECT_THAT(
        refused({write(
            "h.geojson",
            R"({"type":"LineString","coordinates":[[1,2],[402431.9,3283538.2],[1,3],[2,3]]})")}),
        ElementsAre(isBadAt(1, "$.coordinates[1]")));
    EXPECT_THAT(
        refused({write("i.geojson", R"({"type":"LineString","coordinates":[[1,2],[1,"3"],[2]]})")}),
        ElementsAre(isBadAt(1, "$.coordinates[1]")));
    EXPECT_THAT(
        refused({write("j.geojson", R"({"type":"LineString","coordinates":[[1,2],[1,2],[1,3]]})")}),
        ElementsAre(isBadAt(1, "")));
    EXPECT_THAT(
        refused(
            {write("k.geojson", R"({"type":"LineString","coordinates":[[1,1e999],[1,2],[3,3]]})")}),
        SizeIs(1));
}

TEST_F(ShorelineImport, RefusesGeoJsonInAnotherCoordinateSystem) {
    const std::string inCrs = std::string(R"({"crs":{"type":"name","properties":{"name":")");
    const std::string rest = R"("}},"type":"LineString","coordinates":[[1,2],[1,3],[2,3]]})";
    EXPECT_THAT(
        refused({write("a.geojson", inCrs + "urn:ogc:def:crs:EPSG::32617" + rest)}),
        ElementsAre(isBadAt(1, "crs")));
    import({write("b.geojson", inCrs + "urn:ogc:def:crs:OGC:1.3:CRS84" + rest)});
}

TEST_F(ShorelineImport, RefusesGeoJsonOfBracketsWithoutEnd) {
    EXPECT_THAT(refused({write("a.geojson", std::string(2'000'000, '['))}), SizeIs(1));
    std::string nested;
    for (int i = 0; i < 100'000; ++i) {
        nested += R"({"type":"GeometryCollection","geometries":[)";
    }
    EXPECT_THAT(refused({write("b.geojson", nested)}), SizeIs(1));
}

// ---- KML and GPX

constexpr std::string_view kml = R"(<?xml version="1.0" encoding="UTF-8"?>
<kml xmlns="http://www.opengis.net/kml/2.2"><Document>
<Placemark><name>lake</name><Polygon>
<outerBoundaryIs><LinearRing><coordinates>
0.100,50.0,0 0.101,50.0,0 0.101,50.001,0 0.100,50.001,0 0.100,50.0,0
</coordinates></LinearRing></outerBoundaryIs>
<innerBoundaryIs><LinearRing><coordinates>
0.1002,50.0002 0.1008,50.0002 0.1008,50.0008 0.1002,50.0002
</coordinates></LinearRing></innerBoundaryIs>
</Polygon></Placemark>
<Placemark><name>a tree</name><Point><coordinates>0.1,50.0</coordinates></Point></Placemark>
</Document></kml>
)";

TEST_F(ShorelineImport, ReadsTheAreasOfKml) {
    const ImportPlan plan = import({write("lake.KML", kml)});
    const auto parts = shore();
    ASSERT_THAT(parts, SizeIs(2));
    EXPECT_EQ(parts[0].kind, ShoreKind::Bank);
    EXPECT_EQ(parts[1].kind, ShoreKind::Island);
    EXPECT_THAT(parts[0].vertices, SizeIs(4));
    EXPECT_EQ(parts[0].vertices[2], (Place{GeographicPoint{50.001, 0.101}}));
    EXPECT_THAT(plan.notices, ::testing::Contains(HasSubstr("points are no shoreline")));
}

constexpr std::string_view gpx = R"(<?xml version="1.0"?>
<gpx version="1.1" creator="hand" xmlns="http://www.topografix.com/GPX/1/1">
<wpt lat="50.0" lon="0.1"><name>board</name></wpt>
<trk><trkseg>
<trkpt lat="50.000" lon="0.100"/><trkpt lat="50.000" lon="0.101"/>
<trkpt lat="50.001" lon="0.101"/><trkpt lat="50.001" lon="0.100"/>
</trkseg></trk>
<rte><rtept lat="50.0002" lon="0.1002"/><rtept lat="50.0002" lon="0.1008"/>
<rtept lat="50.0008" lon="0.1008"/></rte>
</gpx>
)";

TEST_F(ShorelineImport, ReadsTracksAndRoutesOfGpx) {
    import({write("walk.gpx", gpx)});
    const auto parts = shore();
    ASSERT_THAT(parts, SizeIs(2));
    std::vector<std::size_t> sizes{parts[0].vertices.size(), parts[1].vertices.size()};
    EXPECT_THAT(sizes, ::testing::UnorderedElementsAre(4U, 3U));
    for (const ShorePart& part : parts) {
        EXPECT_EQ(part.kind, part.vertices.size() == 4 ? ShoreKind::Bank : ShoreKind::Island);
    }
}

TEST_F(ShorelineImport, RefusesXmlWithADocumentTypeOrEntities) {
    const std::string bomb = "<?xml version=\"1.0\"?>\n<!DOCTYPE kml [<!ENTITY a \"aaaa\">"
                             "<!ENTITY b \"&a;&a;\">]>\n<kml>&b;</kml>";
    EXPECT_THAT(refused({write("a.kml", bomb)}), ElementsAre(isBadAt(2, "")));
    EXPECT_THAT(
        refused({write("b.gpx", "<!doctype gpx SYSTEM \"file:///etc/passwd\"><gpx/>")}),
        ElementsAre(isBadAt(1, "")));
}

TEST_F(ShorelineImport, RefusesXmlThatNamesAnotherEncoding) {
    EXPECT_THAT(
        refused({write("a.kml", "<?xml version='1.0' encoding='ISO-8859-1'?><kml/>")}),
        ElementsAre(isBadAt(1, "encoding")));
}

TEST_F(ShorelineImport, RefusesXmlNestedWithoutEnd) {
    std::string deep = "<kml xmlns=\"http://www.opengis.net/kml/2.2\">";
    for (int i = 0; i < 1'000'000; ++i) {
        deep += "<Folder>";
    }
    EXPECT_THAT(refused({write("a.kml", deep)}), SizeIs(1));
    // The same behind a ">" in quotes, a comment and character data.
    std::string sly = "<kml><!-- <a> -->";
    for (int i = 0; i < 200; ++i) {
        sly += "<Folder a='/>' b=\">\"><![CDATA[</Folder>]]>";
    }
    EXPECT_THAT(refused({write("b.kml", sly)}), ElementsAre(isBadAt(1, "")));
}

TEST_F(ShorelineImport, RefusesXmlThatIsSomethingElseOrBroken) {
    EXPECT_THAT(refused({write("a.kml", gpx)}), SizeIs(1));
    EXPECT_THAT(refused({write("a.gpx", kml)}), SizeIs(1));
    EXPECT_THAT(refused({write("b.kml", "swim,lat,lon,tip_height_m\n")}), SizeIs(1));
    EXPECT_THAT(refused({write("c.kml", "")}), SizeIs(1));
    EXPECT_THAT(refused({write("d.kml", kml.substr(0, kml.size() / 2))}), SizeIs(1));
    EXPECT_THAT(refused({write("d.gpx", gpx.substr(0, 300))}), SizeIs(1));
}

TEST_F(ShorelineImport, RefusesPlacesOfXmlThatAreNotOnTheEarth) {
    std::string wild(kml);
    wild.replace(wild.find("0.101,50.0,0"), 12, "402431,91.0,0");
    EXPECT_THAT(refused({write("a.kml", wild)}), SizeIs(1));
    wild.replace(wild.find("402431"), 6, "nan,50");
    const auto planned = plan({write("b.kml", wild)});
    ASSERT_TRUE(planned.has_value());
}

TEST_F(ShorelineImport, RefusesMoreThanAThousandParts) {
    std::string text = "part,lat,lon\n";
    for (int i = 0; i < 1001; ++i) {
        const std::string n = std::to_string(i);
        text += n + ",52,1\n" + n + ",52.1,1\n" + n + ",52,1.1\n";
    }
    EXPECT_THAT(refused({write("a.csv", text)}), ElementsAre(isBadAt(1, "")));
}

} // namespace

} // namespace bedlore::testing
