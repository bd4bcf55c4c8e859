// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

// A small reader for the tests' own tables of check values (no quoting but whole quoted cells).

namespace bedlore::testing {

struct CsvTable {
    std::map<std::string, std::size_t> columns;
    std::vector<std::vector<std::string>> rows;

    [[nodiscard]] const std::string& text(std::size_t row, const std::string& column) const {
        return rows.at(row).at(columns.at(column));
    }
    [[nodiscard]] double number(std::size_t row, const std::string& column) const {
        return std::stod(text(row, column));
    }
};

inline std::vector<std::string> csvCells(const std::string& line) {
    std::vector<std::string> cells(1);
    bool quoted = false;
    for (const char c : line) {
        if (c == '"') {
            quoted = !quoted;
        } else if (c == ',' && !quoted) {
            cells.emplace_back();
        } else if (c != '\r') {
            cells.back() += c;
        }
    }
    return cells;
}

inline CsvTable readCsvTable(const std::filesystem::path& path) {
    std::ifstream in(path);
    if (!in) {
        throw std::runtime_error("no such table: " + path.string());
    }
    CsvTable table;
    std::string line;
    std::getline(in, line);
    const auto header = csvCells(line);
    for (std::size_t i = 0; i < header.size(); ++i) {
        table.columns[header[i]] = i;
    }
    while (std::getline(in, line)) {
        if (!line.empty()) {
            table.rows.push_back(csvCells(line));
        }
    }
    return table;
}

} // namespace bedlore::testing
