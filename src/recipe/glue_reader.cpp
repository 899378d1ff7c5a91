#include "recipe/glue_reader.h"

#include <utility>

#include <fmt/format.h>

#include "recipe/recipe_names.h"
#include "recipe/timing_reader.h"
#include "recipe/toml_reader.h"

namespace coatwright {
namespace {

constexpr NumberRange kOpenRange = {0.0, 240.0, true};       // min
constexpr NumberRange kClampRange = {0.0, 2880.0, true};     // min
constexpr NumberRange kStrengthRange = {0.0, 1000.0, true};  // h
constexpr NumberRange kCelsiusRange = {0.0, 60.0};

/// Reads a pair of keys, PREFIXlow_minutes and PREFIXhigh_minutes.
std::pair<Hours, Hours> read_minutes(TomlTable& table,
                                     const std::string& prefix,
                                     const NumberRange& range) {
  const double low = table.number(prefix + "low_minutes", range);
  const double high = table.number(prefix + "high_minutes", range);
  if (table.ok() && high < low) {
    table.wrong(prefix + "high_minutes", fmt::format("at least {}low_minutes, {}", prefix, low));
  }
  return {Hours::from_minutes(low), Hours::from_minutes(high)};
}

std::pair<Temperature, Temperature> read_temperatures(TomlTable& table) {
  const double low = table.number("temperature_min_c", kCelsiusRange);
  const double high = table.number("temperature_max_c", kCelsiusRange);
  if (table.ok() && high <= low) {
    table.wrong("temperature_max_c", fmt::format("above temperature_min_c, {}", low));
  }
  return {Temperature::from_celsius(low), Temperature::from_celsius(high)};
}

void check_strength(TomlTable& table, const Glue& glue) {
  if (table.ok() && glue.full_strength < glue.clamp_high) {
    table.wrong("full_strength_hours",
                fmt::format("at least the {} h in clamps", glue.clamp_high.hours()));
  }
}

/// None where the file does not say: the joint may be worked when the clamps come off.
std::optional<Hours> read_surface_after(TomlTable& table, const Hours& clamp_high) {
  if (!table.has("surface_after_hours")) {
    return std::nullopt;
  }
  const Hours after = Hours::from_hours(table.number("surface_after_hours", kStrengthRange));
  if (table.ok() && after < clamp_high) {
    table.wrong("surface_after_hours",
                fmt::format("at least the {} h in clamps", clamp_high.hours()));
  }
  return after;
}

void read_glue(TomlTable& table, Glues& glues) {
  const std::string name = read_recipe_name(table, "");
  const std::string title = table.text("title");
  const auto open = read_minutes(table, "open_", kOpenRange);
  const std::string open_source = table.text("open_source");
  const auto clamp = read_minutes(table, "clamp_", kClampRange);
  const std::string source = table.text("source");
  const std::string_view how = table.name("how", known_grades());
  const Hours strength = Hours::from_hours(table.number("full_strength_hours", kStrengthRange));
  const std::string strength_source = table.text("strength_source");
  const auto surface_after = read_surface_after(table, clamp.second);
  const std::string surface_source = surface_after ? table.text("surface_source") : "";
  const auto temperatures = read_temperatures(table);
  const std::string temperature_source = table.text("temperature_source");
  const RateLaw law = read_rate_law(table);
  const std::string law_source = table.text("law_source");
  const Glue glue{name,
                  title,
                  open.first,
                  open.second,
                  clamp.first,
                  clamp.second,
                  strength,
                  temperatures.first,
                  temperatures.second,
                  law,
                  source,
                  law_source,
                  open_source,
                  strength_source,
                  temperature_source,
                  std::string(how),
                  table.text_or("note"),
                  surface_after,
                  surface_source};
  table.finish();
  check_strength(table, glue);
  if (table.ok() && !glues.emplace(name, glue).second) {
    table.wrong("name", "each one once in the file");
  }
}

}  // namespace

Result<Glues> parse_glues(std::string_view text, const std::string& label) {
  Result<TomlFile> file = TomlFile::parse(text, label);
  if (!file) {
    return pass_on(std::move(file.error()));
  }
  Glues glues;
  TomlTable root = file->root();
  for (TomlTable& table : root.tables("glue", true)) {
    read_glue(table, glues);
  }
  root.finish();
  if (file->error()) {
    return tl::unexpected(*file->error());
  }
  return glues;
}

}  // namespace coatwright
