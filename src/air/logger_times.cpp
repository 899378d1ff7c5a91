#include "air/logger_times.h"

#include <cctype>

#include <fmt/format.h>

#include "air/logger_cells.h"

namespace coatwright {
namespace {

using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

constexpr std::array<DateOrder, 3> kOrders = {
    DateOrder::kYearMonthDay, DateOrder::kDayMonthYear, DateOrder::kMonthDayYear};

unsigned bit_of(DateOrder order) {
  return 1U << static_cast<unsigned>(order);
}

struct Number {
  int value;
  std::size_t digits;
};

/// Walks over a cell; each take function moves on only when it succeeds.
class CellReader {
 public:
  explicit CellReader(std::string_view text) : rest_(text) {}

  [[nodiscard]] bool at_end() const { return rest_.empty(); }

  bool take(char wanted) {
    if (rest_.empty() ||
        static_cast<char>(std::tolower(static_cast<unsigned char>(rest_.front()))) != wanted) {
      return false;
    }
    rest_.remove_prefix(1);
    return true;
  }

  bool take_word(std::string_view wanted) {
    CellReader ahead = *this;
    for (const char c : wanted) {
      if (!ahead.take(c)) {
        return false;
      }
    }
    *this = ahead;
    return true;
  }

  /// Blanks of all kinds: programs print a narrow no-break space before AM and PM.
  bool skip_blanks() {
    const auto before = rest_.size();
    while (take(' ') || take('\t') || take_word("\xC2\xA0") || take_word("\xE2\x80\xAF")) {
    }
    return rest_.size() != before;
  }

  std::optional<Number> take_number(std::size_t most_digits) {
    Number number{0, 0};
    while (number.digits < most_digits && number.digits < rest_.size() &&
           std::isdigit(static_cast<unsigned char>(rest_[number.digits])) != 0) {
      number.value = number.value * 10 + (rest_[number.digits++] - '0');
    }
    if (number.digits == 0) {
      return std::nullopt;
    }
    rest_.remove_prefix(number.digits);
    return number;
  }

  void skip_digits() {
    while (take_number(9)) {
    }
  }

  char take_mark() {
    for (const char mark : {'-', '/', '.'}) {
      if (take(mark)) {
        return mark;
      }
    }
    return '\0';
  }

 private:
  std::string_view rest_;
};

std::optional<CellTime> take_date(CellReader& reader) {
  CellTime time;
  const auto first = reader.take_number(4);
  time.mark = first ? reader.take_mark() : '\0';
  const auto second = time.mark != '\0' ? reader.take_number(2) : std::nullopt;
  const auto third = second && reader.take(time.mark) ? reader.take_number(4) : std::nullopt;
  if (!third || first->digits == 3 || third->digits == 3) {
    return std::nullopt;
  }
  time.parts = {first->value, second->value, third->value};
  time.short_year = third->digits <= 2;
  if (first->digits == 4) {
    time.form = CellTime::Form::kYearFirst;
    return time.short_year ? std::optional(time) : std::nullopt;
  }
  time.form = time.mark == '.' ? CellTime::Form::kDotted : CellTime::Form::kOpen;
  return third->digits == 1 ? std::nullopt : std::optional(time);
}

/// "am", "a.m.", "pm", "p.m.". @return the hour of the 24-hour clock, or nothing when it is
/// not 1..12.
std::optional<int> take_half_of_day(CellReader& reader, int hour) {
  CellReader ahead = reader;
  ahead.skip_blanks();
  const bool am = ahead.take_word("am") || ahead.take_word("a.m.");
  const bool pm = !am && (ahead.take_word("pm") || ahead.take_word("p.m."));
  if (!am && !pm) {
    return hour;
  }
  reader = ahead;
  if (hour < 1 || hour > 12) {
    return std::nullopt;
  }
  return hour % 12 + (pm ? 12 : 0);
}

/// @return the seconds of ":30", ":30.25", 0 when there are none; nothing when they are malformed.
std::optional<int> take_seconds(CellReader& reader) {
  if (!reader.take(':')) {
    return 0;
  }
  const auto second = reader.take_number(2);
  if (!second || second->digits != 2 || second->value > 59) {
    return std::nullopt;
  }
  if (reader.take('.') || reader.take(',')) {
    reader.skip_digits();
  }
  return second->value;
}

std::optional<seconds> take_clock(CellReader& reader) {
  const auto hour = reader.take_number(2);
  if (!hour || !reader.take(':')) {
    return std::nullopt;
  }
  const auto minute = reader.take_number(2);
  if (!minute || minute->digits != 2 || minute->value > 59) {
    return std::nullopt;
  }
  const auto second = take_seconds(reader);
  const auto full_hour = take_half_of_day(reader, hour->value);
  if (!second || !full_hour || *full_hour > 23) {
    return std::nullopt;
  }
  return hours(*full_hour) + minutes(minute->value) + seconds(*second);
}

/// "+01:00", "-0500", "+1".
std::optional<seconds> take_signed_offset(CellReader& reader) {
  const bool plus = reader.take('+');
  if (!plus && !reader.take('-')) {
    return std::nullopt;
  }
  const auto hour = reader.take_number(2);
  if (!hour || hour->value > 14) {
    return std::nullopt;
  }
  const bool colon = reader.take(':');
  const auto minute = reader.take_number(2);
  if ((colon && !minute) || (minute && (minute->digits != 2 || minute->value > 59))) {
    return std::nullopt;
  }
  const seconds size = hours(hour->value) + minutes(minute ? minute->value : 0);
  return plus ? size : -size;
}

/// "Z", "UTC", "GMT-05:00", "+01:00".
std::optional<seconds> take_offset(CellReader& reader) {
  if (reader.take('z')) {
    return seconds(0);
  }
  const bool named = reader.take_word("utc") || reader.take_word("gmt");
  CellReader ahead = reader;
  ahead.skip_blanks();
  if (const auto offset = take_signed_offset(ahead)) {
    reader = ahead;
    return offset;
  }
  return named ? std::optional(seconds(0)) : std::nullopt;
}

bool exists_in(const CellTime& time, DateOrder order) {
  return day_of(time, order).has_value();
}

}  // namespace

std::optional<CellTime> parse_cell_time(std::string_view cell) {
  CellReader reader(trimmed(cell));
  CellTime time;
  CellReader dated = reader;
  if (const auto date = take_date(dated)) {
    time = *date;
    reader = dated;
    if (reader.at_end()) {
      return time;
    }
    const bool parted = reader.take('t') || reader.take(',');
    if (!reader.skip_blanks() && !parted) {
      return std::nullopt;
    }
  }
  time.clock = take_clock(reader);
  if (!time.clock) {
    return std::nullopt;
  }
  reader.skip_blanks();
  if (!reader.at_end()) {
    time.offset = take_offset(reader);
    if (!time.offset || !reader.at_end()) {
      return std::nullopt;
    }
  }
  return time;
}

std::optional<seconds> offset_in_heading(std::string_view heading) {
  for (std::size_t at = 0; at + 3 <= heading.size(); ++at) {
    const bool inside_word =
        at > 0 && std::isalpha(static_cast<unsigned char>(heading[at - 1])) != 0;
    CellReader reader(heading.substr(at));
    CellReader named = reader;
    if (!inside_word && (named.take_word("utc") || named.take_word("gmt"))) {
      return take_offset(reader);
    }
  }
  return std::nullopt;
}

std::optional<date::local_days> day_of(const CellTime& time, std::optional<DateOrder> order) {
  constexpr int kCentury = 2000;
  constexpr int kEarliest = 1970;
  constexpr int kLatest = 2199;
  auto [year, month, day] = time.parts;
  const bool open = time.form == CellTime::Form::kOpen;
  if (time.form == CellTime::Form::kDotted || (open && order == DateOrder::kDayMonthYear)) {
    std::swap(year, day);
  } else if (open && order == DateOrder::kMonthDayYear) {
    year = time.parts[2];
    month = time.parts[0];
    day = time.parts[1];
  } else if (open && (!order || !time.short_year)) {
    return std::nullopt;
  }
  const bool two_digits = time.form != CellTime::Form::kYearFirst && time.short_year;
  year += two_digits ? kCentury : 0;
  const date::year_month_day value{date::year(year),
                                   date::month(static_cast<unsigned>(month)),
                                   date::day(static_cast<unsigned>(day))};
  if (!time.has_date() || !value.ok() || year < kEarliest || year > kLatest) {
    return std::nullopt;
  }
  return date::local_days(value);
}

void DateOrderFinder::add(std::size_t line, std::string_view cell, const CellTime& time) {
  if (time.form != CellTime::Form::kOpen) {
    return;
  }
  unsigned possible = 0;
  for (const DateOrder order : kOrders) {
    possible |= exists_in(time, order) ? bit_of(order) : 0U;
  }
  if (possible == 0) {
    return;  // no date in any order: a broken row, which decides nothing
  }
  if (first_.line == 0) {
    first_ = {line, shown_cell(cell)};
    possible_ = possible;
  } else if (possible_ != 0 && (possible_ & possible) == 0) {
    conflict_ = {line, shown_cell(cell)};
    possible_ = 0;
  } else {
    possible_ &= possible;
  }
}

Result<std::optional<DateOrder>> DateOrderFinder::decide() const {
  if (first_.line == 0) {
    return std::optional<DateOrder>();
  }
  if (possible_ == 0) {
    return fail(
        ErrorCode::kInputFile,
        fmt::format("line {}: the date \"{}\" cannot stand in the same order as the dates "
                    "from line {} (\"{}\") on: which order is it? say --date-order dmy, mdy "
                    "or ymd",
                    conflict_.line,
                    conflict_.value,
                    first_.line,
                    first_.value));
  }
  std::string choices;
  std::optional<DateOrder> only;
  int count = 0;
  constexpr std::array<std::string_view, 3> kNames = {"--date-order ymd (year first)",
                                                      "--date-order dmy (day first)",
                                                      "--date-order mdy (month first)"};
  for (const DateOrder order : kOrders) {
    if ((possible_ & bit_of(order)) != 0) {
      choices +=
          fmt::format("{}{}", count == 0 ? "" : " or ", kNames.at(static_cast<std::size_t>(order)));
      only = order;
      ++count;
    }
  }
  if (count == 1) {
    return only;
  }
  return fail(ErrorCode::kInputFile,
              fmt::format("line {}: in which order is the date \"{}\" written? no row decides it: "
                          "say {}",
                          first_.line,
                          first_.value,
                          choices));
}

std::string describe_order(const CellTime& time, std::optional<DateOrder> order) {
  const bool open = time.form == CellTime::Form::kOpen;
  const auto join = [&](std::string_view a, std::string_view b, std::string_view c) {
    return fmt::format("{}{}{}{}{}", a, time.mark, b, time.mark, c);
  };
  if (time.form == CellTime::Form::kDotted || (open && order == DateOrder::kDayMonthYear)) {
    return join("day", "month", "year");
  }
  if (open && order == DateOrder::kMonthDayYear) {
    return join("month", "day", "year");
  }
  return join("year", "month", "day");
}

}  // namespace coatwright
