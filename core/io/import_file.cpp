// SPDX-License-Identifier: MIT
#include "core/io/import_file.hpp"

#include "core/io/csv_header.hpp"
#include "core/io/import_page.hpp"
#include "core/io/import_text.hpp"
#include "core/io/input_file.hpp"
#include "core/io/shoreline_file.hpp"

#include <utility>

namespace bedlore {

namespace {

Error ofNoKnownKind(const std::string& name) {
    return inputError(
        name +
        " is of no known kind. Tables (.csv) of swims, reels, readings, fixes, a shoreline or "
        "a whole book, notebook pages (.txt, beginning with \"swim …\") and shorelines "
        "(.geojson, .json, .kml, .gpx) can be read.");
}

Error ofASharedMap(const std::string& name) {
    return inputError(
        name + " is a table of a shared map: its columns begin with \"map_\". What stands in it "
               "was worked out for others to read, and is not taken in as if somebody had noted "
               "it. Take in the pages themselves, or the tables of the whole book.");
}

/// Whatever stands between its columns.
bool isOfASharedMap(CsvReader& reader) {
    for (const char separator : {',', ';'}) {
        const CsvStep step = reader.splitAgain(separator);
        if (step == CsvStep::Row && isTableOfAMap(columnNames(reader.record()))) {
            return true;
        }
    }
    return false;
}

template <class Rows>
Result<void> take(Result<Rows> rows, ParsedFile& parsed) {
    if (!rows) {
        return fail(std::move(rows).error());
    }
    parsed.content = std::move(*rows);
    return {};
}

Result<void> readTable(
    CsvReader& reader, const CsvHeader& header, ParsedFile& parsed, const Progress& progress) {
    FaultList& faults = parsed.faults;
    switch (header.kind) {
    case ImportKind::Swims:
        return take(readSwimRows(reader, header, faults, progress), parsed);
    case ImportKind::Reels:
        return take(readReelRows(reader, header, faults, progress), parsed);
    case ImportKind::Readings:
        return take(readReadingRows(reader, header, faults, progress), parsed);
    case ImportKind::Fixes:
        return take(readFixRows(reader, header, faults, progress), parsed);
    case ImportKind::Shoreline:
        return take(readShorelineCsv(reader, header, faults, progress), parsed);
    case ImportKind::BookTable:
    case ImportKind::BookFixRows:
    case ImportKind::BookLongValues:
    case ImportKind::Page:
    case ImportKind::GeoJson:
    case ImportKind::Kml:
    case ImportKind::Gpx:
        break;
    }
    return fail(ofNoKnownKind(parsed.name));
}

Result<ParsedFile> parseCsv(InputFile file, const Progress& progress) {
    ParsedFile parsed{.name = file.name(), .sha256 = {}, .faults = FaultList(file.name())};
    CsvReader reader(std::move(file));
    const auto step = reader.next();
    if (!step) {
        return fail(step.error());
    }
    if (*step == CsvStep::Stop || *step == CsvStep::BadRow) {
        parsed.faults.addForFile(
            reader.record().line, "", reader.fault().found, reader.fault().expected);
        return parsed;
    }
    if (*step == CsvStep::End) {
        const bool isTable = familyOf(parsed.name) == FileFamily::Csv;
        return fail(inputError(
            parsed.name + (isTable
                               ? " is empty: there is not even a first line that names its columns."
                               : " is empty: a page has at least a line that names its swim.")));
    }
    if (isOfASharedMap(reader)) {
        return fail(ofASharedMap(parsed.name));
    }
    const auto header = readCsvHeader(reader, parsed.faults);
    if (parsed.faults.fileIsUnusable()) {
        return parsed;
    }
    if (!header) {
        return fail(ofNoKnownKind(parsed.name));
    }
    const std::uint64_t most = importFormat(header->kind).largestBytes;
    if (reader.file().size() > most) {
        return fail(tooLarge(parsed.name, reader.file().size(), most));
    }
    reader.setFileLimit(most);
    parsed.kind = header->kind;
    if (!header->unknown.empty()) {
        parsed.notices.push_back(unknownColumns(parsed.name, header->unknown));
    }
    if (auto read = readTable(reader, *header, parsed, progress); !read) {
        return fail(read.error());
    }
    parsed.sha256 = reader.file().sha256();
    return parsed;
}

/// A file that is read whole: its text without the mark at its beginning, or none when it is no
/// UTF-8, which goes to the faults.
std::optional<std::string> utf8Text(std::string bytes, FaultList& faults) {
    if (const auto encoding = otherEncoding(bytes)) {
        faults.addForFile(1, "", *encoding + " text", wantedEncoding);
        return std::nullopt;
    }
    if (const auto bad = firstBadByte(bytes)) {
        faults.addForFile(lineAt(bytes, *bad), "", namedByte(bytes[*bad]), wantedEncoding);
        return std::nullopt;
    }
    if (bytes.starts_with(utf8Mark)) {
        bytes.erase(0, utf8Mark.size());
    }
    return bytes;
}

ImportKind kindOf(FileFamily family) {
    switch (family) {
    case FileFamily::GeoJson:
        return ImportKind::GeoJson;
    case FileFamily::Kml:
        return ImportKind::Kml;
    case FileFamily::Gpx:
        return ImportKind::Gpx;
    case FileFamily::Page:
    case FileFamily::Csv:
        break;
    }
    return ImportKind::Page;
}

void understand(const std::string& text, ParsedFile& parsed) {
    if (parsed.kind == ImportKind::Page) {
        parsed.content = readPageText(text, parsed.faults);
        return;
    }
    ShoreOutlines outlines = parsed.kind == ImportKind::GeoJson
                                 ? readShorelineGeoJson(text, parsed.faults)
                                 : readShorelineXml(text, parsed.kind, parsed.faults);
    for (std::string& notice : outlines.notices) {
        parsed.notices.push_back(parsed.name + ": " + std::move(notice));
    }
    parsed.content = std::move(outlines);
}

/// None when a file that may be a page is none.
Result<std::optional<ParsedFile>> parseWhole(InputFile file, FileFamily family) {
    ParsedFile parsed{
        .kind = kindOf(family),
        .name = file.name(),
        .sha256 = {},
        .faults = FaultList(file.name())};
    auto whole = readWhole(file, importFormat(parsed.kind).largestBytes);
    if (!whole) {
        return fail(whole.error());
    }
    parsed.sha256 = std::move(whole->sha256);
    if (const auto text = utf8Text(std::move(whole->bytes), parsed.faults)) {
        if (parsed.kind == ImportKind::Page && !isPageText(*text)) {
            return std::nullopt;
        }
        understand(*text, parsed);
    }
    return parsed;
}

} // namespace

Result<ParsedFile> parseImportFile(const std::filesystem::path& path, const Progress& progress) {
    auto file = InputFile::open(path);
    if (!file) {
        return fail(file.error());
    }
    const auto family = familyOf(file->name());
    if (!family) {
        return fail(ofNoKnownKind(file->name()));
    }
    const bool isPageSized = file->size() <= importFormat(ImportKind::Page).largestBytes;
    if (*family == FileFamily::Csv || (*family == FileFamily::Page && !isPageSized)) {
        return parseCsv(std::move(*file), progress);
    }
    auto parsed = parseWhole(std::move(*file), *family);
    if (!parsed) {
        return fail(parsed.error());
    }
    if (*parsed) {
        return std::move(**parsed);
    }
    // Some programs give their tables the ending of a text.
    file = InputFile::open(path);
    return file ? parseCsv(std::move(*file), progress) : fail(file.error());
}

} // namespace bedlore
