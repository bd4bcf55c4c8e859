// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

// The trade's words for what he felt, found and met, each with the code that he types and the word
// that he reads.

namespace bedlore {

/// What the bed is made of. `Hard` and `Soft` are full answers, not failures to say more.
enum class Substrate : std::uint8_t {
    Rock,
    CoarseGravel,
    Gravel,
    FineGravel,
    Mussels,
    Sand,
    HardClay,
    Clay,
    FirmSilt,
    Silt,
    BlackSilt,
    Hard,
    Soft,
};

/// What lies or grows on the bed.
enum class Cover : std::uint8_t {
    Clear,
    Weed,
    LowWeed,
    TallWeed,
    SilkWeed,
    Leaves,
    Twigs,
    Roots,
    Pads,
};

/// How the lead lands. `Hard` is his "D", without a finer word.
enum class Drop : std::uint8_t { Crack, Donk, Thud, Soft, Nothing, Hard };

/// How the lead drags.
enum class Pull : std::uint8_t { Tap, Judder, Scrape, Glide, Stick, Plug, Lock, Free };

/// What came up on the lead.
enum class OnLead : std::uint8_t { Clean, Scuffed, Grit, Shell, Clay, Mud, Black, Strands };

/// What ended a reading without a depth. A negative result counts.
enum class Outcome : std::uint8_t {
    FloatNeverShowed,
    LeadLost,
    WeedTooThick,
    Snagged,
    NothingFelt
};

/// One row of a vocabulary. `code` is what he may type on a page ("gr"), `word` what is shown and
/// what files hold
/// ("gravel"); both are understood on the way in. `code` is empty where the word itself is the
/// short form.
template <class Kind>
struct Term {
    Kind kind;
    std::string_view code;
    std::string_view word;
};

[[nodiscard]] std::span<const Term<Substrate>> substrateTerms();
[[nodiscard]] std::span<const Term<Cover>> coverTerms();
[[nodiscard]] std::span<const Term<Drop>> dropTerms();
[[nodiscard]] std::span<const Term<Pull>> pullTerms();
[[nodiscard]] std::span<const Term<OnLead>> onLeadTerms();
[[nodiscard]] std::span<const Term<Outcome>> outcomeTerms();

[[nodiscard]] std::string_view word(Substrate kind);
[[nodiscard]] std::string_view word(Cover kind);
[[nodiscard]] std::string_view word(Drop kind);
[[nodiscard]] std::string_view word(Pull kind);
[[nodiscard]] std::string_view word(OnLead kind);
[[nodiscard]] std::string_view word(Outcome kind);

/// Hardness of a substrate, 0 (nothing there) to 10 (concrete). Common practice [C/M], the trade
/// notes' table.
[[nodiscard]] double hardness(Substrate kind);

} // namespace bedlore
