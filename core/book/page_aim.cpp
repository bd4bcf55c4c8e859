// SPDX-License-Identifier: MIT
#include "core/book/page_aim.hpp"

#include "core/book/shorthand.hpp"
#include "core/units/format.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <utility>

namespace bedlore {

namespace {

/// "10 deg right", "1 fist left", "2 fingers": an angle, right positive. None where it is not one.
std::optional<Entered> readOffset(std::string_view text) {
    const std::string words = lowered(text);
    double way = 1.0;
    std::string_view rest = trimmedText(text);
    for (const auto& [side, sign] :
         {std::pair<std::string_view, double>{"right", 1.0}, {"left", -1.0}}) {
        if (words.ends_with(side)) {
            way = sign;
            rest = trimmedText(rest.substr(0, rest.size() - side.size()));
        }
    }
    auto measure = readMeasure(rest, Unit::Degree);
    const bool isAngle = measure && (measure->unit == Unit::Degree || measure->unit == Unit::Fist ||
                                     measure->unit == Unit::Finger);
    if (!isAngle) {
        return std::nullopt;
    }
    measure->number *= way;
    measure->text = std::string(trimmedText(text));
    return measure;
}

std::string offsetWords(const Entered& offset) {
    Entered size = offset;
    size.number = std::abs(offset.number);
    return printEntered(size) + (offset.number < 0.0 ? " left" : " right");
}

/// "231.5 magnetic"
std::optional<BearingEntry> readBearing(std::string_view text, bool& northSaid) {
    static constexpr std::array<std::pair<std::string_view, North>, 4> norths{{
        {"magnetic", North::Magnetic},
        {"mag", North::Magnetic},
        {"true", North::True},
        {"grid", North::Grid},
    }};
    North north = North::True;
    northSaid = false;
    const std::string words = lowered(text);
    for (const auto& [word, kind] : norths) {
        if (words.ends_with(word)) {
            north = kind;
            northSaid = true;
            text = trimmedText(text.substr(0, text.size() - word.size()));
            break;
        }
    }
    auto measure = readMeasure(text, Unit::Degree);
    if (!measure || measure->unit != Unit::Degree) {
        return std::nullopt;
    }
    return BearingEntry{.degrees = *measure, .north = north};
}

double onceRound(double degrees) {
    const double rest = std::fmod(degrees, 360.0);
    return rest < 0.0 ? rest + 360.0 : rest;
}

bool isOnTheCompass(const BearingEntry& bearing) {
    return bearing.degrees.number >= 0.0 && bearing.degrees.number <= 360.0;
}

/// "400 magnetic" is "40 magnetic"; what a compass shows stays as it is.
std::string onceRound(std::string_view text, const BearingEntry& bearing) {
    if (isOnTheCompass(bearing)) {
        return std::string(text);
    }
    const std::size_t end = text.find_first_not_of("-\u2212+0123456789.,");
    return printNumber(onceRound(bearing.degrees.number)) +
           std::string(text.substr(std::min(end, text.size())));
}

/// A bearing that no compass shows counts for where it leads to, and may well be a slip.
void remarkOnTurns(
    LineMeaning& meaning,
    std::string_view whole,
    std::string_view text,
    const BearingEntry& bearing) {
    if (isOnTheCompass(bearing)) {
        return;
    }
    const std::string taken = printNumber(onceRound(bearing.degrees.number));
    meaning.remark = "a bearing goes from 0 to 360 degrees, so " +
                     printNumber(bearing.degrees.number) + " is taken as " + taken + ".";
    const auto begin = static_cast<std::size_t>(text.data() - whole.data());
    meaning.offers = {
        {.words = taken + "?",
         .replacement = std::string(whole.substr(0, begin)) + onceRound(text, bearing),
         .answer = {}}};
}

std::optional<Entered> readClock(std::string_view text) {
    const std::string words = lowered(text);
    for (const std::string_view end : {"o'clock", "o\u2019clock", "o'c", "oclock"}) {
        if (words.ends_with(end)) {
            const auto hour = readNumber(trimmedText(text.substr(0, text.size() - end.size())));
            if (hour && *hour > 0.0 && *hour <= 12.0) {
                return Entered{*hour, Unit::ClockHour, std::string(text)};
            }
        }
    }
    return std::nullopt;
}

struct Split {
    std::string_view base;
    Entered offset;
};

/// The offset at the end of "dead pine 1 fist right": it has to say its unit and its side.
std::optional<Split> offsetBehind(std::string_view text) {
    const std::string words = lowered(text);
    if (!words.ends_with(" left") && !words.ends_with(" right")) {
        return std::nullopt;
    }
    std::size_t at = text.size();
    for (int count = 0; count < 3 && at != std::string_view::npos && at > 0; ++count) {
        at = text.find_last_of(' ', at - 1);
        const bool number = at != std::string_view::npos && at + 1 < text.size() &&
                            text[at + 1] >= '0' && text[at + 1] <= '9';
        const auto offset = number ? readOffset(text.substr(at + 1)) : std::nullopt;
        if (offset) {
            std::string_view base = trimmedText(text.substr(0, at));
            while (base.ends_with(',')) {
                base = trimmedText(base.substr(0, base.size() - 1));
            }
            return base.empty() ? std::nullopt
                                : std::optional(Split{.base = base, .offset = *offset});
        }
    }
    return std::nullopt;
}

/// "A + 10 deg right", "dead pine - 1 fist", "2 fingers right of A": what is hung on, and by how
/// much.
std::optional<Split> splitOffset(std::string_view text) {
    for (const auto& [sign, way] :
         {std::pair<std::string_view, double>{" + ", 1.0}, {" - ", -1.0}}) {
        const auto at = text.rfind(sign);
        if (at == std::string_view::npos) {
            continue;
        }
        auto offset = readOffset(trimmedText(text.substr(at + sign.size())));
        if (offset) {
            offset->number *= way;
            return Split{.base = trimmedText(text.substr(0, at)), .offset = *offset};
        }
    }
    const auto of = lowered(text).find(" of ");
    if (of != std::string::npos) {
        if (const auto offset = readOffset(trimmedText(text.substr(0, of)))) {
            return Split{.base = trimmedText(text.substr(of + 4)), .offset = *offset};
        }
    }
    return offsetBehind(text);
}

bool isLabel(std::string_view text) {
    return !text.empty() && text.size() <= 2 && text[0] >= 'A' && text[0] <= 'Z' &&
           (text.size() == 1 || (text[1] >= '0' && text[1] <= '9'));
}

void setBasis(TypedAim& line, std::string_view whole, std::string_view text) {
    AimDraft& aim = *line.aim;
    LineMeaning& meaning = line.meaning;
    const std::string name = "aim " + aim.label;
    bool northSaid = false;
    if (text.empty()) {
        meaning.words = name + ", no angle yet";
    } else if (const auto clock = readClock(text)) {
        aim.basis = AimDraft::AtClock{*clock};
        meaning.words = name + " at " + printEntered(*clock);
    } else if (const auto bearing = readBearing(text, northSaid)) {
        if (bearing->degrees.number < -360.0 || bearing->degrees.number > 720.0) {
            meaning.kind = LineKind::Unclear;
            meaning.unclear = "no bearing: they go round from 0 to 360 degrees.";
        } else if (northSaid) {
            aim.basis = AimDraft::AtBearing{*bearing};
            meaning.words = name + " on " + onceRound(text, *bearing);
            remarkOnTurns(meaning, whole, text, *bearing);
        } else {
            meaning.kind = LineKind::Unclear;
            meaning.unclear = "by which north?";
            meaning.offers = {
                {.words = "magnetic?",
                 .replacement = std::string(whole) + " magnetic",
                 .answer = {}},
                {.words = "true?", .replacement = std::string(whole) + " true", .answer = {}}};
        }
    } else if (lowered(text).starts_with("left of ")) {
        const auto other = std::string(trimmedText(text.substr(8)));
        aim.basis = AimDraft::LeftOf{other};
        meaning.words = name + ", left of " + other;
    } else if (const auto split = splitOffset(text)) {
        meaning.words =
            name + ", " + offsetWords(split->offset) + " of " + std::string(split->base);
        if (isLabel(split->base)) {
            aim.basis = AimDraft::FromAim{std::string(split->base), split->offset};
        } else {
            aim.basis = AimDraft::AtMark{std::string(split->base), split->offset};
        }
    } else if (text.find(" + ") != std::string_view::npos) {
        meaning.kind = LineKind::Unclear;
        meaning.unclear = "by how much, and to which side? As in \"A + 10 deg right\" or \"dead "
                          "pine + 1 fist left\".";
    } else {
        aim.basis = AimDraft::AtMark{std::string(text), std::nullopt};
        meaning.words = name + " on the " + std::string(text);
    }
}

const AimDraft* aimLabelled(const std::vector<AimDraft>& aims, std::string_view label) {
    const auto found = std::find_if(
        aims.begin(), aims.end(), [&](const AimDraft& aim) { return aim.label == label; });
    return found == aims.end() ? nullptr : &*found;
}

} // namespace

TypedAim readAim(std::string_view line, std::string_view rest) {
    TypedAim result;
    const auto equals = rest.find('=');
    const std::string_view label = trimmedText(rest.substr(0, std::min(equals, rest.size())));
    const bool usable = !label.empty() && label.size() <= 12 &&
                        label.find_first_of(" \t") == std::string_view::npos &&
                        !(label[0] >= '0' && label[0] <= '9');
    if (!usable) {
        return result;
    }
    const std::string_view text = equals == std::string_view::npos
                                      ? std::string_view{}
                                      : trimmedText(rest.substr(equals + 1));
    result.aim = AimDraft{.label = std::string(label), .text = std::string(text), .basis = {}};
    result.meaning.kind = LineKind::Header;
    setBasis(result, line, text);
    return result;
}

std::string hangsOn(const AimDraft& aim) {
    if (const auto* from = std::get_if<AimDraft::FromAim>(&aim.basis)) {
        return from->other;
    }
    const auto* left = std::get_if<AimDraft::LeftOf>(&aim.basis);
    return left != nullptr ? left->other : std::string();
}

void preferAimsToMarks(std::vector<AimDraft>& aims) {
    for (AimDraft& aim : aims) {
        const auto* mark = std::get_if<AimDraft::AtMark>(&aim.basis);
        if (mark == nullptr || aimLabelled(aims, mark->mark) == nullptr) {
            continue;
        }
        const Entered offset = mark->offset.value_or(Entered{0.0, Unit::Degree, ""});
        aim.basis = AimDraft::FromAim{mark->mark, offset};
    }
}

std::optional<std::string> aimFault(
    const AimDraft& aim, const std::vector<AimDraft>& aims, const std::set<std::string>& used) {
    std::string label = hangsOn(aim);
    for (std::size_t steps = 0; !label.empty() && steps <= aims.size(); ++steps) {
        if (label == aim.label) {
            return "aim " + aim.label + " leads back to itself.";
        }
        const AimDraft* other = aimLabelled(aims, label);
        if (other == nullptr) {
            return used.contains(label) ? std::nullopt
                                        : std::optional("there is no aim " + label + " here.");
        }
        label = hangsOn(*other);
    }
    return std::nullopt;
}

} // namespace bedlore
