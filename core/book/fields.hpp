// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/book.hpp"

#include <concepts>
#include <string_view>
#include <type_traits>

// The one list of every record's fields: storage, table files and reference checks run over it.

namespace bedlore {

/// `visitFields(record, visitor)` calls `visitor(name, field)` for each field in the order of
/// storage, `id` first. `Self` is the record or const record. A new field is added here and nowhere
/// else.
template <class Self, class Record>
concept SameRecord = std::same_as<std::remove_const_t<Self>, Record>;

/// Table names as stored.
template <class Record>
inline constexpr std::string_view tableName = {};
template <>
inline constexpr std::string_view tableName<ImportedFile> = "imported_files";
template <>
inline constexpr std::string_view tableName<Water> = "waters";
template <>
inline constexpr std::string_view tableName<Swim> = "swim_records";
template <>
inline constexpr std::string_view tableName<Mark> = "marks";
template <>
inline constexpr std::string_view tableName<Photo> = "photos";
template <>
inline constexpr std::string_view tableName<Rod> = "rods";
template <>
inline constexpr std::string_view tableName<Reel> = "reels";
template <>
inline constexpr std::string_view tableName<Kit> = "kits";
template <>
inline constexpr std::string_view tableName<Visit> = "visits";
template <>
inline constexpr std::string_view tableName<Aim> = "aims";
template <>
inline constexpr std::string_view tableName<Cast> = "cast_records";
template <>
inline constexpr std::string_view tableName<Reading> = "readings";
template <>
inline constexpr std::string_view tableName<FixSet> = "fix_sets";
template <>
inline constexpr std::string_view tableName<Spot> = "spots";
template <>
inline constexpr std::string_view tableName<LogEntry> = "log_entries";
template <>
inline constexpr std::string_view tableName<Hazard> = "hazards";
template <>
inline constexpr std::string_view tableName<Page> = "pages";
template <>
inline constexpr std::string_view tableName<PageLine> = "page_lines";
template <>
inline constexpr std::string_view tableName<Word> = "words";
template <>
inline constexpr std::string_view tableName<Answer> = "answers";

template <SameRecord<ImportedFile> Self, class Visitor>
void visitFields(Self& r, Visitor&& visit) {
    visit("id", r.id);
    visit("name", r.name);
    visit("sha256", r.sha256);
}

template <SameRecord<Water> Self, class Visitor>
void visitFields(Self& r, Visitor&& visit) {
    visit("id", r.id);
    visit("name", r.name);
    visit("position", r.position);
    visit("plane_origin", r.planeOrigin);
    visit("level_reference", r.levelReference);
    visit("shore", r.shore);
    visit("rules", r.rules);
}

template <SameRecord<Swim> Self, class Visitor>
void visitFields(Self& r, Visitor&& visit) {
    visit("id", r.id);
    visit("water", r.water);
    visit("name", r.name);
    visit("place", r.place);
    visit("standing", r.standing);
    visit("tip_height", r.tipHeight);
    visit("left_boundary", r.leftBoundary);
    visit("right_boundary", r.rightBoundary);
}

template <SameRecord<Mark> Self, class Visitor>
void visitFields(Self& r, Visitor&& visit) {
    visit("id", r.id);
    visit("water", r.water);
    visit("name", r.name);
    visit("time", r.time);
    visit("bearing_from", r.bearingFrom);
    visit("bearing", r.bearing);
    visit("place", r.place);
    visit("gone_since", r.goneSince);
    visit("private", r.isPrivate);
    visit("note", r.note);
}

template <SameRecord<Photo> Self, class Visitor>
void visitFields(Self& r, Visitor&& visit) {
    visit("id", r.id);
    visit("mark", r.mark);
    visit("caption", r.caption);
    visit("media_type", r.mediaType);
    visit("bytes", r.bytes);
    visit("private", r.isPrivate);
}

template <SameRecord<Rod> Self, class Visitor>
void visitFields(Self& r, Visitor&& visit) {
    visit("id", r.id);
    visit("name", r.name);
    visit("role", r.role);
    visit("standing", r.standing);
    visit("length", r.length);
    visit("note", r.note);
}

template <SameRecord<Reel> Self, class Visitor>
void visitFields(Self& r, Visitor&& visit) {
    visit("id", r.id);
    visit("name", r.name);
    visit("line_type", r.lineType);
    visit("calibration", r.calibration);
    visit("spool", r.spool);
    visit("note", r.note);
}

template <SameRecord<Kit> Self, class Visitor>
void visitFields(Self& r, Visitor&& visit) {
    visit("id", r.id);
    visit("name", r.name);
    visit("lead", r.lead);
    visit("leader", r.leader);
    visit("farthest_cast", r.farthestCast);
    visit("allowances", r.allowances);
    visit("when_clipping", r.whenClipping);
    visit("when_wrapping", r.whenWrapping);
    visit("when_hitting", r.whenHitting);
    visit("note", r.note);
}

template <SameRecord<Visit> Self, class Visitor>
void visitFields(Self& r, Visitor&& visit) {
    visit("id", r.id);
    visit("swim", r.swim);
    visit("date", r.date);
    visit("author", r.author);
    visit("level", r.level);
    visit("sticks", r.sticks);
    visit("wrap_counts", r.wrapCounts);
    visit("bare_distance", r.bareDistance);
    visit("bare_depth", r.bareDepth);
    visit("float_rig", r.floatRig);
    visit("reel", r.reel);
    visit("bearing_source", r.bearingSource);
    visit("bearing_error", r.bearingError);
    visit("tip_height", r.tipHeight);
    visit("when_clipping", r.whenClipping);
    visit("note", r.note);
}

template <SameRecord<Aim> Self, class Visitor>
void visitFields(Self& r, Visitor&& visit) {
    visit("id", r.id);
    visit("visit", r.visit);
    visit("place_in_order", r.order);
    visit("label", r.label);
    visit("basis", r.basis);
    visit("text", r.text);
}

template <SameRecord<Cast> Self, class Visitor>
void visitFields(Self& r, Visitor&& visit) {
    visit("id", r.id);
    visit("visit", r.visit);
    visit("place_in_order", r.order);
    visit("name", r.name);
    visit("aim", r.aim);
    visit("bearing", r.bearing);
    visit("reel", r.reel);
}

template <SameRecord<Reading> Self, class Visitor>
void visitFields(Self& r, Visitor&& visit) {
    visit("id", r.id);
    visit("cast_record", r.cast);
    visit("place_in_order", r.order);
    visit("line_from", r.from);
    visit("distance_mode", r.mode);
    visit("about", r.about);
    visit("line_to", r.to);
    visit("depth", r.depth);
    visit("lead_drop", r.drop);
    visit("pull", r.pull);
    visit("on_lead", r.onLead);
    visit("substrate", r.substrate);
    visit("other_substrate", r.otherSubstrate);
    visit("cover", r.cover);
    visit("sureness", r.sureness);
    visit("agreeing", r.agreeing);
    visit("outcome", r.outcome);
    visit("note", r.note);
    visit("source", r.source);
}

template <SameRecord<FixSet> Self, class Visitor>
void visitFields(Self& r, Visitor&& visit) {
    visit("id", r.id);
    visit("water", r.water);
    visit("name", r.name);
    visit("file", r.file);
    visit("frame", r.frame);
    visit("columns", r.columns);
    visit("excluded", r.excluded);
}

template <SameRecord<Spot> Self, class Visitor>
void visitFields(Self& r, Visitor&& visit) {
    visit("id", r.id);
    visit("water", r.water);
    visit("name", r.name);
    visit("place", r.place);
    visit("length_along", r.lengthAlong);
    visit("width", r.width);
    visit("day_mark", r.dayMark);
    visit("day_offset", r.dayOffset);
    visit("night_mark", r.nightMark);
    visit("night_offset", r.nightOffset);
    visit("private", r.isPrivate);
    visit("lengths", r.lengths);
    visit("note", r.note);
}

template <SameRecord<LogEntry> Self, class Visitor>
void visitFields(Self& r, Visitor&& visit) {
    visit("id", r.id);
    visit("visit", r.visit);
    visit("place_in_order", r.order);
    visit("minute", r.minute);
    visit("content", r.content);
    visit("text", r.text);
}

template <SameRecord<Hazard> Self, class Visitor>
void visitFields(Self& r, Visitor&& visit) {
    visit("id", r.id);
    visit("water", r.water);
    visit("kind", r.kind);
    visit("name", r.name);
    visit("vertices", r.vertices);
    visit("clearance", r.clearance);
    visit("note", r.note);
}

template <SameRecord<Page> Self, class Visitor>
void visitFields(Self& r, Visitor&& visit) {
    visit("id", r.id);
    visit("water", r.water);
    visit("author", r.author);
    visit("file", r.file);
}

template <SameRecord<PageLine> Self, class Visitor>
void visitFields(Self& r, Visitor&& visit) {
    visit("id", r.id);
    visit("page", r.page);
    visit("place_in_order", r.order);
    visit("text", r.text);
    visit("kind", r.kind);
    visit("reading", r.reading);
    visit("spot", r.spot);
}

template <SameRecord<Word> Self, class Visitor>
void visitFields(Self& r, Visitor&& visit) {
    visit("id", r.id);
    visit("text", r.text);
    visit("meaning", r.meaning);
}

template <SameRecord<Answer> Self, class Visitor>
void visitFields(Self& r, Visitor&& visit) {
    visit("id", r.id);
    visit("question", r.question);
    visit("answer", r.answer);
}

} // namespace bedlore
