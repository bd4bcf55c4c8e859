// SPDX-License-Identifier: MIT
#include "core/io/gdal_guard.hpp"

#include <cpl_conv.h>
#include <cpl_error.h>
#include <cpl_vsi.h>
#include <ogr_srs_api.h>

#include <atomic>

namespace bedlore {

QuietGdal::QuietGdal() {
    CPLSetThreadLocalConfigOption("GDAL_PAM_ENABLED", "NO");
    CPLPushErrorHandler(CPLQuietErrorHandler);
    OSRSetPROJEnableNetwork(0);
}

QuietGdal::~QuietGdal() {
    CPLPopErrorHandler();
    CPLSetThreadLocalConfigOption("GDAL_PAM_ENABLED", nullptr);
}

GdalMemoryFile::GdalMemoryFile(std::string_view ending) {
    static std::atomic<unsigned> count = 0;
    path_ = "/vsimem/bedlore-" + std::to_string(++count) + std::string(ending);
}

GdalMemoryFile::GdalMemoryFile(std::string_view ending, std::string_view bytes)
    : GdalMemoryFile(ending) {
    held_ = bytes;
    VSILFILE* file = VSIFileFromMemBuffer(
        path_.c_str(),
        reinterpret_cast<GByte*>(held_.data()),
        static_cast<vsi_l_offset>(held_.size()),
        FALSE);
    if (file != nullptr) {
        VSIFCloseL(file);
    }
}

GdalMemoryFile::~GdalMemoryFile() {
    VSIUnlink(path_.c_str());
}

std::string_view GdalMemoryFile::bytes() const {
    vsi_l_offset size = 0;
    const GByte* data = VSIGetMemFileBuffer(path_.c_str(), &size, FALSE);
    return {reinterpret_cast<const char*>(data), static_cast<std::size_t>(size)};
}

} // namespace bedlore
