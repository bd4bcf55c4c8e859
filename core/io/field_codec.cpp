// SPDX-License-Identifier: MIT
#include "core/io/field_codec.hpp"

#include "core/io/iso_date.hpp"
#include "core/units/format.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstring>
#include <span>
#include <utility>

namespace bedlore {

// Blobs are written as they lie in memory.
static_assert(std::endian::native == std::endian::little);

namespace {

template <class T>
std::span<const std::byte> bytesOf(const std::vector<T>& values) {
    return std::as_bytes(std::span<const T>(values));
}

/// The values in `bytes`; whatever is left over at the end is a problem.
template <class T>
std::vector<T> valuesOf(ColumnReader& from, std::span<const std::byte> bytes) {
    if (bytes.size() % sizeof(T) != 0) {
        from.say("the bytes end in the middle of a number");
        return {};
    }
    std::vector<T> values(bytes.size() / sizeof(T));
    if (!values.empty()) {
        std::memcpy(values.data(), bytes.data(), bytes.size());
    }
    return values;
}

bool allFinite(const std::vector<double>& values) {
    return std::all_of(values.begin(), values.end(), [](double v) { return std::isfinite(v); });
}

bool noneInfinite(const std::vector<float>& values) {
    return std::none_of(values.begin(), values.end(), [](float v) { return std::isinf(v); });
}

template <class Kind>
bool allKinds(const std::vector<std::uint8_t>& values) {
    constexpr std::uint8_t none = 255;
    const std::size_t kinds = enumCodes<Kind>().size();
    return std::all_of(
        values.begin(), values.end(), [kinds](std::uint8_t v) { return v == none || v < kinds; });
}

/// What keeps `fixes` from being a set of rows, empty when nothing does.
std::string problemOf(const FixColumns& fixes) {
    const std::size_t rows = fixes.x.size();
    const auto fits = [rows](const auto& column) {
        return column.empty() || column.size() == rows;
    };
    if (fixes.y.size() != rows || fixes.depth.size() != rows || !fits(fixes.sigma) ||
        !fits(fixes.level) || !fits(fixes.day) || !fits(fixes.substrate) || !fits(fixes.cover)) {
        return "the columns of the fixes are not of one length";
    }
    if (!allFinite(fixes.x) || !allFinite(fixes.y) || !allFinite(fixes.depth) ||
        !noneInfinite(fixes.sigma) || !noneInfinite(fixes.level)) {
        return "a number is not finite";
    }
    if (!allKinds<Substrate>(fixes.substrate) || !allKinds<Cover>(fixes.cover)) {
        return "a bottom of the fixes is not known";
    }
    return {};
}

} // namespace

void FieldCodec<Date>::write(ColumnWriter& to, const Date& field) {
    const int year = static_cast<int>(field.year());
    if (!field.ok() || year < 0 || year > 9999) {
        to.say("a date is not one of the calendar");
        to.null();
        return;
    }
    to.text(isoDate(field));
}

void FieldCodec<Date>::read(ColumnReader& from, Date& field) {
    const std::string_view text = from.text();
    if (const auto date = isoDateIn(text)) {
        field = *date;
        return;
    }
    from.say("\"" + std::string(text) + "\" is not a date");
}

void FieldCodec<Place>::columns(Columns& columns, const std::string& name) {
    for (const char* suffix : {"_lat", "_lon", "_east", "_north"}) {
        columns.push_back({.name = name + suffix, .type = "REAL", .required = false});
    }
}

void FieldCodec<Place>::write(ColumnWriter& to, const Place& field) {
    using Geographic = std::optional<GeographicPoint>;
    const auto* geographic = std::get_if<GeographicPoint>(&field);
    FieldCodec<Geographic>::write(
        to, geographic != nullptr ? Geographic(*geographic) : Geographic());
    if (const auto* point = std::get_if<Point>(&field)) {
        to.real(point->east);
        to.real(point->north);
    } else {
        to.null();
        to.null();
    }
}

void FieldCodec<Place>::read(ColumnReader& from, Place& field) {
    std::optional<GeographicPoint> geographic;
    FieldCodec<std::optional<GeographicPoint>>::read(from, geographic);
    if (geographic) {
        field = *geographic;
    }
    if (geographic || from.isNull()) {
        from.skipNulls(2);
        return;
    }
    Point point;
    point.east = from.real();
    point.north = from.real();
    field = point;
}

using ByteField = FieldCodec<std::shared_ptr<const std::vector<std::byte>>>;

void ByteField::columns(Columns& columns, const std::string& name) {
    columns.push_back({.name = name, .type = "BLOB", .required = false});
}
void ByteField::write(ColumnWriter& to, const Field& field) {
    if (field) {
        to.blob(*field);
    } else {
        to.null();
    }
}
void ByteField::read(ColumnReader& from, Field& field) {
    if (from.isNull()) {
        from.skipNulls(1);
        return;
    }
    const std::span<const std::byte> bytes = from.blob();
    field = std::make_shared<const std::vector<std::byte>>(bytes.begin(), bytes.end());
}

using MaskField = FieldCodec<std::shared_ptr<const std::vector<std::uint8_t>>>;

void MaskField::columns(Columns& columns, const std::string& name) {
    columns.push_back(
        {.name = name,
         .type = "BLOB",
         .required = false,
         .comment = "a byte for each row, not zero where he set the row aside; NULL for none"});
}
void MaskField::write(ColumnWriter& to, const Field& field) {
    if (field) {
        to.blob(bytesOf(*field));
    } else {
        to.null();
    }
}
void MaskField::read(ColumnReader& from, Field& field) {
    if (from.isNull()) {
        from.skipNulls(1);
        return;
    }
    field = std::make_shared<const std::vector<std::uint8_t>>(
        valuesOf<std::uint8_t>(from, from.blob()));
}

using FixField = FieldCodec<std::shared_ptr<const FixColumns>>;

void FixField::columns(Columns& columns, const std::string& name) {
    const auto add = [&](const char* suffix, std::string_view comment) {
        columns.push_back(
            {.name = name + suffix, .type = "BLOB", .required = false, .comment = comment});
    };
    add("_x",
        "float64 little-endian: longitude [degree] or metres east of the water's plane, by frame");
    add("_y", "float64 little-endian: latitude [degree] or metres north");
    add("_depth", "float64 little-endian: metres below the surface of its day");
    add("_sigma", "float32 little-endian: standard error [m], NaN where not given");
    add("_level", "float32 little-endian: water level [m], NaN where not given");
    add("_day", "int32 little-endian: days since 1970-01-01, -2147483648 where not given");
    add("_substrate",
        "uint8: 0 rock, 1 coarse gravel, 2 gravel, 3 fine gravel, 4 mussels, 5 sand, 6 hard clay, "
        "7 clay, 8 firm silt, 9 silt, 10 black silt, 11 hard, 12 soft, 255 not given");
    add("_cover",
        "uint8: 0 clear, 1 weed, 2 low weed, 3 tall weed, 4 silk weed, 5 leaves, 6 twigs, 7 roots, "
        "8 pads, 255 not given");
}

void FixField::write(ColumnWriter& to, const Field& field) {
    if (!field) {
        for (int i = 0; i < 8; ++i) {
            to.null();
        }
        return;
    }
    if (std::string problem = problemOf(*field); !problem.empty()) {
        to.say(std::move(problem));
    }
    to.blob(bytesOf(field->x));
    to.blob(bytesOf(field->y));
    to.blob(bytesOf(field->depth));
    to.blob(bytesOf(field->sigma));
    to.blob(bytesOf(field->level));
    to.blob(bytesOf(field->day));
    to.blob(bytesOf(field->substrate));
    to.blob(bytesOf(field->cover));
}

void FixField::read(ColumnReader& from, Field& field) {
    if (from.isNull()) {
        from.skipNulls(8);
        return;
    }
    FixColumns fixes;
    fixes.x = valuesOf<double>(from, from.blob());
    fixes.y = valuesOf<double>(from, from.blob());
    fixes.depth = valuesOf<double>(from, from.blob());
    fixes.sigma = valuesOf<float>(from, from.blob());
    fixes.level = valuesOf<float>(from, from.blob());
    fixes.day = valuesOf<std::int32_t>(from, from.blob());
    fixes.substrate = valuesOf<std::uint8_t>(from, from.blob());
    fixes.cover = valuesOf<std::uint8_t>(from, from.blob());
    if (const std::string problem = problemOf(fixes); !problem.empty()) {
        from.say(problem);
    }
    field = std::make_shared<const FixColumns>(std::move(fixes));
}

} // namespace bedlore
