#include "air/logger_cells.h"

#include <array>
#include <cctype>
#include <charconv>

namespace coatwright {
namespace {

bool is_continuation(char c) {
  return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U;
}

/// @return how many bytes the character at `at` has, 0 when it is no UTF-8.
std::size_t utf8_length(std::string_view text, std::size_t at) {
  const auto lead = static_cast<unsigned char>(text[at]);
  if (lead < 0x80) {
    return 1;
  }
  const std::size_t length = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
  if (lead < 0xC2 || lead > 0xF4 || at + length > text.size()) {
    return 0;
  }
  for (std::size_t i = 1; i < length; ++i) {
    if (!is_continuation(text[at + i])) {
      return 0;
    }
  }
  return length;
}

bool is_utf8(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = utf8_length(text, at);
    if (length == 0) {
      return false;
    }
    at += length;
  }
  return true;
}

bool is_blank(char c) {
  return c == ' ' || c == '\t' || c == '\r';
}

bool same_but_case(std::string_view a, std::string_view b) {
  if (a.size() != b.size()) {
    return false;
  }
  for (std::size_t i = 0; i < a.size(); ++i) {
    if (static_cast<char>(std::tolower(static_cast<unsigned char>(a[i]))) != b[i]) {
      return false;
    }
  }
  return true;
}

/// Takes a quoted cell off the front, together with its separator.
bool take_quoted(std::string_view& rest, char separator, std::string_view& cell) {
  std::size_t close = rest.find('"', 1);
  while (close != std::string_view::npos && close + 1 < rest.size() && rest[close + 1] == '"') {
    close = rest.find('"', close + 2);  // a doubled quote is part of the cell
  }
  if (close == std::string_view::npos) {
    return false;
  }
  cell = trimmed(rest.substr(1, close - 1));
  rest = rest.substr(close + 1);
  const std::size_t cut = rest.find(separator);
  rest = cut == std::string_view::npos ? std::string_view{} : rest.substr(cut);
  return true;
}

}  // namespace

std::string_view as_utf8(std::string_view text, std::string& storage) {
  constexpr std::string_view kMark = "\xEF\xBB\xBF";
  if (text.substr(0, kMark.size()) == kMark) {
    text.remove_prefix(kMark.size());
  }
  if (is_utf8(text)) {
    return text;
  }
  storage.clear();
  storage.reserve(text.size() + text.size() / 8);
  for (const char c : text) {
    const auto code = static_cast<unsigned char>(c);
    if (code < 0x80) {
      storage += c;
    } else {
      storage += static_cast<char>(0xC0U | (code >> 6U));
      storage += static_cast<char>(0x80U | (code & 0x3FU));
    }
  }
  return storage;
}

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && is_blank(text.front())) {
    text.remove_prefix(1);
  }
  while (!text.empty() && is_blank(text.back())) {
    text.remove_suffix(1);
  }
  return text;
}

LineReader::LineReader(std::string_view text)
    : rest_(text), end_(text.find('\n') == std::string_view::npos ? '\r' : '\n') {}

bool LineReader::next() {
  if (rest_.empty()) {
    return false;
  }
  const std::size_t cut = rest_.find(end_);
  line_ = rest_.substr(0, cut);
  rest_ = cut == std::string_view::npos ? std::string_view{} : rest_.substr(cut + 1);
  if (!line_.empty() && line_.back() == '\r') {
    line_.remove_suffix(1);
  }
  ++number_;
  return true;
}

bool split_cells(std::string_view line, char separator, std::vector<std::string_view>& cells) {
  cells.clear();
  std::string_view rest = line;
  bool more = true;
  while (more) {
    std::string_view cell;
    while (!rest.empty() && rest.front() == ' ') {
      rest.remove_prefix(1);
    }
    if (!rest.empty() && rest.front() == '"') {
      if (!take_quoted(rest, separator, cell)) {
        return false;
      }
      more = !rest.empty();
      rest = more ? rest.substr(1) : rest;
    } else {
      const std::size_t cut = rest.find(separator);
      cell = trimmed(rest.substr(0, cut));
      more = cut != std::string_view::npos;
      rest = more ? rest.substr(cut + 1) : rest;
    }
    cells.push_back(cell);
  }
  while (!cells.empty() && cells.back().empty()) {
    cells.pop_back();
  }
  return true;
}

std::optional<CellUnit> unit_of_cell(std::string_view text) {
  struct Name {
    std::string_view text;
    CellUnit unit;
  };
  constexpr std::array<Name, 15> kNames = {{{"", CellUnit::kNone},
                                            {"c", CellUnit::kCelsius},
                                            {"°c", CellUnit::kCelsius},
                                            {"° c", CellUnit::kCelsius},
                                            {"degc", CellUnit::kCelsius},
                                            {"deg c", CellUnit::kCelsius},
                                            {"℃", CellUnit::kCelsius},
                                            {"f", CellUnit::kFahrenheit},
                                            {"°f", CellUnit::kFahrenheit},
                                            {"° f", CellUnit::kFahrenheit},
                                            {"degf", CellUnit::kFahrenheit},
                                            {"deg f", CellUnit::kFahrenheit},
                                            {"%", CellUnit::kPercent},
                                            {"%rh", CellUnit::kPercent},
                                            {"% rh", CellUnit::kPercent}}};
  for (const Name& name : kNames) {
    if (same_but_case(text, name.text)) {
      return name.unit;
    }
  }
  return std::nullopt;
}

std::optional<CellNumber> parse_cell_number(std::string_view cell) {
  std::array<char, 32> digits{};  // as from_chars wants them
  std::size_t used = 0;
  std::size_t length = 0;
  std::size_t marks = 0;
  bool decimal_comma = false;
  cell = trimmed(cell);
  for (; used < cell.size() && length < digits.size(); ++used) {
    const char c = cell[used];
    const bool mark = c == '.' || c == ',';
    const bool sign = used == 0 && (c == '-' || c == '+');
    if (!mark && !sign && (c < '0' || c > '9')) {
      break;
    }
    marks += mark ? 1 : 0;
    decimal_comma = decimal_comma || c == ',';
    if (c != '+') {
      digits.at(length++) = c == ',' ? '.' : c;
    }
  }
  double value = 0;
  const char* const last = digits.data() + length;
  const auto [end, failure] = std::from_chars(digits.data(), last, value);
  const auto unit = unit_of_cell(trimmed(cell.substr(used)));
  if (failure != std::errc() || end != last || marks > 1 || !unit) {
    return std::nullopt;
  }
  return CellNumber{value, *unit, decimal_comma};
}

std::string shown_cell(std::string_view cell) {
  constexpr std::size_t kMost = 40;
  std::string text(cell.substr(0, kMost));
  if (cell.size() > kMost) {
    std::size_t end = kMost;
    while (end > 0 && is_continuation(cell[end])) {
      --end;  // a character is not cut in two
    }
    text = std::string(cell.substr(0, end)) + "...";
  }
  for (char& c : text) {
    c = std::iscntrl(static_cast<unsigned char>(c)) != 0 ? '?' : c;
  }
  return text;
}

}  // namespace coatwright
