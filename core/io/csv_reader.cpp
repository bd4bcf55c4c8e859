// SPDX-License-Identifier: MIT
#include "core/io/csv_reader.hpp"

#include "core/io/import_text.hpp"

#include <algorithm>
#include <utility>

namespace bedlore {

namespace {

bool isLineEnd(char c) {
    return c == '\n' || c == '\r';
}

/// Puts one quotation mark where two stand, in place.
std::size_t withoutDoubledQuotes(char* begin, std::size_t size) {
    std::size_t kept = 0;
    for (std::size_t i = 0; i < size; ++i) {
        begin[kept++] = begin[i];
        i += begin[i] == '"' ? 1 : 0;
    }
    return kept;
}

} // namespace

bool CsvRecord::isBlank() const {
    return std::all_of(
        cells.begin(), cells.end(), [](std::string_view cell) { return trimmed(cell).empty(); });
}

CsvReader::CsvReader(InputFile file, CsvLimits limits)
    : file_(std::move(file))
    , limits_(limits) {}

Result<bool> CsvReader::refill() {
    buffer_.erase(0, start_);
    start_ = 0;
    auto more = file_.readMore(buffer_, limits_.fileBytes);
    if (more) {
        ended_ = !*more;
    }
    return more;
}

Result<bool> CsvReader::startFile() {
    if (const auto more = refill(); !more) {
        return fail(more.error());
    }
    if (const auto encoding = otherEncoding(buffer_)) {
        static_cast<void>(stop(*encoding + " text", wantedEncoding));
        return false;
    }
    start_ = buffer_.starts_with(utf8Mark) ? utf8Mark.size() : 0;
    return true;
}

Result<bool> CsvReader::scanWhole() {
    while (scan() == Scan::NeedsMore) {
        if (buffer_.size() - start_ > limits_.rowBytes) {
            static_cast<void>(stopAtLongRow());
            return false;
        }
        if (const auto more = refill(); !more) {
            return fail(more.error());
        }
    }
    return true;
}

Result<CsvStep> CsvReader::next(const Progress& progress) {
    start_ = end_;
    lineOfNext_ += linesInRow_;
    linesInRow_ = 0;
    Result<bool> readable = file_.bytesRead() == 0 ? startFile() : Result<bool>(true);
    while (readable && *readable) {
        readable = scanWhole();
        if (!readable || !*readable) {
            break;
        }
        if (end_ == start_) {
            return CsvStep::End;
        }
        if (cells_.size() > 1 || cells_.front().end > cells_.front().begin || strayAfterQuote_) {
            return finish();
        }
        start_ = end_;
        lineOfNext_ += linesInRow_;
        constexpr int linesBetweenLooks = 1024;
        if (lineOfNext_ % linesBetweenLooks == 0 && progress.cancelled()) {
            return fail(cancelledError());
        }
    }
    return readable ? Result<CsvStep>(CsvStep::Stop) : fail(readable.error());
}

std::size_t CsvReader::endOfCell(std::size_t i) const {
    while (i < buffer_.size() && !isSeparator(buffer_[i]) && !isLineEnd(buffer_[i])) {
        ++i;
    }
    return i;
}

bool CsvReader::isCutShort(std::size_t i) const {
    const bool half = i + 1 == buffer_.size() && buffer_[i] == '\r';
    return (i == buffer_.size() || half) && !ended_;
}

char CsvReader::charAt(std::size_t i) const {
    return i < buffer_.size() ? buffer_[i] : '\0';
}

std::size_t CsvReader::lineEndAt(std::size_t i) const {
    const char c = charAt(i);
    if (!isLineEnd(c)) {
        return 0;
    }
    return c == '\r' && charAt(i + 1) == '\n' ? 2 : 1;
}

CsvReader::Scan CsvReader::scan() {
    cells_.clear();
    openQuote_ = false;
    strayAfterQuote_ = false;
    linesInRow_ = 0;
    std::size_t i = start_;
    while (true) {
        if (i < buffer_.size() && buffer_[i] == '"') {
            if (scanQuoted(i) == Scan::NeedsMore) {
                return Scan::NeedsMore;
            }
        } else {
            const std::size_t begin = i;
            i = endOfCell(i);
            cells_.push_back({.begin = begin, .end = i});
        }
        if (isCutShort(i)) {
            return Scan::NeedsMore;
        }
        if (i == buffer_.size() || isLineEnd(buffer_[i])) {
            break;
        }
        ++i;
    }
    end_ = i + lineEndAt(i);
    linesInRow_ += end_ > i ? 1 : 0;
    return Scan::Complete;
}

CsvReader::Scan CsvReader::scanQuoted(std::size_t& i) {
    Cell cell{.begin = i + 1};
    std::size_t j = i + 1;
    while (true) {
        if (j + 1 >= buffer_.size() && !ended_) {
            openQuote_ = true;
            return Scan::NeedsMore;
        }
        if (j >= buffer_.size()) {
            openQuote_ = true;
            break;
        }
        const char following = charAt(j + 1);
        if (buffer_[j] == '"' && following != '"') {
            break;
        }
        cell.doubledQuotes = cell.doubledQuotes || buffer_[j] == '"';
        linesInRow_ += lineEndAt(j) == 1 ? 1 : 0; // the first half of two is no end yet
        j += buffer_[j] == '"' ? 2U : 1U;
    }
    cell.end = std::min(j, buffer_.size());
    cells_.push_back(cell);
    i = std::min(j + 1, buffer_.size());
    const std::size_t end = endOfCell(i);
    const std::string_view after = std::string_view(buffer_).substr(i, end - i);
    strayAfterQuote_ = strayAfterQuote_ || after.find_first_not_of(" \t") != std::string_view::npos;
    i = end;
    return Scan::Complete;
}

std::optional<CsvFault> CsvReader::faultOfLine(CsvStep step, std::size_t width) const {
    if (step == CsvStep::BadRow) {
        return fault_;
    }
    if (record_.isBlank() || record_.cells.size() == width) {
        return std::nullopt;
    }
    return CsvFault{
        .found = std::to_string(record_.cells.size()) + " columns",
        .expected = std::to_string(width) + " columns, as in the first line"};
}

bool CsvReader::report(const Progress& progress) const {
    const auto total = static_cast<double>(std::max<std::uint64_t>(file_.size(), 1));
    progress.at(static_cast<double>(file_.bytesRead()) / total);
    return !progress.cancelled();
}

CsvStep CsvReader::stop(std::string found, std::string expected) {
    record_.line = lineOfNext_;
    record_.cells.clear();
    fault_ = {.found = std::move(found), .expected = std::move(expected)};
    return CsvStep::Stop;
}

CsvStep CsvReader::stopAtLongRow() {
    if (cells_.size() > limits_.columns) {
        const std::string most = std::to_string(limits_.columns);
        return stop("more than " + most + " columns", "at most " + most + " columns");
    }
    if (openQuote_) {
        return stop("a quotation mark that is never closed", "a closing quotation mark");
    }
    return stop("a line of more than a million characters", "shorter lines");
}

CsvStep CsvReader::finish() {
    if (openQuote_ || cells_.size() > limits_.columns || end_ - start_ > limits_.rowBytes) {
        return stopAtLongRow();
    }
    record_.line = lineOfNext_;
    text_ = std::string_view(buffer_).substr(start_, end_ - start_);
    while (!text_.empty() && isLineEnd(text_.back())) {
        text_.remove_suffix(1);
    }
    if (const auto bad = firstBadByte(text_)) {
        record_.line += lineAt(text_, *bad) - 1;
        fault_ = {.found = namedByte(text_[*bad]), .expected = wantedEncoding};
        return CsvStep::BadRow;
    }
    if (strayAfterQuote_) {
        fault_ = {
            .found = shown(text_), .expected = "a cell in quotation marks with its own doubled"};
        return CsvStep::BadRow;
    }
    takeCells();
    return CsvStep::Row;
}

void CsvReader::takeCells() {
    record_.cells.clear();
    for (const Cell& cell : cells_) {
        std::size_t size = cell.end - cell.begin;
        if (cell.doubledQuotes && separator_ != '\0') {
            size = withoutDoubledQuotes(buffer_.data() + cell.begin, size);
        }
        record_.cells.push_back(std::string_view(buffer_).substr(cell.begin, size));
    }
}

CsvStep CsvReader::splitAgain(char separator) {
    separator_ = separator;
    // The row was complete, and stays so with fewer separators; only a quote may now run on.
    if (scan() == Scan::NeedsMore) {
        return stop("a quotation mark that is never closed", "a closing quotation mark");
    }
    return finish();
}

} // namespace bedlore
