#include "recipe/part_list.h"

#include <utility>

#include <fmt/format.h>

#include "recipe/building_job.h"
#include "recipe/part_limits.h"

namespace coatwright {
namespace {

constexpr int kMostApart = 50;
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

}  // namespace

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
  if (table.has("finish")) {
    part.before_assembly =
        table.name("finish", {"before assembly", "after assembly"}) == "before assembly";
  }
  part.unit = table.text_or("unit");
  if (table.has("apart")) {
    part.apart = table.flag("apart");
  }
  if (table.ok() && part.apart && (!part.before_assembly || !part.unit.empty())) {
    table.wrong("apart",
                "true only with finish = \"before assembly\", and for a part without a unit");
  }
  if (table.ok() && part.apart && part.count > kMostApart) {
    table.wrong("apart", fmt::format("true for a count of up to {}", kMostApart));
  }
  table.finish();
  return part;
}

Result<std::vector<Part>> read_part_list(std::string_view text, const std::string& label) {
  return read_building_job(text, label).map([](BuildingJob job) { return std::move(job.parts); });
}

}  // namespace coatwright
