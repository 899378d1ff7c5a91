#include "recipe/application_reader.h"

#include <algorithm>

#include <fmt/format.h>

#include "recipe/recipe_names.h"
#include "recipe/toml_reader.h"

namespace coatwright {
namespace {

constexpr NumberRange kEfficiencyRange = {0.0, 100.0, true};  // %
constexpr NumberRange kWasteRange = {0.0, 100.0};             // % of what is used
constexpr NumberRange kCanRange = {1.0, 250000.0};            // ml or US fl oz

void read_efficiency(TomlTable& table, Tool& tool) {
  tool.efficiency_range.low = table.number("efficiency_low_percent", kEfficiencyRange);
  tool.efficiency_range.high = table.number("efficiency_high_percent", kEfficiencyRange);
  if (table.ok() && tool.efficiency_range.high < tool.efficiency_range.low) {
    table.wrong("efficiency_high_percent",
                fmt::format("at least efficiency_low_percent, {}", tool.efficiency_range.low));
  }
  const NumberRange within = {tool.efficiency_range.low, tool.efficiency_range.high};
  tool.efficiency_percent = table.number("efficiency_percent", kEfficiencyRange);
  if (table.ok() && !within.holds(tool.efficiency_percent)) {
    table.wrong("efficiency_percent", fmt::format("within its own range, {}", within.text()));
  }
  tool.small_parts_percent = table.optional_number("small_parts_percent", kEfficiencyRange);
  if (table.ok() && tool.small_parts_percent &&
      *tool.small_parts_percent > tool.efficiency_percent) {
    table.wrong("small_parts_percent",
                fmt::format("at most efficiency_percent, {}", tool.efficiency_percent));
  }
}

void read_tool(TomlTable& table, Application& application) {
  Tool tool;
  tool.name = read_recipe_name(table, "");
  tool.title = table.text("title");
  tool.method = choice(table, "method", known_methods());
  tool.usual = table.flag("usual");
  read_efficiency(table, tool);
  tool.source = table.text("source");
  tool.how = table.name("how", known_grades());
  tool.note = table.text_or("note");
  table.finish();
  if (table.ok() && application.tool(tool.name) != nullptr) {
    table.wrong("name", "each one once in the file");
  }
  const auto usual_already = [&](const Tool& other) {
    return other.usual && other.method == tool.method;
  };
  if (table.ok() && tool.usual &&
      std::any_of(application.tools.begin(), application.tools.end(), usual_already)) {
    table.wrong("usual", fmt::format("true for one tool of the method {}", name_of(tool.method)));
  }
  application.tools.push_back(std::move(tool));
}

void read_waste(TomlTable table, Waste& waste) {
  waste.percent = table.number("percent", kWasteRange);
  waste.source = table.text("source");
  waste.how = table.name("how", known_grades());
  waste.note = table.text_or("note");
  table.finish();
}

void read_can(TomlTable& table, Application& application) {
  CanSize can;
  can.name = table.text("name");
  const bool metric = table.has("millilitres");
  if (table.ok() && metric == table.has("us_fluid_ounces")) {
    table.wrong("a can has one size; allowed: either millilitres or us_fluid_ounces");
  }
  can.units = metric ? UnitSystem::kMetric : UnitSystem::kUs;
  can.amount = table.count_or(metric ? "millilitres" : "us_fluid_ounces", 1, kCanRange);
  table.finish();
  application.cans.push_back(std::move(can));
}

/// What holds for the file as a whole.
void check_whole(TomlTable& root, const Application& application) {
  for (const auto& [name, method] : known_methods()) {
    const bool has_usual =
        std::any_of(application.tools.begin(), application.tools.end(), [&](const Tool& tool) {
          return tool.usual && tool.method == method;
        });
    if (root.ok() && !has_usual) {
      root.wrong(
          fmt::format("no tool of the method {} is usual; allowed: one of each method", name));
    }
  }
  for (const UnitSystem units : {UnitSystem::kMetric, UnitSystem::kUs}) {
    if (root.ok() && application.cans_in(units).empty()) {
      root.wrong(
          "cans of one system of units are missing; allowed: some in millilitres, some in "
          "us_fluid_ounces");
    }
  }
}

}  // namespace

Result<Application> parse_application(std::string_view text, const std::string& label) {
  Result<TomlFile> file = TomlFile::parse(text, label);
  if (!file) {
    return pass_on(std::move(file.error()));
  }
  Application application;
  TomlTable root = file->root();
  for (TomlTable& table : root.tables("tool", true)) {
    read_tool(table, application);
  }
  read_waste(root.table("waste"), application.waste);
  for (TomlTable& table : root.tables("can", true)) {
    read_can(table, application);
  }
  root.finish();
  check_whole(root, application);
  if (file->error()) {
    return tl::unexpected(*file->error());
  }
  return application;
}

}  // namespace coatwright
