#include "air/logger_columns.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "air/logger_heading.h"
#include "air/logger_times.h"

namespace coatwright {
namespace {

using Cells = std::vector<std::string_view>;

constexpr std::size_t kFewestCells = 3;

struct Line {
  std::size_t number;
  std::string_view text;
  Cells cells;
};

/// A failure, and how much of the file it understood: the best one is worth telling.
struct Failure {
  enum Rank { kNothing, kHeadingInPart, kQuestion };
  Rank rank;
  Error error;
};
using Attempt = tl::expected<LoggerLayout, Failure>;

tl::unexpected<Failure> failure(Failure::Rank rank, std::string message) {
  return tl::unexpected(Failure{rank, Error{ErrorCode::kInputFile, std::move(message), {}}});
}

/// The first lines that are not blank.
std::vector<Line> head_of(std::string_view text, char separator) {
  constexpr std::size_t kMostLines = 200;
  std::vector<Line> lines;
  LineReader reader(text);
  while (lines.size() < kMostLines && reader.next()) {
    Line line{reader.number(), reader.line(), {}};
    if (split_cells(line.text, separator, line.cells) && !line.cells.empty()) {
      lines.push_back(std::move(line));
    }
  }
  return lines;
}

LoggerColumn column(const Line& heading, std::size_t index) {
  return {index, index < heading.cells.size() ? std::string(heading.cells[index]) : std::string()};
}

std::string list_of(const Line& line, const std::vector<std::size_t>& indices) {
  std::string list;
  for (const std::size_t index : indices) {
    list += fmt::format(
        "{}{} '{}'", list.empty() ? "" : " and ", index + 1, shown_cell(line.cells[index]));
  }
  return list;
}

/// Date and clock columns of a row; `full` ones hold both.
struct TimeColumns {
  std::vector<std::size_t> full;
  std::vector<std::size_t> dates;
  std::vector<std::size_t> clocks;

  TimeColumns(const Line& row, const std::vector<std::size_t>& candidates) {
    for (const std::size_t index : candidates) {
      const auto time = index < row.cells.size() ? parse_cell_time(row.cells[index]) : std::nullopt;
      if (time) {
        auto& kind = !time->clock ? dates : time->has_date() ? full : clocks;
        kind.push_back(index);
      }
    }
  }
  [[nodiscard]] bool enough() const { return !full.empty() || (!dates.empty() && !clocks.empty()); }
};

std::vector<std::size_t> all_but(std::size_t count, const std::vector<std::size_t>& without) {
  std::vector<std::size_t> indices;
  for (std::size_t i = 0; i < count; ++i) {
    if (std::find(without.begin(), without.end(), i) == without.end()) {
      indices.push_back(i);
    }
  }
  return indices;
}

/// The columns that the heading names.
struct NamedColumns {
  std::vector<HeadingMeaning> meanings;
  std::vector<std::size_t> times;
  std::vector<std::size_t> temperatures;
  std::vector<std::size_t> humidities;

  explicit NamedColumns(const Line& heading) {
    for (std::size_t i = 0; i < heading.cells.size(); ++i) {
      meanings.push_back(meaning_of_heading(heading.cells[i]));
      if (meanings[i].time()) {
        times.push_back(i);
      }
      if (meanings[i].temperature) {
        temperatures.push_back(i);
      }
      if (meanings[i].humidity) {
        humidities.push_back(i);
      }
    }
  }
  [[nodiscard]] std::size_t kinds() const {
    return (times.empty() ? 0U : 1U) + (temperatures.empty() ? 0U : 1U) +
           (humidities.empty() ? 0U : 1U);
  }
};

/// The same temperature in both units is one reading: the user's unit is taken, else Celsius.
void keep_one_of_two_units(const Line& heading, const LoggerFileHints& hints, NamedColumns& named) {
  auto& columns = named.temperatures;
  if (columns.size() != 2 || heading_without_unit(heading.cells[columns[0]]) !=
                                 heading_without_unit(heading.cells[columns[1]])) {
    return;
  }
  const bool fahrenheit = hints.unit == LoggerFileHints::TemperatureUnit::kFahrenheit;
  const CellUnit wanted = fahrenheit ? CellUnit::kFahrenheit : CellUnit::kCelsius;
  const CellUnit first = named.meanings[columns[0]].unit;
  const CellUnit second = named.meanings[columns[1]].unit;
  if (first != second && (first == wanted || second == wanted)) {
    columns = {first == wanted ? columns[0] : columns[1]};
  }
}

std::vector<std::size_t> with_offset_first(const Line& heading, std::vector<std::size_t> columns) {
  std::stable_partition(columns.begin(), columns.end(), [&](std::size_t index) {
    return offset_in_heading(heading.cells[index]).has_value();
  });
  return columns;
}

/// Sets the time columns from the first row that shows them.
/// @return false when no row does.
bool find_time_columns(const std::vector<Line>& lines,
                       std::size_t at,
                       const NamedColumns& named,
                       LoggerLayout& layout) {
  const Line& heading = lines[at];
  const auto candidates = named.times.empty() ? all_but(heading.cells.size(), {}) : named.times;
  for (std::size_t i = at + 1; i < lines.size(); ++i) {
    const TimeColumns found(lines[i], candidates);
    if (!found.full.empty()) {
      const auto full = with_offset_first(heading, found.full);
      layout.time = column(heading, full.front());
      return true;
    }
    if (found.enough()) {
      layout.time = column(heading, found.dates.front());
      layout.clock = column(heading, found.clocks.front());
      return true;
    }
  }
  return false;
}

/// Some loggers write the units in a line of their own below the heading.
void read_unit_line(const std::vector<Line>& lines, std::size_t at, LoggerLayout& layout) {
  if (at + 1 >= lines.size()) {
    return;
  }
  const Line& line = lines[at + 1];
  const auto unit_at = [&](std::size_t index) {
    const auto unit = index < line.cells.size() ? unit_of_cell(line.cells[index]) : std::nullopt;
    return unit.value_or(CellUnit::kNone);
  };
  const CellUnit temperature = unit_at(layout.temperature.index);
  const CellUnit humidity = unit_at(layout.humidity.index);
  if (temperature == CellUnit::kPercent ||
      (temperature == CellUnit::kNone && humidity == CellUnit::kNone)) {
    return;
  }
  layout.first_line = line.number + 1;
  layout.temperature_unit = temperature == CellUnit::kNone ? layout.temperature_unit : temperature;
  layout.says_percent = layout.says_percent || humidity == CellUnit::kPercent;
}

bool is_reading(const Line& line, const LoggerLayout& layout) {
  const auto number_at = [&](std::size_t index) {
    return index < line.cells.size() && parse_cell_number(line.cells[index]).has_value();
  };
  return layout.time.index < line.cells.size() &&
         parse_cell_time(line.cells[layout.time.index]).has_value() &&
         number_at(layout.temperature.index) && number_at(layout.humidity.index);
}

/// @return why the heading names no whole set of columns, or nothing.
std::optional<Failure> heading_problem(const Line& heading, const NamedColumns& named) {
  if (named.temperatures.size() > 1 || named.humidities.size() > 1) {
    const bool heat = named.temperatures.size() > 1;
    return failure(Failure::kQuestion,
                   fmt::format("line {}: which column holds the shop's {}: {}? take the other one "
                               "out of the file or rename it",
                               heading.number,
                               heat ? "temperature" : "humidity",
                               list_of(heading, heat ? named.temperatures : named.humidities)))
        .value();
  }
  if (named.temperatures.empty() || named.humidities.empty()) {
    const std::string missing = named.temperatures.empty() ? "temperature" : "humidity";
    return failure(named.kinds() > 1 ? Failure::kHeadingInPart : Failure::kNothing,
                   fmt::format("line {}: the heading '{}' names no {} column",
                               heading.number,
                               shown_cell(heading.text),
                               missing))
        .value();
  }
  return std::nullopt;
}

/// What the heading alone says; the time columns are found by their content.
LoggerLayout layout_named(const Line& heading, const NamedColumns& named, char separator) {
  const HeadingMeaning& temperature = named.meanings[named.temperatures[0]];
  const HeadingMeaning& humidity = named.meanings[named.humidities[0]];
  LoggerLayout layout;
  layout.separator = separator;
  layout.first_line = heading.number + 1;
  layout.cells = heading.cells.size();
  layout.heading_line = heading.text;
  layout.temperature = column(heading, named.temperatures[0]);
  layout.humidity = column(heading, named.humidities[0]);
  layout.temperature_unit =
      temperature.unit == CellUnit::kPercent ? CellUnit::kNone : temperature.unit;
  layout.fraction = humidity.fraction;
  layout.says_percent = humidity.unit == CellUnit::kPercent;
  return layout;
}

/// @return the failure that a reading stands above the heading, or nothing.
std::optional<Failure> reading_before(const std::vector<Line>& lines,
                                      std::size_t heading,
                                      const LoggerLayout& layout) {
  for (std::size_t i = 0; i < heading; ++i) {
    if (is_reading(lines[i], layout)) {
      return failure(Failure::kQuestion,
                     fmt::format("line {}: a reading stands before the heading in line {}: put the "
                                 "heading first, or make two files of them",
                                 lines[i].number,
                                 lines[heading].number))
          .value();
    }
  }
  return std::nullopt;
}

Attempt layout_from_heading(const std::vector<Line>& lines,
                            std::size_t at,
                            char separator,
                            const LoggerFileHints& hints) {
  const Line& heading = lines[at];
  NamedColumns named(heading);
  keep_one_of_two_units(heading, hints, named);
  if (auto problem = heading_problem(heading, named)) {
    return tl::unexpected(std::move(*problem));
  }
  LoggerLayout layout = layout_named(heading, named, separator);
  if (!find_time_columns(lines, at, named, layout)) {
    if (named.times.empty()) {
      return failure(Failure::kHeadingInPart,
                     fmt::format("line {}: the heading '{}' names no time column",
                                 heading.number,
                                 shown_cell(heading.text)));
    }
    layout.time = column(heading, named.times[0]);  // its rows are broken and say so
  }
  layout.offset = offset_in_heading(layout.time.heading);
  if (layout.clock && !layout.offset) {
    layout.offset = offset_in_heading(layout.clock->heading);
  }
  read_unit_line(lines, at, layout);
  if (auto problem = reading_before(lines, at, layout)) {
    return tl::unexpected(std::move(*problem));
  }
  return layout;
}

Attempt undecided_numbers(const Line& line, const std::vector<std::size_t>& numbers) {
  return failure(
      Failure::kQuestion,
      fmt::format("line {}: the file has no heading; which column is the temperature and "
                  "which the humidity: {}? put a first line such as "
                  "'time,temp_c,rh_percent' before it",
                  line.number,
                  list_of(line, numbers)));
}

/// Which of two numbers is the temperature, by their units: 0, 1, or nothing when they do not tell.
std::optional<std::size_t> temperature_of(CellUnit first, CellUnit second) {
  const auto is_heat = [](CellUnit unit) {
    return unit == CellUnit::kCelsius || unit == CellUnit::kFahrenheit;
  };
  const bool is_first = is_heat(first) || second == CellUnit::kPercent;
  const bool is_second = is_heat(second) || first == CellUnit::kPercent;
  if (is_first == is_second) {
    return std::nullopt;
  }
  return is_first ? 0 : 1;
}

/// Columns by content alone: a time, and two numbers of which at least one carries its unit.
Attempt layout_from_row(const Line& line, char separator) {
  const auto all = all_but(line.cells.size(), {});
  const TimeColumns times(line, all);
  std::vector<std::size_t> numbers;
  std::vector<CellUnit> units;
  for (const std::size_t index : all) {
    if (const auto number = parse_cell_number(line.cells[index])) {
      numbers.push_back(index);
      units.push_back(number->unit);
    }
  }
  if (!times.enough() || numbers.size() < 2) {
    return failure(Failure::kNothing, "");
  }
  const bool apart = times.full.empty();
  if (times.full.size() > 1 || (apart && times.dates.size() + times.clocks.size() > 2)) {
    return failure(
        Failure::kQuestion,
        fmt::format("line {}: the file has no heading and more than one time column: put "
                    "a first line such as 'time,temp_c,rh_percent' before it",
                    line.number));
  }
  const auto heat = numbers.size() == 2 ? temperature_of(units[0], units[1]) : std::nullopt;
  if (!heat) {
    return undecided_numbers(line, numbers);
  }
  LoggerLayout layout;
  layout.separator = separator;
  layout.cells = line.cells.size();
  layout.time.index = apart ? times.dates[0] : times.full[0];
  if (apart) {
    layout.clock = LoggerColumn{times.clocks[0], ""};
  }
  layout.temperature.index = numbers[*heat];
  layout.humidity.index = numbers[1 - *heat];
  return layout;
}

Attempt layout_with(std::string_view text, char separator, const LoggerFileHints& hints) {
  const auto lines = head_of(text, separator);
  Attempt best = failure(Failure::kNothing, "");
  const auto better = [&best](Attempt attempt) {
    if (attempt || attempt.error().rank > best.error().rank) {
      best = std::move(attempt);
    }
    return best.has_value() || best.error().rank == Failure::kQuestion;
  };
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (lines[i].cells.size() >= kFewestCells &&
        better(layout_from_heading(lines, i, separator, hints))) {
      return best;
    }
  }
  if (best.error().rank == Failure::kHeadingInPart) {
    return best;  // there is a heading, only not a whole one
  }
  for (const Line& line : lines) {
    if (line.cells.size() >= kFewestCells && better(layout_from_row(line, separator))) {
      return best;
    }
  }
  return best;
}

/// @return how many of the first rows can be read in this layout.
std::size_t readable_rows(std::string_view text, const LoggerLayout& layout) {
  std::size_t count = 0;
  for (const Line& line : head_of(text, layout.separator)) {
    count += is_reading(line, layout) ? 1 : 0;
  }
  return count;
}

/// @return the layout that reads the most rows.
Result<LoggerLayout> best_of(std::string_view text, const std::vector<LoggerLayout>& layouts) {
  std::size_t most = 0;
  std::size_t winners = 0;
  LoggerLayout best = layouts.front();
  for (const LoggerLayout& layout : layouts) {
    const std::size_t rows = readable_rows(text, layout);
    winners = rows > most ? 1 : winners + (rows == most ? 1 : 0);
    best = rows > most ? layout : best;
    most = std::max(most, rows);
  }
  if (winners > 1) {
    return fail(ErrorCode::kInputFile,
                "commas, semicolons or tabs: the file can be read with more than one separator: "
                "write it with one of them alone");
  }
  return best;
}

}  // namespace

Result<LoggerLayout> find_layout(std::string_view text, const LoggerFileHints& hints) {
  std::vector<LoggerLayout> layouts;
  Failure closest{Failure::kNothing, Error{ErrorCode::kInputFile, "", {}}};
  for (const char separator : {'\t', ';', ','}) {
    const Attempt attempt = layout_with(text, separator, hints);
    if (attempt) {
      layouts.push_back(*attempt);
    } else if (attempt.error().rank > closest.rank) {
      closest = attempt.error();
    }
  }
  if (!layouts.empty()) {
    return layouts.size() == 1 ? Result<LoggerLayout>(layouts[0]) : best_of(text, layouts);
  }
  LineReader reader(text);
  while (closest.error.message.empty() && reader.next()) {
    if (!trimmed(reader.line()).empty()) {
      closest.error.message = fmt::format(
          "line {}: '{}' is neither a heading nor a reading; a file needs columns for time, "
          "temperature and humidity, parted by commas, semicolons or tabs, under a heading such as "
          "'time,temp_c,rh_percent'",
          reader.number(),
          shown_cell(reader.line()));
    }
  }
  if (closest.error.message.empty()) {
    closest.error.message = "the file is empty";
  }
  return pass_on(closest.error);
}

}  // namespace coatwright
