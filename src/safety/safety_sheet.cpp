#include "safety/safety_sheet.h"

#include <algorithm>
#include <map>

namespace coatwright {
namespace {

bool applies(const std::vector<HazardClass>& classes, const Product& product) {
  return std::any_of(classes.begin(), classes.end(), [&](HazardClass hazard) {
    return belongs_to(product, hazard);
  });
}

std::vector<std::size_t> concerned(const SafetyStatement& statement,
                                   const std::vector<const Product*>& products) {
  std::vector<std::size_t> positions;
  for (std::size_t i = 0; i < products.size(); ++i) {
    if (applies(statement.applies_to, *products[i])) {
      positions.push_back(i);
    }
  }
  return positions;
}

std::vector<const Product*> each_once(const std::vector<const Product*>& products) {
  std::vector<const Product*> once;
  for (const Product* product : products) {
    const bool known = std::any_of(
        once.begin(), once.end(), [&](const Product* one) { return one->name == product->name; });
    if (!known) {
      once.push_back(product);
    }
  }
  return once;
}

}  // namespace

bool belongs_to(const Product& product, HazardClass hazard) {
  const Hazards& hazards = product.hazards;
  switch (hazard) {
    case HazardClass::kAll:
      return true;
    case HazardClass::kRagsSelfHeat:
      return hazards.rags_self_heat;
    case HazardClass::kUnthinnedOil:
      return hazards.rags_self_heat && !hazards.flammable;
    case HazardClass::kFlammable:
      return hazards.flammable;
    case HazardClass::kNitrocellulose:
      return hazards.nitrocellulose;
    case HazardClass::kSprayedMist:
      return hazards.sprayed_mist;
    case HazardClass::kIsocyanates:
      return hazards.isocyanates;
    case HazardClass::kFormaldehyde:
      return hazards.formaldehyde;
    case HazardClass::kCatalysed:
      return hazards.catalysed;
    case HazardClass::kWaterborne:
      return product.carrier == "water";
  }
  return true;  // a class that is not known here is said rather than left out
}

std::vector<HazardClass> hazards_of(const Product& product) {
  std::vector<HazardClass> classes;
  for (const HazardClass hazard : {HazardClass::kRagsSelfHeat,
                                   HazardClass::kUnthinnedOil,
                                   HazardClass::kFlammable,
                                   HazardClass::kNitrocellulose,
                                   HazardClass::kSprayedMist,
                                   HazardClass::kIsocyanates,
                                   HazardClass::kFormaldehyde,
                                   HazardClass::kCatalysed,
                                   HazardClass::kWaterborne}) {
    if (belongs_to(product, hazard)) {
      classes.push_back(hazard);
    }
  }
  return classes;
}

SafetySheet make_safety_sheet(const std::vector<const Product*>& products,
                              const SafetyTexts& texts) {
  SafetySheet sheet{each_once(products), {}, {}};
  for (const SafetyHeadline& headline : texts.headlines) {
    const bool concerns =
        std::any_of(sheet.products.begin(), sheet.products.end(), [&](const Product* product) {
          return applies(headline.applies_to, *product);
        });
    if (concerns && sheet.headlines.size() < kMostHeadlines) {
      sheet.headlines.push_back(&headline);
    }
  }
  std::map<SafetySection, SheetSection> sections;
  for (const SafetyStatement& statement : texts.statements) {
    auto positions = concerned(statement, sheet.products);
    if (!positions.empty()) {
      SheetSection& section = sections[statement.section];
      section.section = statement.section;
      section.statements.push_back({&statement, std::move(positions)});
    }
  }
  for (auto& [key, section] : sections) {
    sheet.sections.push_back(std::move(section));
  }
  return sheet;
}

}  // namespace coatwright
