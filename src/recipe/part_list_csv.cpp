#include <algorithm>
#include <cctype>
#include <optional>

#include <fmt/format.h>

#include "air/logger_cells.h"
#include "recipe/part_limits.h"

namespace coatwright {
namespace {

enum class Field { kName, kCount, kLength, kWidth, kThickness, kFaces, kEdges };

struct Column {
  Field field = Field::kName;
  const PartUnit* unit = nullptr;
  std::string heading;  ///< As the file writes it.
};

constexpr std::string_view kAllowedColumns =
    "name, count, length_mm, width_mm, thickness_mm (or _cm, _m, _in), faces, edges";

/// "Length (mm)" as "length_mm".
std::string plain_heading(std::string_view text) {
  std::string plain;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (std::isalnum(byte) != 0) {
      plain += static_cast<char>(std::tolower(byte));
    } else if (!plain.empty() && plain.back() != '_') {
      plain += '_';
    }
  }
  while (plain.ends_with('_')) {
    plain.pop_back();
  }
  return plain;
}

std::optional<Column> length_column(const std::string& plain) {
  constexpr std::pair<std::string_view, Field> kLengths[] = {
      {"length", Field::kLength}, {"width", Field::kWidth}, {"thickness", Field::kThickness}};
  for (const auto& [word, field] : kLengths) {
    for (const PartUnit& unit : kPartUnits) {
      if (plain == fmt::format("{}_{}", word, unit.name)) {
        return Column{field, &unit, ""};
      }
    }
  }
  return std::nullopt;
}

std::optional<Column> column_of(std::string_view heading) {
  constexpr std::pair<std::string_view, Field> kWords[] = {{"name", Field::kName},
                                                           {"part", Field::kName},
                                                           {"count", Field::kCount},
                                                           {"quantity", Field::kCount},
                                                           {"qty", Field::kCount},
                                                           {"faces", Field::kFaces},
                                                           {"edges", Field::kEdges}};
  const std::string plain = plain_heading(heading);
  std::optional<Column> column = length_column(plain);
  for (const auto& [word, field] : kWords) {
    if (plain == word) {
      column = Column{field, nullptr, ""};
    }
  }
  if (column) {
    column->heading = std::string(heading);
  }
  return column;
}

/// The sign that parts the heading's cells.
char separator_of(std::string_view heading) {
  char best = ',';
  for (const char sign : {';', '\t'}) {
    if (std::count(heading.begin(), heading.end(), sign) >
        std::count(heading.begin(), heading.end(), best)) {
      best = sign;
    }
  }
  return best;
}

/// Reads one file; keeps where it stands for its errors.
class PartListReader {
 public:
  PartListReader(std::string_view text, std::string label)
      : lines_(text), label_(std::move(label)) {}

  Result<std::vector<Part>> all() {
    if (auto head = read_heading(); !head) {
      return pass_on(head.error());
    }
    std::vector<Part> parts;
    while (next_line()) {
      auto part = read_row();
      if (!part) {
        return pass_on(part.error());
      }
      parts.push_back(std::move(*part));
    }
    if (parts.empty()) {
      return wrong("no part stands below the heading; allowed: at least one row");
    }
    return parts;
  }

 private:
  /// Goes to the next line that is not empty.
  bool next_line() {
    while (lines_.next()) {
      if (trimmed(lines_.line()).find_first_not_of(",;\t\" ") != std::string_view::npos) {
        return true;
      }
    }
    return false;
  }

  [[nodiscard]] tl::unexpected<Error> wrong(std::string message) const {
    return pass_on(Error{ErrorCode::kInputFile,
                         std::move(message),
                         {fmt::format("line {}", std::max<std::size_t>(1, lines_.number()))}},
                   label_);
  }

  [[nodiscard]] tl::unexpected<Error> wrong_cell(const Column& column,
                                                 std::string_view cell,
                                                 std::string_view allowed) const {
    const std::string found = cell.empty() ? "nothing" : fmt::format("\"{}\"", shown_cell(cell));
    return wrong(
        fmt::format("column \"{}\": found {}; allowed: {}", column.heading, found, allowed));
  }

  Result<void> read_heading() {
    if (!next_line()) {
      return wrong(fmt::format("the file is empty; allowed: a heading {}", kAllowedColumns));
    }
    separator_ = separator_of(lines_.line());
    std::vector<std::string_view> cells;
    if (!split_cells(lines_.line(), separator_, cells)) {
      return wrong("a quote is not closed on its line");
    }
    for (const std::string_view cell : cells) {
      const auto column = column_of(cell);
      if (!column) {
        return wrong(
            fmt::format("found the column \"{}\"; allowed: {}", shown_cell(cell), kAllowedColumns));
      }
      if (find(column->field) != nullptr) {
        return wrong(fmt::format("found the column \"{}\" beside \"{}\"; allowed: one of them",
                                 column->heading,
                                 find(column->field)->heading));
      }
      columns_.push_back(*column);
    }
    return check_complete();
  }

  Result<void> check_complete() const {
    constexpr std::pair<Field, std::string_view> kNeeded[] = {
        {Field::kName, "name"},
        {Field::kLength, "length_mm (or _cm, _m, _in)"},
        {Field::kWidth, "width_mm (or _cm, _m, _in)"},
        {Field::kThickness, "thickness_mm (or _cm, _m, _in)"}};
    for (const auto& [field, name] : kNeeded) {
      if (find(field) == nullptr) {
        return wrong(fmt::format("the heading has no column {}", name));
      }
    }
    return {};
  }

  [[nodiscard]] const Column* find(Field field) const {
    const auto found =
        std::find_if(columns_.begin(), columns_.end(), [field](const Column& column) {
          return column.field == field;
        });
    return found == columns_.end() ? nullptr : &*found;
  }

  Result<Part> read_row() {
    std::vector<std::string_view> cells;
    if (!split_cells(lines_.line(), separator_, cells)) {
      return wrong("a quote is not closed on its line");
    }
    if (cells.size() > columns_.size()) {
      return wrong(fmt::format(
          "found {} cells; allowed: {}, as the heading has", cells.size(), columns_.size()));
    }
    cells.resize(columns_.size());  // what is left out at the end is empty
    Part part;
    for (std::size_t i = 0; i < columns_.size(); ++i) {
      if (auto read = read_cell(columns_[i], cells[i], part); !read) {
        return pass_on(read.error());
      }
    }
    return part;
  }

  Result<void> read_cell(const Column& column, std::string_view cell, Part& part) const {
    switch (column.field) {
      case Field::kName:
        part.name = std::string(cell);
        return cell.empty() ? wrong_cell(column, cell, "a name") : Result<void>();
      case Field::kCount:
        return read_count(column, cell, part);
      case Field::kLength:
        return read_length(column, cell, kPartSideRange, part.size.length);
      case Field::kWidth:
        return read_length(column, cell, kPartSideRange, part.size.width);
      case Field::kThickness:
        return read_length(column, cell, kPartThicknessRange, part.size.thickness);
      case Field::kFaces:
        return read_faces(column, cell, part);
      case Field::kEdges:
        return read_edges(column, cell, part);
    }
    return {};
  }

  Result<void> read_count(const Column& column, std::string_view cell, Part& part) const {
    if (cell.empty()) {
      return {};  // one
    }
    const auto value = parse_measure(cell);
    if (!value || !kPartCountRange.holds(*value) || *value != static_cast<int>(*value)) {
      return wrong_cell(column, cell, "a whole number, " + kPartCountRange.text());
    }
    part.count = static_cast<int>(*value);
    return {};
  }

  Result<void> read_length(const Column& column,
                           std::string_view cell,
                           const NumberRange& millimetres,
                           Length& length) const {
    const NumberRange range = in_unit(millimetres, *column.unit);
    const auto value = parse_measure(cell);
    if (!value || !range.holds(*value)) {
      return wrong_cell(
          column, cell, fmt::format("a number, {} {}", range.text(), column.unit->name));
    }
    length = Length::from_millimetres(*value * column.unit->millimetres);
    return {};
  }

  Result<void> read_faces(const Column& column, std::string_view cell, Part& part) const {
    const std::string word = plain_heading(cell);
    const bool one = word == "one" || word == "1";
    if (!one && !word.empty() && word != "both" && word != "2") {
      return wrong_cell(column, cell, "one, both");
    }
    part.faces = one ? 1 : 2;
    return {};
  }

  Result<void> read_edges(const Column& column, std::string_view cell, Part& part) const {
    const std::string word = plain_heading(cell);
    if (!word.empty() && word != "yes" && word != "no") {
      return wrong_cell(column, cell, "yes, no");
    }
    part.edges = word != "no";
    return {};
  }

  LineReader lines_;
  std::string label_;
  char separator_ = ',';
  std::vector<Column> columns_;
};

}  // namespace

Result<std::vector<Part>> read_part_list_csv(std::string_view text, const std::string& label) {
  std::string storage;
  return PartListReader(as_utf8(text, storage), label).all();
}

}  // namespace coatwright
