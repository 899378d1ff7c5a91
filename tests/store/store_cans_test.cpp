#include <catch2/catch.hpp>

#include "base/zone.h"
#include "store/database.h"
#include "store/migrations.h"
#include "store/store.h"
#include "store/temporary_folder.h"

namespace coatwright {
namespace {

Time at(const std::string& text) {
  return parse_rfc3339(text).value();
}

TEST_CASE("A can comes back as it was noted, until it is taken off", "[store]") {
  const TemporaryFolder folder;
  auto store = Store::open(folder / "shop.db", Store::Mode::kWrite);
  REQUIRE(store);
  Can can;
  can.product = "waterborne-clear";
  can.opened_at = at("2027-01-05T09:00:00Z");
  can.made_at = at("2026-10-01T00:00:00Z");
  can.batch = "B 17";
  const auto first = store->open_can(can);
  Can bare;
  bare.product = "dewaxed-shellac";
  bare.opened_at = at("2027-02-01T09:00:00Z");
  const auto second = store->open_can(bare);
  REQUIRE(first);
  REQUIRE(second);
  CHECK(*first != *second);

  const auto cans = store->cans().value();
  REQUIRE(cans.size() == 2);
  CHECK(cans[0].number == *first);
  CHECK(cans[0].product == "waterborne-clear");
  CHECK(cans[0].opened_at == can.opened_at);
  CHECK(cans[0].made_at == can.made_at);
  CHECK(cans[0].batch == "B 17");
  CHECK(cans[0].note.empty());
  CHECK_FALSE(cans[1].made_at);

  REQUIRE(store->empty_can(*first, at("2027-03-01T09:00:00Z")));
  CHECK(store->cans()->size() == 1);
  CHECK(store->can(*first)->emptied_at == at("2027-03-01T09:00:00Z"));
  CHECK(store->empty_can(*first, at("2027-03-02T09:00:00Z")).error().code == ErrorCode::kUsage);
  CHECK(store->empty_can(99, at("2027-03-02T09:00:00Z")).error().code == ErrorCode::kNotFound);
}

TEST_CASE("A store that does not exist has no cans", "[store]") {
  const TemporaryFolder folder;
  const auto store = Store::open(folder / "none.db", Store::Mode::kRead);
  REQUIRE(store);
  CHECK(store->cans()->empty());
  CHECK(store->can(1).error().code == ErrorCode::kNotFound);
}

TEST_CASE("A store from before the cans gets them and keeps what it held", "[store]") {
  const TemporaryFolder folder;
  const auto path = folder / "shop.db";
  {
    const auto old = Database::open(path, Database::Access::kCreate);
    REQUIRE(old);
    REQUIRE(migrate(*old, path, built_in_migrations().first(3)));
    REQUIRE(old->run("INSERT INTO shop_setting VALUES ('units', 'us')"));
  }
  auto store = Store::open(path, Store::Mode::kWrite);
  REQUIRE(store);
  CHECK(store->setting(ShopSetting::kUnits).value() == "us");
  Can can;
  can.product = "dewaxed-shellac";
  can.opened_at = at("2027-02-01T09:00:00Z");
  REQUIRE(store->open_can(can));
  CHECK(store->cans()->size() == 1);
}

}  // namespace
}  // namespace coatwright
