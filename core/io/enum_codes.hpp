// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/book.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

// The words that stand for each choice in stored files: one table for each kind of choice.

namespace bedlore {

template <class Enum>
struct EnumCode {
    Enum value;
    std::string_view code;
};

/// The substrates, covers and feels have the trade's own words ("coarse gravel"), units their short
/// names ("ft"); the rest a word of lower-case letters and underscores. A stored word never changes
/// its meaning.
template <class Enum>
[[nodiscard]] std::span<const EnumCode<Enum>> enumCodes();

template <class Enum>
[[nodiscard]] std::string_view codeOf(Enum value) {
    for (const EnumCode<Enum>& row : enumCodes<Enum>()) {
        if (row.value == value) {
            return row.code;
        }
    }
    BEDLORE_EXPECTS(false && "every choice has a code");
    return {};
}

template <class Enum>
[[nodiscard]] std::optional<Enum> fromCode(std::string_view code) {
    for (const EnumCode<Enum>& row : enumCodes<Enum>()) {
        if (row.code == code) {
            return row.value;
        }
    }
    return std::nullopt;
}

template <>
[[nodiscard]] inline std::string_view codeOf<Unit>(Unit value) {
    return unitCode(value);
}
template <>
[[nodiscard]] inline std::optional<Unit> fromCode<Unit>(std::string_view code) {
    return unitFromCode(code);
}

template <>
std::span<const EnumCode<Substrate>> enumCodes<Substrate>();
template <>
std::span<const EnumCode<Cover>> enumCodes<Cover>();
template <>
std::span<const EnumCode<Drop>> enumCodes<Drop>();
template <>
std::span<const EnumCode<Pull>> enumCodes<Pull>();
template <>
std::span<const EnumCode<OnLead>> enumCodes<OnLead>();
template <>
std::span<const EnumCode<Outcome>> enumCodes<Outcome>();
template <>
std::span<const EnumCode<North>> enumCodes<North>();
template <>
std::span<const EnumCode<LevelCounts>> enumCodes<LevelCounts>();
template <>
std::span<const EnumCode<ShoreKind>> enumCodes<ShoreKind>();
template <>
std::span<const EnumCode<MarkTime>> enumCodes<MarkTime>();
template <>
std::span<const EnumCode<RodRole>> enumCodes<RodRole>();
template <>
std::span<const EnumCode<RodPosition>> enumCodes<RodPosition>();
template <>
std::span<const EnumCode<StickStart>> enumCodes<StickStart>();
template <>
std::span<const EnumCode<WrapCounts>> enumCodes<WrapCounts>();
template <>
std::span<const EnumCode<BearingSource>> enumCodes<BearingSource>();
template <>
std::span<const EnumCode<DistanceMode>> enumCodes<DistanceMode>();
template <>
std::span<const EnumCode<DepthMethod>> enumCodes<DepthMethod>();
template <>
std::span<const EnumCode<FixFrame>> enumCodes<FixFrame>();
template <>
std::span<const EnumCode<BiteOutcome>> enumCodes<BiteOutcome>();
template <>
std::span<const EnumCode<HazardKind>> enumCodes<HazardKind>();
template <>
std::span<const EnumCode<LineKind>> enumCodes<LineKind>();

} // namespace bedlore
