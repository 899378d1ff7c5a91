#include "recipe/defects_reader.h"

#include <algorithm>
#include <set>
#include <utility>

#include "recipe/recipe_names.h"
#include "recipe/toml_reader.h"

namespace coatwright {
namespace {

const NamedValues<FaultSign>& known_signs() {
  static const NamedValues<FaultSign> kKnown = {{"coat-early", FaultSign::kCoatEarly},
                                                {"coat-late", FaultSign::kCoatLate},
                                                {"not-abraded", FaultSign::kNotAbraded},
                                                {"forbidden-pair", FaultSign::kForbiddenPair},
                                                {"humid-air", FaultSign::kHumidAir},
                                                {"near-dew-point", FaultSign::kNearDewPoint},
                                                {"cold-air", FaultSign::kColdAir},
                                                {"hot-air", FaultSign::kHotAir},
                                                {"warming-wood", FaultSign::kWarmingWood},
                                                {"thick-film", FaultSign::kThickFilm},
                                                {"wiped-late", FaultSign::kWipedLate},
                                                {"early-use", FaultSign::kEarlyUse},
                                                {"oily-wood", FaultSign::kOilyWood},
                                                {"tannin-wood", FaultSign::kTanninWood},
                                                {"blotching-wood", FaultSign::kBlotchingWood},
                                                {"grain-not-raised", FaultSign::kGrainNotRaised},
                                                {"sanded-too-fine", FaultSign::kSandedTooFine},
                                                {"wet-wood", FaultSign::kWetWood}};
  return kKnown;
}

const NamedValues<ProductKind>& known_kinds() {
  static const NamedValues<ProductKind> kKnown = named({ProductKind::kStain,
                                                        ProductKind::kFiller,
                                                        ProductKind::kSealer,
                                                        ProductKind::kClearFilm,
                                                        ProductKind::kEnamel,
                                                        ProductKind::kOil,
                                                        ProductKind::kWax});
  return kKnown;
}

/// What the defect befalls: layers or kinds, one of the two.
void read_befallen(TomlTable& table, Defect& defect) {
  if (table.has("layers") == table.has("kinds")) {
    table.wrong("either layers or kinds says what it befalls");
    return;
  }
  if (table.has("layers")) {
    defect.layers = table.texts("layers", true);
    return;
  }
  for (const std::string_view name : table.names("kinds", names_in(known_kinds()))) {
    defect.kinds.push_back(value_named(known_kinds(), name));
  }
}

/// Where a trigger does not say how it is known, it is as the defect is.
DefectTrigger read_trigger(TomlTable& table, const Defect& defect) {
  DefectTrigger trigger;
  trigger.sign = choice(table, "sign", known_signs());
  trigger.because = table.text("because");
  trigger.prevention = table.text("prevention");
  if (table.has("source") != table.has("how")) {
    table.wrong("source and how stand together, or neither");
  }
  trigger.source = table.text_or("source", defect.source);
  trigger.how = table.has("how") ? std::string(table.name("how", known_grades())) : defect.how;
  table.finish();
  return trigger;
}

void read_triggers(TomlTable& table, Defect& defect) {
  std::set<FaultSign> signs;
  for (TomlTable& each : table.tables("trigger", false)) {
    defect.triggers.push_back(read_trigger(each, defect));
    if (each.ok() && !signs.insert(defect.triggers.back().sign).second) {
      each.wrong("sign", "each one once for a defect");
    }
  }
}

Defect read_defect(TomlTable& table) {
  Defect defect;
  defect.name = read_recipe_name(table, "");
  defect.title = table.text("title");
  read_befallen(table, defect);
  defect.cause = table.text("cause");
  defect.threshold = table.text("threshold");
  defect.remedy = table.text("remedy");
  defect.prevention = table.text("prevention");
  defect.source = table.text("source");
  defect.how = table.name("how", known_grades());
  read_triggers(table, defect);
  table.finish();
  return defect;
}

}  // namespace

std::string_view name_of(FaultSign sign) {
  const auto found = std::find_if(known_signs().begin(),
                                  known_signs().end(),
                                  [sign](const auto& one) { return one.second == sign; });
  return found->first;
}

bool Defect::befalls(const Product& product) const {
  return layers.empty() ? std::find(kinds.begin(), kinds.end(), product.kind) != kinds.end()
                        : std::find(layers.begin(), layers.end(), product.layer) != layers.end();
}

Result<Defects> parse_defects(std::string_view text, const std::string& label) {
  Result<TomlFile> file = TomlFile::parse(text, label);
  if (!file) {
    return pass_on(std::move(file.error()));
  }
  Defects defects;
  std::set<std::string> names;
  TomlTable root = file->root();
  for (TomlTable& table : root.tables("defect", true)) {
    defects.push_back(read_defect(table));
    if (table.ok() && !names.insert(defects.back().name).second) {
      table.wrong("name", "each one once in the file");
    }
  }
  root.finish();
  if (file->error()) {
    return tl::unexpected(*file->error());
  }
  return defects;
}

}  // namespace coatwright
