// Three lengths as people type them, of a board and of a room; the rest of quantity_text.h is in
// quantity_text.cpp, and of vapour_text.h in vapour_text.cpp.
#include <array>
#include <charconv>
#include <cmath>
#include <vector>

#include <fmt/format.h>

#include "base/quantity_text.h"
#include "base/vapour_text.h"

namespace coatwright {
namespace {

constexpr std::string_view kBlanks = " \t";

std::string_view trim(std::string_view text) {
  const auto first = text.find_first_not_of(kBlanks);
  return first == std::string_view::npos
             ? std::string_view()
             : text.substr(first, text.find_last_not_of(kBlanks) - first + 1);
}

/// Digits with at most one decimal point or comma.
std::optional<double> plain_number(std::string_view text) {
  const auto comma = text.find(',');
  if (comma != std::string_view::npos && text.size() - comma == 4 && text.front() != '0') {
    return std::nullopt;  // "1,200" is 1200 to one maker and 1.2 to another
  }
  std::string copy(text);
  if (comma != std::string_view::npos) {
    copy[comma] = '.';
  }
  if (copy.find_first_not_of("0123456789.") != std::string::npos) {
    return std::nullopt;
  }
  double number = 0;
  const auto [end, failure] = std::from_chars(copy.data(), copy.data() + copy.size(), number);
  return failure == std::errc() && end == copy.data() + copy.size() ? std::optional(number)
                                                                    : std::nullopt;
}

std::optional<double> whole_number(std::string_view text) {
  return text.find_first_not_of("0123456789") == std::string_view::npos ? plain_number(text)
                                                                        : std::nullopt;
}

/// "1/2".
std::optional<double> fraction(std::string_view text) {
  const auto slash = text.find('/');
  const auto above = whole_number(text.substr(0, slash));
  const auto below = whole_number(text.substr(slash + 1));
  return above && below && *below > 0.0 ? std::optional(*above / *below) : std::nullopt;
}

struct LengthUnit {
  std::string_view name;
  Length (*of)(double);
};

constexpr std::array<LengthUnit, 7> kUnits = {
    {{"mm", &Length::from_millimetres},
     {"cm", [](double value) { return Length::from_metres(value / 100.0); }},
     {"m", &Length::from_metres},
     {"in", &Length::from_inches},
     {"\"", &Length::from_inches},
     {"ft", &Length::from_feet},
     {"'", &Length::from_feet}}};

const LengthUnit* unit_named(std::string_view name) {
  for (const LengthUnit& unit : kUnits) {
    if (unit.name == name) {
      return &unit;
    }
  }
  return nullptr;
}

/// One of the three, as far as it is known alone.
struct Measure {
  double number = 0;
  const LengthUnit* unit = nullptr;
};

std::optional<Measure> measure_of(std::string_view text) {
  const std::string_view whole = trim(text);
  const auto last = whole.find_last_of("0123456789");
  if (last == std::string_view::npos) {
    return std::nullopt;
  }
  const auto number = parse_measure(whole.substr(0, last + 1));
  const std::string_view name = trim(whole.substr(last + 1));
  const LengthUnit* unit = unit_named(name);
  if (!number || (unit == nullptr && !name.empty())) {
    return std::nullopt;
  }
  return Measure{*number, unit};
}

std::vector<std::string_view> cut_at_signs(std::string_view text) {
  constexpr std::string_view kTimes = "×";
  std::vector<std::string_view> parts;
  std::size_t begin = 0;
  for (std::size_t at = 0; at < text.size(); ++at) {
    const bool sign = text.substr(at).starts_with(kTimes);
    if (sign || text[at] == 'x' || text[at] == 'X') {
      parts.push_back(text.substr(begin, at - begin));
      at += sign ? kTimes.size() - 1 : 0;
      begin = at + 1;
    }
  }
  parts.push_back(text.substr(begin));
  return parts;
}

/// The three lengths; nothing when the text does not say them.
std::optional<std::array<Length, 3>> three_lengths(std::string_view text) {
  const auto parts = cut_at_signs(text);
  std::vector<Measure> measures;
  for (const std::string_view part : parts) {
    const auto measure = measure_of(part);
    if (!measure) {
      return std::nullopt;
    }
    measures.push_back(*measure);
  }
  if (measures.size() != 3 || measures.back().unit == nullptr ||
      (measures[0].unit == nullptr) != (measures[1].unit == nullptr)) {
    return std::nullopt;
  }
  const auto length = [&](const Measure& measure) {
    return (measure.unit == nullptr ? measures.back().unit : measure.unit)->of(measure.number);
  };
  return std::array{length(measures[0]), length(measures[1]), length(measures[2])};
}

}  // namespace

std::optional<double> parse_measure(std::string_view text) {
  const std::string_view whole = trim(text);
  if (whole.find('/') == std::string_view::npos) {
    return whole.empty() ? std::nullopt : plain_number(whole);
  }
  const auto cut = whole.find_last_of(" -");
  if (cut == std::string_view::npos) {
    return fraction(whole);
  }
  const auto before = whole_number(trim(whole.substr(0, cut)));
  const auto part = fraction(whole.substr(cut + 1));
  const bool has_before = cut > 0 && before;
  return has_before && part ? std::optional(*before + *part) : std::nullopt;
}

Result<Dimensions> parse_dimensions(std::string_view text) {
  constexpr double kShortest = 1.0;     // mm
  constexpr double kLongest = 20000.0;  // mm
  constexpr double kThinnest = 0.1;     // mm, a veneer
  constexpr double kThickest = 300.0;   // mm
  const auto lengths = three_lengths(text);
  if (!lengths) {
    return fail(ErrorCode::kUsage,
                fmt::format("'{}' is not length x width x thickness: write 1200x600x30mm or "
                            "48x24x1.25in",
                            text));
  }
  const auto within = [](Length length, double low, double high) {
    return length.millimetres() >= low && length.millimetres() <= high;
  };
  const auto& [length, width, thickness] = *lengths;
  if (!within(length, kShortest, kLongest) || !within(width, kShortest, kLongest) ||
      !within(thickness, kThinnest, kThickest)) {
    return fail(ErrorCode::kOutOfRange,
                fmt::format("the size '{}' is out of range: length and width 1mm to 20m, thickness "
                            "0.1mm to 300mm (11.8in) are allowed",
                            text));
  }
  return Dimensions{length, width, thickness};
}

Result<AirVolume> parse_room(std::string_view text) {
  constexpr double kShortest = 1.0;   // m
  constexpr double kLongest = 100.0;  // m
  constexpr double kHighest = 20.0;   // m
  const auto lengths = three_lengths(text);
  if (!lengths) {
    return fail(
        ErrorCode::kUsage,
        fmt::format("'{}' is not length x width x height: write 6x5x3m or 20x16x10ft", text));
  }
  const auto& [length, width, height] = *lengths;
  const auto within = [](Length one, double high) {
    return one.metres() >= kShortest && one.metres() <= high;
  };
  if (!within(length, kLongest) || !within(width, kLongest) || !within(height, kHighest)) {
    return fail(ErrorCode::kOutOfRange,
                fmt::format("the room '{}' is out of range: length and width 1m to 100m, height 1m "
                            "to 20m (66ft) are allowed",
                            text));
  }
  return AirVolume::from_cubic_metres(length.metres() * width.metres() * height.metres());
}

}  // namespace coatwright
