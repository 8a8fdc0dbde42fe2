#include "engine/say/text_table.h"

#include <algorithm>

namespace counterpull {

namespace {

// Characters on the screen, not bytes.
std::size_t width_of(const std::string& text) {
    return static_cast<std::size_t>(std::count_if(
        text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

} // namespace

void TextTable::row(std::vector<std::string> cells, std::string remark) {
    rows_.push_back({std::move(cells), std::move(remark)});
}

std::string TextTable::text() const {
    std::vector<std::size_t> widths;
    for (const Row& row : rows_) {
        widths.resize(std::max(widths.size(), row.cells.size()));
        for (std::size_t i = 0; i < row.cells.size(); ++i)
            widths[i] = std::max(widths[i], width_of(row.cells[i]));
    }
    std::string out;
    for (const Row& row : rows_) {
        std::string line = "  ";
        for (std::size_t i = 0; i < row.cells.size(); ++i) {
            const std::string space(widths[i] - width_of(row.cells[i]), ' ');
            line += (i > 0 ? "  " : "") + (i == 0 ? row.cells[i] + space : space + row.cells[i]);
        }
        line += "  " + row.remark;
        out += line.substr(0, line.find_last_not_of(' ') + 1) + "\n";
    }
    return out;
}

} // namespace counterpull
