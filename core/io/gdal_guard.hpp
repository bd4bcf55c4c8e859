// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

// What every use of GDAL here has in common: it stays quiet, offline and in memory.

namespace bedlore {

/// While it lives GDAL prints nothing of its own and writes no file beside the one asked for. Its
/// projections reach for no network, from then on.
class QuietGdal {
public:
    QuietGdal();
    ~QuietGdal();
    QuietGdal(const QuietGdal&) = delete;
    QuietGdal& operator=(const QuietGdal&) = delete;
    QuietGdal(QuietGdal&&) = delete;
    QuietGdal& operator=(QuietGdal&&) = delete;
};

/// A file in GDAL's memory that is gone with its owner.
class GdalMemoryFile {
public:
    /// One yet to be written. `ending` is that of its name, ".tif".
    explicit GdalMemoryFile(std::string_view ending);
    /// One that holds `bytes`.
    GdalMemoryFile(std::string_view ending, std::string_view bytes);
    ~GdalMemoryFile();
    GdalMemoryFile(const GdalMemoryFile&) = delete;
    GdalMemoryFile& operator=(const GdalMemoryFile&) = delete;
    GdalMemoryFile(GdalMemoryFile&&) = delete;
    GdalMemoryFile& operator=(GdalMemoryFile&&) = delete;

    [[nodiscard]] const char* path() const { return path_.c_str(); }
    /// What was written; empty for a file that is not there.
    [[nodiscard]] std::string_view bytes() const;

private:
    std::string path_;
    std::string held_; ///< what the file was made of
};

} // namespace bedlore
