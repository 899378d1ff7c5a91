#include "safety/storage_limits.h"

#include <algorithm>
#include <array>
#include <set>

#include <fmt/format.h>

namespace coatwright {
namespace {

constexpr double kQuartsPerGallon = 4.0;
constexpr double kResidueLitres = 1e-6;  // of adding up and of converting gallons

constexpr Volume gallons(double value) {
  return Volume::from_us_quarts(value * kQuartsPerGallon);
}

struct Rule {
  StoragePlace place;
  FireCategory from;  ///< The strictest category that it counts ...
  FireCategory to;    ///< ... to the mildest.
  double gallons;
  std::string_view what;
  std::string_view rule;
  std::string_view source;
  std::string_view how;
};

constexpr std::array<Rule, 6> kRules = {{
    {StoragePlace::kShop,
     FireCategory::kOne,
     FireCategory::kOne,
     25,
     "category 1 outside a cabinet, in one fire area",
     "29 CFR 1910.106(e)(2)(ii)(b)(1)",
     "osha_1910_106",
     "from memory"},  // 25 was read of the older class IA
    {StoragePlace::kShop,
     FireCategory::kTwo,
     FireCategory::kFour,
     120,
     "categories 2 to 4 outside a cabinet, in one fire area",
     "29 CFR 1910.106(e)(2)(ii)(b)(2)",
     "osha_1910_106",
     "from memory"},  // 120 was read of the older classes
    {StoragePlace::kShop,
     FireCategory::kOne,
     FireCategory::kFour,
     10,
     "liquids that burn outside a cabinet, before one is needed",
     "model fire code 5704.3.4.4",
     "ifc2018",
     "read"},
    {StoragePlace::kCabinet,
     FireCategory::kOne,
     FireCategory::kThree,
     60,
     "categories 1 to 3 in one cabinet",
     "29 CFR 1910.106(d)(3)(i)",
     "osha_1910_106",
     "read"},
    {StoragePlace::kCabinet,
     FireCategory::kFour,
     FireCategory::kFour,
     120,
     "category 4 in one cabinet",
     "29 CFR 1910.106(d)(3)(i)",
     "osha_1910_106",
     "read"},
    {StoragePlace::kCabinet,
     FireCategory::kOne,
     FireCategory::kFour,
     120,
     "liquids that burn in one cabinet, all together",
     "model fire code 5704.3.2.2",
     "ifc2018",
     "read"},
}};

/// The largest container in US gallons, by category 1 to 4 and kind. Source: osha_1910_106.
constexpr std::array<std::array<double, 3>, 4> kContainerGallons = {{
    {0.125, 1.0, 2.0},  // a pint
    {0.25, 5.0, 5.0},   // a quart
    {1.0, 5.0, 5.0},
    {1.0, 5.0, 5.0},
}};

bool counts(const Rule& rule, const StoredLiquid& liquid, const std::string& cabinet) {
  const bool there = liquid.place == rule.place &&
                     (rule.place != StoragePlace::kCabinet || liquid.cabinet == cabinet);
  return there && liquid.category >= rule.from && liquid.category <= rule.to;
}

void add_once(std::vector<std::string>& names, const std::string& name) {
  if (std::find(names.begin(), names.end(), name) == names.end()) {
    names.push_back(name);
  }
}

/// @return what stands of what the rule counts, whether it is too much or not.
StorageBreach against(const Rule& rule,
                      const std::vector<StoredLiquid>& liquids,
                      const std::string& cabinet) {
  StorageBreach breach{std::string(rule.what),
                       Volume::from_litres(0),
                       gallons(rule.gallons),
                       {},
                       cabinet,
                       std::string(rule.rule),
                       std::string(rule.source),
                       std::string(rule.how)};
  for (const StoredLiquid& liquid : liquids) {
    if (counts(rule, liquid, cabinet)) {
      breach.stands = Volume::from_litres(breach.stands.litres() + liquid.amount.litres());
      add_once(breach.products, liquid.product);
    }
  }
  return breach;
}

bool is_exceeded(const StorageBreach& breach) {
  return breach.over().litres() > kResidueLitres;
}

std::string_view words_for(ContainerKind kind) {
  switch (kind) {
    case ContainerKind::kGlass:
      return "glass";
    case ContainerKind::kMetal:
      return "metal or approved plastic";
    case ContainerKind::kSafetyCan:
      break;
  }
  return "a safety can";
}

std::optional<StorageBreach> container_against(const StoredLiquid& liquid) {
  if (!liquid.container || liquid.category == FireCategory::kNone) {
    return std::nullopt;
  }
  const auto category = static_cast<std::size_t>(liquid.category);
  const auto kind = static_cast<std::size_t>(liquid.container->kind);
  return StorageBreach{
      fmt::format(
          "one container of {} for category {}", words_for(liquid.container->kind), category),
      liquid.container->size,
      gallons(kContainerGallons.at(category - 1).at(kind)),
      {liquid.product},
      liquid.cabinet,
      "29 CFR 1910.106, table H-12",
      "osha_1910_106",
      "read"};
}

/// The cabinets that are named; "" alone where none is.
std::set<std::string> cabinets_of(const std::vector<StoredLiquid>& liquids) {
  std::set<std::string> names;
  for (const StoredLiquid& liquid : liquids) {
    if (liquid.place == StoragePlace::kCabinet) {
      names.insert(liquid.cabinet);
    }
  }
  return names;
}

}  // namespace

Volume StorageBreach::over() const {
  return Volume::from_litres(stands.litres() - at_most.litres());
}

std::vector<StorageBreach> storage_breaches(const std::vector<StoredLiquid>& liquids) {
  std::vector<StorageBreach> breaches;
  const auto add = [&breaches](StorageBreach one) {
    if (is_exceeded(one)) {
      breaches.push_back(std::move(one));
    }
  };
  const std::set<std::string> cabinets = cabinets_of(liquids);
  const std::set<std::string> open = {""};
  for (const Rule& rule : kRules) {
    for (const std::string& cabinet : rule.place == StoragePlace::kCabinet ? cabinets : open) {
      add(against(rule, liquids, cabinet));
    }
  }
  for (const StoredLiquid& liquid : liquids) {
    if (auto container = container_against(liquid)) {
      add(std::move(*container));
    }
  }
  return breaches;
}

}  // namespace coatwright
