// SPDX-License-Identifier: MIT
#include "gui/document/practice_tour.hpp"

#include "core/geodesy/local_frame.hpp"
#include "core/reduction/directions.hpp"
#include "core/units/format.hpp"
#include "gui/document/whereabouts.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace bedlore {

namespace {

using namespace std::chrono_literals;

/// A page of the practice notebook.
struct Day {
    std::string_view swim;
    Date date{};
};
constexpr Day noDay{};
constexpr Day sluiceInApril{"the Sluice", 2025y / 4 / 12};
constexpr Day aldersInMay{"the Alders", 2025y / 5 / 3};
constexpr Day sluiceInAugust{"the Sluice", 2025y / 8 / 16};
constexpr Day aldersInSeptember{"the Alders", 2025y / 9 / 13};

constexpr int lastLine = 9999;

/// `line` is looked for as it came, then as it is mended; where it says something else by now,
/// `number` (from 0) is where it stood.
struct Row {
    TourStep step;
    std::string_view name;
    Day day = noDay;
    std::string_view line = {};
    std::string_view mended = {};
    int number = 0;
    std::string_view aim = {};
    std::string_view also = {}; ///< the other line that is to be mended, as it came
};

// clang-format off
constexpr std::array<Row, tourStepCount> rows{{
    {TourStep::Welcome, "welcome"},
    {TourStep::TypeALine, "type-a-line", aldersInSeptember, "", "", lastLine, "A"},
    {TourStep::AskTheMap, "ask-the-map"},
    {TourStep::SideView, "side-view"},
    {TourStep::FeetForMetres, "feet-for-metres", sluiceInApril, "B 24 4 si glide", "B 24 4m si glide", 32, "B"},
    {TourStep::OneWrap, "one-wrap", sluiceInApril, "E 24 13", "E 23 13", 70, "E"},
    {TourStep::AimsSwapped, "aims-swapped", sluiceInAugust, "aim C = 17 true", "aim C = 359 true", 13, "D", "aim D = 359 true"},
    {TourStep::Sticks, "sticks", aldersInSeptember, "sticks 12 ft", "sticks 13 ft", 3, "C"},
    {TourStep::Pulls, "pulls", aldersInMay, "float pulls 12 in + 0 in", "float pulls 12 in + 12 in", 7, "A"},
    {TourStep::Level, "level", sluiceInAugust, "level 0.20 m", "level -0.20 m", 2, "B"},
    {TourStep::FloatUp, "float-up", aldersInMay, "B 24¾ 7", "B 24 7", 32, "B"},
    {TourStep::Hump, "hump", sluiceInApril, "10½ 5", "", 91, "F"},
    {TourStep::Bar, "bar", aldersInMay, "25¾ 4 gr D", "", 77, "E"},
    {TourStep::Felt, "felt", aldersInMay, "B 12¾-12 gr tap", "", 45, "B"},
    {TourStep::Weed, "weed", sluiceInAugust, "22 tw none", "", 32, "B"},
    {TourStep::YourOwn, "your-own"},
}};
// clang-format on

const Row& rowOf(TourStep step) {
    return rows[static_cast<std::size_t>(step)];
}

const Visit* visitOn(const Book& book, const Day& day) {
    for (const Visit& visit : book.all<Visit>()) {
        const Swim* swim = book.find(visit.swim);
        if (visit.date == day.date && swim != nullptr && swim->name == day.swim) {
            return &visit;
        }
    }
    return nullptr;
}

std::vector<const Cast*> castsOnAim(const Book& book, const Visit& visit, std::string_view label) {
    std::vector<const Cast*> casts = castsOf(book, visit.id);
    std::erase_if(casts, [&](const Cast* cast) {
        const Aim* aim = cast->aim ? book.find(*cast->aim) : nullptr;
        return aim == nullptr || aim->label != label;
    });
    return casts;
}

bool isNear(double value, double wanted, double give) {
    return std::abs(value - wanted) <= give;
}

TourState judged(bool isOpen, bool isDone) {
    return isOpen ? TourState::Open : isDone ? TourState::Done : TourState::Otherwise;
}

/// [m]; none for pulls and where there is no depth.
std::optional<double> metresDeep(const Reading& reading) {
    const auto depth = reading.depth ? fixedLength(reading.depth->value) : std::nullopt;
    return depth ? std::optional(*depth / metre) : std::nullopt;
}

bool isWraps(const Reading& reading, double wraps, double give) {
    return reading.from.unit == Unit::Wrap && isNear(reading.from.number, wraps, give);
}

TourState typedLine(const Book& book) {
    const Visit* visit = visitOn(book, aldersInSeptember);
    for (const Cast* cast :
         visit != nullptr ? castsOnAim(book, *visit, "A") : std::vector<const Cast*>{}) {
        for (const Reading* reading : readingsOf(book, cast->id)) {
            const auto depth = metresDeep(*reading);
            if (isWraps(*reading, 16.0, 0.01) && depth && isNear(*depth, 12 * 0.3048, 0.16)) {
                return TourState::Done;
            }
        }
    }
    return TourState::Open;
}

TourState feetForMetres(const Book& book) {
    const Visit* visit = visitOn(book, sluiceInApril);
    bool isOpen = false; // the needle stands as long as any line says so
    bool isDone = false;
    for (const Cast* cast :
         visit != nullptr ? castsOnAim(book, *visit, "B") : std::vector<const Cast*>{}) {
        for (const Reading* reading : readingsOf(book, cast->id)) {
            const auto depth = metresDeep(*reading);
            if (isWraps(*reading, 24.0, 0.01) && depth) {
                isOpen = isOpen || isNear(*depth, 4 * 0.3048, 0.01);
                isDone = isDone || isNear(*depth, 4.0, 0.2);
            }
        }
    }
    return judged(isOpen, isDone);
}

/// The count of the first reading of a cast on an aim, on which the turns below it hang. It is open
/// as long as any cast of that aim begins as it came.
TourState
firstCount(const Book& book, const Day& day, std::string_view aim, double planted, double mended) {
    const Visit* visit = visitOn(book, day);
    const auto casts =
        visit != nullptr ? castsOnAim(book, *visit, aim) : std::vector<const Cast*>{};
    const auto beginsAt = [&](const Cast* cast, double wraps, double give) {
        const auto readings = readingsOf(book, cast->id);
        return !readings.empty() && readings.front()->mode == DistanceMode::StillOut &&
               isWraps(*readings.front(), wraps, give);
    };
    const bool isOpen = std::any_of(casts.begin(), casts.end(), [&](const Cast* cast) {
        return beginsAt(cast, planted, 0.01);
    });
    return judged(isOpen, !casts.empty() && beginsAt(casts.front(), mended, 0.26));
}

/// The third and the fourth throw of that day went out at 359° and at 17°.
TourState swappedAims(const Book& book) {
    const Visit* visit = visitOn(book, sluiceInAugust);
    const auto casts = visit != nullptr ? castsOf(book, visit->id) : std::vector<const Cast*>{};
    const Water* water = visit != nullptr ? book.find(book.get(visit->swim).water) : nullptr;
    if (casts.size() < 4 || water == nullptr) {
        return TourState::Otherwise;
    }
    const auto placed = water->planeOrigin ? LocalFrame::atOrigin(*water->planeOrigin)
                                           : Result<LocalFrame>(LocalFrame::withoutOrigin());
    const LocalFrame frame = placed ? *placed : LocalFrame::withoutOrigin();
    const VisitDirections directions = castDirections(book, *visit, frame, Point{});
    const auto isAt = [&](const Cast* cast, double wanted) {
        const Angle off = directions.casts.at(cast->id).bearing - PlaneBearing(wanted * degree);
        return isNear(off / degree, 0.0, 3.0);
    };
    return judged(
        isAt(casts[2], 17.0) && isAt(casts[3], 359.0),
        isAt(casts[2], 359.0) && isAt(casts[3], 17.0));
}

TourState header(const std::optional<Entered>& said, double planted, double mended) {
    const auto length = said ? fixedLength(*said) : std::nullopt;
    return length ? judged(
                        isNear(*length / metre, planted, 0.005),
                        isNear(*length / metre, mended, 0.011))
                  : TourState::Otherwise;
}

TourState sticks(const Book& book) {
    const Visit* visit = visitOn(book, aldersInSeptember);
    return visit != nullptr ? header(visit->sticks, 12 * 0.3048, 13 * 0.3048)
                            : TourState::Otherwise;
}

TourState pulls(const Book& book) {
    const Visit* visit = visitOn(book, aldersInMay);
    return visit != nullptr && visit->floatRig ? header(visit->floatRig->offset, 0.0, 0.3048)
                                               : TourState::Otherwise;
}

TourState level(const Book& book) {
    const Visit* visit = visitOn(book, sluiceInAugust);
    return visit != nullptr ? header(visit->level, 0.20, -0.20) : TourState::Otherwise;
}

/// Whether the top was felt on this cast: some 5 ft of water where 8 ft are all around.
bool hasTheHump(const Book& book, const Cast& cast) {
    const auto readings = readingsOf(book, cast.id);
    return std::any_of(readings.begin(), readings.end(), [](const Reading* reading) {
        const auto depth = metresDeep(*reading);
        return isWraps(*reading, 10.5, 0.51) && depth && *depth < 5.3 * 0.3048;
    });
}

TourState humpLeftAlone(const Book& book) {
    int casts = 0;
    for (const Day& day : {sluiceInApril, sluiceInAugust}) {
        const Visit* visit = visitOn(book, day);
        for (const Cast* cast :
             visit != nullptr ? castsOf(book, visit->id) : std::vector<const Cast*>{}) {
            casts += hasTheHump(book, *cast) ? 1 : 0;
        }
    }
    return casts >= 3 ? TourState::ToRead : TourState::Otherwise;
}

} // namespace

std::string_view tourStepName(TourStep step) {
    return rowOf(step).name;
}

std::optional<TourStep> tourStepNamed(std::string_view name) {
    const auto row =
        std::find_if(rows.begin(), rows.end(), [&](const Row& r) { return r.name == name; });
    return row != rows.end() ? std::optional(row->step) : std::nullopt;
}

TourState tourState(const Book& book, TourStep step) {
    switch (step) {
    case TourStep::TypeALine:
        return typedLine(book);
    case TourStep::FeetForMetres:
        return feetForMetres(book);
    case TourStep::OneWrap:
        return firstCount(book, sluiceInApril, "E", 24.0, 23.0);
    case TourStep::AimsSwapped:
        return swappedAims(book);
    case TourStep::Sticks:
        return sticks(book);
    case TourStep::Pulls:
        return pulls(book);
    case TourStep::Level:
        return level(book);
    case TourStep::FloatUp:
        return firstCount(book, aldersInMay, "B", 24.75, 24.0);
    case TourStep::Hump:
        return humpLeftAlone(book);
    case TourStep::Welcome:
    case TourStep::AskTheMap:
    case TourStep::SideView:
    case TourStep::Bar:
    case TourStep::Felt:
    case TourStep::Weed:
    case TourStep::YourOwn:
        break;
    }
    return TourState::ToRead;
}

std::optional<TourLine> tourLine(const Book& book, TourStep step) {
    const Row& row = rowOf(step);
    const Visit* visit = visitOn(book, row.day);
    const auto page = visit != nullptr ? pageOf(book, visit->id) : std::nullopt;
    if (!page) {
        return std::nullopt;
    }
    const auto lines = linesOf(book, *page);
    int found = row.number;
    for (const std::string_view text : {row.mended, row.line}) {
        for (std::size_t i = 0; i < lines.size() && !text.empty(); ++i) {
            found = lines[i]->text == text ? static_cast<int>(i) : found;
        }
    }
    const int end = static_cast<int>(lines.size());
    return TourLine{.visit = visit->id, .line = std::min(found, end), .aim = std::string(row.aim)};
}

TourMending tourMending(TourStep step) {
    const Row& row = rowOf(step);
    return row.mended.empty() ? TourMending{} : TourMending{row.line, row.mended, row.also};
}

} // namespace bedlore
