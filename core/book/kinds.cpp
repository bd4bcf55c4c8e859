// SPDX-License-Identifier: MIT
#include "core/book/kinds.hpp"

#include "core/base/contract.hpp"

#include <array>

namespace bedlore {

namespace {

constexpr std::array<Term<Substrate>, 13> substrates{{
    {Substrate::Rock, "rk", "rock"},
    {Substrate::CoarseGravel, "cg", "coarse gravel"},
    {Substrate::Gravel, "gr", "gravel"},
    {Substrate::FineGravel, "fg", "fine gravel"},
    {Substrate::Mussels, "mu", "mussels"},
    {Substrate::Sand, "sa", "sand"},
    {Substrate::HardClay, "hc", "hard clay"},
    {Substrate::Clay, "cl", "clay"},
    {Substrate::FirmSilt, "fs", "firm silt"},
    {Substrate::Silt, "si", "silt"},
    {Substrate::BlackSilt, "bs", "black silt"},
    {Substrate::Hard, "hd", "hard"},
    {Substrate::Soft, "sf", "soft"},
}};

constexpr std::array<Term<Cover>, 9> covers{{
    {Cover::Clear, "cr", "clear"},
    {Cover::Weed, "wd", "weed"},
    {Cover::LowWeed, "lw", "low weed"},
    {Cover::TallWeed, "tw", "tall weed"},
    {Cover::SilkWeed, "sw", "silk weed"},
    {Cover::Leaves, "lv", "leaves"},
    {Cover::Twigs, "tg", "twigs"},
    {Cover::Roots, "rt", "roots"},
    {Cover::Pads, "pd", "pads"},
}};

constexpr std::array<Term<Drop>, 6> drops{{
    {Drop::Crack, "", "crack"},
    {Drop::Donk, "", "donk"},
    {Drop::Thud, "", "thud"},
    {Drop::Soft, "d", "soft"},
    {Drop::Nothing, "", "none"},
    {Drop::Hard, "D", "hard"},
}};

constexpr std::array<Term<Pull>, 8> pulls{{
    {Pull::Tap, "", "tap"},
    {Pull::Judder, "", "judder"},
    {Pull::Scrape, "", "scrape"},
    {Pull::Glide, "", "glide"},
    {Pull::Stick, "", "stick"},
    {Pull::Plug, "", "plug"},
    {Pull::Lock, "", "lock"},
    {Pull::Free, "", "free"},
}};

constexpr std::array<Term<OnLead>, 8> onLeads{{
    {OnLead::Clean, "", "clean"},
    {OnLead::Scuffed, "", "scuffed"},
    {OnLead::Grit, "", "grit"},
    {OnLead::Shell, "", "shell"},
    {OnLead::Clay, "", "clay"},
    {OnLead::Mud, "", "mud"},
    {OnLead::Black, "", "black"},
    {OnLead::Strands, "", "strands"},
}};

constexpr std::array<Term<Outcome>, 5> outcomes{{
    {Outcome::FloatNeverShowed, "nf", "float never showed"},
    {Outcome::LeadLost, "", "lost lead"},
    {Outcome::WeedTooThick, "", "weed too thick"},
    {Outcome::Snagged, "", "snagged"},
    {Outcome::NothingFelt, "", "nothing felt"},
}};

template <class Kind, std::size_t n>
std::string_view wordIn(const std::array<Term<Kind>, n>& terms, Kind kind) {
    for (const auto& term : terms) {
        if (term.kind == kind) {
            return term.word;
        }
    }
    BEDLORE_EXPECTS(false && "every kind has a word");
    return {};
}

} // namespace

std::span<const Term<Substrate>> substrateTerms() {
    return substrates;
}
std::span<const Term<Cover>> coverTerms() {
    return covers;
}
std::span<const Term<Drop>> dropTerms() {
    return drops;
}
std::span<const Term<Pull>> pullTerms() {
    return pulls;
}
std::span<const Term<OnLead>> onLeadTerms() {
    return onLeads;
}
std::span<const Term<Outcome>> outcomeTerms() {
    return outcomes;
}

std::string_view word(Substrate kind) {
    return wordIn(substrates, kind);
}
std::string_view word(Cover kind) {
    return wordIn(covers, kind);
}
std::string_view word(Drop kind) {
    return wordIn(drops, kind);
}
std::string_view word(Pull kind) {
    return wordIn(pulls, kind);
}
std::string_view word(OnLead kind) {
    return wordIn(onLeads, kind);
}
std::string_view word(Outcome kind) {
    return wordIn(outcomes, kind);
}

double hardness(Substrate kind) {
    switch (kind) {
    case Substrate::Rock:
        return 10.0;
    case Substrate::CoarseGravel:
        return 9.0;
    case Substrate::Gravel:
    case Substrate::FineGravel:
    case Substrate::Mussels:
        return 8.0;
    case Substrate::Sand:
    case Substrate::HardClay:
    case Substrate::Hard:
        return 7.0;
    case Substrate::FirmSilt:
        return 5.0;
    case Substrate::Clay:
        return 4.0;
    case Substrate::Silt:
    case Substrate::Soft:
        return 2.0;
    case Substrate::BlackSilt:
        return 1.0;
    }
    BEDLORE_EXPECTS(false && "every substrate has a hardness");
    return 0.0;
}

} // namespace bedlore
