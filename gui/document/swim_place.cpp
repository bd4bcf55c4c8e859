// SPDX-License-Identifier: MIT
#include "gui/document/swim_place.hpp"

#include "core/book/shorthand.hpp"
#include "core/geodesy/local_frame.hpp"
#include "core/io/import_places.hpp"
#include "core/units/format.hpp"

#include <array>
#include <cmath>
#include <optional>
#include <utility>
#include <vector>

namespace bedlore {

namespace {

constexpr std::string_view asIn =
    " As in \"52.12345, -1.54321\" (latitude, then longitude) or \"120 m east, 45 m north\".";
constexpr double farthestInPlane = 300'000.0; // [m] as far as places on the earth may lie apart
constexpr double highestTip = 50.0;           // [m] a rod tip above a house is a slip

enum class Axis { Unsaid, East, North };

/// One of the two numbers of a place.
struct Part {
    double number = 0.0; ///< degrees or metres, towards north or east
    bool isLength = false;
    Axis axis = Axis::Unsaid;
};

struct Direction {
    std::string_view word;
    Axis axis;
    double sign;
};
constexpr std::array<Direction, 8> directions{{
    {"north", Axis::North, 1.0},
    {"south", Axis::North, -1.0},
    {"east", Axis::East, 1.0},
    {"west", Axis::East, -1.0},
    {"n", Axis::North, 1.0},
    {"s", Axis::North, -1.0},
    {"e", Axis::East, 1.0},
    {"w", Axis::East, -1.0},
}};

/// Whether `word` at the end of `text` is a word by itself, and not the end of another.
bool endsInWord(const std::string& text, std::string_view word) {
    if (!text.ends_with(word) || text.size() == word.size()) {
        return false;
    }
    const char before = text[text.size() - word.size() - 1];
    return before < 'a' || before > 'z';
}

/// "52.12345° N", "-1.5", "120 m east".
std::optional<Part> readPart(std::string_view text) {
    std::string rest = lowered(trimmedText(text));
    Part part;
    double sign = 1.0;
    for (const Direction& direction : directions) {
        if (part.axis == Axis::Unsaid && endsInWord(rest, direction.word)) {
            part.axis = direction.axis;
            sign = direction.sign;
            rest = std::string(
                trimmedText(std::string_view(rest).substr(0, rest.size() - direction.word.size())));
        }
    }
    constexpr std::string_view degreeSign = "°";
    const bool hasSign = rest.ends_with(degreeSign);
    if (hasSign) {
        rest = std::string(
            trimmedText(std::string_view(rest).substr(0, rest.size() - degreeSign.size())));
    }
    if (const auto number = readNumber(rest)) {
        part.number = sign * *number;
        return part;
    }
    const auto measure = hasSign ? std::nullopt : readMeasure(rest, std::nullopt);
    const auto length = measure ? fixedLength(*measure) : std::nullopt;
    if (!length) {
        return std::nullopt;
    }
    part.isLength = true;
    part.number = sign * (*length / metre);
    return part;
}

/// The two halves of a place: at a semicolon, at its comma, or after the first half of its words.
std::optional<std::pair<std::string, std::string>> halves(std::string_view text) {
    for (const std::string_view between : {";", ", ", ","}) {
        const std::size_t at = text.find(between);
        if (at != std::string_view::npos) {
            return std::pair(
                std::string(text.substr(0, at)), std::string(text.substr(at + between.size())));
        }
    }
    const std::vector<std::string> words = splitWords(text);
    if (words.size() < 2 || words.size() % 2 != 0) {
        return std::nullopt;
    }
    std::pair<std::string, std::string> both;
    for (std::size_t i = 0; i < words.size(); ++i) {
        (i < words.size() / 2 ? both.first : both.second) += words[i] + " ";
    }
    return both;
}

Error notAPlace(std::string_view text, const std::string& why) {
    return inputError("\"" + std::string(text) + "\" " + why + std::string(asIn));
}

Result<Place> onEarth(std::string_view text, double latitude, double longitude) {
    if (!(std::abs(latitude) <= 90.0)) {
        return fail(notAPlace(
            text, "has the latitude " + printExact(latitude) + "; it goes from -90 to 90."));
    }
    if (!(std::abs(longitude) <= 180.0)) {
        return fail(notAPlace(
            text, "has the longitude " + printExact(longitude) + "; it goes from -180 to 180."));
    }
    return Place(GeographicPoint{.latitude = latitude, .longitude = longitude});
}

Result<Place> inPlane(std::string_view text, double east, double north) {
    if (!(std::hypot(east, north) <= farthestInPlane)) {
        return fail(notAPlace(text, "is farther off than any water is wide."));
    }
    return Place(Point{east, north});
}

std::string sideWords(double number, const char* unit, const char* more, const char* less) {
    return printExact(std::abs(number)) + unit + (number < 0.0 ? less : more);
}

/// Puts the height of the tip on `swim`, or says why not.
Result<void> setTipHeight(Swim& swim, const std::string& typed) {
    const std::string text(trimmedText(typed));
    if (text.empty()) {
        swim.tipHeight.reset();
        return {};
    }
    const auto measure = readMeasure(text, std::nullopt);
    const auto height = measure ? fixedLength(*measure) : std::nullopt;
    if (!height || !(*height / metre >= 0.0) || !(*height / metre <= highestTip)) {
        return fail(inputError(
            "\"" + text +
            "\" is no height of a rod tip above the water: a length with its unit, "
            "as in \"6 ft\" or \"1.8 m\"."));
    }
    if (!swim.tipHeight || swim.tipHeight->text != text) {
        swim.tipHeight = measure;
    }
    return {};
}

/// Whether a new place goes with what the water has, the swim's former place aside.
Result<void> checkFit(const Book& book, const Swim& swim) {
    const auto* onEarth = std::get_if<GeographicPoint>(&swim.place);
    if (std::holds_alternative<std::monostate>(swim.place)) {
        return {};
    }
    Swim bare = swim;
    bare.place = {};
    const Result<Applied> without = applyEdits(book, {Put<Swim>{bare}});
    if (!without) {
        return fail(without.error());
    }
    const Water& water = book.get(swim.water);
    if (const auto why = whyPlacesDoNotFit(without->book, water, onEarth != nullptr)) {
        return fail(inputError("A place here has to be in " + *why + "."));
    }
    if (onEarth != nullptr && water.planeOrigin &&
        roughDistance(*onEarth, *water.planeOrigin) > farthestPlace) {
        return fail(inputError(
            "That is more than 300 km from where this water lies, " +
            typedPlace(*water.planeOrigin) +
            ". Are latitude and longitude changed about? If the place given first was wrong, undo "
            "that."));
    }
    return {};
}

void addOrigin(const Book& book, const Swim& swim, Edits& edits) {
    const auto* here = std::get_if<GeographicPoint>(&swim.place);
    Water water = book.get(swim.water);
    if (here == nullptr || water.planeOrigin) {
        return;
    }
    std::vector<GeographicPoint> places{*here};
    for (const Swim* other : swimsOf(book, swim.water)) {
        const auto* place = std::get_if<GeographicPoint>(&other->place);
        if (place != nullptr && other->id != swim.id) {
            places.push_back(*place);
        }
    }
    water.planeOrigin = planeOriginFor(places);
    edits.emplace_back(Put<Water>{std::move(water)});
}

} // namespace

Result<Place> readTypedPlace(std::string_view typed) {
    const std::string_view text = trimmedText(typed);
    if (text.empty()) {
        return Place();
    }
    const auto both = halves(text);
    auto first = both ? readPart(both->first) : std::nullopt;
    auto second = both ? readPart(both->second) : std::nullopt;
    if (!first || !second) {
        return fail(notAPlace(text, "is no place: it takes two numbers."));
    }
    if (first->isLength != second->isLength) {
        return fail(notAPlace(text, "mixes degrees with a length."));
    }
    const Axis usual = first->isLength ? Axis::East : Axis::North;
    if (first->axis == Axis::Unsaid && second->axis == Axis::Unsaid) {
        first->axis = usual;
        second->axis = usual == Axis::East ? Axis::North : Axis::East;
    }
    if (first->axis == Axis::Unsaid || second->axis == Axis::Unsaid ||
        first->axis == second->axis) {
        return fail(notAPlace(text, "does not say one number north and one east."));
    }
    const bool northFirst = first->axis == Axis::North;
    const double north = northFirst ? first->number : second->number;
    const double east = northFirst ? second->number : first->number;
    return first->isLength ? inPlane(text, east, north) : onEarth(text, north, east);
}

std::string typedPlace(const Place& place) {
    if (const auto* globe = std::get_if<GeographicPoint>(&place)) {
        return printExact(globe->latitude) + ", " + printExact(globe->longitude);
    }
    if (const auto* point = std::get_if<Point>(&place)) {
        return sideWords(point->east, " m ", "east", "west") + ", " +
               sideWords(point->north, " m ", "north", "south");
    }
    return {};
}

std::string takenPlaceWords(const Place& place) {
    if (const auto* globe = std::get_if<GeographicPoint>(&place)) {
        return "taken as " + sideWords(globe->latitude, "° ", "north", "south") + ", " +
               sideWords(globe->longitude, "° ", "east", "west");
    }
    if (std::holds_alternative<Point>(place)) {
        return "taken as " + typedPlace(place) + " of where the metres of this water count from";
    }
    return "no place: the swim is shown by itself";
}

TypedSwim typedSwim(const Swim& swim) {
    std::string height;
    if (swim.tipHeight) {
        height =
            swim.tipHeight->text.empty() ? printEntered(*swim.tipHeight) : swim.tipHeight->text;
        // A table's column says the unit for all of its numbers.
        if (!readMeasure(height, std::nullopt)) {
            height = printEntered(*swim.tipHeight);
        }
    }
    return {
        .place = typedPlace(swim.place), .tipHeight = std::move(height), .standing = swim.standing};
}

Result<Edits> placeSwim(const Book& book, Id<Swim> id, const TypedSwim& typed) {
    const Swim& former = book.get(id);
    Swim swim = former;
    const TypedSwim before = typedSwim(former);
    if (typed.place != before.place) {
        auto place = readTypedPlace(typed.place);
        if (!place) {
            return fail(std::move(place).error());
        }
        swim.place = *std::move(place);
        if (const auto fits = checkFit(book, swim); !fits) {
            return fail(fits.error());
        }
    }
    if (typed.tipHeight != before.tipHeight) {
        if (const auto set = setTipHeight(swim, typed.tipHeight); !set) {
            return fail(set.error());
        }
    }
    swim.standing = std::string(trimmedText(typed.standing));
    if (typed.standing == former.standing) {
        swim.standing = former.standing;
    }
    Edits edits;
    if (swim != former) {
        addOrigin(book, swim, edits);
        edits.emplace_back(Put<Swim>{std::move(swim)});
    }
    return edits;
}

} // namespace bedlore
