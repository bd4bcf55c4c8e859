// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <vector>

// A layer below SQLite that writes down what reaches the disk, or lets the disk fail, or tells
// another time.

namespace bedlore::testing {

/// One thing that was done to a file in the folder.
struct DiskStep {
    enum class Kind : std::uint8_t { Write, Truncate, Sync, Delete };
    Kind kind = Kind::Write;
    std::string file;        ///< its name without the folder
    std::int64_t offset = 0; ///< of a write; the new size after a truncation
    std::string bytes;       ///< of a write
};

/// What lies in a folder: bytes by the name of the file.
using DiskImage = std::map<std::string, std::string>;

/// Does `step` to `image`; of a write only the first `most` bytes.
void apply(const DiskStep& step, DiskImage& image, std::size_t most = std::string::npos);

/// While it lives every SQLite file of this process is opened through it. One at a time.
class DiskLog {
public:
    DiskLog();
    ~DiskLog();
    DiskLog(const DiskLog&) = delete;
    DiskLog& operator=(const DiskLog&) = delete;
    DiskLog(DiskLog&&) = delete;
    DiskLog& operator=(DiskLog&&) = delete;

    [[nodiscard]] const std::vector<DiskStep>& steps() const;
    /// From now on the step with that number, counted from 0, and all after it fail with `code` of
    /// SQLite; `heal` ends that.
    void failFrom(std::size_t step, int code);
    void heal();
    /// From now on SQLite's clock stands at `seconds` after the start of 1970.
    void setClock(std::int64_t seconds);
    /// Whether a step has failed since `failFrom`.
    [[nodiscard]] bool hasFailed() const;
};

} // namespace bedlore::testing
