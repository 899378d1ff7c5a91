#include "recipe/schedule_reader.h"

#include <algorithm>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "recipe/recipe_names.h"
#include "recipe/timing_reader.h"
#include "recipe/toml_reader.h"

namespace coatwright {
namespace {

constexpr NumberRange kCoatsRange = {1.0, 10.0};
constexpr NumberRange kWetFilmRange = {1.0, 2000.0};  // um
constexpr NumberRange kThinnerRange = {1.0, 50.0};    // percent

const NamedValues<ScheduleStepKind>& known_step_kinds() {
  static const NamedValues<ScheduleStepKind> kKnown = named({ScheduleStepKind::kSample,
                                                             ScheduleStepKind::kSand,
                                                             ScheduleStepKind::kRaiseGrain,
                                                             ScheduleStepKind::kWash,
                                                             ScheduleStepKind::kCoat,
                                                             ScheduleStepKind::kAbrade,
                                                             ScheduleStepKind::kRubOut});
  return kKnown;
}

const NamedValues<WoodTrait>& known_traits() {
  static const NamedValues<WoodTrait> kKnown = named({WoodTrait::kOpenPored,
                                                      WoodTrait::kClosePored,
                                                      WoodTrait::kBlotching,
                                                      WoodTrait::kOily,
                                                      WoodTrait::kTannin,
                                                      WoodTrait::kSoftwood});
  return kKnown;
}

const NamedValues<Sheen>& known_sheens() {
  static const NamedValues<Sheen> kKnown =
      named({Sheen::kMatt, Sheen::kSatin, Sheen::kSemiGloss, Sheen::kGloss});
  return kKnown;
}

const NamedValues<Skill>& known_skills() {
  static const NamedValues<Skill> kKnown =
      named({Skill::kBeginner, Skill::kPractised, Skill::kExpert});
  return kKnown;
}

// Interior furniture only: nothing here stands up to weather.
const std::vector<std::string_view> kUses = {"table-top",
                                             "desk-top",
                                             "kitchen",
                                             "shelf",
                                             "case-work",
                                             "door",
                                             "drawer",
                                             "chair",
                                             "bed",
                                             "bench",
                                             "small-work",
                                             "turning"};

const std::vector<std::string_view> kLooks = {"oiled",
                                              "waxed",
                                              "clear film",
                                              "stained clear film",
                                              "filled clear film",
                                              "stained and oiled",
                                              "painted"};

/// The grits of a sanding sequence, each finer than the one before; one alone elsewhere. None: they
/// are chosen when the schedule is adapted.
void read_grits(TomlTable& table, bool only_one, ScheduleStep& step) {
  if (!table.has("grits")) {
    static_cast<void>(table.texts("grits", false));  // counts it as known
    return;
  }
  for (const std::string_view grit : table.names("grits", known_grits())) {
    if (!step.grits.empty() && grit_number(grit) <= grit_number(step.grits.back())) {
      table.wrong(table.place("grits").error(
          fmt::format("found {} after {}; allowed: each grit finer than the one before",
                      grit,
                      step.grits.back())));
    }
    step.grits.emplace_back(grit);
  }
  if (only_one && table.ok() && step.grits.size() != 1) {
    table.wrong(
        table.place("grits").error(fmt::format("found {} grits; allowed: one", step.grits.size())));
  }
}

std::vector<std::string_view> known_thinners() {
  std::vector<std::string_view> names;
  for (const RelativeEvaporation& one : relative_evaporations()) {
    names.push_back(one.solvent);
  }
  return names;
}

/// Both keys or neither.
void read_thinner(TomlTable& table, ScheduleStep& step) {
  if (!table.has("thinner") && !table.has("thinner_percent")) {
    return;
  }
  const auto rate = relative_evaporation_of(table.name("thinner", known_thinners()));
  const double percent = table.number("thinner_percent", kThinnerRange);
  if (rate) {
    step.thinning = Thinning{*rate, percent / 100.0};
  }
}

void read_coat(TomlTable& table, ScheduleStep& step) {
  step.product = table.text("product");
  step.method = choice(table, "method", known_methods());
  step.coats = table.count_or("coats", 1, kCoatsRange);
  if (const std::optional<double> wet = table.optional_number("wet_film_um", kWetFilmRange)) {
    step.wet_film = FilmThickness::from_micrometres(*wet);
  }
  read_thinner(table, step);
}

ScheduleStep read_step(TomlTable& table) {
  ScheduleStep step;
  step.kind = choice(table, "kind", known_step_kinds());
  if (table.has("woods")) {
    for (const std::string_view name : table.names("woods", names_in(known_traits()))) {
      step.woods.push_back(value_named(known_traits(), name));
    }
  } else {
    static_cast<void>(table.texts("woods", false));  // counts it as known
  }
  switch (step.kind) {
    case ScheduleStepKind::kRubOut:
      step.waits = read_optional_hours(table, "waits_");
      step.source = step.waits ? table.text("source") : table.text_or("source");
      read_grits(table, false, step);
      break;
    case ScheduleStepKind::kSand:
      read_grits(table, false, step);
      break;
    case ScheduleStepKind::kRaiseGrain:
    case ScheduleStepKind::kAbrade:
      read_grits(table, true, step);
      break;
    case ScheduleStepKind::kCoat:
      read_coat(table, step);
      break;
    case ScheduleStepKind::kSample:
    case ScheduleStepKind::kWash:
      break;
  }
  step.note = table.text_or("note");
  table.finish();
  return step;
}

/// Abrading belongs between two coats: without one before or after there is nothing it prepares.
void check_abrading(TomlTable& table, const Schedule& schedule) {
  bool coated = false;
  bool waits_for_coat = false;
  for (const ScheduleStep& step : schedule.steps) {
    if (step.kind == ScheduleStepKind::kAbrade && !coated) {
      table.wrong(table.place("step").error(
          "abrades before the first coat; allowed: abrade after a coat, sand before it"));
      return;
    }
    coated = coated || step.kind == ScheduleStepKind::kCoat;
    waits_for_coat = step.kind == ScheduleStepKind::kAbrade ||
                     (waits_for_coat && step.kind != ScheduleStepKind::kCoat);
  }
  if (waits_for_coat) {
    table.wrong(table.place("step").error(
        "abrades after the last coat; allowed: abrade with a coat to follow"));
  }
}

void read_steps(TomlTable& table, Schedule& schedule) {
  for (TomlTable& step : table.tables("step", true)) {
    schedule.steps.push_back(read_step(step));
  }
  const bool coated =
      std::any_of(schedule.steps.begin(), schedule.steps.end(), [](const ScheduleStep& step) {
        return step.kind == ScheduleStepKind::kCoat;
      });
  if (table.ok() && !coated) {
    table.wrong(table.place("step").error("no step is a coat; allowed: at least one of kind coat"));
  } else if (table.ok()) {
    check_abrading(table, schedule);
  }
}

}  // namespace

Result<Schedule> parse_schedule(std::string_view text,
                                const std::string& label,
                                std::string_view expected_name) {
  Result<TomlFile> file = TomlFile::parse(text, label);
  if (!file) {
    return pass_on(std::move(file.error()));
  }
  Schedule schedule;
  TomlTable root = file->root();
  schedule.name = read_recipe_name(root, expected_name);
  schedule.title = root.text("title");
  schedule.summary = root.text("summary");
  schedule.look = root.name("look", kLooks);
  for (const std::string_view use : root.names("suits", kUses)) {
    schedule.suits.emplace_back(use);
  }
  schedule.uses = root.text("uses");
  schedule.sheen = choice(root, "sheen", known_sheens());
  schedule.skill = choice(root, "skill", known_skills());
  schedule.filled = root.has("filled") && root.flag("filled");
  schedule.tools = root.texts("tools", true);
  read_steps(root, schedule);
  root.finish();
  if (file->error()) {
    return tl::unexpected(*file->error());
  }
  return schedule;
}

}  // namespace coatwright
