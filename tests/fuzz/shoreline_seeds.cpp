// SPDX-License-Identifier: MIT
#include "tests/fuzz/seeds.hpp"

namespace bedlore::fuzz {

namespace {

std::vector<std::string> jsonSeeds() {
    return {
        R"({"type":"Polygon","coordinates":[
 [[-1.2,52.2],[-1.19,52.2],[-1.19,52.21],[-1.2,52.21],[-1.2,52.2]],
 [[-1.196,52.204],[-1.194,52.204],[-1.195,52.206],[-1.196,52.204]]]})",
        R"({"type":"FeatureCollection","features":[
 {"type":"Feature","properties":null,"geometry":{"type":"LineString","coordinates":
  [[-1.2,52.2,7],[-1.19,52.2,7],[-1.19,52.21,7]]}},
 {"type":"Feature","properties":{},"geometry":null},
 {"type":"Feature","geometry":{"type":"GeometryCollection","geometries":[
  {"type":"MultiLineString","coordinates":[[[-1.2,52.2],[-1.1,52.2],[-1.1,52.1]]]},
  {"type":"MultiPolygon","coordinates":[[[[-1.2,52.2],[-1.1,52.2],[-1.1,52.1],[-1.2,52.2]]]]},
  {"type":"Point","coordinates":[-1.2,52.2]}]}}]})",
        R"({"crs":{"type":"name","properties":{"name":"urn:ogc:def:crs:OGC:1.3:CRS84"}},
 "type":"LineString","coordinates":[[-1.2,52.2],[-1.1,52.2],[-1.1,52.1]]})",
        R"({"crs":7,"type":"LineString","coordinates":[[1,2],[1,3],[2,3]]})",
        R"({"crs":{"properties":[1]},"type":"Point","coordinates":[1,2]})",
        R"({"type":"LineString","coordinates":[[1,2],[402431.9,3283538.2],[1,3],[2,3]]})",
        R"({"type":"LineString","coordinates":[[1,1e999],[1,"2"],[3,3],[null,true],[]]})",
        R"({"type":"FeatureCollection"})",
        R"([1,2,3])",
        R"({"type":)",
        R"("\uD800")",
        "NaN",
        "",
        std::string(500, '['),
    };
}

std::vector<std::string> xmlSeeds() {
    return {
        R"(<?xml version="1.0" encoding="UTF-8"?>
<kml xmlns="http://www.opengis.net/kml/2.2"><Document><Placemark><name>lake</name><Polygon>
<outerBoundaryIs><LinearRing><coordinates>-1.2,52.2,0 -1.19,52.2,0 -1.19,52.21,0 -1.2,52.2,0
</coordinates></LinearRing></outerBoundaryIs><innerBoundaryIs><LinearRing><coordinates>
-1.196,52.204 -1.194,52.204 -1.195,52.206 -1.196,52.204</coordinates></LinearRing></innerBoundaryIs>
</Polygon></Placemark><Placemark><Point><coordinates>-1.2,52.2</coordinates></Point></Placemark>
</Document></kml>)",
        R"(<kml xmlns="http://www.opengis.net/kml/2.2"><Placemark><MultiGeometry><LineString>
<coordinates>-1.2,52.2 -1.1,52.2 -1.1,52.1</coordinates></LineString></MultiGeometry></Placemark></kml>)",
        R"(<kml xmlns="http://www.opengis.net/kml/2.2"><NetworkLink><Link><href>http://127.0.0.1/x.kml
</href></Link></NetworkLink><Placemark><LineString><coordinates>nan,inf 1e999,91 402431,5
</coordinates></LineString></Placemark></kml>)",
        R"(<?xml version="1.0"?><gpx version="1.1" creator="hand" xmlns="http://www.topografix.com/GPX/1/1">
<wpt lat="52.2" lon="-1.2"><name>board</name></wpt><trk><trkseg><trkpt lat="52.2" lon="-1.2"/>
<trkpt lat="52.2" lon="-1.1"/><trkpt lat="52.1" lon="-1.1"/></trkseg></trk><rte>
<rtept lat="52.204" lon="-1.196"/><rtept lat="52.204" lon="-1.194"/><rtept lat="52.206" lon="-1.195"/>
</rte></gpx>)",
        R"(<gpx version="1.1"><trk><trkseg><trkpt lat="nan" lon="inf"/><trkpt/><trkpt lat="" lon="x"/>
</trkseg></trk></gpx>)",
        R"(<?xml version="1.0"?><!DOCTYPE kml [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;">]><kml>&b;</kml>)",
        R"(<!doctype gpx SYSTEM "file:///etc/hostname"><gpx/>)",
        R"(<?xml version='1.0' encoding='ISO-8859-1'?><kml/>)",
        R"(<kml><!-- <a> --><![CDATA[</kml>]]><Folder a='/>' b=">">&#x41;&lt;</Folder></kml>)",
        R"(<kml>)",
        R"(<)",
    };
}

} // namespace

std::vector<std::string> shorelineSeeds() {
    std::vector<std::string> seeds = jsonSeeds();
    for (std::string& seed : xmlSeeds()) {
        seeds.push_back(std::move(seed));
    }
    return seeds;
}

} // namespace bedlore::fuzz
