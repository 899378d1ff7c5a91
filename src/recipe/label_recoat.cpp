#include "recipe/label_recoat.h"

#include <algorithm>

#include <fmt/format.h>

namespace coatwright {
namespace {

constexpr double kLeast = 0.01;   // hours, of the last phase of an opening
constexpr double kMost = 5000.0;  // hours that a recipe can hold

std::optional<double> number_of(const TomlKeys& keys, const std::string& key) {
  const TomlValue* value = keys.find(key);
  if (value == nullptr) {
    return std::nullopt;
  }
  if (const auto* number = std::get_if<double>(&value->any())) {
    return *number;
  }
  const auto* whole = std::get_if<std::int64_t>(&value->any());
  return whole == nullptr ? std::nullopt : std::optional(static_cast<double>(*whole));
}

std::optional<DurationRange> range_at(const TomlKeys& keys, const std::string& prefix) {
  const auto low = number_of(keys, prefix + "low_hours");
  const auto high = number_of(keys, prefix + "high_hours");
  if (!low || !high) {
    return std::nullopt;
  }
  return DurationRange(Hours::from_hours(*low), Hours::from_hours(*high));
}

void set_range(TomlKeys& keys, const std::string& prefix, const DurationRange& range) {
  keys.set(prefix + "low_hours", std::min(range.low().hours(), kMost));
  keys.set(prefix + "high_hours", std::min(range.high().hours(), kMost), prefix + "low_hours");
}

DurationRange at_least(const DurationRange& range, Hours low, Hours high) {
  const Hours from = std::max(range.low(), low);
  return {from, std::max({from, range.high(), high})};
}

/// An interval of the class's in which nothing may go on: it begins no later and ends no earlier.
void scale_ban(TomlKeys& interval, double factor) {
  if (const auto opens = range_at(interval, "opens_")) {
    set_range(interval, "opens_", opens->scaled(std::min(1.0, factor)));
  }
  if (const auto closes = range_at(interval, "closes_")) {
    set_range(interval, "closes_", closes->scaled(std::max(1.0, factor)));
  }
}

void scale_window(TomlKeys& interval, const RecoatChange& change, const DurationRange& before) {
  DurationRange opens = change.own;
  if (const auto of_class = range_at(interval, "opens_")) {
    const Hours least = Hours::from_hours(kLeast);
    opens = change.opening(*of_class);
    opens = at_least(opens, before.low() + least, before.high() + least);
    set_range(interval, "opens_", opens);
    interval.set("source", "judgement");
  }
  if (const auto closes = range_at(interval, "closes_")) {
    const bool closes_too_soon = closes->low() < opens.low() || closes->high() < opens.high();
    const double factor = closes_too_soon ? change.factor() : std::min(1.0, change.middle_factor());
    set_range(interval, "closes_", at_least(closes->scaled(factor), opens.low(), opens.high()));
    interval.set("source", "judgement");
  }
}

TomlKeys* interval_of(TomlKeys& document, std::string_view condition) {
  for (TomlKeys* interval : document.tables("recoat")) {
    if (interval->text("condition") == condition) {
      return interval;
    }
  }
  return nullptr;
}

TomlKeys& add_interval(TomlKeys& document, std::string_view condition, const char* reason) {
  if (!document.has("recoat")) {
    document.set("recoat", TomlValue(TomlValue::Any(TomlValue::List())), "stage");
  }
  TomlKeys interval;
  interval.set("condition", std::string(condition));
  interval.set("reason", reason);
  interval.set("source", "label");
  auto& list = std::get<TomlValue::List>(document.find("recoat")->any());
  list.emplace_back(TomlValue::Any(std::move(interval)));
  return std::get<TomlKeys>(list.back().any());
}

Result<void> set_closing(TomlKeys& document,
                         const DurationRange& recoat,
                         const HoursRange& closes) {
  TomlKeys* window = interval_of(document, "none");
  if (window == nullptr) {
    window = &add_interval(document, "none", "inside the window of the label");
  }
  const DurationRange opens = range_at(*window, "opens_").value_or(recoat);
  const DurationRange end(closes.low, closes.high);
  if (end.low() < opens.low() || end.high() < opens.high()) {
    return fail(ErrorCode::kUsage,
                fmt::format("the window closes before the coat is ready for the next: at 23 C and "
                            "50 % it opens at {:.3g} to {:.3g} h and the label's closing is {:.3g} "
                            "to {:.3g} h; leave --recoat-by out, or enter the label's recoat time",
                            opens.low().hours(),
                            opens.high().hours(),
                            end.low().hours(),
                            end.high().hours()));
  }
  set_range(*window, "closes_", end);
  window->set("source", "label");
  if (interval_of(document, "abrade") == nullptr && document.has("abrade_grit")) {
    add_interval(document, "abrade", "after the window of the label the next coat needs tooth");
  }
  return {};
}

}  // namespace

HoursRange closing_by_label(const HoursRange& label,
                            const RateLaw& law,
                            const TemperatureAndHumidity& air) {
  const double share = std::min(1.0, law.rate(air.temperature, air.humidity));
  return {label.low * share, label.high * share};
}

double RecoatChange::middle_factor() const {
  return own.at_deviate(0.0).hours() / in_class.at_deviate(0.0).hours();
}

DurationRange RecoatChange::opening(const DurationRange& of_class) const {
  const DurationRange scaled = of_class.scaled(factor());
  const Hours none = Hours::from_hours(0);
  return at_least(scaled,
                  of_class.low() >= in_class.low() ? own.low() : none,
                  of_class.high() >= in_class.high() ? own.high() : none);
}

Result<void> set_recoat_intervals(TomlKeys& document,
                                  const std::optional<RecoatChange>& change,
                                  const DurationRange& before,
                                  const std::optional<HoursRange>& closes) {
  for (TomlKeys* interval : document.tables("recoat")) {
    if (change && interval->text("condition") == "never") {
      scale_ban(*interval, change->factor());
    } else if (change) {
      scale_window(*interval, *change, before);
    }
  }
  if (!closes) {
    return {};
  }
  for (TomlKeys* stage : document.tables("stage")) {
    if (stage->text("name") == "recoat") {
      return set_closing(document, range_at(*stage, "").value(), *closes);
    }
  }
  return fail(ErrorCode::kUsage,
              "the class has no stage \"recoat\", which --recoat-by would close");
}

}  // namespace coatwright
