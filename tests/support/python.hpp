// SPDX-License-Identifier: MIT
#pragma once

namespace bedlore::testing {

/// Debian's own Python, for which GDAL's modules (python3-gdal) are installed; another one that
/// comes first on the path may lack them.
inline constexpr const char* python = "/usr/bin/python3";

} // namespace bedlore::testing
