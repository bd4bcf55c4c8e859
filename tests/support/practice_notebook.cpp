// SPDX-License-Identifier: MIT
#include "tests/support/practice_notebook.hpp"

#include "core/geodesy/local_frame.hpp"
#include "core/units/format.hpp"
#include "tests/support/chance.hpp"
#include "tests/support/practice_water.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>
#include <vector>

// How the errors of a careful man were chosen: from memory. Aim 0.5° a cast, line 0.2 m beside the
// rounding to a quarter wrap, depth 0.08 m beside the rounding to half a foot or half a pull. The
// planted mistakes come on top of them and draw nothing.

namespace bedlore::testing {

namespace {

constexpr double foot = 0.3048;
constexpr double tip = 1.8; // [m] above the water

// The reel: D(N) = a N - b N², [m] a turn.
constexpr double reelA = 0.985;
constexpr double reelB = 3.0e-4;

enum class Depths : std::uint8_t { Feet, Pulls };

struct Day {
    Point from;
    double level = 0.0;          ///< [m] as the water stood
    double stickGap = 12 * foot; ///< [m] as the sticks stood
    Depths depths = Depths::Feet;
    bool august = false;
};

/// One throw as he meant it. `line`s are true lengths [m]; `before` is what he wrote above it.
struct Throw {
    std::string_view aim;
    double bearing = 0.0; ///< true [°]
    double far = 0.0;
    double near = 0.0;
    std::string_view before = {};
    std::string_view mistake = {}; ///< the one planted in this throw
    bool byTurns = false;          ///< all but its first reading are turns nearer than the last
    bool patch = false;            ///< it goes over the firm patch
};

/// Where a lead lies on a tight line of this length.
Point leadAt(const Day& day, double bearing, double line) {
    double range = line;
    Point place;
    for (int round = 0; round < 30; ++round) {
        place = practice::away(day.from, bearing, range);
        const double drop = tip + std::max(0.0, wrackleDepth(place, day.level));
        range = std::sqrt(line * line - drop * drop);
    }
    return place;
}

double lineOfTurns(double turns) {
    return reelA * turns - reelB * turns * turns;
}

/// Turns to wind in a line of this length: the smaller root of a N - b N² = L.
double turnsOfLine(double line) {
    return (reelA - std::sqrt(reelA * reelA - 4.0 * reelB * line)) / (2.0 * reelB);
}

double quarters(double number) {
    return std::round(4.0 * number) / 4.0;
}

class Writer {
public:
    Writer(const Day& day, const std::set<std::string_view>& mended, Chance& chance)
        : day_(day)
        , mended_(mended)
        , chance_(chance) {}

    std::string page(const std::vector<Throw>& casts) {
        std::string text;
        for (const Throw& cast : casts) {
            text += cast.before;
            text += written(cast);
        }
        return text;
    }

private:
    [[nodiscard]] bool isPlanted(const Throw& cast, std::string_view mistake) const {
        return cast.mistake == mistake && !mended_.contains(mistake);
    }

    std::string written(const Throw& cast) {
        bearing_ = cast.bearing + chance_.error(0.5);
        std::string text;
        double line = cast.far;
        double last = 0.0;
        bool patchToCome = cast.patch;
        while (line >= cast.near) {
            std::string words = last == 0.0 ? std::string(cast.aim) + " " : std::string();
            const double patchFar = practice::patchRange + 0.5 * practice::patchAlong;
            if (patchToCome && line < patchFar + 4.0) {
                patchToCome = false;
                words += stretchOverPatch();
                last = patchFar - practice::patchAlong;
                line = last - chance_.between(3.0, 4.5);
            } else if (cast.byTurns && last > 0.0) {
                const double turns =
                    std::max(1.0, std::round(turnsOfLine(last) - turnsOfLine(line)));
                last = lineOfTurns(turnsOfLine(last) - turns);
                words += "-" + printNumber(turns) + "t" + felt(cast, last, false);
                line = last - stepAt(last);
            } else {
                // The count as it should be, and the lead a little off it.
                const double count = quarters(line / day_.stickGap);
                last = count * day_.stickGap;
                words += counted(cast, count) + felt(cast, last, words.empty() == false);
                line = last - stepAt(last);
            }
            text += words + "\n";
        }
        return text;
    }

    /// What he wrote for a count, with the mistake of this throw in it.
    std::string counted(const Throw& cast, double count) const {
        if (isPlanted(cast, "one-wrap")) {
            return printNumber(count + 1.0);
        }
        if (isPlanted(cast, "float-up")) {
            const double line = count * day_.stickGap;
            const double depth = wrackleDepth(leadAt(day_, bearing_, line), day_.level);
            return printNumber(quarters((line + depth) / day_.stickGap));
        }
        return printNumber(count);
    }

    std::string stretchOverPatch() const {
        const double far =
            quarters((practice::patchRange + 0.5 * practice::patchAlong) / day_.stickGap);
        const double near = far - quarters(practice::patchAlong / day_.stickGap);
        return printNumber(far) + "-" + printNumber(near) + " gr tap";
    }

    /// He goes in small steps where the depth changes.
    double stepAt(double line) {
        const double here = wrackleDepth(leadAt(day_, bearing_, line), day_.level);
        double change = 0.0;
        for (double nearer = 1.0; nearer <= 5.0 && line - nearer > 8.0; nearer += 1.0) {
            const Point place = leadAt(day_, bearing_, line - nearer);
            change = std::max(change, std::abs(wrackleDepth(place, day_.level) - here));
        }
        return change > 0.3 ? 0.5 * day_.stickGap : chance_.between(5.0, 8.5);
    }

    /// What he felt at a lead `line` out.
    std::string felt(const Throw& cast, double line, bool first) {
        const Point place = leadAt(day_, bearing_, line + chance_.error(0.2));
        const double depth = wrackleDepth(place, day_.level) + chance_.error(0.08);
        const bool floatUp = first || hasRelief(place) || chance_.oneIn(2.0);
        const bool saysBottom = !floatUp || chance_.oneIn(2.0);
        const std::string bottom = " " + std::string(bottomCode(place));
        if (wrackleCover(place, day_.august)) {
            return first ? " tw" : chance_.oneIn(3.0) ? " nf" : " tw none";
        }
        if (practice::hole(place) > 0.3) {
            return " none"; // nothing came back from the drop, and he left it at that
        }
        std::string words = floatUp ? " " + depthWords(cast, depth) : std::string();
        return words + (saysBottom ? bottom : std::string());
    }

    static bool hasRelief(Point place) {
        const double ledge = practice::beyondLedge(place);
        return practice::bar(place) > 0.05 || practice::hump(place) > 0.05 ||
               (ledge > 0.03 && ledge < 0.97);
    }

    std::string depthWords(const Throw& cast, double depth) {
        const double feet = std::round(2.0 * depth / foot) / 2.0;
        if (cast.mistake == "feet-for-metres" && depth > 3.9 && !metresWritten_) {
            metresWritten_ = true;
            return printNumber(std::round(depth)) + (mended_.contains(cast.mistake) ? "m" : "");
        }
        if (day_.depths == Depths::Feet || chance_.oneIn(6.0)) {
            return printNumber(feet) + (day_.depths == Depths::Feet ? "" : "'");
        }
        return printNumber(feet - 1.0); // pulls of a foot; the rig adds one
    }

    std::string_view bottomCode(Point place) {
        switch (wrackleSubstrate(place)) {
        case Substrate::Gravel:
            return chance_.any({"gr tap", "gr", "gr D"});
        case Substrate::Sand:
            return chance_.any({"sa", "sa thud", "sa"});
        case Substrate::BlackSilt:
            return "bs";
        case Substrate::FirmSilt:
            return chance_.any({"fs", "fs glide", "fs thud"});
        default:
            return chance_.any({"si", "si glide", "si d"});
        }
    }

    const Day& day_;
    const std::set<std::string_view>& mended_;
    Chance& chance_;
    double bearing_ = 0.0;
    bool metresWritten_ = false;
};

using Mended = std::set<std::string_view>;

std::string sluiceInApril(const Mended& mended, Chance& chance) {
    const Day day{.from = theSluice, .level = 0.20};
    Writer writer(day, mended, chance);
    return "swim the Sluice\ndate 2025-04-12\nlevel 0.20 m\nsticks 12 ft\nreel grey pit reel\n"
           "distances wraps\ndepths ft\nfloat pulls 12 in + 12 in\nbearings map\n"
           "note cold and clear, no weed anywhere yet\n\n"
           "aims off the map, lettered from the left\n"
           "aim A = 317 true\naim B = 329 true\naim C = 341 true\naim D = 353 true\n"
           "aim E = 5 true\naim F = 17 true\naim G = 30 true\n\n" +
           writer.page(
               {{.aim = "A", .bearing = 317.0, .far = 84.0, .near = 30.0},
                {.aim = "B",
                 .bearing = 329.0,
                 .far = 88.0,
                 .near = 30.0,
                 .before = "read the first depth of this one off the metre marks\n",
                 .mistake = "feet-for-metres"},
                {.aim = "C", .bearing = 341.0, .far = 92.0, .near = 30.0},
                {.aim = "D", .bearing = 353.0, .far = 94.0, .near = 30.0},
                {.aim = "E",
                 .bearing = 5.0,
                 .far = 84.0,
                 .near = 32.0,
                 .before = "was talked to while I counted this one\n",
                 .mistake = "one-wrap",
                 .byTurns = true},
                {.aim = "F", .bearing = 17.0, .far = 82.0, .near = 28.0},
                {.aim = "F",
                 .bearing = 17.0,
                 .far = 46.0,
                 .near = 31.0,
                 .before = "that cannot be right, so again\n"},
                {.aim = "G", .bearing = 30.0, .far = 78.0, .near = 28.0}}) +
           "\nnothing on the left to hang a lead on, flat from end to end\n";
}

std::string aldersInMay(const Mended& mended, Chance& chance) {
    const Day day{.from = theAlders, .level = 0.14, .depths = Depths::Pulls};
    Writer writer(day, mended, chance);
    const std::string rig = mended.contains("pulls") ? "12 in" : "0 in";
    return "swim the Alders\ndate 2025-05-03\nlevel 0.14 m\nsticks 12 ft\nreel grey pit reel\n"
           "distances wraps\ndepths pulls\nfloat pulls 12 in + " +
           rig +
           "\nbearings map\nnote the same rig as in April: 7 in of link and 5 in of float\n\n"
           "aim A = 160 true\naim B = 175 true\naim C = 190 true\naim D = 205 true\n"
           "aim E = 214 true\naim F = 224 true\n\n" +
           writer.page(
               {{.aim = "A", .bearing = 160.0, .far = 94.0, .near = 26.0},
                {.aim = "B",
                 .bearing = 175.0,
                 .far = 88.0,
                 .near = 24.0,
                 .before = "float still up when I clipped this one\n",
                 .mistake = "float-up",
                 .byTurns = true},
                {.aim = "B", .bearing = 175.0, .far = 50.0, .near = 36.0, .patch = true},
                {.aim = "C", .bearing = 190.0, .far = 96.0, .near = 22.0},
                {.aim = "D", .bearing = 205.0, .far = 98.0, .near = 30.0},
                {.aim = "E",
                 .bearing = 214.0,
                 .far = 106.0,
                 .near = 30.0,
                 .before = "there is a bar out here after all\n"},
                {.aim = "F", .bearing = 224.0, .far = 100.0, .near = 34.0}});
}

std::string sluiceInAugust(const Mended& mended, Chance& chance) {
    const Day day{.from = theSluice, .level = -0.20, .august = true};
    Writer writer(day, mended, chance);
    const std::string level = mended.contains("level") ? "-0.20 m" : "0.20 m";
    const bool swapped = !mended.contains("aims-swapped");
    return "swim the Sluice\ndate 2025-08-16\nlevel " + level +
           "\nsticks 12 ft\ndistances wraps\ndepths ft\nfloat pulls 12 in + 12 in\nbearings map\n"
           "note board high and dry, 8 in from its zero down to the water\n\n"
           "lettered from the left as always\naim A = 323 true\naim B = 347 true\n"
           "aim C = " +
           (swapped ? "17" : "359") + " true\naim D = " + (swapped ? "359" : "17") +
           " true\naim E = 24 true\n\n" +
           writer.page(
               {{.aim = "A", .bearing = 323.0, .far = 84.0, .near = 28.0},
                {.aim = "B",
                 .bearing = 347.0,
                 .far = 94.0,
                 .near = 30.0,
                 .before = "weed up to the top out there, nothing in April\n"},
                {.aim = "C", .bearing = 359.0, .far = 94.0, .near = 30.0},
                {.aim = "D",
                 .bearing = 17.0,
                 .far = 80.0,
                 .near = 28.0,
                 .before = "the same hump as in April, here it is again\n"},
                {.aim = "E", .bearing = 24.0, .far = 80.0, .near = 30.0}});
}

std::string aldersInSeptember(const Mended& mended, Chance& chance) {
    const Day day{.from = theAlders, .level = -0.16, .stickGap = 13 * foot};
    Writer writer(day, mended, chance);
    const std::string sticks = mended.contains("sticks") ? "13 ft" : "12 ft";
    return "swim the Alders\ndate 2025-09-13\nlevel -0.16 m\nsticks " + sticks +
           "\ndistances wraps\ndepths ft\nfloat pulls 12 in + 12 in\nbearings map\n"
           "note sticks laid out with the new 13 ft rod\n\n"
           "aim A = 168 true\naim B = 176 true\naim C = 197 true\naim D = 210 true\n"
           "aim E = 219 true\n\n" +
           writer.page(
               {{.aim = "A", .bearing = 168.0, .far = 86.0, .near = 26.0},
                {.aim = "B",
                 .bearing = 176.0,
                 .far = 86.0,
                 .near = 34.0,
                 .before = "a yard right of the patch of May and still on it, two yards right and "
                           "it is off\n",
                 .patch = true},
                {.aim = "C", .bearing = 197.0, .far = 94.0, .near = 28.0},
                {.aim = "D", .bearing = 210.0, .far = 104.0, .near = 30.0},
                {.aim = "E", .bearing = 219.0, .far = 104.0, .near = 30.0}});
}

std::string swims(const LocalFrame& frame) {
    std::string table = "swim,lat,lon,tip_height_m\n";
    const std::vector<std::pair<const char*, Point>> both{
        {"the Sluice", theSluice}, {"the Alders", theAlders}};
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
        const double metres = lineOfTurns(turns) + chance.error(0.1);
        table += "grey pit reel," + printFixed(turns, 0) + "," + printFixed(metres, 1) + "\n";
    }
    return table;
}

} // namespace

std::map<std::string, std::string> practiceNotebook(const std::set<std::string_view>& mended) {
    Chance chance(20250412);
    const auto frame = LocalFrame::atOrigin(wrackleMiddle);
    if (!frame) {
        return {};
    }
    std::map<std::string, std::string> files;
    files["swims.csv"] = swims(*frame);
    files["reels.csv"] = reels(chance);
    files["2025-04-12-the-sluice.txt"] = sluiceInApril(mended, chance);
    files["2025-05-03-the-alders.txt"] = aldersInMay(mended, chance);
    files["2025-08-16-the-sluice.txt"] = sluiceInAugust(mended, chance);
    files["2025-09-13-the-alders.txt"] = aldersInSeptember(mended, chance);
    return files;
}

} // namespace bedlore::testing
