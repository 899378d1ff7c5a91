#include "cli/product_table.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "cli/common.h"
#include "cli/product_in_air.h"
#include "plan/air_limits.h"
#include "report/text_table.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

constexpr std::string_view kTo = "..";
constexpr double kTemperatureStep = 5.0;  // K
constexpr double kHumidityStep = 10.0;    // percent
constexpr std::size_t kMostRows = 16;
constexpr std::size_t kMostColumns = 8;

/// "5C..35C" as its two ends; one value is both.
std::pair<std::string, std::string> ends_of(const std::string& text) {
  const auto at = text.find(kTo);
  return at == std::string::npos ? std::pair(text, text)
                                 : std::pair(text.substr(0, at), text.substr(at + kTo.size()));
}

std::vector<double> steps(double from, double to, double step) {
  std::vector<double> values;
  for (int i = 0; from + i * step <= to + 1e-9; ++i) {
    values.push_back(from + i * step);
  }
  return values;
}

/// Why a product may not go on in an air, in a word; empty where it may.
std::string bar_of(const Product& product, const TemperatureAndHumidity& air) {
  const AirRecord record(
      {}, UsualDay::constant(air.temperature, air.humidity), Zone::find("UTC").value());
  const auto breach = AirLimits(record, product).breach_at(Time{});
  if (!breach) {
    return "";
  }
  return breach->code == "humidity-max"       ? "damp"
         : breach->code == "dew-point-spread" ? "dew"
                                              : "cold";
}

/// "45 min", "18 h", "3.5 d": rounded up, because it is a wait.
std::string short_span(Hours hours) {
  constexpr double kInMinutes = 1.5;
  constexpr double kInHours = 48.0;
  if (hours.hours() < kInMinutes) {
    return fmt::format("{:.0f} min", std::ceil(hours.minutes() - 1e-9));
  }
  if (hours.hours() < 10.0) {
    return fmt::format("{:.1f} h", std::ceil(hours.hours() * 10.0 - 1e-9) / 10.0);
  }
  if (hours.hours() < kInHours) {
    return fmt::format("{:.0f} h", std::ceil(hours.hours() - 1e-9));
  }
  return fmt::format("{:.1f} d", std::ceil(hours.hours() / 2.4 - 1e-9) / 10.0);
}

std::string cell_of(const Product& product,
                    const StageTiming& timing,
                    const TemperatureAndHumidity& air) {
  if (const std::string bar = bar_of(product, air); !bar.empty()) {
    return bar;
  }
  const auto opens = opening_in_air(timing, product.limits, air);
  const auto& warmest = product.limits.temperature_max;
  const bool too_warm = warmest && air.temperature > warmest->value;
  return (opens ? short_span(opens->high()) : "-") + (too_warm ? "*" : "");
}

std::string table_of(const Product& product,
                     const StageTiming& timing,
                     const AirField& field,
                     UnitSystem units) {
  std::vector<TextTable::Column> columns = {{"", TextTable::Align::kRight}};
  for (const RelativeHumidity humidity : field.humidities) {
    columns.push_back({show_humidity(humidity), TextTable::Align::kRight});
  }
  TextTable table(std::move(columns));
  for (const Temperature temperature : field.temperatures) {
    std::vector<std::string> cells = {show_whole_temperature(temperature, units)};
    for (const RelativeHumidity humidity : field.humidities) {
      cells.push_back(cell_of(product, timing, {temperature, humidity}));
    }
    table.add(std::move(cells));
  }
  return table.text(2);
}

struct NamedTiming {
  std::string title;
  StageTiming timing;
};

std::vector<NamedTiming> shown_timings(const Product& product) {
  std::vector<NamedTiming> timings;
  if (const DryingStage* stage = product.stage(Stage::kDustFree)) {
    timings.push_back({"Dust-free", stage->timing});
  }
  if (const auto recoat = recoat_timing(product)) {
    timings.push_back({"Next coat of the same", *recoat});
  }
  if (const DryingStage* stage = product.stage(Stage::kHandle)) {
    timings.push_back({"To be handled with care", stage->timing});
  }
  return timings;
}

}  // namespace

bool is_air_field(std::string_view text) {
  return text.find(kTo) != std::string_view::npos;
}

Result<AirField> parse_air_field(const std::string& text) {
  const auto comma = text.find(',');
  if (comma == std::string::npos) {
    return fail(ErrorCode::kUsage,
                fmt::format("'{}' is no field of airs: write 5C..35C,20%..90%", text));
  }
  const auto [cold, warm] = ends_of(text.substr(0, comma));
  const auto [dry, damp] = ends_of(text.substr(comma + 1));
  const auto first = parse_air(cold + "," + dry);
  const auto last = parse_air(warm + "," + damp);
  if (!first || !last) {
    return pass_on(first ? last.error() : first.error());
  }
  AirField field;
  for (const double celsius :
       steps(first->temperature.celsius(), last->temperature.celsius(), kTemperatureStep)) {
    field.temperatures.push_back(Temperature::from_celsius(celsius));
  }
  for (const double percent :
       steps(first->humidity.percent(), last->humidity.percent(), kHumidityStep)) {
    field.humidities.push_back(RelativeHumidity::from_percent(percent));
  }
  if (field.temperatures.empty() || field.humidities.empty() ||
      field.temperatures.size() > kMostRows || field.humidities.size() > kMostColumns) {
    return fail(ErrorCode::kOutOfRange,
                fmt::format("'{}' is no field that a page can hold: from low to high, up to {} "
                            "temperatures in steps of 5 C and {} humidities in steps of 10 %",
                            text,
                            kMostRows,
                            kMostColumns));
  }
  return field;
}

std::optional<StageTiming> recoat_timing(const Product& product) {
  for (const RecoatInterval& interval : product.recoat) {
    if (interval.condition == RecoatCondition::kNone) {
      return interval.opens;
    }
  }
  const DryingStage* stage = product.stage(Stage::kRecoat);
  return stage == nullptr ? std::nullopt : std::optional(stage->timing);
}

std::string product_field_as_text(const Product& product, const AirField& field, UnitSystem units) {
  std::string text =
      underlined(fmt::format("{}: {}", product.name, product.title), '-') +
      wrap("Not before, at 90 % of coats, by calculation only; the same air all the time.", 0, 0);
  for (const NamedTiming& one : shown_timings(product)) {
    text += "\n" + one.title + ": " + one.timing.description() + "\n" +
            table_of(product, one.timing, field, units);
  }
  return text + "\n" +
         wrap(
             "cold, damp, dew: not to be put on, the air is colder or damper than it needs, or the "
             "surface nearer than 3 C to the dew point. *: warmer than it likes. -: does not open.",
             0,
             0) +
         wrap("Label and data sheet come first.", 0, 0);
}

std::string product_field_as_json(const Product& product, const AirField& field) {
  using Json = nlohmann::ordered_json;
  Json whole = {{"name", product.name}, {"field", Json::array()}};
  for (const Temperature temperature : field.temperatures) {
    for (const RelativeHumidity humidity : field.humidities) {
      const TemperatureAndHumidity air{temperature, humidity};
      Json entry = {{"temp_c", rounded(temperature.celsius(), 2)},
                    {"rh_percent", rounded(humidity.percent(), 1)},
                    {"barred", bar_of(product, air)},
                    {"times", Json::array()}};
      for (const NamedTiming& one : shown_timings(product)) {
        const auto opens = opening_in_air(one.timing, product.limits, air);
        entry["times"].push_back(
            {{"what", one.title},
             {"low_hours", opens ? Json(rounded(opens->low().hours(), 3)) : Json(nullptr)},
             {"high_hours", opens ? Json(rounded(opens->high().hours(), 3)) : Json(nullptr)}});
      }
      whole["field"].push_back(std::move(entry));
    }
  }
  return whole.dump(2) + "\n";
}

}  // namespace coatwright
