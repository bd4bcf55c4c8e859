// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/edit.hpp"
#include "tests/support/made_photo.hpp"

#include <cstddef>
#include <memory>
#include <vector>

// A small book that holds at least one record of every type, every field of it filled.

namespace bedlore::testing {

/// The edits that build the book, parents first. Everything in it is invented.
// NOLINTNEXTLINE(readability-function-size): a table
inline Edits everyRecord() {
    using namespace std::chrono;
    const Date day{year{2025}, month{4}, std::chrono::day{12}};
    const Entered sticks{12.0, Unit::Foot, "12 ft"};
    Edits edits;
    const auto put = [&](auto record) {
        edits.emplace_back(Put<decltype(record)>{std::move(record)});
    };
    put(ImportedFile{.id = {1}, .name = "april.txt", .sha256 = std::string(64, 'a')});
    put(Water{
        .id = {2},
        .name = "Harl Pit",
        .position = GeographicPoint{52.2, -1.2},
        .planeOrigin = GeographicPoint{52.2, -1.2},
        .levelReference =
            {.words = "steps showing",
             .stepHeight = Entered{18.0, Unit::Centimetre, "18 cm"},
             .counts = LevelCounts::DownWithWater},
        .shore =
            {{.kind = ShoreKind::Island,
              .vertices = {Place{Point{1.0, 2.0}}, Place{GeographicPoint{52.2, -1.2}}},
              .level = Entered{2.0, Unit::Step, "2 steps"}}},
        .rules = "two rods; no night fishing"});
    put(Swim{
        .id = {3},
        .water = {2},
        .name = "the Point",
        .place = GeographicPoint{52.2001, -1.2002},
        .standing = "left foot on the white stone",
        .tipHeight = Entered{6.0, Unit::Foot, "6'"},
        .leftBoundary = BearingEntry{{200.0, Unit::Degree, "200"}, North::Magnetic},
        .rightBoundary = BearingEntry{{260.0, Unit::Degree, "260"}, North::Grid}});
    put(Mark{
        .id = {4},
        .water = {2},
        .name = "dead pine",
        .time = MarkTime::Both,
        .bearingFrom = Id<Swim>{3},
        .bearing = BearingEntry{{231.5, Unit::Degree, "231.5"}, North::Magnetic},
        .place = Point{-80.0, -60.0},
        .goneSince = day,
        .isPrivate = true,
        .note = "two tops"});
    put(Photo{
        .id = {5},
        .mark = {4},
        .caption = "from the board",
        .mediaType = "image/png",
        .bytes = std::make_shared<const std::vector<std::byte>>(pngOf({"\1\0\xFF", 3})),
        .isPrivate = false});
    put(
        Rod{.id = {6},
            .name = "R1",
            .role = RodRole::Marker,
            .standing = Entered{-2.0, Unit::Yard, "-2 yd"},
            .length = Entered{12.0, Unit::Foot, "12'"},
            .note = "stiff"});
    put(Reel{
        .id = {7},
        .name = "big one",
        .lineType = "0.35 mono",
        .calibration = {{.turns = 50.0, .distance = {49.0, Unit::Metre, "49 m"}}},
        .spool =
            SpoolDimensions{
                .fullDiameter = {70.0, Unit::Metre, "70"},
                .gearRatio = 4.6,
                .lineDiameter = {0.35, Unit::Metre, "0.35"},
                .traverse = {35.0, Unit::Metre, "35"},
                .packing = 0.8},
        .note = "new line"});
    put(
        Kit{.id = {8},
            .name = "marker kit",
            .lead = "4 oz",
            .leader = "50 lb",
            .farthestCast = Entered{120.0, Unit::Yard, "120y"},
            .allowances =
                {{.depthFrom = {6.0, Unit::Foot, "6"},
                  .depthTo = {12.0, Unit::Foot, "12"},
                  .add = {6.0, Unit::Foot, "6"}}},
            .whenClipping = RodPosition::PointedAtLead,
            .whenWrapping = StickStart::TipAtStick,
            .whenHitting = RodPosition::AtRelease,
            .note = "as ever"});
    put(Visit{
        .id = {9},
        .swim = {3},
        .date = day,
        .author = "a mate",
        .level = Entered{2.0, Unit::Step, "2 steps"},
        .sticks = sticks,
        .wrapCounts = WrapCounts::ThereAndBack,
        .bareDistance = Unit::Wrap,
        .bareDepth = Unit::Foot,
        .floatRig =
            FloatRig{.pull = {12.0, Unit::Inch, "12 in"}, .offset = {12.0, Unit::Inch, "12 in"}},
        .reel = Id<Reel>{7},
        .bearingSource = BearingSource::SightingCompass,
        .bearingError = Entered{2.0, Unit::Degree, "2"},
        .tipHeight = Entered{5.0, Unit::Foot, "5'"},
        .whenClipping = RodPosition::InTheRest,
        .note = "plumbing only; wind W"});
    put(
        Aim{.id = {10},
            .visit = {9},
            .order = 1,
            .label = "A",
            .basis = AimAtMark{.mark = {4}, .offset = Entered{1.0, Unit::Fist, "1 fist"}},
            .text = "dead pine"});
    put(
        Aim{.id = {11},
            .visit = {9},
            .order = 2,
            .label = "B",
            .basis = AimFromAim{.other = {10}, .offset = {10.0, Unit::Degree, "10 deg"}},
            .text = "A + 10 deg right"});
    put(Cast{
        .id = {12},
        .visit = {9},
        .order = 1,
        .name = "7",
        .aim = Id<Aim>{10},
        .bearing = BearingEntry{{230.0, Unit::Degree, "230"}, North::True},
        .reel = Id<Reel>{7}});
    put(Reading{
        .id = {13},
        .cast = {12},
        .order = 1,
        .from = {27.0, Unit::Wrap, "27"},
        .mode = DistanceMode::NearerThanLast,
        .about = true,
        .to = Entered{25.0, Unit::Wrap, "25"},
        .depth =
            DepthEntry{
                .value = {8.0, Unit::Foot, "8"},
                .to = Entered{10.0, Unit::Foot, "10"},
                .method = DepthMethod::FloatPulls,
                .about = true},
        .drop = Drop::Donk,
        .pull = Pull::Judder,
        .onLead = {OnLead::Clean, OnLead::Grit},
        .substrate = Substrate::Gravel,
        .otherSubstrate = Substrate::Silt,
        .cover = Cover::LowWeed,
        .sureness = 3,
        .agreeing = 3,
        .outcome = Outcome::Snagged,
        .note = "= the one, \"really\"; ½",
        .source = SourceLine{.file = {1}, .line = 12}});
    FixColumns columns;
    columns.x = {-1.2, -1.2001};
    columns.y = {52.2, 52.2001};
    columns.depth = {3.5, 0.25};
    columns.sigma = {0.1F, 0.2F};
    columns.level = {0.0F, 0.5F};
    columns.day = {20190, 20191};
    columns.substrate = {2, 255};
    columns.cover = {255, 1};
    put(FixSet{
        .id = {14},
        .water = {2},
        .name = "boat",
        .file = Id<ImportedFile>{1},
        .frame = FixFrame::Geographic,
        .columns = std::make_shared<const FixColumns>(std::move(columns)),
        .excluded =
            std::make_shared<const std::vector<std::uint8_t>>(std::vector<std::uint8_t>{0, 1})});
    put(Spot{
        .id = {15},
        .water = {2},
        .name = "PINE",
        .place = OnAim{.aim = {10}, .lineOut = {26.75, Unit::Wrap, "26¾"}},
        .lengthAlong = Entered{9.0, Unit::Foot, "9 ft"},
        .width = Entered{6.0, Unit::Foot, "6 ft"},
        .dayMark = Id<Mark>{4},
        .dayOffset = Entered{1.0, Unit::Finger, "1 finger"},
        .nightMark = Id<Mark>{4},
        .nightOffset = Entered{-2.0, Unit::Degree, "2 left"},
        .isPrivate = true,
        .lengths = {{.rod = "spod", .visit = Id<Visit>{9}, .length = {26.0, Unit::Wrap, "26"}}},
        .note = "polished"});
    put(LogEntry{
        .id = {16},
        .visit = {9},
        .order = 1,
        .minute = 1150,
        .content =
            RodOut{
                .rod = "R1",
                .spot = Id<Spot>{15},
                .drop = Drop::Thud,
                .rig = "short",
                .hookbait = "wafter"},
        .text = "R1 19.10 good"});
    put(LogEntry{
        .id = {17},
        .visit = {9},
        .order = 2,
        .minute = 1200,
        .content =
            BaitPut{
                .loads = 20.0,
                .mix = "M",
                .mass = Entered{5.0, Unit::Kilogram, "~5kg"},
                .spot = Id<Spot>{15}},
        .text = "20 x M ~5kg"});
    put(LogEntry{
        .id = {18},
        .visit = {9},
        .order = 3,
        .minute = 1695,
        .content =
            Bite{
                .rod = "R2",
                .spot = Id<Spot>{15},
                .outcome = BiteOutcome::Lost,
                .species = "mirror",
                .mass = Entered{27.75, Unit::Pound, "27.12"},
                .fish = "Patch"},
        .text = "04.15 R2 27.12 mir"});
    put(LogEntry{
        .id = {19},
        .visit = {9},
        .order = 4,
        .minute = 60,
        .content = Weather{.words = "SW3, 11c"},
        .text = "SW3"});
    put(LogEntry{
        .id = {20},
        .visit = {9},
        .order = 5,
        .minute = 70,
        .content = Shows{.words = "4 at 2 o'clock"},
        .text = "4 shows"});
    put(LogEntry{
        .id = {21},
        .visit = {9},
        .order = 6,
        .minute = 80,
        .content = Hearsay{.who = "a neighbour", .trust = 1, .words = "bar at 100"},
        .text = "bar at 100"});
    put(Hazard{
        .id = {22},
        .water = {2},
        .kind = HazardKind::OverheadLine,
        .name = "wires",
        .vertices = {Place{Point{0.0, 0.0}}, Place{}},
        .clearance = Entered{30.0, Unit::Metre, "30 m"},
        .note = "right of the path"});
    put(Page{.id = {23}, .water = {2}, .author = "a mate", .file = Id<ImportedFile>{1}});
    put(PageLine{
        .id = {24},
        .page = {23},
        .order = 1,
        .text = "A 27-25 8-10 gr/si",
        .kind = LineKind::Reading,
        .reading = Id<Reading>{13},
        .spot = Id<Spot>{15}});
    put(Word{.id = {25}, .text = "gv", .meaning = "gr"});
    put(Answer{.id = {26}, .question = "11.6 ft", .answer = "inches"});
    return edits;
}

} // namespace bedlore::testing
