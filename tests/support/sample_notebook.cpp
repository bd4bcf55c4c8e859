// SPDX-License-Identifier: MIT
#include "tests/support/sample_notebook.hpp"

#include "core/book/place.hpp"
#include "core/geodesy/local_frame.hpp"
#include "core/geodesy/magnetic_model.hpp"
#include "core/units/format.hpp"
#include "tests/support/chance.hpp"
#include "tests/support/sample_water.hpp"

#include <array>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <string_view>
#include <vector>

// How the errors were chosen: from memory, after what careful men say of themselves. Aim 0.8° a
// cast beside 0.5° of the compass on the day, line 0.3 m beside the rounding to the mark that he
// reads, depth 0.1 m beside the rounding to half a foot, a pull or 10 cm, level 1 cm, the bottom
// named as its neighbour one time in eight.

namespace bedlore::testing {

namespace {

constexpr double wrapLength = 3.6576; // [m] 12 ft, by definition of the foot
constexpr double tip = 1.8;           // [m] above the water

/// What a distance and a depth are counted in on a visit.
enum class Distances : std::uint8_t { Wraps, Turns, Yards };
enum class Depths : std::uint8_t { Feet, Pulls, Metres };

struct Day {
    Point from;
    double level = 0.0;   ///< [m] as the water stood
    double compass = 0.0; ///< [°] error of the day, clockwise
    bool autumn = false;
    Distances distances = Distances::Wraps;
    Depths depths = Depths::Feet;
};

/// One throw as he means it: the aim's letter, its true bearing [°], and between which counts he
/// takes readings.
struct Throw {
    std::string_view aim;
    double bearing = 0.0;
    double far = 0.0;
    double near = 0.0;
    std::string_view before; ///< what he wrote above it
};

// The reel of the second visit: D(N) = a N - b N², [m] a turn.
constexpr double reelA = 0.985;
constexpr double reelB = 3.0e-4;

double lineOf(Distances unit, double count) {
    switch (unit) {
    case Distances::Wraps:
        return count * wrapLength;
    case Distances::Turns:
        return reelA * count - reelB * count * count;
    case Distances::Yards:
        return count * 0.9144;
    }
    return 0.0;
}

/// Finest step that he reads.
double gradeOf(Distances unit) {
    return unit == Distances::Wraps ? 0.25 : 1.0;
}

/// Where a lead lies on a tight line of this length: the plan distance shrinks with the depth
/// there.
Point leadAt(const Day& day, double bearing, double line) {
    const double angle = bearing * std::numbers::pi / 180.0;
    double range = line;
    Point place;
    for (int round = 0; round < 30; ++round) {
        place = {day.from.east + range * std::sin(angle), day.from.north + range * std::cos(angle)};
        const double drop = tip + std::max(0.0, harlPitDepth(place, day.level));
        range = std::sqrt(line * line - drop * drop);
    }
    return place;
}

std::string quarters(double number, Chance& chance) {
    const std::string text = printNumber(number);
    const double part = number - std::floor(number);
    if (part == 0.5 && number > 1.0 && chance.oneIn(7.0)) {
        return printNumber(std::floor(number)) + " 1/2";
    }
    if (part == 0.25 && number > 1.0 && chance.oneIn(5.0)) {
        return printNumber(std::floor(number)) + " 1/4";
    }
    return text;
}

std::string distanceWords(const Day& day, double count, Chance& chance) {
    switch (day.distances) {
    case Distances::Wraps:
        if (chance.oneIn(25.0)) {
            return printNumber(std::round(count * 4.0)) + "y";
        }
        return quarters(count, chance);
    case Distances::Turns:
        return printNumber(count) + (chance.oneIn(4.0) ? "t" : "");
    case Distances::Yards:
        return printNumber(count) + (chance.oneIn(6.0) ? "y" : "");
    }
    return {};
}

std::string depthWords(const Day& day, double depth, Chance& chance) {
    const double feet = depth / 0.3048;
    switch (day.depths) {
    case Depths::Feet: {
        if (chance.oneIn(6.0)) {
            return printNumber(std::max(1.0, std::round(feet) - 1.0)) + "p";
        }
        if (chance.oneIn(9.0)) {
            const double inches = std::round(feet * 6.0) * 2.0; // to two inches
            const double whole = std::floor(inches / 12.0);
            return printNumber(whole) + "'" + printNumber(inches - 12.0 * whole);
        }
        const std::string about = chance.oneIn(18.0) ? "~" : "";
        const double half = std::round(feet * 2.0) / 2.0;
        return about + printNumber(half) + (chance.oneIn(3.0) ? "'" : "");
    }
    case Depths::Pulls:
        if (chance.oneIn(12.0)) {
            const double low = std::floor(feet) - 1.0;
            return printNumber(low) + "-" + printNumber(low + 1.0) + "p";
        }
        if (chance.oneIn(6.0)) {
            return printNumber(std::round(feet * 2.0) / 2.0) + "'";
        }
        return printNumber(std::max(1.0, std::round(feet) - 1.0)) + (chance.oneIn(3.0) ? "p" : "");
    case Depths::Metres:
        return printFixed(std::round(depth * 10.0) / 10.0, 1) + (chance.oneIn(5.0) ? "m" : "");
    }
    return {};
}

/// The code that he writes, one time in eight that of the next kind to it.
std::string_view bottomCode(Point place, Chance& chance) {
    const bool mistaken = chance.oneIn(8.0);
    switch (harlPitSubstrate(place)) {
    case Substrate::Gravel:
        return mistaken ? "mu" : "gr";
    case Substrate::Clay:
        return mistaken ? "fs" : "cl";
    case Substrate::Sand:
        return mistaken ? "cl" : "sa";
    case Substrate::BlackSilt:
        return mistaken ? "si" : "bs";
    case Substrate::FirmSilt:
        return mistaken ? "si" : "fs";
    default:
        return mistaken ? "fs" : "si";
    }
}

std::string_view feelOf(Point place, Chance& chance) {
    switch (harlPitSubstrate(place)) {
    case Substrate::Gravel:
        return chance.any({"tap", "D", "donk", "judder", "tap", "D tap"});
    case Substrate::Clay:
        return chance.any({"thud", "stick", "D", "glide"});
    case Substrate::Sand:
        return chance.any({"thud", "scrape", "D"});
    case Substrate::BlackSilt:
        return chance.any({"none plug", "plug", "d"});
    default:
        return chance.any({"glide", "d", "plug", "soft", "d glide"});
    }
}

std::string_view weedCode(bool autumn, Chance& chance) {
    return autumn ? chance.any({"tw", "wd", "tw none"}) : chance.any({"lw", "wd", "lw soft"});
}

/// The readings of one throw, a line each.
class Writer {
public:
    Writer(const Day& day, Chance& chance)
        : day_(day)
        , chance_(chance) {}

    std::string lines(const Throw& cast) {
        const double bearing = cast.bearing + day_.compass + chance_.error(0.8);
        std::string page;
        double count = cast.far;
        double last = -1.0;
        bool stretchBefore = false;
        while (count >= cast.near) {
            const Point place = placeOf(bearing, count);
            const double next = count - stepAt(place);
            std::string line = last < 0.0 ? std::string(cast.aim) + " " : std::string();
            const bool weed = harlPitCover(place, day_.autumn).has_value();
            const bool stretch =
                last > 0.0 && !weed && !stretchBefore && next >= cast.near && chance_.oneIn(9.0) &&
                harlPitSubstrate(place) == harlPitSubstrate(placeOf(bearing, next));
            // One draw after another: the order within an expression is the compiler's choice.
            if (stretch) {
                line += distanceWords(day_, count, chance_);
                line += "-";
                line += distanceWords(day_, next, chance_);
                line += " ";
                line += bottomCode(place, chance_);
                line += " ";
                line += feelOf(place, chance_);
            } else {
                line += from(count, last);
                line += weed ? weedAt(last < 0.0) : feltAt(place, last);
            }
            page += line + "\n";
            stretchBefore = stretch;
            last = count;
            count = stretch ? next - gradeOf(day_.distances) : next;
        }
        return page;
    }

private:
    Point placeOf(double bearing, double count) {
        const double rounding = 0.5 * gradeOf(day_.distances);
        const double counted = count + chance_.between(-rounding, rounding);
        return leadAt(day_, bearing, lineOf(day_.distances, counted) + chance_.error(0.3));
    }

    /// He goes in small steps where he has found something.
    double stepAt(Point place) {
        const bool found = sample::bar(place) > 0.2 ||
                           (sample::plateau(place) > 0.1 && sample::plateau(place) < 0.95);
        const double metres = found ? chance_.between(3.2, 5.2) : chance_.between(6.5, 12.5);
        const double grade = gradeOf(day_.distances);
        const double unit = day_.distances == Distances::Wraps ? wrapLength : 0.93;
        return std::max(grade, std::round(metres / unit / grade) * grade);
    }

    /// The count as he writes it: still out, or turns nearer than the line above.
    std::string from(double count, double last) {
        if (day_.distances == Distances::Turns && last > 0.0 && chance_.oneIn(6.0)) {
            return "-" + printNumber(last - count) + "t";
        }
        const std::string about = chance_.oneIn(30.0) ? "~" : "";
        return about + distanceWords(day_, count, chance_);
    }

    std::string weedAt(bool first) {
        if (!first && day_.autumn && chance_.oneIn(4.0)) {
            return " -- weed too thick";
        }
        if (!first && chance_.oneIn(7.0)) {
            return " nf";
        }
        return " " + std::string(weedCode(day_.autumn, chance_));
    }

    std::string feltAt(Point place, double last) {
        const bool bar = sample::bar(place) > 0.3;
        const bool floatUp = last < 0.0 || bar ? !chance_.oneIn(4.0) : chance_.oneIn(2.0);
        std::string words;
        if (floatUp) {
            const double depth = harlPitDepth(place, day_.level) + chance_.error(0.1);
            words += " " + depthWords(day_, depth, chance_);
        }
        if (!floatUp || !chance_.oneIn(4.0)) {
            words += " " + std::string(bottomCode(place, chance_));
            words += chance_.oneIn(14.0) ? "?" : "";
            if (chance_.oneIn(2.0)) {
                words += " " + std::string(feelOf(place, chance_));
            }
        }
        if (sample::bar(place) > 0.8 && chance_.oneIn(4.0)) {
            words += floatUp && chance_.oneIn(2.0) ? " x3" : " !";
        }
        return words;
    }

    const Day& day_;
    Chance& chance_;
};

std::string written(const Day& day, const std::vector<Throw>& casts, Chance& chance) {
    Writer writer(day, chance);
    std::string page;
    for (const Throw& cast : casts) {
        page += std::string(cast.before) + writer.lines(cast);
    }
    return page;
}

/// A true bearing as his compass shows it, to half a degree.
std::string magnetic(const LocalFrame& frame, Point swim, double bearing, Date date) {
    const Declination declination = declinationAt(frame.toGeographic(swim), date);
    const double shown = bearing - declination.east / degree;
    const double half = std::round(shown * 2.0) / 2.0;
    return printNumber(half < 0.0 ? half + 360.0 : half, 1);
}

std::string pointInApril(const LocalFrame& frame, Chance& chance) {
    using namespace std::chrono;
    const Date date{year{2024}, month{4}, day{13}};
    const std::array<double, 12> bearings{
        318.0, 326.0, 334.0, 341.0, 348.0, 355.0, 3.0, 9.0, 16.0, 24.0, 32.0, 41.0};
    std::string page = "swim the Point\ndate 2024-04-13\nlevel 0.62 m\nsticks 12 ft\n"
                       "distances wraps\ndepths ft\nfloat pulls 12 in + 12 in\n"
                       "note plumbing only, no rods out. SW3, 11c and rising, hardly a ripple\n\n"
                       "all bearings off the old sighting compass, stood on the end board\n";
    for (std::size_t i = 0; i < bearings.size(); ++i) {
        page += std::string("aim ") + static_cast<char>('A' + i) + " = " +
                magnetic(frame, thePoint, bearings[i], date) + " magnetic\n";
    }
    page += "\n";
    const Day conditions{
        .from = thePoint, .level = 0.62 + chance.error(0.01), .compass = chance.error(0.5)};
    const std::vector<Throw> casts{
        {"A", 318.0, 25.5, 8.0, "D is a hard drop, d a soft one\n"},
        {"B", 326.0, 27.0, 9.0, ""},
        {"C", 334.0, 28.5, 8.0, "two tufties working over the far end of this one\n"},
        {"D", 341.0, 29.0, 8.5, ""},
        {"E", 348.0, 29.5, 7.5, ""},
        {"E", 348.0, 22.0, 17.5, "again, for the top of it\n"},
        {"F", 355.0, 30.0, 8.0, "2 o'c 100ish 4 shows 09.40\n"},
        {"G", 3.0, 30.25, 7.75, ""},
        {"H", 9.0, 30.0, 8.0, "this is the best of it, same height all along\n"},
        {"H", 9.0, 23.0, 19.0, ""},
        {"I", 16.0, 30.5, 8.0, ""},
        {"J", 24.0, 30.75, 8.0, "tea. wind gone round to the W\n"},
        {"K", 32.0, 30.0, 9.0, ""},
        {"L", 41.0, 27.5, 8.5, ""}};
    return page + written(conditions, casts, chance) +
           "\nspot \"Pine\" is on H where the bar is flattest\n"
           "H is the line between the dead pine and the one beside it\n";
}

std::string reedsInMay(const LocalFrame& frame, Chance& chance) {
    using namespace std::chrono;
    const Date date{year{2024}, month{5}, day{4}};
    std::string page = "swim the Reeds\ndate 2024-05-04\nlevel 0.48 m\nreel grey pit reel\n"
                       "distances turns\ndepths pulls\nfloat pulls 12 in + 12 in\n"
                       "note across from the Point, wanted to see the bar from behind\n\n";
    page += "aim A = " + magnetic(frame, theReeds, 140.0, date) + " magnetic\n";
    page += "aim B = A + 8 deg right\naim C = A + 1.5 fist right\naim D = " +
            magnetic(frame, theReeds, 163.0, date) +
            " magnetic\naim E = D + 7 deg right\naim F = D + 1.5 fist right\n"
            "aim G = " +
            magnetic(frame, theReeds, 186.0, date) +
            " magnetic\naim H = G + 8 deg right\naim I = G + 1.5 fist right\n"
            "aim J = H + 1.5 fist right\n\n";
    const Day conditions{
        .from = theReeds,
        .level = 0.48 + chance.error(0.01),
        .compass = chance.error(0.5),
        .distances = Distances::Turns,
        .depths = Depths::Pulls};
    const std::vector<Throw> casts{
        {"A", 140.0, 92.0, 30.0, "turns still out, counted down as I wind\n"},
        {"B", 148.0, 97.0, 28.0, ""},
        {"C", 155.0, 99.0, 28.0, "bait boat about, waited for it\n"},
        {"D", 163.0, 103.0, 30.0, ""},
        {"E", 170.0, 108.0, 27.0, ""},
        {"F", 178.0, 110.0, 30.0, "weed just coming up in front, 8 to 12 yd of it\n"},
        {"G", 186.0, 108.0, 28.0, ""},
        {"H", 194.0, 104.0, 30.0, "top up next door, and a brew\n"},
        {"I", 201.0, 101.0, 28.0, ""},
        {"J", 209.0, 96.0, 30.0, ""}};
    return page + written(conditions, casts, chance) +
           "\nrain from 15.20, packed up. 61 casts with the ones that I did not write down\n";
}

std::string pointInSeptember(Chance& chance) {
    std::string page = "swim the Point\ndate 2024-09-21\nlevel 0.21 m\nsticks 12 ft\n"
                       "distances yd\ndepths m\nfloat pulls 12 in + 12 in\n"
                       "note water well down, weed up to the top on the left\n\n"
                       "aims off the map this time\n"
                       "aim A = 322 true\naim B = 337 true\naim C = 351 true\naim D = 5 true\n"
                       "aim E = 12 true\naim F = 20 true\naim G = 36 true\n\n";
    const Day conditions{
        .from = thePoint,
        .level = 0.21 + chance.error(0.01),
        .compass = chance.error(0.5),
        .autumn = true,
        .distances = Distances::Yards,
        .depths = Depths::Metres};
    const std::vector<Throw> casts{
        {"A", 322.0, 104.0, 34.0, ""},
        {"B", 337.0, 112.0, 35.0, "left hand side is done for until the frosts\n"},
        {"C", 351.0, 118.0, 33.0, ""},
        {"D", 5.0, 120.0, 32.0, ""},
        {"E", 12.0, 121.0, 34.0, "18.40 big one rolled, 1 o'c, just past the bar\n"},
        {"F", 20.0, 119.0, 33.0, ""},
        {"G", 36.0, 113.0, 36.0, ""}};
    return page + written(conditions, casts, chance) +
           "\nPINE = D 82y / rods 82y spod 79y\n"
           "20 x M (hemp, maize) ~5kg\nR1 19.10 good\n04.15 R2 27.12 mir, +6\n";
}

std::string swims(const LocalFrame& frame) {
    std::string table = "swim,lat,lon,tip_height_m\n";
    const std::array<std::pair<const char*, Point>, 2> both{
        {{"the Point", thePoint}, {"the Reeds", theReeds}}};
    for (const auto& [name, place] : both) {
        const GeographicPoint at = frame.toGeographic(place);
        table += std::string(name) + "," + printFixed(at.latitude, 7) + "," +
                 printFixed(at.longitude, 7) + "," + printFixed(tip, 1) + "\n";
    }
    return table;
}

/// Measured along the bank with a tape, to 10 cm.
std::string reels(Chance& chance) {
    std::string table = "reel,turns,distance_m\n";
    for (const double turns : {30.0, 55.0, 80.0, 105.0}) {
        const double metres = lineOf(Distances::Turns, turns) + chance.error(0.1);
        table += "grey pit reel," + printFixed(turns, 0) + "," + printFixed(metres, 1) + "\n";
    }
    return table;
}

} // namespace

std::map<std::string, std::string> sampleNotebook() {
    Chance chance(20240413);
    const auto frame = LocalFrame::atOrigin(harlPitMiddle);
    if (!frame) {
        return {};
    }
    std::map<std::string, std::string> files;
    files["swims.csv"] = swims(*frame);
    files["reels.csv"] = reels(chance);
    files["2024-04-13-the-point.txt"] = pointInApril(*frame, chance);
    files["2024-05-04-the-reeds.txt"] = reedsInMay(*frame, chance);
    files["2024-09-21-the-point.txt"] = pointInSeptember(chance);
    return files;
}

} // namespace bedlore::testing
