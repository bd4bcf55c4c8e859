// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"
#include "core/io/output_file.hpp"

#include <cstdint>
#include <filesystem>
#include <span>
#include <string>
#include <string_view>

// Rows of a CSV file that leaves the program. Source: RFC 4180, with a line feed alone at the ends.

namespace bedlore {

/// `text` as a cell: in quotation marks where it would otherwise not read back the same, here or in
/// a program that takes blanks off or looks for semicolons.
[[nodiscard]] std::string csvCell(std::string_view text);

/// A table in the making, whole or not at all.
class CsvWriter {
public:
    [[nodiscard]] static Result<CsvWriter> create(const std::filesystem::path& target);

    /// At least two cells, as they are meant: quotation marks are put on here.
    [[nodiscard]] Result<void> row(std::span<const std::string> cells);
    /// Puts the finished table in its place, durably.
    [[nodiscard]] Result<void> commit();

    [[nodiscard]] std::uint64_t bytes() const { return bytes_; }
    [[nodiscard]] std::uint64_t rows() const { return rows_; }

private:
    explicit CsvWriter(OutputFile file)
        : file_(std::move(file)) {}
    [[nodiscard]] Result<void> flush();

    OutputFile file_;
    std::string buffer_;
    std::uint64_t bytes_ = 0;
    std::uint64_t rows_ = 0;
};

} // namespace bedlore
