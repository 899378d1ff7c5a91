#include "recipe/sanding_reader.h"

#include <utility>

#include <fmt/format.h>

#include "recipe/recipe_names.h"
#include "recipe/timing_reader.h"
#include "recipe/toml_reader.h"

namespace coatwright {
namespace {

const NamedValues<SurfaceLeft>& known_surfaces() {
  static const NamedValues<SurfaceLeft> kKnown = named(
      {SurfaceLeft::kSawn, SurfaceLeft::kPlaned, SurfaceLeft::kScraped, SurfaceLeft::kOldFinish});
  return kKnown;
}

const NamedValues<Sheen>& known_sheens() {
  static const NamedValues<Sheen> kKnown =
      named({Sheen::kMatt, Sheen::kSatin, Sheen::kSemiGloss, Sheen::kGloss});
  return kKnown;
}

constexpr std::pair<std::string_view, SandedWood> kWoodKeys[] = {
    {"ring", SandedWood::kRing},
    {"semi_ring", SandedWood::kSemiRing},
    {"diffuse", SandedWood::kDiffuse},
    {"diffuse_blotching", SandedWood::kDiffuseBlotching},
    {"softwood", SandedWood::kSoftwood}};

/// The keys of three grits, which get finer or stay.
GritLimits read_limits(TomlTable& table) {
  GritLimits limits;
  limits.coarsest = table.name("coarsest", known_grits());
  limits.typical = table.name("typical", known_grits());
  limits.finest = table.name("finest", known_grits());
  if (table.ok() && grit_number(limits.typical) < grit_number(limits.coarsest)) {
    table.wrong("typical", fmt::format("{} or finer, as \"coarsest\" says", limits.coarsest));
  }
  if (table.ok() && grit_number(limits.finest) < grit_number(limits.typical)) {
    table.wrong("finest", fmt::format("{} or finer, as \"typical\" says", limits.typical));
  }
  return limits;
}

SandingGround read_ground(TomlTable& table) {
  SandingGround ground;
  ground.reason = table.text("reason");
  ground.source = table.text("source");
  ground.how = table.name("how", known_grades());
  return ground;
}

GritChoice read_choice(TomlTable& table) {
  GritLimits limits = read_limits(table);
  return {std::move(limits), read_ground(table)};
}

/// Adds what holds for each of the table's layers; a layer may be in one table of the list alone.
template <class T>
void add_to_layers(TomlTable& table, const T& value, std::map<std::string, T, std::less<>>& all) {
  const std::vector<std::string> layers = table.texts("layers", true);
  table.finish();
  for (const std::string& layer : layers) {
    if (table.ok() && !all.emplace(layer, value).second) {
      table.wrong(
          table.place("layers").error(fmt::format("found '{}' again; allowed: once", layer)));
    }
  }
}

void read_final_grit(TomlTable& table, SandingTable& sanding) {
  FinalGrit grit;
  for (const auto& [key, wood] : kWoodKeys) {
    TomlTable limits = table.table(key);
    if (!table.ok()) {
      return;
    }
    grit.limits[wood] = read_limits(limits);
    limits.finish();
  }
  grit.ground = read_ground(table);
  add_to_layers(table, grit, sanding.final_grits);
}

void read_start_grit(TomlTable& table, SandingTable& sanding) {
  const SurfaceLeft surface = choice(table, "surface", known_surfaces());
  const bool added = sanding.start_grits.emplace(surface, read_choice(table)).second;
  table.finish();
  if (table.ok() && !added) {
    table.wrong("surface", "each one once in the file");
  }
}

void read_grain_raising(TomlTable& table, SandingTable& sanding) {
  const bool softwood = table.name("woods", {"hardwood", "softwood"}) == "softwood";
  std::optional<GritChoice>& kept = softwood ? sanding.raised_softwood : sanding.raised_hardwood;
  if (table.ok() && kept) {
    table.wrong("woods", "each one once in the file");
  }
  kept = read_choice(table);
  table.finish();
}

void read_rub_out(TomlTable& table, SandingTable& sanding) {
  RubOut rub_out;
  const Sheen sheen = choice(table, "sheen", known_sheens());
  for (const std::string_view grit : table.names("grits", known_grits())) {
    if (!rub_out.grits.empty() && grit_number(grit) <= grit_number(rub_out.grits.back())) {
      table.wrong("grits", "each grit finer than the one before");
    }
    rub_out.grits.emplace_back(grit);
  }
  rub_out.then = table.text("then");
  rub_out.ground = read_ground(table);
  table.finish();
  if (table.ok() && !sanding.rub_outs.emplace(sheen, std::move(rub_out)).second) {
    table.wrong("sheen", "each one once in the file");
  }
}

void read_rub_out_wait(TomlTable& table, SandingTable& sanding) {
  const DurationRange waits = read_hours(table);
  const RubOutWait wait = {waits, read_ground(table)};
  add_to_layers(table, wait, sanding.rub_out_waits);
}

/// Reads all tables of one name.
void read_all(TomlTable& root,
              std::string_view key,
              void (*read)(TomlTable&, SandingTable&),
              SandingTable& sanding) {
  for (TomlTable& table : root.tables(key, true)) {
    if (root.ok()) {
      read(table, sanding);
    }
  }
}

/// What adaptation counts on: every surface, both kinds of wood, every sheen.
void check_complete(TomlTable& root, const SandingTable& sanding) {
  for (const auto& [name, surface] : known_surfaces()) {
    if (root.ok() && !sanding.start_grits.contains(surface)) {
      root.wrong(root.place("start_grit").error(fmt::format("no table for \"{}\"", name)));
    }
  }
  if (root.ok() && (!sanding.raised_hardwood || !sanding.raised_softwood)) {
    root.wrong(root.place("grain_raising").error("not both tables, \"hardwood\" and \"softwood\""));
  }
  for (const auto& [name, sheen] : known_sheens()) {
    if (root.ok() && !sanding.rub_outs.contains(sheen)) {
      root.wrong(root.place("rub_out").error(fmt::format("no table for \"{}\"", name)));
    }
  }
}

}  // namespace

Result<SandingTable> parse_sanding(std::string_view text, const std::string& label) {
  Result<TomlFile> file = TomlFile::parse(text, label);
  if (!file) {
    return pass_on(std::move(file.error()));
  }
  SandingTable sanding;
  TomlTable root = file->root();
  read_all(root, "final_grit", read_final_grit, sanding);
  read_all(root, "start_grit", read_start_grit, sanding);
  read_all(root, "grain_raising", read_grain_raising, sanding);
  read_all(root, "rub_out", read_rub_out, sanding);
  read_all(root, "rub_out_wait", read_rub_out_wait, sanding);
  check_complete(root, sanding);
  root.finish();
  if (file->error()) {
    return tl::unexpected(*file->error());
  }
  return sanding;
}

}  // namespace coatwright
