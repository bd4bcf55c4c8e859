// SPDX-License-Identifier: MIT
#include "core/io/csv_writer.hpp"

#include "core/base/contract.hpp"

#include <utility>

namespace bedlore {

namespace {

constexpr std::size_t pieceBytes = std::size_t{1} << 18U;

bool isBlank(char c) {
    return c == ' ' || c == '\t';
}

} // namespace

std::string csvCell(std::string_view text) {
    const bool plain = text.find_first_of(",;\"\r\n") == std::string_view::npos;
    if (text.empty() || (plain && !isBlank(text.front()) && !isBlank(text.back()))) {
        return std::string(text);
    }
    std::string cell = "\"";
    for (const char c : text) {
        cell.append(c == '"' ? 2U : 1U, c);
    }
    return cell + "\"";
}

Result<CsvWriter> CsvWriter::create(const std::filesystem::path& target) {
    auto file = OutputFile::create(target);
    if (!file) {
        return fail(std::move(file).error());
    }
    return CsvWriter(*std::move(file));
}

Result<void> CsvWriter::row(std::span<const std::string> cells) {
    BEDLORE_EXPECTS(cells.size() >= 2); // a lone empty cell would be an empty line
    const std::size_t before = buffer_.size();
    for (std::size_t i = 0; i < cells.size(); ++i) {
        buffer_ += i > 0 ? "," : "";
        buffer_ += csvCell(cells[i]);
    }
    buffer_ += '\n';
    bytes_ += buffer_.size() - before;
    ++rows_;
    return buffer_.size() < pieceBytes ? Result<void>() : flush();
}

Result<void> CsvWriter::flush() {
    Result<void> written = file_.write(buffer_);
    buffer_.clear();
    return written;
}

Result<void> CsvWriter::commit() {
    if (Result<void> written = flush(); !written) {
        return written;
    }
    return file_.commit();
}

} // namespace bedlore
