// SPDX-License-Identifier: MIT
#include "gui/document/aim_words.hpp"

#include "core/base/overloaded.hpp"
#include "core/units/format.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace bedlore {

namespace {

std::string bearingWords(const BearingEntry& bearing) {
    switch (bearing.north) {
    case North::Magnetic:
        return printEntered(bearing.degrees) + " magnetic";
    case North::Grid:
        return printEntered(bearing.degrees) + " on the map's grid";
    case North::True:
        break;
    }
    return printEntered(bearing.degrees) + " from true north";
}

std::string byWhat(BearingSource source) {
    switch (source) {
    case BearingSource::Mark:
        return ", by a mark";
    case BearingSource::SightingCompass:
        return ", by compass";
    case BearingSource::Phone:
        return ", by phone";
    case BearingSource::Photo:
        return ", from a photo";
    case BearingSource::Map:
        return ", from a map";
    case BearingSource::Guess:
        return ", guessed";
    case BearingSource::Unsaid:
        break;
    }
    return {};
}

/// "2 fingers right of "
std::string offsetWords(const Entered& offset) {
    const Entered size{.number = std::abs(offset.number), .unit = offset.unit, .text = {}};
    return printEntered(size) + (offset.number < 0.0 ? " left of " : " right of ");
}

std::string labelOf(const Book& book, Id<Aim> aim) {
    const Aim* other = book.find(aim);
    return other != nullptr ? other->label : std::string("another aim");
}

std::string basisWords(const Book& book, const Aim& aim) {
    return std::visit(
        Overloaded{
            [](const AimWithoutAngle&) { return std::string("no angle said"); },
            [&](const AimAtMark& at) {
                const Mark* mark = book.find(at.mark);
                const std::string name = mark != nullptr ? mark->name : std::string("a mark");
                return (at.offset ? offsetWords(*at.offset) : std::string("on ")) + "the " + name;
            },
            [&](const AimAtBearing& at) {
                return bearingWords(at.bearing) + byWhat(book.get(aim.visit).bearingSource);
            },
            [&](const AimFromAim& from) {
                return offsetWords(from.offset) + labelOf(book, from.other);
            },
            [](const AimAtClock& at) {
                return "by the clock: " + printNumber(at.hour.number) + " o'clock";
            },
            [&](const AimLeftOf& left) { return "left of " + labelOf(book, left.other); }},
        aim.basis);
}

/// Whether the aim, or a cast on it, says a bearing by compass.
bool hasCompassBearing(const BedMap& map, const AimLine& line) {
    return std::any_of(line.casts.begin(), line.casts.end(), [&](std::size_t index) {
        const Cast* cast = map.book->find(map.reduction.casts[index].cast);
        const Aim* aim = cast != nullptr && cast->aim ? map.book->find(*cast->aim) : nullptr;
        const auto* at = aim != nullptr ? std::get_if<AimAtBearing>(&aim->basis) : nullptr;
        const bool ofCast =
            cast != nullptr && cast->bearing && cast->bearing->north == North::Magnetic;
        return ofCast || (at != nullptr && at->bearing.north == North::Magnetic);
    });
}

} // namespace

std::string aimSource(const BedMap& map, const AimLine& aim) {
    const Book& book = *map.book;
    std::string words;
    for (const std::size_t index : aim.casts) {
        const Cast* cast = book.find(map.reduction.casts[index].cast);
        if (cast == nullptr || !words.empty()) {
            continue;
        }
        if (const Aim* record = cast->aim ? book.find(*cast->aim) : nullptr) {
            words = basisWords(book, *record);
        } else if (cast->bearing) {
            words = bearingWords(*cast->bearing) + byWhat(book.get(cast->visit).bearingSource);
        }
    }
    if (words.empty()) {
        words = "no angle said";
    }
    return aim.guessed ? words + "; angle guessed" : words;
}

std::string guessedWords(const BedMap& map, const std::vector<AimLine>& aims) {
    std::string letters;
    bool byCompass = false;
    std::size_t guessed = 0;
    for (const AimLine& aim : aims) {
        if (aim.guessed) {
            letters += (letters.empty() ? "" : ", ") + aim.label;
            byCompass = byCompass || hasCompassBearing(map, aim);
            ++guessed;
        }
    }
    if (guessed == 0) {
        return {};
    }
    const std::string which = guessed == aims.size() && guessed > 1 ? "these aims point"
                              : guessed == 1                        ? "aim " + letters + " points"
                                                                    : letters + " point";
    const std::string plan = "Angles guessed: nothing tells yet which way " + which +
                             ", so the plan spreads them from left to right. Each side view is "
                             "right all the same. ";
    if (byCompass) {
        return plan +
               "A compass bearing counts once the swim has a latitude and longitude: "
               "\"Place of the swim\" in the Page menu. A clock, fists or fingers need none.";
    }
    return plan + "In its place write on the page \"aim A = 231 magnetic\" or \"aim A = 1 "
                  "o'clock\", and from there \"aim B = A + 1 fist right\" or \"2 fingers right\".";
}

std::string aimName(const AimLine& aim) {
    return aim.mark.empty() ? aim.label : aim.label + ", on the " + aim.mark;
}

} // namespace bedlore
