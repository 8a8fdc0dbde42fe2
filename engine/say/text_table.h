// A table in plain text, aligned with blanks.
#pragma once

#include <string>
#include <vector>

namespace counterpull {

class TextTable {
  public:
    // Cells of a row, perhaps with a remark after them; the first column is left-aligned, the others
    // right-aligned.
    void row(std::vector<std::string> cells, std::string remark = {});
    // All rows, indented by two blanks, each ending its line.
    std::string text() const;

  private:
    struct Row {
        std::vector<std::string> cells;
        std::string remark;
    };
    std::vector<Row> rows_;
};

} // namespace counterpull
