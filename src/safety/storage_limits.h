#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/units.h"
#include "safety/fire_category.h"

/// How much of what burns may stand where, by two rules of the United States. Nothing here says
/// that what keeps to them is in order: they are some limits of several, and others hold elsewhere.
namespace coatwright {

enum class StoragePlace {
  kShop,      ///< In the shop, outside a cabinet: one fire area.
  kCabinet,   ///< In a cabinet for flammable liquids.
  kOutdoors,  ///< Outside the building, for which no limit is known here.
};

/// What a liquid is kept in.
enum class ContainerKind { kGlass, kMetal, kSafetyCan };

struct Container {
  ContainerKind kind = ContainerKind::kMetal;  ///< Metal other than drums; approved plastic too.
  Volume size = Volume::from_litres(0);
};

/// Some of a product that stands in one place.
struct StoredLiquid {
  std::string product;
  Volume amount = Volume::from_litres(0);
  FireCategory category = FireCategory::kNone;  ///< kNone counts towards no limit.
  StoragePlace place = StoragePlace::kShop;
  std::string cabinet = "";  ///< Which, where there are several.
  std::optional<Container> container = std::nullopt;
};

/// A limit of a rule that is not kept to.
struct StorageBreach {
  std::string what;  ///< "category 1 outside a cabinet, in one fire area"
  Volume stands = Volume::from_litres(0);
  Volume at_most = Volume::from_litres(0);
  std::vector<std::string> products;  ///< That make it up, each once.
  std::string cabinet;                ///< Of several; may be empty.
  std::string rule;                   ///< "29 CFR 1910.106(d)(3)(i)"
  std::string source;                 ///< Key into docs/references.bib.
  std::string how;                    ///< How the limit is known.

  [[nodiscard]] Volume over() const;
};

/// Stands beside every answer, with breaches or without.
inline constexpr std::string_view kStorageReminder =
    "These are some limits of two rules in the United States, and no permission: local codes, the "
    "fire authority, the insurer and the data sheets come first, and less is better.";

/// Holds what stands in a shop against the limits: in the open 25 US gallons of category 1 and 120
/// of categories 2 to 4 (29 CFR 1910.106(e)(2)(ii)(b)), 10 of all together before a cabinet is
/// needed (model fire code, 5704.3.4.4); in one cabinet 60 of categories 1 to 3 and 120 of category
/// 4 (29 CFR 1910.106(d)(3)(i)), 120 of all together (5704.3.2.2); and the sizes of containers (29
/// CFR 1910.106 table H-12).
/// @return what is exceeded, rules in that order, then containers; empty does not mean that the
/// storage is in order.
/// Source: osha_1910_106, ifc2018. The number of the container table is from memory.
[[nodiscard]] std::vector<StorageBreach> storage_breaches(const std::vector<StoredLiquid>& liquids);

}  // namespace coatwright
