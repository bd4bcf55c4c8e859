// SPDX-License-Identifier: MIT
#include "tests/fuzz/seeds.hpp"

#include <string_view>

namespace bedlore::fuzz {

namespace {

constexpr std::string_view readings =
    "swim,date,cast,bearing,north,distance,distance_unit,depth,depth_unit,bottom,note\n";
constexpr std::string_view allReadings =
    "swim,date,cast,bearing,north,distance,distance_unit,depth,depth_unit,bottom,note,distance_to,"
    "reel,aim,stick_gap_ft,level_m,drop,pull,on_lead,sure,outcome\n";
constexpr std::string_view fixes = "lat,lon,depth_m,bottom,sigma_m,date,level_m\n";

std::string under(std::string_view header, std::string_view rows) {
    return std::string(header) + std::string(rows);
}

std::vector<std::string> readingSeeds() {
    return {
        under(readings, "A,2025-04-12,1,49,true,30,wrap,9,ft,gravel,\"a \"\"b\"\", c\"\n"),
        under(
            readings,
            "A,2025-04-12,1,49,true,37,m,3,m,gravel,\nA,2025-04-12,1,49,true,36,m,3,m,,\n"),
        under(readings, "A,2025-04-12,1,50,true,37,m,3,m,gravel,\n"),
        under(readings, "A,2025-04-12,,50,grid,62,yd,3.4,m,silt,\nB,2025-05-01,2,,,5,m,,,,\n"),
        under(
            readings,
            "A,2025-04-12,,-360,magnetic,400,m,0,m,,\nA,2025-04-12,,721,true,400.1,m,,,,\n"),
        under(
            readings,
            "A,2025-04-12,,nan,true,inf,m,-1,m,,\nA,2025-02-30,,1e999,true,1e-999,m,1e308,ft,,\n"),
        under(readings, "A,2025-04-12,9,49,true,30,turn,,,,\n,,,,,,,,,,\n\n"),
        under(readings, "A,2025-04-12,9,49,true,30,m\nA,2025-04-12,9,49,true,30,m,,,,,,,\n"),
        under(readings, "\"A\n\",2025-04-12,9,49,true,30,m,,,,\"open"),
        under(
            allReadings,
            "A,2025-04-12,7,231.5,magnetic,28.50,wrap,9.0,ft,gravel,\"the one\",27,,dead pine,13,"
            "-0.35,D,tap,\"grit, mud\",3,weed too thick\n"
            "A,2025-04-12,8,10,true,60,turn,9.0,ft,weed,,,big,,,,d,,,1,\n"),
    };
}

std::vector<std::string> placeSeeds() {
    return {
        "swim,lat,lon,tip_height_m\nA,52.2,-1.2,1.8\nthe Point,52.20001,-1.2,\n",
        "swim,east_m,north_m,tip_height_m\nA,-12.5,40,1.8\n",
        "swim;lat;lon;tip_height_m\r\nC;52.3;-1.3;1,8\r\n",
        "swim,lat,lon,tip_height_m,lat\nA,91,181,-1\n",
        "lon,tip_height_m,swim,lat,colour\n-1.2,1.8,B,52.2,red\n",
        "reel,turns,distance_m\nbig,30,29.2\nbig,55,53.3\nsmall,80,76.9\nbig,0,0\n,1,2\n",
        "part,lat,lon\nlake,52.20,-1.20\nlake,52.20,-1.19\nlake,52.21,-1.19\nlake,52.20,-1.20\n"
        "island,52.204,-1.196\nisland,52.204,-1.194\nisland,52.206,-1.195\n",
        under(fixes, "52.2,-1.2,3.5,gravel,0.1,2025-04-12,0.35\n52.2001,-1.2001,0,weed,,,\n"),
        "east_m,north_m,depth_m\n1,2,3\n1e6,1e6,1e6\nnan,inf,-inf\n",
        "lat,lon,depth_m\n90,180,1\n-90,-180,2\n52.2,-1.2,abc\n",
    };
}

} // namespace

std::vector<std::string> tableSeeds() {
    std::vector<std::string> seeds = readingSeeds();
    for (std::string& seed : placeSeeds()) {
        seeds.push_back(std::move(seed));
    }
    const std::vector<std::string> hostile{
        "",
        "\n\n",
        "alpha,beta\n1,2\n",
        "x",
        std::string(300, ','),
        std::string("\xFF\xFEs\0w\0", 6),
        std::string("swim,lat,lon,tip_height_m\nA\0,52.2,-1.2,\n", 41),
        "swim,lat,lon,tip_height_m\n\xE9t\xE9,52.2,-1.2,\n",
        "\xEF\xBB\xBFswim,lat,lon,tip_height_m\nA\x1b[2J,52.2,-1.2,\n",
    };
    seeds.insert(seeds.end(), hostile.begin(), hostile.end());
    return seeds;
}

} // namespace bedlore::fuzz
