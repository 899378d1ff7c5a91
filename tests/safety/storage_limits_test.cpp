#include "safety/storage_limits.h"

#include <string>
#include <vector>

#include <catch2/catch.hpp>

using namespace coatwright;

namespace {

constexpr double kLitresPerGallon = 3.785411784;  // 231 cubic inches, exact

StoredLiquid liquid(const std::string& product,
                    double gallons,
                    FireCategory category,
                    StoragePlace place) {
  return {product, Volume::from_litres(gallons * kLitresPerGallon), category, place};
}

StoredLiquid in_cabinet(const std::string& product, double gallons, FireCategory category) {
  return liquid(product, gallons, category, StoragePlace::kCabinet);
}

StoredLiquid in_can(FireCategory category, ContainerKind kind, double gallons) {
  StoredLiquid one = liquid("thinner", gallons, category, StoragePlace::kOutdoors);
  one.container = Container{kind, one.amount};
  return one;
}

std::vector<std::string> rules_of(const std::vector<StorageBreach>& breaches) {
  std::vector<std::string> rules;
  for (const StorageBreach& one : breaches) {
    rules.push_back(one.rule);
  }
  return rules;
}

}  // namespace

// EVIDENCE: ifc2018 5704.3.4.4: up to 10 gallons outside a cabinet
TEST_CASE("More than ten gallons that burn need a cabinet", "[safety]") {
  const auto shop = StoragePlace::kShop;
  const std::vector<StoredLiquid> ten = {liquid("lacquer", 6, FireCategory::kTwo, shop),
                                         liquid("varnish", 4, FireCategory::kThree, shop)};
  CHECK(storage_breaches(ten).empty());
  std::vector<StoredLiquid> more = ten;
  more.push_back(liquid("lacquer", 1, FireCategory::kTwo, shop));
  const auto breaches = storage_breaches(more);
  REQUIRE(breaches.size() == 1);
  CHECK(breaches[0].source == "ifc2018");
  CHECK(breaches[0].how == "read");
  CHECK(breaches[0].stands.litres() == Approx(11 * kLitresPerGallon));
  CHECK(breaches[0].at_most.litres() == Approx(10 * kLitresPerGallon));
  CHECK(breaches[0].over().litres() == Approx(kLitresPerGallon));
  CHECK(breaches[0].products == std::vector<std::string>{"lacquer", "varnish"});
}

// EVIDENCE: osha_1910_106 25 gallons of category 1, 120 of categories 2 to 4, from memory by
// category
TEST_CASE("What stands outside a cabinet is held against the limits of a fire area", "[safety]") {
  const auto shop = StoragePlace::kShop;
  const auto one = storage_breaches({liquid("starter", 26, FireCategory::kOne, shop)});
  CHECK(rules_of(one) ==
        std::vector<std::string>{"29 CFR 1910.106(e)(2)(ii)(b)(1)", "model fire code 5704.3.4.4"});
  CHECK(one[0].over().litres() == Approx(kLitresPerGallon));
  CHECK(one[0].how == "from memory");
  const auto rest = storage_breaches({liquid("lacquer", 100, FireCategory::kTwo, shop),
                                      liquid("glycol", 21, FireCategory::kFour, shop)});
  CHECK(rules_of(rest) ==
        std::vector<std::string>{"29 CFR 1910.106(e)(2)(ii)(b)(2)", "model fire code 5704.3.4.4"});
  CHECK(rest[0].over().litres() == Approx(kLitresPerGallon));
}

// EVIDENCE: osha_1910_106 60 gallons of categories 1 to 3, 120 of category 4; ifc2018 120 in all
TEST_CASE("A cabinet is held against its limits", "[safety]") {
  CHECK(storage_breaches({in_cabinet("lacquer", 60, FireCategory::kTwo),
                          in_cabinet("glycol", 60, FireCategory::kFour)})
            .empty());
  const auto lacquer = storage_breaches({in_cabinet("lacquer", 40, FireCategory::kTwo),
                                         in_cabinet("varnish", 21, FireCategory::kThree)});
  REQUIRE(lacquer.size() == 1);
  CHECK(lacquer[0].rule == "29 CFR 1910.106(d)(3)(i)");
  CHECK(lacquer[0].over().litres() == Approx(kLitresPerGallon));
  CHECK(rules_of(storage_breaches({in_cabinet("glycol", 121, FireCategory::kFour)})) ==
        std::vector<std::string>{"29 CFR 1910.106(d)(3)(i)", "model fire code 5704.3.2.2"});
  CHECK(rules_of(storage_breaches({in_cabinet("lacquer", 60, FireCategory::kTwo),
                                   in_cabinet("glycol", 61, FireCategory::kFour)})) ==
        std::vector<std::string>{"model fire code 5704.3.2.2"});
}

TEST_CASE("Two cabinets are held against the limits each for itself", "[safety]") {
  StoredLiquid left = in_cabinet("lacquer", 40, FireCategory::kTwo);
  StoredLiquid right = in_cabinet("lacquer", 40, FireCategory::kTwo);
  left.cabinet = "left";
  right.cabinet = "right";
  CHECK(storage_breaches({left, right}).empty());
  right.amount = Volume::from_litres(70 * kLitresPerGallon);
  const auto breaches = storage_breaches({left, right});
  REQUIRE(breaches.size() == 1);
  CHECK(breaches[0].cabinet == "right");
}

TEST_CASE("What is in no category, or outdoors, counts towards no limit that is known",
          "[safety]") {
  CHECK(storage_breaches({liquid("oil", 500, FireCategory::kNone, StoragePlace::kShop),
                          liquid("lacquer", 500, FireCategory::kTwo, StoragePlace::kOutdoors)})
            .empty());
  CHECK(storage_breaches({}).empty());
}

// EVIDENCE: osha_1910_106 sizes of containers, glass, metal and safety can, as read
TEST_CASE("A container may be as large as its kind and the category allow", "[safety]") {
  struct Most {
    FireCategory category;
    ContainerKind kind;
    double gallons;
  };
  const std::vector<Most> table = {{FireCategory::kOne, ContainerKind::kGlass, 0.125},
                                   {FireCategory::kOne, ContainerKind::kMetal, 1},
                                   {FireCategory::kOne, ContainerKind::kSafetyCan, 2},
                                   {FireCategory::kTwo, ContainerKind::kGlass, 0.25},
                                   {FireCategory::kTwo, ContainerKind::kMetal, 5},
                                   {FireCategory::kTwo, ContainerKind::kSafetyCan, 5},
                                   {FireCategory::kThree, ContainerKind::kGlass, 1},
                                   {FireCategory::kThree, ContainerKind::kMetal, 5},
                                   {FireCategory::kThree, ContainerKind::kSafetyCan, 5},
                                   {FireCategory::kFour, ContainerKind::kGlass, 1},
                                   {FireCategory::kFour, ContainerKind::kMetal, 5},
                                   {FireCategory::kFour, ContainerKind::kSafetyCan, 5}};
  for (const Most& most : table) {
    CAPTURE(static_cast<int>(most.category), static_cast<int>(most.kind));
    CHECK(storage_breaches({in_can(most.category, most.kind, most.gallons)}).empty());
    const auto larger = storage_breaches({in_can(most.category, most.kind, most.gallons * 1.1)});
    REQUIRE(larger.size() == 1);
    CHECK(larger[0].at_most.litres() == Approx(most.gallons * kLitresPerGallon));
  }
}

TEST_CASE("No answer calls a storage safe", "[safety]") {
  CHECK_THAT(std::string(kStorageReminder), !Catch::Contains("safe"));
  CHECK_THAT(std::string(kStorageReminder), Catch::Contains("no permission"));
  for (const StorageBreach& one :
       storage_breaches({liquid("starter", 200, FireCategory::kOne, StoragePlace::kShop),
                         in_cabinet("glycol", 200, FireCategory::kFour)})) {
    CHECK_THAT(one.what, !Catch::Contains("safe"));
  }
}
