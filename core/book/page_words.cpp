// SPDX-License-Identifier: MIT
#include "core/book/page_words.hpp"

#include "core/units/format.hpp"

#include <vector>

namespace bedlore {

namespace {

std::string distanceWords(const Reading& reading, const Visit& visit) {
    std::string words = reading.about ? "about " : "";
    if (reading.mode == DistanceMode::NearerThanLast) {
        return words + printEntered(reading.from) + " nearer";
    }
    if (reading.to) {
        words += reading.to->unit == reading.from.unit ? printNumber(reading.from.number)
                                                       : printEntered(reading.from);
        return words + " to " + printEntered(*reading.to);
    }
    words += printEntered(reading.from);
    if (reading.from.unit == Unit::Wrap) {
        words += " (" + printLength(reading.from.number * wrapSize(visit), Unit::Yard) + ")";
    }
    return words;
}

std::string depthWords(const DepthEntry& depth, const Visit& visit) {
    std::string words = depth.about ? "about " : "";
    if (depth.to) {
        return words + printNumber(depth.value.number) + " to " + printEntered(*depth.to);
    }
    words += printEntered(depth.value);
    if (depth.value.unit == Unit::Pull && visit.floatRig) {
        const auto pull = fixedLength(visit.floatRig->pull);
        const auto offset = fixedLength(visit.floatRig->offset);
        if (pull && offset) {
            words += " = " + printLength(depth.value.number * *pull + *offset, Unit::Foot, 0.25);
        }
    }
    return words;
}

std::string bottomWords(const Reading& reading) {
    std::string words;
    if (reading.substrate) {
        words = word(*reading.substrate);
    }
    if (reading.otherSubstrate) {
        words += " or " + std::string(word(*reading.otherSubstrate));
    }
    if (reading.cover) {
        words += (words.empty() ? "" : " under ") + std::string(word(*reading.cover));
    }
    return words;
}

std::string dropWords(Drop drop) {
    if (drop == Drop::Nothing) {
        return "nothing felt on the drop";
    }
    const std::string kind(word(drop));
    return drop == Drop::Hard || drop == Drop::Soft ? kind + " drop" : kind;
}

std::vector<std::string> feltWords(const Reading& reading) {
    std::vector<std::string> parts;
    if (std::string bottom = bottomWords(reading); !bottom.empty()) {
        parts.push_back(std::move(bottom));
    }
    if (reading.drop) {
        parts.push_back(dropWords(*reading.drop));
    }
    if (reading.pull) {
        parts.emplace_back(word(*reading.pull));
    }
    for (const OnLead found : reading.onLead) {
        parts.push_back(std::string(word(found)) + " on the lead");
    }
    if (reading.outcome) {
        parts.emplace_back(word(*reading.outcome));
    }
    if (reading.sureness != 2) {
        parts.emplace_back(reading.sureness == 1 ? "doubtful" : "sure");
    }
    if (reading.agreeing > 1) {
        parts.push_back(std::to_string(reading.agreeing) + " casts agree");
    }
    if (!reading.note.empty()) {
        parts.push_back("\u201c" + reading.note + "\u201d");
    }
    return parts;
}

} // namespace

Length wrapSize(const Visit& visit) {
    const auto sticks = visit.sticks ? fixedLength(*visit.sticks) : std::nullopt;
    const Length spacing = sticks.value_or(12.0 * foot);
    return visit.wrapCounts == WrapCounts::ThereAndBack ? 2.0 * spacing : spacing;
}

std::string readingWords(const Reading& reading, const Visit& visit) {
    std::string words = distanceWords(reading, visit);
    if (reading.depth) {
        words += ", " + depthWords(*reading.depth, visit);
    }
    for (const std::string& part : feltWords(reading)) {
        words += ", " + part;
    }
    return words;
}

} // namespace bedlore
