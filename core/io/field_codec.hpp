// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/fields.hpp"
#include "core/io/column_cursor.hpp"
#include "core/io/enum_codes.hpp"
#include "core/io/json_fields.hpp"

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

// How a field of each type is kept in columns of a table: their names and kinds, and the way there
// and back.

namespace bedlore {

/// A column as declared. `references` names the table that it points into, `comment` goes into the
/// file's own schema for whoever reads it without this program. `choices` are the words that it may
/// hold, with commas between; empty where it is not one of a few.
struct Column {
    std::string name;
    std::string_view type;
    bool required = true;
    std::string_view references = {};
    std::string_view comment = {};
    std::string choices = {};
};
using Columns = std::vector<Column>;

/// For each type of field: `columns` appends at least one column named after it, `write` and `read`
/// go through them in that order. The first column of a required field is never null.
template <class T>
struct FieldCodec;

template <class Record>
struct FieldCodec<Id<Record>> {
    static void columns(Columns& columns, const std::string& name) {
        columns.push_back({.name = name, .type = "INTEGER", .references = tableName<Record>});
    }
    static void write(ColumnWriter& to, const Id<Record>& field) { to.integer(field.value); }
    static void read(ColumnReader& from, Id<Record>& field) {
        field.value = from.integer();
        // Far above any counter; leaves room to count on.
        constexpr std::int64_t most = std::int64_t{1} << 53;
        if (!field.isValid() || field.value > most) {
            from.say("an id is out of range");
        }
    }
};

template <>
struct FieldCodec<std::string> {
    static void columns(Columns& columns, const std::string& name) {
        columns.push_back({.name = name, .type = "TEXT"});
    }
    static void write(ColumnWriter& to, const std::string& field) { to.text(field); }
    static void read(ColumnReader& from, std::string& field) { field = from.text(); }
};

template <>
struct FieldCodec<int> {
    static void columns(Columns& columns, const std::string& name) {
        columns.push_back({.name = name, .type = "INTEGER"});
    }
    static void write(ColumnWriter& to, const int& field) { to.integer(field); }
    static void read(ColumnReader& from, int& field) { field = from.smallInteger(); }
};

template <>
struct FieldCodec<double> {
    static void columns(Columns& columns, const std::string& name) {
        columns.push_back({.name = name, .type = "REAL"});
    }
    static void write(ColumnWriter& to, const double& field) { to.real(field); }
    static void read(ColumnReader& from, double& field) { field = from.real(); }
};

template <>
struct FieldCodec<bool> {
    static void columns(Columns& columns, const std::string& name) {
        columns.push_back({.name = name, .type = "BOOLEAN"});
    }
    static void write(ColumnWriter& to, const bool& field) { to.integer(field ? 1 : 0); }
    static void read(ColumnReader& from, bool& field) {
        const std::int64_t value = from.integer();
        if (value != 0 && value != 1) {
            from.say("neither yes (1) nor no (0)");
        }
        field = value == 1;
    }
};

/// The words of an enumeration, with commas between.
template <class Enum>
[[nodiscard]] std::string choicesOf() {
    if constexpr (std::is_same_v<Enum, Unit>) {
        return "m, cm, yd, ft, in, wrap, turn, pull, step, s, deg, fist, finger, clock, kg, lb, "
               "oz, "
               "l, load, 1";
    } else {
        std::string words;
        for (const EnumCode<Enum>& row : enumCodes<Enum>()) {
            words += (words.empty() ? "" : ", ") + std::string(row.code);
        }
        return words;
    }
}

template <class Enum>
requires std::is_enum_v<Enum>
struct FieldCodec<Enum> {
    static void columns(Columns& columns, const std::string& name) {
        columns.push_back({.name = name, .type = "TEXT", .choices = choicesOf<Enum>()});
    }
    static void write(ColumnWriter& to, const Enum& field) { to.text(codeOf(field)); }
    static void read(ColumnReader& from, Enum& field) {
        const std::string_view code = from.text();
        if (const std::optional<Enum> value = fromCode<Enum>(code)) {
            field = *value;
        } else {
            from.say("the word \"" + std::string(code) + "\" is not known");
        }
    }
};

/// As `isoDate`. The year is 0 to 9999.
template <>
struct FieldCodec<Date> {
    static void columns(Columns& columns, const std::string& name) {
        columns.push_back({.name = name, .type = "DATE"});
    }
    static void write(ColumnWriter& to, const Date& field);
    static void read(ColumnReader& from, Date& field);
};

template <StoredAsJson T>
struct FieldCodec<T> {
    static void columns(Columns& columns, const std::string& name) {
        columns.push_back({.name = name, .type = "TEXT", .comment = "JSON"});
    }
    static void write(ColumnWriter& to, const T& field) {
        const Result<std::string> text = toJson(field);
        to.text(text ? *text : "");
        if (!text) {
            to.say(text.error().context);
        }
    }
    static void read(ColumnReader& from, T& field) {
        const std::string_view text = from.text();
        if (text == "[]") { // by far the commonest list: it is the default one
            return;
        }
        if (Result<T> value = fromJson<T>(text)) {
            field = std::move(*value);
        } else {
            from.say(value.error().message);
        }
    }
};

/// A field made of parts: `visitParts(field, visit)` calls `visit(suffix, part)` for each.
template <class T>
struct FieldParts;

template <>
struct FieldParts<Entered> {
    template <class Self, class Visit>
    static void visit(Self& field, Visit&& part) {
        part("", field.number);
        part("_unit", field.unit);
        part("_text", field.text);
    }
};
template <>
struct FieldParts<BearingEntry> {
    template <class Self, class Visit>
    static void visit(Self& field, Visit&& part) {
        part("", field.degrees);
        part("_north", field.north);
    }
};
template <>
struct FieldParts<GeographicPoint> {
    template <class Self, class Visit>
    static void visit(Self& field, Visit&& part) {
        part("_lat", field.latitude);
        part("_lon", field.longitude);
    }
};
template <>
struct FieldParts<LevelReference> {
    template <class Self, class Visit>
    static void visit(Self& field, Visit&& part) {
        part("", field.words);
        part("_step", field.stepHeight);
        part("_counts", field.counts);
    }
};
template <>
struct FieldParts<FloatRig> {
    template <class Self, class Visit>
    static void visit(Self& field, Visit&& part) {
        part("_pull", field.pull);
        part("_offset", field.offset);
    }
};
template <>
struct FieldParts<DepthEntry> {
    template <class Self, class Visit>
    static void visit(Self& field, Visit&& part) {
        part("", field.value);
        part("_to", field.to);
        part("_method", field.method);
        part("_about", field.about);
    }
};
template <>
struct FieldParts<SourceLine> {
    template <class Self, class Visit>
    static void visit(Self& field, Visit&& part) {
        part("_file", field.file);
        part("_line", field.line);
    }
};

template <class T>
concept MadeOfParts = requires {
    sizeof(FieldParts<T>);
};

template <MadeOfParts T>
struct FieldCodec<T> {
    static void columns(Columns& columns, const std::string& name) {
        T empty{};
        FieldParts<T>::visit(empty, [&]<class Part>(const char* suffix, const Part&) {
            FieldCodec<Part>::columns(columns, name + suffix);
        });
    }
    static void write(ColumnWriter& to, const T& field) {
        FieldParts<T>::visit(field, [&]<class Part>(const char*, const Part& part) {
            FieldCodec<Part>::write(to, part);
        });
    }
    static void read(ColumnReader& from, T& field) {
        FieldParts<T>::visit(field, [&]<class Part>(const char*, Part& part) {
            FieldCodec<Part>::read(from, part);
        });
    }
};

template <class T>
[[nodiscard]] int columnCount() {
    static const int count = [] {
        Columns columns;
        FieldCodec<T>::columns(columns, "");
        return static_cast<int>(columns.size());
    }();
    return count;
}

template <class T>
struct FieldCodec<std::optional<T>> {
    static void columns(Columns& columns, const std::string& name) {
        const std::size_t first = columns.size();
        FieldCodec<T>::columns(columns, name);
        for (std::size_t i = first; i < columns.size(); ++i) {
            columns[i].required = false;
        }
    }
    static void write(ColumnWriter& to, const std::optional<T>& field) {
        if (field) {
            FieldCodec<T>::write(to, *field);
            return;
        }
        for (int i = columnCount<T>(); i > 0; --i) {
            to.null();
        }
    }
    static void read(ColumnReader& from, std::optional<T>& field) {
        if (from.isNull()) {
            from.skipNulls(columnCount<T>());
        } else {
            FieldCodec<T>::read(from, field.emplace());
        }
    }
};

/// Latitude and longitude, or metres east and north in the water's plane, or nothing at all.
template <>
struct FieldCodec<Place> {
    static void columns(Columns& columns, const std::string& name);
    static void write(ColumnWriter& to, const Place& field);
    static void read(ColumnReader& from, Place& field);
};

template <>
struct FieldCodec<std::shared_ptr<const std::vector<std::byte>>> {
    using Field = std::shared_ptr<const std::vector<std::byte>>;
    static void columns(Columns& columns, const std::string& name);
    static void write(ColumnWriter& to, const Field& field);
    static void read(ColumnReader& from, Field& field);
};

/// A byte for each row.
template <>
struct FieldCodec<std::shared_ptr<const std::vector<std::uint8_t>>> {
    using Field = std::shared_ptr<const std::vector<std::uint8_t>>;
    static void columns(Columns& columns, const std::string& name);
    static void write(ColumnWriter& to, const Field& field);
    static void read(ColumnReader& from, Field& field);
};

/// Numbers one after the other, little-endian, IEEE 754.
template <>
struct FieldCodec<std::shared_ptr<const FixColumns>> {
    using Field = std::shared_ptr<const FixColumns>;
    static void columns(Columns& columns, const std::string& name);
    static void write(ColumnWriter& to, const Field& field);
    static void read(ColumnReader& from, Field& field);
};

} // namespace bedlore
