// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"
#include "core/base/result.hpp"
#include "core/io/input_file.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

// Rows of a CSV file, one after another, in bounded memory. Source: RFC 4180, with semicolons and
// any line ends besides.

namespace bedlore {

/// One row. The cells are as written, quotes taken off, and point into the reader: they last until
/// the next row is read. `line` is the physical line that it begins on, from 1.
struct CsvRecord {
    int line = 0;
    std::vector<std::string_view> cells;

    /// Whether it says anything at all.
    [[nodiscard]] bool isBlank() const;
};

/// What is wrong with the text of a row: what stands there, what should.
struct CsvFault {
    std::string found;
    std::string expected;
};

enum class CsvStep : std::uint8_t {
    Row,    ///< `record()` holds it
    BadRow, ///< `fault()` says why this row cannot be used; the next can be read
    Stop,   ///< `fault()` says why nothing after `record().line` can be read
    End,
};

struct CsvLimits {
    std::uint64_t fileBytes = std::uint64_t{1} << 31U;
    std::size_t rowBytes = std::size_t{1} << 20U;
    std::size_t columns = 1000;
};

class CsvReader {
public:
    /// The first row, the header, ends its cells at commas and semicolons alike until
    /// `splitAgain`.
    explicit CsvReader(InputFile file, CsvLimits limits = {});

    /// Fails when the device fails, when the file is larger than its limit, and when it is stopped
    /// among lines that say nothing.
    [[nodiscard]] Result<CsvStep> next(const Progress& progress = {});
    [[nodiscard]] const CsvRecord& record() const { return record_; }
    [[nodiscard]] const CsvFault& fault() const { return fault_; }
    /// What is wrong with the line that `next` has just read by `step`, where a row has `width`
    /// cells; nothing where it is blank or right.
    [[nodiscard]] std::optional<CsvFault> faultOfLine(CsvStep step, std::size_t width) const;
    /// Says how much of the file has been read. False where nobody wants the rest.
    [[nodiscard]] bool report(const Progress& progress) const;

    /// The row just read, as written, without its line end; for the header, from which the
    /// separator is told.
    [[nodiscard]] std::string_view text() const { return text_; }
    /// Reads the row just read again, its cells ending at `separator`, as do those of all after.
    [[nodiscard]] CsvStep splitAgain(char separator);

    /// A file of one kind may be larger than one of another.
    void setFileLimit(std::uint64_t bytes) { limits_.fileBytes = bytes; }
    [[nodiscard]] const InputFile& file() const { return file_; }
    [[nodiscard]] InputFile& file() { return file_; }

private:
    struct Cell {
        std::size_t begin = 0;
        std::size_t end = 0;
        bool doubledQuotes = false;
    };
    enum class Scan : std::uint8_t { Complete, NeedsMore };

    [[nodiscard]] Result<bool> refill();
    /// Both are false where the reader has to stop; `fault_` says why.
    [[nodiscard]] Result<bool> startFile();
    [[nodiscard]] Result<bool> scanWhole();
    [[nodiscard]] Scan scan();
    [[nodiscard]] Scan scanQuoted(std::size_t& i);
    [[nodiscard]] std::size_t endOfCell(std::size_t i) const;
    /// Whether what stands at `i` cannot be told before more is read: a carriage return at the very
    /// end may be half of a line end.
    [[nodiscard]] bool isCutShort(std::size_t i) const;
    [[nodiscard]] char charAt(std::size_t i) const;
    /// The length of the line end at `i`; zero where there is none.
    [[nodiscard]] std::size_t lineEndAt(std::size_t i) const;
    [[nodiscard]] bool isSeparator(char c) const {
        return separator_ == '\0' ? c == ',' || c == ';' : c == separator_;
    }
    [[nodiscard]] CsvStep stop(std::string found, std::string expected);
    [[nodiscard]] CsvStep stopAtLongRow();
    [[nodiscard]] CsvStep finish();
    void takeCells();

    InputFile file_;
    CsvLimits limits_;
    std::string buffer_;
    std::size_t start_ = 0; ///< of the row in hand
    std::size_t end_ = 0;   ///< behind its line end
    std::vector<Cell> cells_;
    bool openQuote_ = false;
    bool strayAfterQuote_ = false;
    bool ended_ = false;
    char separator_ = '\0';
    int lineOfNext_ = 1;
    int linesInRow_ = 0;
    CsvRecord record_;
    CsvFault fault_;
    std::string_view text_;
};

} // namespace bedlore
