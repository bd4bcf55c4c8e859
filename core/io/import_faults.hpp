// SPDX-License-Identifier: MIT
#pragma once

#include "core/io/import.hpp"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

// The bad rows of one file, as they are found.

namespace bedlore {

class FaultList {
public:
    explicit FaultList(std::string file)
        : file_(std::move(file)) {}

    /// Of a row; the others of the file may still go in. `found` is made fit for a message.
    void add(int line, std::string_view field, std::string_view found, std::string expected);
    /// Of the whole file: nothing of it can go in.
    void addForFile(int line, std::string_view field, std::string_view found, std::string expected);

    [[nodiscard]] const std::string& file() const { return file_; }
    [[nodiscard]] bool empty() const { return rows_.empty(); }
    [[nodiscard]] bool fileIsUnusable() const { return unusable_; }
    /// All that were added, in the order of their lines, up to a number that bounds memory.
    [[nodiscard]] std::vector<BadRow> rows() const;
    /// How many were added beyond that.
    [[nodiscard]] std::size_t leftOut() const { return leftOut_; }

    static constexpr std::size_t most = 10'000;

private:
    std::string file_;
    std::vector<BadRow> rows_;
    std::size_t leftOut_ = 0;
    bool unusable_ = false;
};

} // namespace bedlore
