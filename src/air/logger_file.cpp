#include "air/logger_file.h"

#include <algorithm>

#include <fmt/format.h>

#include "air/logger_cells.h"
#include "air/logger_columns.h"
#include "air/logger_moments.h"
#include "air/logger_rows.h"
#include "air/logger_times.h"

namespace coatwright {
namespace {

std::string_view letter_of(CellUnit unit) {
  return unit == CellUnit::kFahrenheit ? "F" : "C";
}

std::string from(const LoggerColumn& column) {
  return column.heading.empty()
             ? fmt::format("column {}", column.index + 1)
             : fmt::format("column {} '{}'", column.index + 1, shown_cell(column.heading));
}

/// One reading of one file, step by step; each step may leave rows out or refuse the file.
class Reading {
 public:
  Reading(std::string_view text,
          const Zone& zone,
          const LoggerFileHints& hints,
          LoggerLayout layout)
      : text_(text), zone_(zone), hints_(hints), layout_(std::move(layout)), reader_(layout_) {}

  Result<LoggerFileContent> read(AirOrigin origin);

 private:
  Result<void> read_rows();
  Result<void> settle_dates();
  Result<void> settle_unit();
  Result<void> settle_humidity();
  Result<void> settle_moments();
  [[nodiscard]] Result<CellUnit> unit_as_said() const;
  [[nodiscard]] Result<CellUnit> unit_by_values() const;
  [[nodiscard]] std::vector<LocalStamp> stamps() const;
  LoggerFileContent content(AirOrigin origin);
  [[nodiscard]] std::string understood(std::size_t different_duplicates) const;
  [[nodiscard]] std::string understood_time() const;

  /// @return the row's cell, for messages.
  [[nodiscard]] std::string cell_of(const LoggerRow& row, std::size_t index) const {
    std::vector<std::string_view> cells;
    split_cells(row.text, layout_.separator, cells);
    return index < cells.size() ? std::string(cells[index]) : std::string();
  }

  /// Notes a broken row. @return the error that refuses the file, unless broken rows are left out.
  Result<void> broken(std::size_t line, const std::string& problem) {
    if (!hints_.skip_bad) {
      return fail(ErrorCode::kInputFile, fmt::format("line {}: {}", line, problem));
    }
    broken_.push_back({line, problem});
    return {};
  }

  /// Keeps the rows in which `check` finds no problem.
  template <class Check>
  Result<void> sift(Check check) {
    std::size_t kept = 0;
    for (LoggerRow& row : rows_) {
      if (const RowProblem problem = check(row)) {
        if (const auto done = broken(row.line, *problem); !done) {
          return done;
        }
      } else {
        rows_[kept++] = row;
      }
    }
    rows_.resize(kept);
    return {};
  }

  struct BrokenRow {
    std::size_t line;
    std::string problem;
  };

  std::string_view text_;
  const Zone& zone_;
  const LoggerFileHints& hints_;
  LoggerLayout layout_;
  std::vector<LoggerRow> rows_;
  std::vector<Time> moments_;
  std::vector<BrokenRow> broken_;
  RowReader reader_;
  std::optional<DateOrder> order_;
  CellUnit unit_ = CellUnit::kNone;
  bool unit_by_values_ = false;
};

Result<void> Reading::read_rows() {
  std::vector<std::string_view> cells;
  LineReader lines(text_);
  while (lines.next()) {
    if (lines.number() < layout_.first_line) {
      continue;
    }
    const bool closed = split_cells(lines.line(), layout_.separator, cells);
    const bool heading_again =
        !layout_.heading_line.empty() && lines.line() == layout_.heading_line;
    if (closed && (cells.empty() || heading_again)) {
      continue;  // loggers write the heading again when they are switched on
    }
    LoggerRow row{lines.number(), lines.line(), {}, 0, 0, CellUnit::kNone, {}};
    const RowProblem problem =
        closed ? reader_.read(cells, row) : RowProblem("a quote is not closed");
    if (!problem) {
      rows_.push_back(row);
    } else if (const auto done = broken(row.line, *problem); !done) {
      return done;
    }
  }
  return {};
}

Result<void> Reading::settle_dates() {
  if (hints_.date_order) {
    order_ = hints_.date_order;
  } else {
    const auto found = reader_.dates().decide();
    if (!found) {
      return pass_on(found.error());
    }
    order_ = *found;
  }
  return sift([this](LoggerRow& row) -> RowProblem {
    const auto day = day_of(row.time, order_);
    if (!day) {
      return problem_at(
          layout_.clock ? "date" : "time",
          cell_of(row, layout_.time.index),
          "there is no such date" +
              (hints_.date_order ? " in the order that --date-order gives" : std::string()));
    }
    row.local = *day + *row.time.clock;
    if (!row.time.offset && layout_.offset) {
      row.time.offset = layout_.offset;
    } else if (!row.time.offset && hints_.utc) {
      row.time.offset = std::chrono::seconds(0);
    }
    return std::nullopt;
  });
}

/// Values decide the unit only where Celsius is out of the question: when most of them are hotter
/// than any room. A few may be a sensor's error. (Judgement, no source.)
Result<CellUnit> Reading::unit_by_values() const {
  constexpr double kHottestRoom = 60.0;
  const auto hot = std::count_if(rows_.begin(), rows_.end(), [](const LoggerRow& row) {
    return row.temperature > kHottestRoom;
  });
  if (2 * static_cast<std::size_t>(hot) > rows_.size()) {
    return CellUnit::kFahrenheit;
  }
  return fail(ErrorCode::kInputFile,
              "are the temperatures Celsius or Fahrenheit? the file does not say: say --unit C or "
              "--unit F");
}

/// @return the unit by heading, cells or --unit; kNone when none of them says it.
Result<CellUnit> Reading::unit_as_said() const {
  CellUnit unit = layout_.temperature_unit;
  if (unit == CellUnit::kNone) {
    const auto first = std::find_if(rows_.begin(), rows_.end(), [](const LoggerRow& row) {
      return row.unit != CellUnit::kNone;
    });
    unit = first == rows_.end() ? CellUnit::kNone : first->unit;
  }
  if (!hints_.unit) {
    return unit;
  }
  const bool celsius = *hints_.unit == LoggerFileHints::TemperatureUnit::kCelsius;
  const CellUnit said = celsius ? CellUnit::kCelsius : CellUnit::kFahrenheit;
  if (is_other_unit(unit, said)) {
    return fail(ErrorCode::kInputFile,
                fmt::format("the file says that its temperatures are in {}, but --unit says {}",
                            letter_of(unit),
                            letter_of(said)));
  }
  return said;
}

Result<void> Reading::settle_unit() {
  auto unit = unit_as_said();
  if (unit && *unit == CellUnit::kNone) {
    unit = unit_by_values();
    unit_by_values_ = true;
  }
  if (!unit) {
    return pass_on(unit.error());
  }
  unit_ = *unit;
  constexpr double kColdest = -40.0;
  constexpr double kHottest = 60.0;
  constexpr double kRounding = 1e-6;  // of the conversion from Fahrenheit
  return sift([this](LoggerRow& row) -> RowProblem {
    const auto problem = [&](const std::string& wrong) {
      return problem_at("temperature", cell_of(row, layout_.temperature.index), wrong);
    };
    if (is_other_unit(row.unit, unit_)) {
      return problem(fmt::format("the column is in {}", letter_of(unit_)));
    }
    if (unit_ == CellUnit::kFahrenheit) {
      row.temperature = Temperature::from_fahrenheit(row.temperature).celsius();
    }
    if (row.temperature < kColdest - kRounding || row.temperature > kHottest + kRounding) {
      return problem("out of range: -40 C to 60 C (-40 F to 140 F) is allowed");
    }
    return std::nullopt;
  });
}

Result<void> Reading::settle_humidity() {
  constexpr double kMostPercent = 100.5;  // what a sensor shows in saturated air
  const bool percent_said = layout_.says_percent || reader_.percent_in_cells();
  const bool all_small = std::all_of(
      rows_.begin(), rows_.end(), [](const LoggerRow& row) { return row.humidity <= 1.0; });
  if (!layout_.fraction && !percent_said && all_small && !rows_.empty()) {
    return fail(
        ErrorCode::kInputFile,
        fmt::format("line {}: column \"humidity\": no value is above 1: is it a fraction or "
                    "percent? write 'rh fraction' or 'rh percent' in the heading",
                    rows_.front().line));
  }
  return sift([&](LoggerRow& row) -> RowProblem {
    const double percent = layout_.fraction ? row.humidity * 100.0 : row.humidity;
    if (percent < 0.0 || percent > kMostPercent) {
      return problem_at("humidity",
                        cell_of(row, layout_.humidity.index),
                        layout_.fraction ? "out of range: 0 to 1 is allowed"
                                         : "out of range: 0 to 100 % is allowed");
    }
    row.humidity = std::min(percent, 100.0);
    return std::nullopt;
  });
}

std::vector<LocalStamp> Reading::stamps() const {
  std::vector<LocalStamp> stamps;
  stamps.reserve(rows_.size());
  for (const LoggerRow& row : rows_) {
    stamps.push_back({row.line, row.local, row.time.offset});
  }
  return stamps;
}

Result<void> Reading::settle_moments() {
  std::ptrdiff_t ahead = 0;
  for (std::size_t i = 1; i < rows_.size(); ++i) {
    ahead += rows_[i - 1].local < rows_[i].local ? 1 : 0;
    ahead -= rows_[i - 1].local > rows_[i].local ? 1 : 0;
  }
  if (ahead < 0) {
    std::reverse(rows_.begin(), rows_.end());  // newest first
  }
  const auto moments = moments_of_rows(stamps(), zone_);
  if (!moments) {
    return pass_on(moments.error());
  }
  std::size_t index = 0;
  return sift([&](LoggerRow& row) -> RowProblem {
    const auto& moment = (*moments)[index++];
    if (!moment) {
      return problem_at("time",
                        cell_of(row, (layout_.clock ? *layout_.clock : layout_.time).index),
                        zone_.to_time(row.local).error().message);
    }
    moments_.push_back(*moment);
    return std::nullopt;
  });
}

std::string Reading::understood_time() const {
  const auto with_offset = std::count_if(
      rows_.begin(), rows_.end(), [](const LoggerRow& row) { return row.time.offset.has_value(); });
  std::string zone = fmt::format("local time {}", zone_.name());
  if (layout_.offset || hints_.utc) {
    zone = layout_.offset && layout_.offset->count() != 0
               ? fmt::format("UTC{:+.4g} h", static_cast<double>(layout_.offset->count()) / 3600.0)
               : "UTC";
  } else if (with_offset == static_cast<std::ptrdiff_t>(rows_.size())) {
    zone = "with offset from UTC";
  } else if (with_offset > 0) {
    zone = "with offset from UTC or else " + zone;
  }
  const std::string order = describe_order(rows_.front().time, order_);
  if (layout_.clock) {
    return fmt::format("date from {} ({}), time from {} ({})",
                       from(layout_.time),
                       order,
                       from(*layout_.clock),
                       zone);
  }
  return fmt::format("time from {} ({}, {})", from(layout_.time), order, zone);
}

std::string Reading::understood(std::size_t different_duplicates) const {
  const char* separator = layout_.separator == ';'   ? "semicolons"
                          : layout_.separator == ',' ? "commas"
                                                     : "tabs";
  std::string text = fmt::format("{}, {}; {}; temperature from {} in {}{}; humidity from {} in {}",
                                 separator,
                                 reader_.decimal_commas() ? "decimal commas" : "decimal points",
                                 understood_time(),
                                 from(layout_.temperature),
                                 letter_of(unit_),
                                 unit_by_values_ ? " (most values are too high for Celsius)" : "",
                                 from(layout_.humidity),
                                 layout_.fraction ? "fractions" : "percent");
  if (different_duplicates > 0) {
    text += fmt::format("; {} repeated times with other values, of which the first was kept",
                        different_duplicates);
  }
  return text;
}

LoggerFileContent Reading::content(AirOrigin origin) {
  std::vector<std::size_t> order(rows_.size());
  for (std::size_t i = 0; i < order.size(); ++i) {
    order[i] = i;
  }
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return std::pair(moments_[a], rows_[a].line) < std::pair(moments_[b], rows_[b].line);
  });
  LoggerFileContent content;
  content.entries.reserve(order.size());
  std::size_t different = 0;
  for (const std::size_t i : order) {
    const AirEntry entry{moments_[i],
                         Temperature::from_celsius(rows_[i].temperature),
                         RelativeHumidity::from_percent(rows_[i].humidity),
                         origin};
    const AirEntry* before = content.entries.empty() ? nullptr : &content.entries.back();
    if (before != nullptr && before->at == entry.at) {
      ++content.duplicates;
      different += before->temperature != entry.temperature || before->humidity != entry.humidity;
      continue;
    }
    if (before != nullptr && entry.at - before->at > AirRecord::kLongestGap) {
      content.gaps.push_back({before->at, entry.at});
    }
    content.entries.push_back(entry);
  }
  std::stable_sort(broken_.begin(), broken_.end(), [](const BrokenRow& a, const BrokenRow& b) {
    return a.line < b.line;
  });
  for (const BrokenRow& row : broken_) {
    content.skipped.push_back(fmt::format("line {}: {}", row.line, row.problem));
  }
  content.understood = understood(different);
  return content;
}

Result<LoggerFileContent> Reading::read(AirOrigin origin) {
  using Step = Result<void> (Reading::*)();
  for (const Step step : {&Reading::read_rows,
                          &Reading::settle_dates,
                          &Reading::settle_unit,
                          &Reading::settle_humidity,
                          &Reading::settle_moments}) {
    if (const auto done = (this->*step)(); !done) {
      return pass_on(done.error());
    }
    if (rows_.empty()) {
      const std::string first = broken_.empty() ? ""
                                                : fmt::format(" that can be read; line {}: {}",
                                                              broken_.front().line,
                                                              broken_.front().problem);
      return fail(ErrorCode::kInputFile, "the file has no readings" + first);
    }
  }
  return content(origin);
}

}  // namespace

Result<LoggerFileContent> read_logger_file(std::string_view text,
                                           AirOrigin origin,
                                           const Zone& zone,
                                           const LoggerFileHints& hints) {
  constexpr std::size_t kHead = 1000;
  if (text.substr(0, kHead).find('\0') != std::string_view::npos) {
    return fail(ErrorCode::kInputFile,
                "the file is no plain text, or UTF-16: save it as CSV with UTF-8");
  }
  std::string storage;
  const std::string_view utf8 = as_utf8(text, storage);
  auto layout = find_layout(utf8, hints);
  if (!layout) {
    return pass_on(layout.error());
  }
  return Reading(utf8, zone, hints, std::move(*layout)).read(origin);
}

}  // namespace coatwright
