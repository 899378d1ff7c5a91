#include "base/time_expression.h"

#include <array>
#include <cctype>
#include <charconv>
#include <optional>
#include <string>
#include <vector>

#include <fmt/format.h>

namespace coatwright {
namespace {

using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

constexpr std::array<std::string_view, 7> kDayNames = {
    "sunday", "monday", "tuesday", "wednesday", "thursday", "friday", "saturday"};

std::string lowered(std::string_view text) {
  std::string copy(text);
  for (char& c : copy) {
    c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  }
  return copy;
}

/// Walks over a text; each take_ function moves on only when it succeeds.
class Reader {
 public:
  explicit Reader(std::string_view text) : rest_(text) {}

  [[nodiscard]] bool at_end() const { return rest_.empty(); }

  bool take(std::string_view wanted) {
    if (rest_.substr(0, wanted.size()) != wanted) {
      return false;
    }
    rest_.remove_prefix(wanted.size());
    return true;
  }

  void skip_blanks() {
    while (take(" ")) {
    }
  }

  std::optional<int> take_number(std::size_t most_digits) {
    int value = 0;
    const auto part = rest_.substr(0, most_digits);
    const auto [end, failure] = std::from_chars(part.data(), part.data() + part.size(), value);
    if (failure != std::errc() || rest_.front() == '-') {
      return std::nullopt;
    }
    rest_.remove_prefix(static_cast<std::size_t>(end - part.data()));
    return value;
  }

  /// As take_number, but all the digits must be there: 9:5 is a slip, not 9:05.
  std::optional<int> take_digits(std::size_t digits) {
    const auto before = rest_;
    const auto value = take_number(digits);
    if (value && before.size() - rest_.size() != digits) {
      rest_ = before;
      return std::nullopt;
    }
    return value;
  }

  std::string_view take_letters() {
    std::size_t count = 0;
    while (count < rest_.size() && std::isalpha(static_cast<unsigned char>(rest_[count])) != 0) {
      ++count;
    }
    const auto letters = rest_.substr(0, count);
    rest_.remove_prefix(count);
    return letters;
  }

 private:
  std::string_view rest_;
};

/// "16:00", "9:00:30", "4:30pm", "4pm". @return seconds after midnight.
std::optional<seconds> take_clock(Reader& reader) {
  const auto hour = reader.take_number(2);
  if (!hour) {
    return std::nullopt;
  }
  int minute = 0;
  int second = 0;
  const bool has_minutes = reader.take(":");
  if (has_minutes) {
    const auto value = reader.take_digits(2);
    if (!value || *value > 59) {
      return std::nullopt;
    }
    minute = *value;
    if (reader.take(":")) {
      const auto more = reader.take_digits(2);
      if (!more || *more > 59) {
        return std::nullopt;
      }
      second = *more;
      if (reader.take(".") && !reader.take_number(9)) {  // fractions of a second are dropped
        return std::nullopt;
      }
    }
  }
  int whole_hour = *hour;
  Reader ahead = reader;
  ahead.skip_blanks();
  const bool am = ahead.take("am");
  const bool pm = !am && ahead.take("pm");
  if (am || pm) {
    if (whole_hour < 1 || whole_hour > 12) {
      return std::nullopt;
    }
    whole_hour = whole_hour % 12 + (pm ? 12 : 0);
    reader = ahead;
  } else if (!has_minutes) {
    return std::nullopt;
  }
  if (whole_hour > 23) {
    return std::nullopt;
  }
  return hours(whole_hour) + minutes(minute) + seconds(second);
}

std::optional<date::local_days> take_date(Reader& reader) {
  const auto year = reader.take_digits(4);
  if (!year || !reader.take("-")) {
    return std::nullopt;
  }
  const auto month = reader.take_number(2);
  if (!month || !reader.take("-")) {
    return std::nullopt;
  }
  const auto day = reader.take_number(2);
  if (!day) {
    return std::nullopt;
  }
  const date::year_month_day value{date::year(*year),
                                   date::month(static_cast<unsigned>(*month)),
                                   date::day(static_cast<unsigned>(*day))};
  if (!value.ok()) {
    return std::nullopt;
  }
  return date::local_days(value);
}

/// "Z", "+01:00", "-0500", "+01". @return the offset, or nothing when there is none.
std::optional<seconds> take_offset(Reader& reader) {
  if (reader.take("z")) {
    return seconds(0);
  }
  const bool plus = reader.take("+");
  if (!plus && !reader.take("-")) {
    return std::nullopt;
  }
  const auto hour = reader.take_number(2);
  if (!hour || *hour > 14) {
    return std::nullopt;
  }
  const bool colon = reader.take(":");
  const auto minute = reader.take_digits(2);
  if ((colon && !minute) || minute.value_or(0) > 59) {
    return std::nullopt;
  }
  const seconds size = hours(*hour) + minutes(minute.value_or(0));
  return plus ? size : -size;
}

std::optional<date::weekday> weekday_named(std::string_view letters) {
  if (letters.size() < 3) {
    return std::nullopt;
  }
  for (unsigned i = 0; i < kDayNames.size(); ++i) {
    if (kDayNames[i].substr(0, letters.size()) == letters) {
      return date::weekday(i);
    }
  }
  return std::nullopt;
}

tl::unexpected<Error> unreadable(std::string_view text) {
  return fail(ErrorCode::kTime,
              fmt::format("'{}' is not a time: write 2027-03-05T16:00, Fri 16:00, today 9:00, "
                          "yesterday 17:30, tomorrow 9:00, -90min, +2h or now",
                          text));
}

/// "+2h", "-90min", "+1d". @return the span, or nothing.
std::optional<seconds> relative_span(std::string_view text) {
  Reader reader(text);
  const bool plus = reader.take("+");
  if (!plus && !reader.take("-")) {
    return std::nullopt;
  }
  const auto count = reader.take_number(5);
  reader.skip_blanks();
  const auto unit = reader.take_letters();
  if (!count || !reader.at_end()) {
    return std::nullopt;
  }
  std::optional<seconds> size;
  if (unit == "min" || unit == "m") {
    size = minutes(*count);
  } else if (unit == "h") {
    size = hours(*count);
  } else if (unit == "d") {
    size = hours(24 * *count);
  }
  if (!size) {
    return std::nullopt;
  }
  return plus ? *size : -*size;
}

/// The weekday's time nearest to now in the given direction; days count, not spans of 24 hours.
Result<Time> time_on_weekday(
    date::weekday day, seconds clock, Time now, const Zone& zone, Direction direction) {
  const LocalTime local_now = zone.to_local(now);
  const auto today = date::floor<date::days>(local_now);
  if (direction == Direction::kForward) {
    auto ahead = day - date::weekday(today);
    if (ahead == date::days(0) && today + clock < local_now) {
      ahead += date::days(7);
    }
    return zone.to_time(today + ahead + clock);
  }
  auto back = date::weekday(today) - day;
  if (back == date::days(0) && today + clock > local_now) {
    back += date::days(7);
  }
  return zone.to_time(today - back + clock);
}

Result<Time> parse_dated(std::string_view original,
                         Reader reader,
                         date::local_days day,
                         const Zone& zone) {
  seconds clock(0);
  if (reader.take("t") || reader.take(" ")) {
    reader.skip_blanks();
    const auto read = take_clock(reader);
    if (!read) {
      return unreadable(original);
    }
    clock = *read;
  }
  reader.skip_blanks();
  if (reader.at_end()) {
    return zone.to_time(day + clock);
  }
  const auto offset = take_offset(reader);
  if (!offset || !reader.at_end()) {
    return unreadable(original);
  }
  return Time((day + clock).time_since_epoch() - *offset);
}

}  // namespace

Result<Time> parse_time(std::string_view text, Time now, const Zone& zone, Direction direction) {
  const std::string lower = lowered(text);
  if (lower == "now") {
    return now;
  }
  if (const auto span = relative_span(lower)) {
    return now + *span;
  }
  Reader dated(lower);
  if (const auto day = take_date(dated)) {
    return parse_dated(text, dated, *day, zone);
  }
  Reader reader(lower);
  const auto word = reader.take_letters();
  reader.skip_blanks();
  const auto clock = take_clock(reader);
  if (!clock || !reader.at_end()) {
    return unreadable(text);
  }
  const auto today = date::floor<date::days>(zone.to_local(now));
  if (word.empty() || word == "today") {
    return zone.to_time(today + *clock);
  }
  if (word == "yesterday") {
    return zone.to_time(today - date::days(1) + *clock);
  }
  if (word == "tomorrow") {
    return zone.to_time(today + date::days(1) + *clock);
  }
  if (const auto day = weekday_named(word)) {
    return time_on_weekday(*day, *clock, now, zone, direction);
  }
  return unreadable(text);
}

Result<Time> parse_rfc3339(std::string_view text) {
  const std::string lower = lowered(text);
  Reader reader(lower);
  const auto day = take_date(reader);
  if (day && (reader.take("t") || reader.take(" "))) {
    const auto clock = take_clock(reader);
    const auto offset = clock ? take_offset(reader) : std::nullopt;
    if (offset && reader.at_end()) {
      return Time((*day + *clock).time_since_epoch() - *offset);
    }
  }
  return fail(ErrorCode::kTime,
              fmt::format("'{}' is not an RFC 3339 time such as 2027-03-05T16:00:00-05:00", text));
}

}  // namespace coatwright
