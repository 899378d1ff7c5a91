#include "cli/label_fields.h"

#include <chrono>
#include <cmath>

#include <fmt/format.h>

#include "base/zone.h"
#include "recipe/label_order.h"

namespace coatwright {
namespace {

std::string show(Hours hours) {
  return show_duration(std::chrono::seconds(std::llround(hours.minutes() * 60.0)));
}

/// Reads a text, and keeps the value with the text.
template <class T>
Result<void> keep(Result<T> value, const std::string& text, std::optional<Typed<T>>& into) {
  if (!value) {
    return pass_on(value.error());
  }
  into = Typed<T>{std::move(*value), text};
  return {};
}

template <Stage kStage>
Result<void> take_stage(const std::string& text, LabelFigures& into) {
  const auto hours = parse_hours_range(text);
  if (!hours) {
    return pass_on(hours.error());
  }
  into.stages.insert_or_assign(kStage, Typed<HoursRange>{*hours, text});
  return {};
}

template <Stage kStage>
std::string hint_of_stage(const Product& of_class) {
  const DryingStage* stage = of_class.stage(kStage);
  return stage == nullptr ? "" : show_range(stage->timing.whole());
}

template <Stage kStage>
LabelField stage_field(const std::string& about) {
  return {std::string(label_option_of(kStage)),
          "HOURS",
          about,
          &take_stage<kStage>,
          &hint_of_stage<kStage>};
}

/// "10:1" as its parts.
Result<std::vector<double>> parse_parts(const std::string& text) {
  std::vector<double> parts;
  std::string rest = text + ":";
  while (!rest.empty()) {
    const auto colon = rest.find(':');
    const std::string part = rest.substr(0, colon);
    rest.erase(0, colon + 1);
    char* end = nullptr;
    const double number = std::strtod(part.c_str(), &end);
    const bool plain = part.find_first_not_of("0123456789.") == std::string::npos;
    if (part.empty() || !plain || *end != '\0' || number <= 0.0 || number > 1000.0) {
      return fail(ErrorCode::kUsage,
                  fmt::format("'{}' is no ratio: write its parts, as in 10:1", text));
    }
    parts.push_back(number);
  }
  return parts;
}

Result<void> take_air(const std::string& text, LabelFigures& into) {
  return keep(parse_air(text), text, into.air);
}
Result<void> take_recoat_by(const std::string& text, LabelFigures& into) {
  return keep(parse_hours_range(text), text, into.recoat_by);
}
Result<void> take_coverage(const std::string& text, LabelFigures& into) {
  return keep(parse_spread_range(text), text, into.coverage);
}
Result<void> take_solids(const std::string& text, LabelFigures& into) {
  return keep(parse_percent_range(text), text, into.solids);
}
Result<void> take_mix(const std::string& text, LabelFigures& into) {
  return keep(parse_parts(text), text, into.mix);
}
Result<void> take_pot_life(const std::string& text, LabelFigures& into) {
  return keep(parse_hours_range(text), text, into.pot_life);
}
Result<void> take_induction(const std::string& text, LabelFigures& into) {
  return keep(parse_hours_range(text), text, into.induction);
}
Result<void> take_temperature(const std::string& text, LabelFigures& into) {
  return keep(parse_temperature_range(text), text, into.temperature);
}
Result<void> take_humidity(const std::string& text, LabelFigures& into) {
  return keep(parse_humidity(text), text, into.humidity_max);
}

std::string hint_of_air(const Product&) {
  return "23C,50%";
}

std::string hint_of_closing(const Product& of_class) {
  for (const RecoatInterval& interval : of_class.recoat) {
    if (interval.condition == RecoatCondition::kNone && interval.closes) {
      return show_range(interval.closes->whole());
    }
  }
  return of_class.stage(Stage::kRecoat) == nullptr ? "" : "never";
}

std::string hint_of_coverage(const Product& of_class) {
  return fmt::format("{:.1f} to {:.1f} m2/L",
                     of_class.film.spread_low_m2_per_l,
                     of_class.film.spread_high_m2_per_l);
}

std::string hint_of_solids(const Product& of_class) {
  return of_class.film.solids ? fmt::format("{:.0f} to {:.0f} %",
                                            of_class.film.solids->value.low,
                                            of_class.film.solids->value.high)
                              : "not known";
}

std::string hint_of_mix(const Product& of_class) {
  std::string parts;
  for (std::size_t i = 0; of_class.mix && i < of_class.mix->parts.size(); ++i) {
    parts += fmt::format("{}{:g}", i == 0 ? "" : ":", of_class.mix->parts[i].parts);
  }
  return parts;
}

std::string hint_of_pot_life(const Product& of_class) {
  return of_class.mix && of_class.mix->pot_life ? show_range(*of_class.mix->pot_life) : "";
}

std::string hint_of_induction(const Product& of_class) {
  return of_class.mix ? show(of_class.mix->induction) : "";
}

std::string hint_of_temperature(const Product& of_class) {
  const auto& [low, high] =
      std::pair(of_class.limits.temperature_min, of_class.limits.temperature_max);
  return fmt::format("{} to {}",
                     low ? fmt::format("{:.0f}C", low->value.celsius()) : "no least",
                     high ? fmt::format("{:.0f}C", high->value.celsius()) : "no most");
}

std::string hint_of_humidity(const Product& of_class) {
  return of_class.limits.humidity_max ? show_humidity(of_class.limits.humidity_max->value)
                                      : "not known";
}

std::vector<LabelField> make_fields() {
  return {
      {"--in-air", "AIR", "Air at which its times hold, such as 70F,50%", &take_air, &hint_of_air},
      stage_field<Stage::kRecoat>("When the next coat may go on: 2h or 2h-4h"),
      {"--recoat-by",
       "HOURS",
       "Until when it may without sanding: 24h",
       &take_recoat_by,
       &hint_of_closing},
      stage_field<Stage::kDustFree>("When dust no longer sticks"),
      stage_field<Stage::kTackFree>("When it is dry to the touch"),
      stage_field<Stage::kSandable>("When it may be sanded"),
      stage_field<Stage::kHandle>("When it may be handled"),
      stage_field<Stage::kLightUse>("When it may be used lightly"),
      stage_field<Stage::kFullCure>("When it is cured: 7d or 14d-30d"),
      {"--coverage",
       "SPREAD",
       "What a coat covers: 300-400sqft/gal or 10m2/L",
       &take_coverage,
       &hint_of_coverage},
      {"--solids", "PERCENT", "Solids by volume: 30%", &take_solids, &hint_of_solids},
      {"--mix", "RATIO", "What is mixed, in the order of the class: 10:1", &take_mix, &hint_of_mix},
      {"--pot-life", "HOURS", "Until the mix must be used up", &take_pot_life, &hint_of_pot_life},
      {"--induction",
       "HOURS",
       "How long the mix stands first: 15min",
       &take_induction,
       &hint_of_induction},
      {"--temperature",
       "RANGE",
       "In which it may be put on: 55F-90F",
       &take_temperature,
       &hint_of_temperature},
      {"--humidity-max",
       "HUMIDITY",
       "Up to which it may be put on: 85%",
       &take_humidity,
       &hint_of_humidity},
  };
}

}  // namespace

const std::vector<LabelField>& label_fields() {
  static const std::vector<LabelField> kFields = make_fields();
  return kFields;
}

std::string show_range(const DurationRange& range) {
  const std::string low = show(range.low());
  const std::string high = show(range.high());
  return low == high ? low : fmt::format("{} to {}", low, high);
}

}  // namespace coatwright
