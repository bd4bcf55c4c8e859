// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <cstdint>
#include <string_view>

// The ways in which a note of the bed goes wrong.

namespace bedlore {

/// What a man got wrong when he measured or wrote. A lead that came to rest on weed is the one that
/// was not his mistake.
enum class Cause : std::uint8_t {
    OneWrap,       ///< a wrap too many or too few was counted
    FloatUp,       ///< the float stood when he clipped: its depth is in the length
    FeetForMetres, ///< the depth is in feet where metres are noted, or the other way round
    SwappedDigits, ///< two digits of a number changed places, or its point slipped
    WrongAim,      ///< the cast went out on another aim of that visit
    WrongSwim,     ///< the cast or the visit was made from another swim
    OnWeed,        ///< what was felt is the top of the weed
    Unknown,
};

inline constexpr std::array<Cause, 8> allCauses{
    Cause::OneWrap,
    Cause::FloatUp,
    Cause::FeetForMetres,
    Cause::SwappedDigits,
    Cause::WrongAim,
    Cause::WrongSwim,
    Cause::OnWeed,
    Cause::Unknown};

/// The name of a cause in files: "one_wrap".
[[nodiscard]] std::string_view causeKey(Cause cause);

} // namespace bedlore
