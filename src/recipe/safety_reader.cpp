#include "recipe/safety_reader.h"

#include <set>

#include "recipe/recipe_names.h"
#include "recipe/toml_reader.h"

namespace coatwright {
namespace {

const NamedValues<SafetySection>& known_sections() {
  static const NamedValues<SafetySection> kKnown = {
      {"rags", SafetySection::kRags},
      {"fire", SafetySection::kFire},
      {"air", SafetySection::kAir},
      {"lungs", SafetySection::kLungs},
      {"skin", SafetySection::kSkin},
      {"eyes", SafetySection::kEyes},
      {"dust", SafetySection::kDust},
      {"nitrocellulose", SafetySection::kNitrocellulose},
      {"isocyanates", SafetySection::kIsocyanates},
      {"catalysts", SafetySection::kCatalysts},
      {"storage", SafetySection::kStorage},
      {"children", SafetySection::kChildren},
      {"disposal", SafetySection::kDisposal},
      {"gone-wrong", SafetySection::kGoneWrong},
      {"every-page", SafetySection::kEveryPage}};
  return kKnown;
}

const NamedValues<HazardClass>& known_hazards() {
  static const NamedValues<HazardClass> kKnown = {{"all", HazardClass::kAll},
                                                  {"rags-self-heat", HazardClass::kRagsSelfHeat},
                                                  {"unthinned-oil", HazardClass::kUnthinnedOil},
                                                  {"flammable", HazardClass::kFlammable},
                                                  {"nitrocellulose", HazardClass::kNitrocellulose},
                                                  {"sprayed-mist", HazardClass::kSprayedMist},
                                                  {"isocyanates", HazardClass::kIsocyanates},
                                                  {"formaldehyde", HazardClass::kFormaldehyde},
                                                  {"catalysed", HazardClass::kCatalysed},
                                                  {"waterborne", HazardClass::kWaterborne}};
  return kKnown;
}

template <class E>
std::string_view name_in(const NamedValues<E>& values, E wanted) {
  for (const auto& [name, value] : values) {
    if (value == wanted) {
      return name;
    }
  }
  return "";
}

std::vector<HazardClass> read_classes(TomlTable& table) {
  std::vector<HazardClass> classes;
  for (const std::string_view name : table.names("applies_to", names_in(known_hazards()))) {
    classes.push_back(value_named(known_hazards(), name));
  }
  return classes;
}

SafetyHeadline read_headline(TomlTable& table) {
  SafetyHeadline headline;
  headline.applies_to = read_classes(table);
  headline.title = table.text("title");
  headline.text = table.text("text");
  headline.source = table.text("source");
  headline.how = table.name("how", known_grades());
  table.finish();
  return headline;
}

SafetyStatement read_statement(TomlTable& table) {
  SafetyStatement statement;
  statement.section = choice(table, "section", known_sections());
  statement.applies_to = read_classes(table);
  statement.text = table.text("text");
  statement.source = table.text("source");
  statement.how = table.name("how", known_grades());
  table.finish();
  return statement;
}

}  // namespace

std::string_view name_of(SafetySection section) {
  return name_in(known_sections(), section);
}

std::string_view name_of(HazardClass hazard) {
  return name_in(known_hazards(), hazard);
}

Result<SafetyTexts> parse_safety_texts(std::string_view text, const std::string& label) {
  Result<TomlFile> file = TomlFile::parse(text, label);
  if (!file) {
    return pass_on(std::move(file.error()));
  }
  SafetyTexts all;
  std::set<std::string> texts;
  TomlTable root = file->root();
  for (TomlTable& table : root.tables("headline", false)) {
    all.headlines.push_back(read_headline(table));
    if (table.ok() && !texts.insert(all.headlines.back().text).second) {
      table.wrong("text", "each one once in the file");
    }
  }
  for (TomlTable& table : root.tables("statement", true)) {
    all.statements.push_back(read_statement(table));
    if (table.ok() && !texts.insert(all.statements.back().text).second) {
      table.wrong("text", "each one once in the file");
    }
  }
  root.finish();
  if (file->error()) {
    return tl::unexpected(*file->error());
  }
  return all;
}

}  // namespace coatwright
