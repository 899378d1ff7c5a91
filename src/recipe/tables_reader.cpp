#include "recipe/tables_reader.h"

#include <algorithm>

#include <fmt/format.h>

#include "recipe/recipe_names.h"
#include "recipe/toml_reader.h"

namespace coatwright {
namespace {

constexpr NumberRange kDensityRange = {80.0, 1400.0};       // kg/m3, balsa to lignum vitae
constexpr NumberRange kShrinkageRange = {0.0, 25.0, true};  // percent, green to oven-dry
constexpr NumberRange kMinutesRange = {0.0, 600.0};         // fixed
constexpr NumberRange kPerAreaRange = {0.0, 240.0, true};   // min/m2

const NamedValues<Pores>& known_pores() {
  static const NamedValues<Pores> kKnown = {{"ring", Pores::kRing},
                                            {"semi-ring", Pores::kSemiRing},
                                            {"diffuse", Pores::kDiffuse},
                                            {"softwood", Pores::kSoftwood}};
  return kKnown;
}

const NamedValues<PairVerdict>& known_verdicts() {
  static const NamedValues<PairVerdict> kKnown = named({PairVerdict::kOk,
                                                        PairVerdict::kWithinWindow,
                                                        PairVerdict::kAbradeFirst,
                                                        PairVerdict::kBarrierFirst,
                                                        PairVerdict::kFullCureFirst,
                                                        PairVerdict::kNever});
  return kKnown;
}

bool has_condition(const PairEntry& entry, RecoatCondition condition) {
  return std::any_of(entry.intervals.begin(),
                     entry.intervals.end(),
                     [condition](const IntervalHours& one) { return one.condition == condition; });
}

bool always_never(const PairEntry& entry) {
  return !has_condition(entry, RecoatCondition::kNone) &&
         !has_condition(entry, RecoatCondition::kAbrade);
}

/// @return what the intervals of an entry must be for its verdict; empty: they are.
std::string_view wanted_by_verdict(const PairEntry& entry) {
  switch (entry.rule.verdict) {
    case PairVerdict::kOk:
      return has_condition(entry, RecoatCondition::kNone) ? ""
                                                          : "an interval of condition \"none\"";
    case PairVerdict::kWithinWindow: {
      const bool closes =
          std::any_of(entry.intervals.begin(), entry.intervals.end(), [](const IntervalHours& one) {
            return one.condition == RecoatCondition::kNone && one.closes;
          });
      return closes ? "" : "an interval of condition \"none\" that closes";
    }
    case PairVerdict::kAbradeFirst:
      return has_condition(entry, RecoatCondition::kAbrade) &&
                     !has_condition(entry, RecoatCondition::kNone)
                 ? ""
                 : "intervals of condition \"abrade\", none of \"none\"";
    case PairVerdict::kBarrierFirst:
      return always_never(entry) && !entry.rule.barriers.empty()
                 ? ""
                 : "intervals of condition \"never\" alone, and barriers";
    case PairVerdict::kFullCureFirst:
      return always_never(entry) ? "an interval that opens" : "";
    case PairVerdict::kNever:
      break;
  }
  return always_never(entry) ? "" : "intervals of condition \"never\" alone";
}

/// Parses a file that is a list of tables, each of which `read` adds to the result.
template <class T, class Read>
Result<T> parse_list(std::string_view text,
                     const std::string& label,
                     std::string_view key,
                     Read read) {
  Result<TomlFile> file = TomlFile::parse(text, label);
  if (!file) {
    return pass_on(std::move(file.error()));
  }
  T result;
  TomlTable root = file->root();
  for (TomlTable& table : root.tables(key, true)) {
    read(table, result);
  }
  root.finish();
  if (file->error()) {
    return tl::unexpected(*file->error());
  }
  return result;
}

/// Adds an entry; notes that its key is there twice.
template <class T>
void add(TomlTable& table,
         std::string_view key,
         T& result,
         typename T::key_type name,
         typename T::mapped_type value) {
  table.finish();
  if (table.ok() && !result.emplace(std::move(name), std::move(value)).second) {
    table.wrong(key, "each one once in the file");
  }
}

void read_pair(TomlTable& table, Compatibility& result) {
  PairEntry entry;
  PairRule& rule = entry.rule;
  rule.under = table.text("under");
  rule.over = table.text("over");
  if (table.ok() && rule.under == rule.over) {
    table.wrong("over",
                "another layer; one over itself belongs in its product's file, as [[recoat]]");
  }
  rule.verdict = choice(table, "verdict", known_verdicts());
  rule.reason = table.text("reason");
  rule.source = table.text("source");
  rule.how = table.name("how", known_grades());
  rule.dissent = table.text_or("dissent");
  rule.barriers = table.texts("barriers", false);
  for (TomlTable& interval : table.tables("interval", true)) {
    entry.intervals.push_back(read_interval(interval, rule.reason, rule.source));
  }
  if (const std::string_view wanted = wanted_by_verdict(entry); table.ok() && !wanted.empty()) {
    table.wrong("verdict", fmt::format("with this verdict: {}", wanted));
  }
  std::pair<std::string, std::string> names{rule.under, rule.over};
  add(table, "over", result, std::move(names), std::move(entry));
}

void read_species(TomlTable& table, SpeciesTable& result) {
  Species species;
  species.name = read_recipe_name(table, "");
  species.title = table.text("title");
  species.pores = choice(table, "pores", known_pores());
  species.density_kg_per_m3 = table.number("density_kg_per_m3", kDensityRange);
  species.blotches = table.flag("blotches");
  species.oily = table.flag("oily");
  species.tannin = table.flag("tannin");
  species.fills = table.flag("fills");
  species.source = table.text("source");
  species.radial_shrinkage_percent = table.number("radial_shrinkage_percent", kShrinkageRange);
  species.tangential_shrinkage_percent =
      table.number("tangential_shrinkage_percent", kShrinkageRange);
  species.shrinkage_source = table.text("shrinkage_source");
  if (table.ok() && species.fills && species.pores == Pores::kSoftwood) {
    table.wrong("fills", "false: a softwood has no pores to fill");
  }
  std::string name = species.name;
  add(table, "name", result, std::move(name), std::move(species));
}

/// The range per square metre may be left out, where the work does not grow with the area.
void read_per_area(TomlTable& table, WorkingTime& time) {
  if (!table.has("low_minutes_per_m2") && !table.has("high_minutes_per_m2")) {
    static_cast<void>(table.optional_number("low_minutes_per_m2", kPerAreaRange));  // now known
    static_cast<void>(table.optional_number("high_minutes_per_m2", kPerAreaRange));
    return;
  }
  time.low_minutes_per_m2 = table.number("low_minutes_per_m2", kPerAreaRange);
  time.high_minutes_per_m2 = table.number("high_minutes_per_m2", kPerAreaRange);
  if (table.ok() && time.high_minutes_per_m2 < time.low_minutes_per_m2) {
    table.wrong("high_minutes_per_m2",
                fmt::format("at least low_minutes_per_m2, {}", time.low_minutes_per_m2));
  }
}

void read_working_time(TomlTable& table, WorkingTimes& result) {
  WorkingTime time;
  std::string name = table.text("name");
  time.fixed_minutes = table.number_or("fixed_minutes", 0.0, kMinutesRange);
  read_per_area(table, time);
  if (table.ok() && time.fixed_minutes <= 0.0 && time.low_minutes_per_m2 <= 0.0) {
    table.wrong(
        "the operation takes no time; allowed: fixed_minutes above 0, or "
        "low_minutes_per_m2 and high_minutes_per_m2");
  }
  time.source = table.text("source");
  add(table, "name", result, std::move(name), std::move(time));
}

}  // namespace

Result<Compatibility> parse_compatibility(std::string_view text, const std::string& label) {
  return parse_list<Compatibility>(text, label, "pair", read_pair);
}

Result<SpeciesTable> parse_species(std::string_view text, const std::string& label) {
  return parse_list<SpeciesTable>(text, label, "species", read_species);
}

Result<WorkingTimes> parse_working_times(std::string_view text, const std::string& label) {
  return parse_list<WorkingTimes>(text, label, "operation", read_working_time);
}

}  // namespace coatwright
