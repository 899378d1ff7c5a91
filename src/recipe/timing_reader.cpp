#include "recipe/timing_reader.h"

#include <algorithm>
#include <iterator>

#include <fmt/format.h>

namespace coatwright {
namespace {

constexpr NumberRange kHoursRange = {0.0, 5000.0, true};
constexpr NumberRange kActivationRange = {10.0, 200.0};
constexpr NumberRange kExponentRange = {0.0, 2.0};

const NamedValues<Mechanism>& known_mechanisms() {
  static const NamedValues<Mechanism> kKnown = [] {
    NamedValues<Mechanism> known;
    for (const Mechanism mechanism : {Mechanism::kElapsed,
                                      Mechanism::kEvaporation,
                                      Mechanism::kWaterLoss,
                                      Mechanism::kCoalescence,
                                      Mechanism::kOxidation,
                                      Mechanism::kTwoPart,
                                      Mechanism::kAcidCure,
                                      Mechanism::kMoistureCure}) {
      known.emplace_back(name_of(mechanism), mechanism);
    }
    return known;
  }();
  return kKnown;
}

const NamedValues<RecoatCondition>& known_conditions() {
  static const NamedValues<RecoatCondition> kKnown = {{"none", RecoatCondition::kNone},
                                                      {"abrade", RecoatCondition::kAbrade},
                                                      {"never", RecoatCondition::kNever}};
  return kKnown;
}

DurationRange range_of(double low, double high) {
  return {Hours::from_hours(low), Hours::from_hours(high)};
}

DurationRange checked_range(TomlTable& table,
                            const std::string& high_key,
                            double low,
                            double high) {
  if (table.ok() && high < low) {
    table.wrong(high_key, fmt::format("at least the low of {}", low));
  }
  return range_of(low, std::max(low, high));
}

/// @return the stage or, where the product has none, the latest before it; null where there is
/// none.
const DryingStage* latest_up_to(const Stages& stages, Stage stage) {
  const auto next = stages.upper_bound(stage);
  return next == stages.begin() ? nullptr : &std::prev(next)->second;
}

/// The stage whose laws recoat hours run by.
const DryingStage* law_giver(const Stages& stages) {
  return latest_up_to(stages, Stage::kRecoat);
}

/// The phases of a stage with another whole range: the first ones stay, the last takes the rest.
Result<StageTiming> stretched(const StageTiming& laws,
                              const DurationRange& whole,
                              const Place& place) {
  StageTiming timing = laws;
  const Phase last = timing.phases.back();
  timing.phases.pop_back();
  const std::optional<DurationRange> rest = rest_after(timing, whole);
  if (!rest) {
    const DurationRange before = timing.whole();
    return tl::unexpected(place.error(
        fmt::format("the opening of {} to {} h leaves nothing for {} after the {} to {} h of {}",
                    whole.low().hours(),
                    whole.high().hours(),
                    last.law.description(),
                    before.low().hours(),
                    before.high().hours(),
                    timing.description())));
  }
  timing.phases.push_back({last.law, *rest, last.film_exponent});
  return timing;
}

Result<StageTiming> opening_of(const IntervalHours& interval,
                               const std::string& product,
                               const Stages& stages,
                               const DryingStage& laws) {
  if (interval.opens) {
    return stretched(laws.timing, *interval.opens, interval.place);
  }
  if (interval.opens_with) {
    const DryingStage* stage = latest_up_to(stages, *interval.opens_with);
    return stage == nullptr ? laws.timing : stage->timing;
  }
  if (interval.condition == RecoatCondition::kNever) {
    return StageTiming{};
  }
  const auto recoat = stages.find(Stage::kRecoat);
  if (recoat == stages.end()) {
    return tl::unexpected(interval.place.error(fmt::format(
        "opens_low_hours and opens_high_hours are missing; allowed to be left out only where "
        "'{}' has a stage \"recoat\"",
        product)));
  }
  return recoat->second.timing;
}

/// A window must not close before it opens. A "never" without an opening begins at once.
bool closes_after_opening(const RecoatInterval& interval) {
  if (!interval.closes || interval.opens.phases.empty()) {
    return true;
  }
  const DurationRange opens = interval.opens.whole();
  const DurationRange closes = interval.closes->whole();
  return closes.low() >= opens.low() && closes.high() >= opens.high();
}

bool needs_no_laws(const IntervalHours& interval) {
  return !interval.opens && !interval.closes && interval.condition == RecoatCondition::kNever;
}

}  // namespace

const std::vector<std::string_view>& known_solvents() {
  static const std::vector<std::string_view> kKnown = {"acetone",
                                                       "methyl ethyl ketone",
                                                       "ethyl acetate",
                                                       "ethanol",
                                                       "isopropanol",
                                                       "n-butanol",
                                                       "toluene",
                                                       "m-xylene",
                                                       "n-butyl acetate",
                                                       "2-butoxyethanol",
                                                       "alpha-pinene",
                                                       "n-octane",
                                                       "n-nonane",
                                                       "n-decane"};
  return kKnown;
}

const NamedValues<Stage>& known_stages() {
  static const NamedValues<Stage> kKnown = [] {
    NamedValues<Stage> known;
    for (const Stage stage : {Stage::kSetToTouch,
                              Stage::kDustFree,
                              Stage::kTackFree,
                              Stage::kDryHard,
                              Stage::kDryThrough,
                              Stage::kSandable,
                              Stage::kRecoat,
                              Stage::kHandle,
                              Stage::kPrintFree,
                              Stage::kLightUse,
                              Stage::kFullCure}) {
      known.emplace_back(name_of(stage), stage);
    }
    return known;
  }();
  return kKnown;
}

RateLaw read_rate_law(TomlTable& table) {
  const Mechanism mechanism = choice(table, "mechanism", known_mechanisms());
  std::optional<Antoine> solvent;
  if (mechanism == Mechanism::kEvaporation) {
    solvent = antoine_of(table.name("solvent", known_solvents()));
  }
  RateLaw law = rate_law_of(mechanism, solvent);
  if (law.activation_kj_per_mol > 0.0) {
    law.activation_kj_per_mol =
        table.number_or("activation_kj_per_mol", law.activation_kj_per_mol, kActivationRange);
  }
  return law;
}

DurationRange read_hours(TomlTable& table) {
  const double low = table.number("low_hours", kHoursRange);
  const double high = table.number("high_hours", kHoursRange);
  return checked_range(table, "high_hours", low, high);
}

std::optional<DurationRange> read_optional_hours(TomlTable& table, const std::string& prefix) {
  const std::string low_key = prefix + "low_hours";
  const std::string high_key = prefix + "high_hours";
  if (!table.has(low_key) && !table.has(high_key)) {
    static_cast<void>(table.optional_number(low_key, kHoursRange));  // counts them as known
    static_cast<void>(table.optional_number(high_key, kHoursRange));
    return std::nullopt;
  }
  const double low = table.number(low_key, kHoursRange);
  const double high = table.number(high_key, kHoursRange);
  return checked_range(table, high_key, low, high);
}

std::optional<DurationRange> rest_after(const StageTiming& before, const DurationRange& whole) {
  const DurationRange spent = before.whole();
  const DurationRange rest = {whole.low() - spent.low(), whole.high() - spent.high()};
  constexpr double kRounding = 1e-9;  // hours; far below the figures that a recipe can hold
  if (rest.low().hours() <= kRounding || rest.high().hours() < rest.low().hours() - kRounding) {
    return std::nullopt;
  }
  return DurationRange(rest.low(), std::max(rest.low(), rest.high()));
}

namespace {

/// The stage that `after` names; none when the key is absent.
const DryingStage* read_after(TomlTable& table, const Stages& stages) {
  if (!table.has("after")) {
    static_cast<void>(table.text_or("after"));  // counts it as known
    return nullptr;
  }
  std::vector<std::string_view> above;
  for (const auto& [stage, data] : stages) {
    above.push_back(name_of(stage));
  }
  if (above.empty()) {
    static_cast<void>(table.text("after"));
    table.wrong("after", "a stage that stands above this one in the file; there is none");
    return nullptr;
  }
  const std::string_view named = table.name("after", above);
  return &stages.at(value_named(known_stages(), named));
}

StageTiming timing_of(TomlTable& table,
                      const RateLaw& law,
                      const DurationRange& whole,
                      double film_exponent,
                      const DryingStage* after) {
  StageTiming timing;
  if (after == nullptr) {
    timing.phases.push_back({law, whole, film_exponent});
    return timing;
  }
  const std::optional<DurationRange> rest = rest_after(after->timing, whole);
  if (!rest) {
    const DurationRange before = after->timing.whole();
    table.wrong(table.place("after").error(fmt::format(
        "the stage \"{}\" of {} to {} h leaves nothing of the whole {} to {} h; allowed: low and "
        "high each longer than those of \"{}\", high by at least as much as low",
        name_of(after->stage),
        before.low().hours(),
        before.high().hours(),
        whole.low().hours(),
        whole.high().hours(),
        name_of(after->stage))));
    return timing;
  }
  timing = after->timing;
  timing.phases.push_back({law, *rest, film_exponent});
  return timing;
}

}  // namespace

void read_stage(TomlTable& table, Stages& stages) {
  const Stage stage = choice(table, "name", known_stages());
  const DurationRange whole = read_hours(table);
  const RateLaw law = read_rate_law(table);
  const double film_exponent = table.number_or("film_exponent", 0.0, kExponentRange);
  const DryingStage* after = read_after(table, stages);
  std::string source = table.text("source");
  std::string note = table.text_or("note");
  table.finish();
  if (!table.ok()) {
    return;
  }
  if (stages.contains(stage)) {
    table.wrong("name", "each stage once");
    return;
  }
  StageTiming timing = timing_of(table, law, whole, film_exponent, after);
  stages.emplace(stage, DryingStage{stage, std::move(timing), std::move(source), std::move(note)});
}

IntervalHours read_interval(TomlTable& table,
                            const std::string& reason,
                            const std::string& source) {
  IntervalHours interval;
  interval.condition = choice(table, "condition", known_conditions());
  interval.opens = read_optional_hours(table, "opens_");
  if (table.has("opens_with")) {
    interval.opens_with = choice(table, "opens_with", known_stages());
    if (interval.opens) {
      table.wrong("opens_with", "either opens_with, or opens_low_hours and opens_high_hours");
    }
  } else {
    static_cast<void>(table.text_or("opens_with"));  // counts it as known
  }
  interval.closes = read_optional_hours(table, "closes_");
  interval.reason = reason.empty() ? table.text("reason") : table.text_or("reason", reason);
  interval.source = source.empty() ? table.text("source") : table.text_or("source", source);
  interval.place = table.place();
  table.finish();
  return interval;
}

Result<RecoatInterval> with_laws(const IntervalHours& interval,
                                 const std::string& product,
                                 const Stages& stages,
                                 const std::string& abrade_grit) {
  RecoatInterval result{interval.condition, {}, std::nullopt, interval.reason, interval.source};
  if (needs_no_laws(interval)) {
    return result;
  }
  if (interval.condition == RecoatCondition::kAbrade && abrade_grit.empty()) {
    return tl::unexpected(interval.place.error(fmt::format(
        "condition \"abrade\" is allowed only where '{}' has the key abrade_grit", product)));
  }
  const DryingStage* laws = law_giver(stages);
  if (laws == nullptr) {
    return tl::unexpected(interval.place.error(fmt::format(
        "'{}' has no stage \"recoat\" and none before it, whose law the hours could follow",
        product)));
  }
  Result<StageTiming> opens = opening_of(interval, product, stages, *laws);
  if (!opens) {
    return pass_on(std::move(opens.error()));
  }
  result.opens = std::move(*opens);
  if (interval.closes) {
    // No film exponent: a thicker coat must not hold a window open beyond its hours.
    result.closes = StageTiming{{{laws->timing.phases.back().law, *interval.closes, 0.0}}};
  }
  if (!closes_after_opening(result)) {
    return tl::unexpected(interval.place.error(
        "the interval closes before it opens; allowed: closes_low_hours and closes_high_hours at "
        "least as long as those of the opening"));
  }
  return result;
}

}  // namespace coatwright
