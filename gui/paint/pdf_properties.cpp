// SPDX-License-Identifier: MIT
#include "gui/paint/pdf_properties.hpp"

#include <algorithm>

namespace bedlore {

void withoutPdfProperties(QByteArray& pdf) {
    // It is the one dictionary with /Producer, near the beginning or the end, as plain text.
    const qsizetype producer = pdf.indexOf("/Producer ");
    const qsizetype begin = pdf.lastIndexOf("<<", producer);
    const qsizetype end = pdf.indexOf("endobj", producer);
    if (producer < 0 || begin < 0 || end < 0) {
        return;
    }
    const qsizetype close = pdf.lastIndexOf(">>", end);
    if (close > begin) {
        std::fill(pdf.begin() + begin + 2, pdf.begin() + close, ' ');
    }
}

} // namespace bedlore
