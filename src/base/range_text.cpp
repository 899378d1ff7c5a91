#include "base/range_text.h"

#include <charconv>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "base/quantity_text.h"

namespace coatwright {
namespace {

using Units = std::vector<std::pair<std::string_view, double>>;

std::string_view trim(std::string_view text) {
  const auto first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) {
    return {};
  }
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

/// The two ends of a range; a single figure is both.
std::pair<std::string_view, std::string_view> ends_of(std::string_view text) {
  const std::string_view whole = trim(text);
  const auto minus = whole.find('-', 1);
  if (minus == std::string_view::npos) {
    return {whole, whole};
  }
  return {trim(whole.substr(0, minus)), trim(whole.substr(minus + 1))};
}

struct Figure {
  double number;
  std::string_view unit;
};

std::optional<Figure> figure_of(std::string_view text) {
  std::string copy(text);
  for (char& c : copy) {
    c = c == ',' ? '.' : c;  // a decimal comma
  }
  Figure figure{0, {}};
  const auto [end, failure] =
      std::from_chars(copy.data(), copy.data() + copy.size(), figure.number);
  if (failure != std::errc() || !std::isfinite(figure.number)) {
    return std::nullopt;
  }
  figure.unit = trim(text.substr(static_cast<std::size_t>(end - copy.data())));
  return figure;
}

std::optional<double> factor_of(std::string_view unit, const Units& units) {
  for (const auto& [name, factor] : units) {
    if (name == unit) {
      return factor;
    }
  }
  return std::nullopt;
}

/// What a range of one kind looks like and may be.
struct Kind {
  std::string_view what;
  std::string_view example;
  Units units;
  double most;  ///< Above 0, up to this.
  std::string_view allowed;
  bool may_be_zero = false;
};

Result<NumbersRange> parse_range(std::string_view text, const Kind& kind) {
  const auto [first, second] = ends_of(text);
  const auto low = figure_of(first);
  const auto high = figure_of(second);
  const auto high_factor = high ? factor_of(high->unit, kind.units) : std::nullopt;
  // "2-4h": the unit at the end is that of both.
  const auto low_factor = low && low->unit.empty() ? high_factor
                          : low                    ? factor_of(low->unit, kind.units)
                                                   : std::nullopt;
  if (!low_factor || !high_factor) {
    return fail(ErrorCode::kUsage,
                fmt::format("'{}' is not {}: write numbers and their unit, as in {}",
                            text,
                            kind.what,
                            kind.example));
  }
  const NumbersRange range{low->number * *low_factor, high->number * *high_factor};
  const bool in_range = (kind.may_be_zero ? range.low >= 0.0 : range.low > 0.0) &&
                        range.low <= kind.most && range.high <= kind.most;
  if (!in_range) {
    return fail(ErrorCode::kOutOfRange,
                fmt::format("'{}' is out of range: {} is allowed", text, kind.allowed));
  }
  if (range.high < range.low) {
    return fail(ErrorCode::kUsage,
                fmt::format("'{}' runs from high to low: write the lower figure first", text));
  }
  return range;
}

}  // namespace

Result<HoursRange> parse_hours_range(std::string_view text) {
  static const Kind kKind = {"a span of time",
                             "2h, 2h-4h, 30min-1h or 7d",
                             {{"min", 1.0 / 60.0}, {"h", 1.0}, {"d", 24.0}},
                             5000.0,
                             "above 0 and at most 5000h"};
  const auto range = parse_range(text, kKind);
  if (!range) {
    return pass_on(range.error());
  }
  return HoursRange{Hours::from_hours(range->low), Hours::from_hours(range->high)};
}

Result<TemperatureRange> parse_temperature_range(std::string_view text) {
  const auto [first, second] = ends_of(text);
  std::string low(first);
  // "55-90F": the unit at the end is that of both.
  if (!low.empty() && low.find_first_not_of("-+0123456789.,") == std::string::npos) {
    low += second.substr(std::min(second.find_first_not_of("-+0123456789., "), second.size()));
  }
  const auto from = parse_temperature(low);
  const auto to = parse_temperature(second);
  if (!from || !to) {
    return pass_on(from ? to.error() : from.error());
  }
  if (!(*from < *to)) {
    return fail(
        ErrorCode::kUsage,
        fmt::format("'{}' is no range of temperatures: write the lower first, as in 55F-90F",
                    text));
  }
  return TemperatureRange{*from, *to};
}

Result<NumbersRange> parse_spread_range(std::string_view text) {
  constexpr double kPerQuart = Area::kSquareMetresPerSquareFoot / Volume::kLitresPerUsQuart;
  static const Kind kKind = {"a coverage",
                             "300-400sqft/gal or 10m2/L",
                             {{"m2/L", 1.0},
                              {"m2/l", 1.0},
                              {"m²/L", 1.0},
                              {"sqft/gal", kPerQuart / 4.0},
                              {"ft2/gal", kPerQuart / 4.0},
                              {"sqft/qt", kPerQuart},
                              {"ft2/qt", kPerQuart}},
                             50.0,
                             "above 0 and at most 50m2/L (2037sqft/gal)"};
  return parse_range(text, kKind);
}

Result<NumbersRange> parse_percent_range(std::string_view text) {
  static const Kind kKind = {"a share", "30% or 28-32%", {{"%", 1.0}}, 100.0, "0% to 100%", true};
  return parse_range(text, kKind);
}

}  // namespace coatwright
