// SPDX-License-Identifier: MIT
#include "core/io/enum_codes.hpp"

#include <array>
#include <vector>

namespace bedlore {

namespace {

template <class Kind>
std::vector<EnumCode<Kind>> words(std::span<const Term<Kind>> terms) {
    std::vector<EnumCode<Kind>> codes;
    for (const Term<Kind>& term : terms) {
        codes.push_back({term.kind, term.word});
    }
    return codes;
}

} // namespace

template <>
std::span<const EnumCode<Substrate>> enumCodes<Substrate>() {
    static const auto codes = words(substrateTerms());
    return codes;
}
template <>
std::span<const EnumCode<Cover>> enumCodes<Cover>() {
    static const auto codes = words(coverTerms());
    return codes;
}
template <>
std::span<const EnumCode<Drop>> enumCodes<Drop>() {
    static const auto codes = words(dropTerms());
    return codes;
}
template <>
std::span<const EnumCode<Pull>> enumCodes<Pull>() {
    static const auto codes = words(pullTerms());
    return codes;
}
template <>
std::span<const EnumCode<OnLead>> enumCodes<OnLead>() {
    static const auto codes = words(onLeadTerms());
    return codes;
}
template <>
std::span<const EnumCode<Outcome>> enumCodes<Outcome>() {
    static const auto codes = words(outcomeTerms());
    return codes;
}

template <>
std::span<const EnumCode<North>> enumCodes<North>() {
    static constexpr std::array<EnumCode<North>, 3> codes{
        {{North::True, "true"}, {North::Magnetic, "magnetic"}, {North::Grid, "grid"}}};
    return codes;
}
template <>
std::span<const EnumCode<LevelCounts>> enumCodes<LevelCounts>() {
    static constexpr std::array<EnumCode<LevelCounts>, 2> codes{
        {{LevelCounts::UpWithWater, "up_with_water"},
         {LevelCounts::DownWithWater, "down_with_water"}}};
    return codes;
}
template <>
std::span<const EnumCode<ShoreKind>> enumCodes<ShoreKind>() {
    static constexpr std::array<EnumCode<ShoreKind>, 2> codes{
        {{ShoreKind::Bank, "bank"}, {ShoreKind::Island, "island"}}};
    return codes;
}
template <>
std::span<const EnumCode<MarkTime>> enumCodes<MarkTime>() {
    static constexpr std::array<EnumCode<MarkTime>, 3> codes{
        {{MarkTime::Day, "day"}, {MarkTime::Night, "night"}, {MarkTime::Both, "both"}}};
    return codes;
}
template <>
std::span<const EnumCode<RodRole>> enumCodes<RodRole>() {
    static constexpr std::array<EnumCode<RodRole>, 3> codes{
        {{RodRole::Marker, "marker"}, {RodRole::Bait, "bait"}, {RodRole::Fishing, "fishing"}}};
    return codes;
}
template <>
std::span<const EnumCode<RodPosition>> enumCodes<RodPosition>() {
    static constexpr std::array<EnumCode<RodPosition>, 5> codes{
        {{RodPosition::Unsaid, "unsaid"},
         {RodPosition::InTheRest, "in_the_rest"},
         {RodPosition::PointedAtLead, "pointed_at_lead"},
         {RodPosition::AtRelease, "at_release"},
         {RodPosition::Other, "other"}}};
    return codes;
}
template <>
std::span<const EnumCode<StickStart>> enumCodes<StickStart>() {
    static constexpr std::array<EnumCode<StickStart>, 3> codes{
        {{StickStart::Unsaid, "unsaid"},
         {StickStart::TipAtStick, "tip_at_stick"},
         {StickStart::ClipAtStick, "clip_at_stick"}}};
    return codes;
}
template <>
std::span<const EnumCode<WrapCounts>> enumCodes<WrapCounts>() {
    static constexpr std::array<EnumCode<WrapCounts>, 2> codes{
        {{WrapCounts::Pass, "pass"}, {WrapCounts::ThereAndBack, "there_and_back"}}};
    return codes;
}
template <>
std::span<const EnumCode<BearingSource>> enumCodes<BearingSource>() {
    static constexpr std::array<EnumCode<BearingSource>, 7> codes{
        {{BearingSource::Unsaid, "unsaid"},
         {BearingSource::Mark, "mark"},
         {BearingSource::SightingCompass, "sighting_compass"},
         {BearingSource::Phone, "phone"},
         {BearingSource::Photo, "photo"},
         {BearingSource::Map, "map"},
         {BearingSource::Guess, "guess"}}};
    return codes;
}
template <>
std::span<const EnumCode<DistanceMode>> enumCodes<DistanceMode>() {
    static constexpr std::array<EnumCode<DistanceMode>, 2> codes{
        {{DistanceMode::StillOut, "still_out"},
         {DistanceMode::NearerThanLast, "nearer_than_last"}}};
    return codes;
}
template <>
std::span<const EnumCode<DepthMethod>> enumCodes<DepthMethod>() {
    static constexpr std::array<EnumCode<DepthMethod>, 3> codes{
        {{DepthMethod::FloatPulls, "float_pulls"},
         {DepthMethod::Measured, "measured"},
         {DepthMethod::Counted, "counted"}}};
    return codes;
}
template <>
std::span<const EnumCode<FixFrame>> enumCodes<FixFrame>() {
    static constexpr std::array<EnumCode<FixFrame>, 2> codes{
        {{FixFrame::Geographic, "geographic"}, {FixFrame::Plane, "plane"}}};
    return codes;
}
template <>
std::span<const EnumCode<BiteOutcome>> enumCodes<BiteOutcome>() {
    static constexpr std::array<EnumCode<BiteOutcome>, 3> codes{
        {{BiteOutcome::Landed, "landed"},
         {BiteOutcome::Lost, "lost"},
         {BiteOutcome::Missed, "missed"}}};
    return codes;
}
template <>
std::span<const EnumCode<HazardKind>> enumCodes<HazardKind>() {
    static constexpr std::array<EnumCode<HazardKind>, 4> codes{
        {{HazardKind::Snag, "snag"},
         {HazardKind::OverheadLine, "overhead_line"},
         {HazardKind::Shallow, "shallow"},
         {HazardKind::Boundary, "boundary"}}};
    return codes;
}
template <>
std::span<const EnumCode<LineKind>> enumCodes<LineKind>() {
    static constexpr std::array<EnumCode<LineKind>, 6> codes{
        {{LineKind::Blank, "blank"},
         {LineKind::Header, "header"},
         {LineKind::Reading, "reading"},
         {LineKind::Spot, "spot"},
         {LineKind::Note, "note"},
         {LineKind::Unclear, "unclear"}}};
    return codes;
}

} // namespace bedlore
