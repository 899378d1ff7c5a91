#include "recipe/aftercare_reader.h"

#include <algorithm>
#include <set>
#include <utility>

#include "recipe/recipe_names.h"
#include "recipe/toml_reader.h"

namespace coatwright {
namespace {

const NamedValues<AftercareSection>& known_sections() {
  static const NamedValues<AftercareSection> kKnown = {
      {"light-use", AftercareSection::kLightUse},
      {"full-use", AftercareSection::kFullUse},
      {"food", AftercareSection::kFood},
      {"keep-off-at-first", AftercareSection::kKeepOffAtFirst},
      {"keep-off", AftercareSection::kKeepOff},
      {"clean", AftercareSection::kClean},
      {"water", AftercareSection::kWater},
      {"heat", AftercareSection::kHeat},
      {"marks", AftercareSection::kMarks},
      {"renew", AftercareSection::kRenew},
      {"rags", AftercareSection::kRags}};
  return kKnown;
}

AftercareItem read_item(TomlTable& table) {
  AftercareItem item;
  item.section = choice(table, "section", known_sections());
  if (table.has("layers")) {
    item.layers = table.texts("layers", true);
  }
  item.text = table.text("text");
  item.source = table.text("source");
  item.how = table.name("how", known_grades());
  table.finish();
  return item;
}

}  // namespace

std::string_view name_of(AftercareSection section) {
  const auto found = std::find_if(known_sections().begin(),
                                  known_sections().end(),
                                  [section](const auto& one) { return one.second == section; });
  return found->first;
}

bool AftercareItem::is_of(std::string_view layer) const {
  return layers.empty() || std::find(layers.begin(), layers.end(), layer) != layers.end();
}

Result<Aftercare> parse_aftercare(std::string_view text, const std::string& label) {
  Result<TomlFile> file = TomlFile::parse(text, label);
  if (!file) {
    return pass_on(std::move(file.error()));
  }
  Aftercare items;
  std::set<std::string> texts;
  TomlTable root = file->root();
  for (TomlTable& table : root.tables("aftercare", true)) {
    items.push_back(read_item(table));
    if (table.ok() && !texts.insert(items.back().text).second) {
      table.wrong("text", "each text once in the file");
    }
  }
  root.finish();
  if (file->error()) {
    return tl::unexpected(*file->error());
  }
  return items;
}

}  // namespace coatwright
