#include "recipe/part_list.h"

#include <fmt/format.h>

#include "recipe/part_limits.h"

namespace coatwright {
namespace {

constexpr std::string_view kAllowedLengths = "_mm, _cm, _m or _in";

/// One of the three lengths, in the one unit that its key names.
Length read_length(TomlTable& table, std::string_view what, const NumberRange& range) {
  const PartUnit* unit = nullptr;
  for (const PartUnit& each : kPartUnits) {
    const std::string key = fmt::format("{}_{}", what, each.name);
    if (table.has(key) && unit != nullptr) {
      table.wrong(fmt::format("{} is there twice; allowed: one of {}", what, kAllowedLengths));
    }
    unit = table.has(key) ? &each : unit;
  }
  if (unit == nullptr) {
    if (table.ok()) {
      table.wrong(fmt::format("{} is missing; allowed: {}{}", what, what, kAllowedLengths));
    }
    return Length::from_metres(0);
  }
  const std::string key = fmt::format("{}_{}", what, unit->name);
  return Length::from_millimetres(table.number(key, in_unit(range, *unit)) * unit->millimetres);
}

Part read_part(TomlTable& table) {
  Part part;
  part.name = table.text("name");
  part.count = table.count_or("count", 1, kPartCountRange);
  part.size.length = read_length(table, "length", kPartSideRange);
  part.size.width = read_length(table, "width", kPartSideRange);
  part.size.thickness = read_length(table, "thickness", kPartThicknessRange);
  if (table.has("faces")) {
    part.faces = table.name("faces", {"one", "both"}) == "one" ? 1 : 2;
  }
  if (table.has("edges")) {
    part.edges = table.flag("edges");
  }
  table.finish();
  return part;
}

}  // namespace

Result<std::vector<Part>> read_part_list_toml(std::string_view text, const std::string& label) {
  Result<TomlFile> file = TomlFile::parse(text, label);
  if (!file) {
    return pass_on(std::move(file.error()));
  }
  std::vector<Part> parts;
  TomlTable root = file->root();
  for (TomlTable& table : root.tables("part", true)) {
    parts.push_back(read_part(table));
  }
  root.finish();
  if (file->error()) {
    return tl::unexpected(*file->error());
  }
  return parts;
}

Result<std::vector<Part>> read_part_list(std::string_view text, const std::string& label) {
  return label.ends_with(".toml") ? read_part_list_toml(text, label)
                                  : read_part_list_csv(text, label);
}

}  // namespace coatwright
