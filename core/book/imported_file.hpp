// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/id.hpp"

#include <string>

// A file that was read into the book, so that the same file twice is noticed.

namespace bedlore {

/// `name` is without its folder; `sha256` in lower-case hexadecimal digits.
struct ImportedFile {
    Id<ImportedFile> id;
    std::string name;
    std::string sha256;
    friend bool operator==(const ImportedFile&, const ImportedFile&) = default;
};

} // namespace bedlore
