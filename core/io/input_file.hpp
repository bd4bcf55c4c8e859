// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"
#include "core/io/sha256.hpp"

#include <cstdint>
#include <filesystem>
#include <string>

// Files of others, read piece by piece and never beyond a stated size.

namespace bedlore {

/// A file open for reading once, from front to back. Only plain files: a folder, a pipe or a
/// device is refused, so that reading ends.
class InputFile {
public:
    [[nodiscard]] static Result<InputFile> open(const std::filesystem::path& path);

    InputFile(InputFile&& other) noexcept;
    InputFile& operator=(InputFile&& other) noexcept;
    InputFile(const InputFile&) = delete;
    InputFile& operator=(const InputFile&) = delete;
    ~InputFile();

    /// Without its folder.
    [[nodiscard]] const std::string& name() const { return name_; }
    /// When it was opened [bytes].
    [[nodiscard]] std::uint64_t size() const { return size_; }
    [[nodiscard]] std::uint64_t bytesRead() const { return bytesRead_; }

    /// Appends the next piece to `buffer`; false at the end. Fails when the device fails, or when
    /// more than `limit` bytes came (a file that grows while it is read).
    [[nodiscard]] Result<bool> readMore(std::string& buffer, std::uint64_t limit);
    /// Of all that was read; nothing may be read after.
    [[nodiscard]] std::string sha256() { return sum_.hex(); }

private:
    InputFile() = default;

    std::string name_;
    std::uint64_t size_ = 0;
    std::uint64_t bytesRead_ = 0;
    Sha256 sum_;
    int file_ = -1;
};

struct WholeFile {
    std::string bytes;
    std::string sha256;
};

/// All of `file`, or a sentence when it is larger than `limit` bytes.
[[nodiscard]] Result<WholeFile> readWhole(InputFile& file, std::uint64_t limit);

/// "The file a.csv is 300 MB; at most 32 MB can be read."
[[nodiscard]] Error tooLarge(const std::string& name, std::uint64_t size, std::uint64_t limit);

} // namespace bedlore
