#include "store/store.h"

#include <array>
#include <latch>
#include <thread>

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "base/zone.h"
#include "store/shop_settings.h"
#include "store/temporary_folder.h"

namespace coatwright {
namespace {

using std::chrono::minutes;

Time at(const std::string& text) {
  return parse_rfc3339(text).value();
}

AirEntry entry(Time time, double celsius, double percent, AirOrigin origin = AirOrigin::kLogger) {
  return {
      time, Temperature::from_celsius(celsius), RelativeHumidity::from_percent(percent), origin};
}

Store open_store(const std::filesystem::path& path, Store::Mode mode = Store::Mode::kWrite) {
  auto store = Store::open(path, mode);
  REQUIRE(store);
  return std::move(*store);
}

/// Entries every minute from a moment on.
std::vector<AirEntry> entries_from(Time start, int count) {
  std::vector<AirEntry> entries;
  for (int i = 0; i < count; ++i) {
    entries.push_back(entry(start + minutes(i), 18.0, 50.0));
  }
  return entries;
}

const AirImport kShopLogger{"logger.csv", AirPlace::kShop, AirKind::kLogger, Time{}};

TEST_CASE("Reading a store that does not exist makes none and finds nothing", "[store]") {
  const TemporaryFolder folder;
  const auto path = folder / "new/shop.db";
  const Store store = open_store(path, Store::Mode::kRead);
  CHECK(store.setting(ShopSetting::kHours).value() == std::nullopt);
  CHECK(store.pieces().value().empty());
  CHECK(store.air_entries(at("2000-01-01T00:00:00Z"), at("2100-01-01T00:00:00Z")).value().empty());
  CHECK(store.piece("table").error().code == ErrorCode::kNotFound);
  CHECK_FALSE(std::filesystem::exists(folder / "new"));
}

TEST_CASE("The first write makes the folder and the file", "[store]") {
  const TemporaryFolder folder;
  const auto path = folder / "new/deep/shop.db";
  Store store = open_store(path);
  REQUIRE(store.set({{ShopSetting::kUnits, "us"}}));
  CHECK(std::filesystem::exists(path));
}

TEST_CASE("A store opened for reading cannot be changed", "[store]") {
  const TemporaryFolder folder;
  static_cast<void>(open_store(folder / "shop.db"));
  Store store = open_store(folder / "shop.db", Store::Mode::kRead);
  const auto done = store.set({{ShopSetting::kUnits, "us"}});
  REQUIRE_FALSE(done);
  CHECK(done.error().code == ErrorCode::kStore);
  CHECK(store.setting(ShopSetting::kUnits).value() == std::nullopt);
}

TEST_CASE("Settings come back as they were typed, and the last one holds", "[store]") {
  const TemporaryFolder folder;
  Store store = open_store(folder / "shop.db");
  REQUIRE(store.set({{ShopSetting::kHours, "Mon-Fri 8:00-17:00"}, {ShopSetting::kUnits, "us"}}));
  REQUIRE(store.set({{ShopSetting::kHours, "Sat 9:00-13:00"}}));
  const Store again = open_store(folder / "shop.db", Store::Mode::kRead);
  CHECK(again.setting(ShopSetting::kHours).value() == "Sat 9:00-13:00");
  CHECK(again.setting(ShopSetting::kUnits).value() == "us");
  CHECK(again.setting(ShopSetting::kTimeZone).value() == std::nullopt);
}

TEST_CASE("Shop settings fall back on what is assumed", "[store]") {
  const TemporaryFolder folder;
  const Store store = open_store(folder / "shop.db", Store::Mode::kRead);
  const ShopSettings shop = read_shop_settings(store).value();
  CHECK_FALSE(shop.usual_day);
  const auto point = shop.usual_day_or_assumed().points().at(0);
  CHECK(point.temperature.celsius() == Approx(20.0));  // consistency check: the stated judgement
  CHECK(point.humidity.percent() == Approx(50.0));
  CHECK(shop.hours_or_assumed().openings().size() == 5);
}

TEST_CASE("A stored setting that cannot be read names the setting", "[store]") {
  const TemporaryFolder folder;
  Store store = open_store(folder / "shop.db");
  REQUIRE(store.set({{ShopSetting::kHours, "whenever"}}));
  const auto shop = read_shop_settings(store);
  REQUIRE_FALSE(shop);
  CHECK(shop.error().code == ErrorCode::kStore);
  CHECK_THAT(shop.error().text(), Catch::Contains("hours") && Catch::Contains("whenever"));
}

TEST_CASE("A reading is kept, and a second one of its time is told", "[store]") {
  const TemporaryFolder folder;
  Store store = open_store(folder / "shop.db");
  const Time time = at("2027-03-05T16:00:00Z");
  CHECK(store.add_reading(entry(time, 14.0, 62.0, AirOrigin::kReading), false).value() ==
        std::nullopt);
  const auto there = store.add_reading(entry(time, 15.0, 60.0, AirOrigin::kReading), false).value();
  REQUIRE(there);
  CHECK(there->temperature.celsius() == Approx(14.0));
  CHECK(store.air_entries(time, time).value().at(0).temperature.celsius() == Approx(14.0));

  CHECK(store.add_reading(entry(time, 15.0, 60.0, AirOrigin::kReading), true).value() ==
        std::nullopt);
  const auto entries = store.air_entries(time, time).value();
  REQUIRE(entries.size() == 1);
  CHECK(entries[0].temperature.celsius() == Approx(15.0));
  CHECK(entries[0].humidity.percent() == Approx(60.0));
  CHECK(entries[0].origin == AirOrigin::kReading);
}

TEST_CASE("A newer forecast takes the place of an older one, and a logger's keeps its own",
          "[store]") {
  const TemporaryFolder folder;
  Store store = open_store(folder / "shop.db");
  const Time start = at("2027-03-05T00:00:00Z");
  AirImport forecast = kShopLogger;
  forecast.kind = AirKind::kForecast;
  auto expected = entries_from(start, 10);
  for (AirEntry& one : expected) {
    one.origin = AirOrigin::kForecast;
  }
  CHECK(store.add_import(forecast, expected).value().stored == 10);
  expected.front().temperature = Temperature::from_celsius(11.0);
  const auto second = store.add_import(forecast, expected).value();
  CHECK(second.stored == 0);
  CHECK(second.replaced == 10);
  CHECK(second.known_already == 0);
  const auto entries = store.air_entries(start, start + minutes(1000)).value();
  REQUIRE(entries.size() == 10);
  CHECK(entries.front().temperature.celsius() == Approx(11.0));
}

TEST_CASE("An import that repeats times keeps the first and counts", "[store]") {
  const TemporaryFolder folder;
  Store store = open_store(folder / "shop.db");
  const Time start = at("2027-03-05T00:00:00Z");
  const auto first = store.add_import(kShopLogger, entries_from(start, 60)).value();
  CHECK(first.stored == 60);
  CHECK(first.known_already == 0);
  auto more = entries_from(start + minutes(30), 60);
  more.front().temperature = Temperature::from_celsius(30.0);
  const auto second = store.add_import(kShopLogger, more).value();
  CHECK(second.stored == 30);
  CHECK(second.known_already == 30);
  const auto entries = store.air_entries(start, start + minutes(1000)).value();
  REQUIRE(entries.size() == 90);
  CHECK(entries[30].temperature.celsius() == Approx(18.0));
}

TEST_CASE("Air of different origin may stand at the same time", "[store]") {
  const TemporaryFolder folder;
  Store store = open_store(folder / "shop.db");
  const Time time = at("2027-03-05T16:00:00Z");
  const AirImport outdoors{"sky.csv", AirPlace::kOutdoors, AirKind::kForecast, time};
  REQUIRE(store.add_import(kShopLogger, {entry(time, 18.0, 50.0)}));
  REQUIRE(store.add_import(outdoors, {entry(time, 4.0, 80.0, AirOrigin::kOutdoors)}));
  CHECK(store.air_entries(time, time).value().size() == 2);
}

TEST_CASE("An import with a value that cannot be keeps nothing of the file", "[store]") {
  const TemporaryFolder folder;
  Store store = open_store(folder / "shop.db");
  const Time start = at("2027-03-05T00:00:00Z");
  auto entries = entries_from(start, 10);
  entries.push_back(entry(start + minutes(10), 400.0, 50.0));
  REQUIRE_FALSE(store.add_import(kShopLogger, entries));
  CHECK(store.air_entries(start, start + minutes(1000)).value().empty());
}

TEST_CASE("Air entries are given in order of time and within the span", "[store]") {
  const TemporaryFolder folder;
  Store store = open_store(folder / "shop.db");
  const Time start = at("2027-03-05T00:00:00Z");
  REQUIRE(store.add_import(kShopLogger, entries_from(start + minutes(10), 10)));
  REQUIRE(store.add_import(kShopLogger, entries_from(start, 10)));
  const auto entries = store.air_entries(start + minutes(5), start + minutes(12)).value();
  REQUIRE(entries.size() == 8);
  CHECK(entries.front().at == start + minutes(5));
  CHECK(entries.back().at == start + minutes(12));
}

TEST_CASE("Two connections that write at once both keep their rows", "[store]") {
  const TemporaryFolder folder;
  const auto path = folder / "shop.db";  // both make the file, too
  const Time start = at("2027-03-05T00:00:00Z");
  constexpr int kImports = 20;
  constexpr int kRows = 50;
  std::array<int, 2> stored = {0, 0};
  const auto write = [&](std::size_t who) {
    auto store = Store::open(path, Store::Mode::kWrite);
    for (int i = 0; store && i < kImports; ++i) {
      const int which = static_cast<int>(who) * kImports + i;
      const auto done =
          store->add_import(kShopLogger, entries_from(start + minutes(which * kRows), kRows));
      stored[who] += done ? static_cast<int>(done->stored) : 0;
    }
  };
  std::thread one(write, 0);
  std::thread other(write, 1);
  one.join();
  other.join();
  CHECK(stored[0] == kImports * kRows);
  CHECK(stored[1] == kImports * kRows);
  const Store store = open_store(path, Store::Mode::kRead);
  CHECK(store.air_entries(start, start + minutes(100000)).value().size() == 2 * kImports * kRows);
}

TEST_CASE("Connections that make the file at the same moment all open it", "[store]") {
  const TemporaryFolder folder;
  constexpr int kFiles = 25;
  constexpr std::size_t kConnections = 4;
  for (int file = 0; file < kFiles; ++file) {
    std::array<std::string, kConnections> errors;
    std::latch start(kConnections);
    const auto make = [&](std::size_t who) {
      start.arrive_and_wait();
      const auto store = Store::open(folder / fmt::format("{}.db", file), Store::Mode::kWrite);
      errors[who] = store ? "" : store.error().message;
    };
    std::vector<std::thread> threads;
    for (std::size_t who = 0; who < kConnections; ++who) {
      threads.emplace_back(make, who);
    }
    for (auto& thread : threads) {
      thread.join();
    }
    for (const auto& error : errors) {
      CHECK(error == "");
    }
  }
}

StoredPiece table_piece() {
  return {"table",
          "red-oak",
          "stain-and-lacquer",
          Area::from_square_metres(1.9),
          PieceFaces::kOnPoints,
          at("2027-03-12T17:00:00Z"),
          std::nullopt,
          2.0,
          at("2027-03-05T16:00:00Z"),
          "P120",
          "old-finish"};
}

TEST_CASE("A piece comes back as it was stored", "[store]") {
  const TemporaryFolder folder;
  Store store = open_store(folder / "shop.db");
  REQUIRE(store.add_piece(table_piece()));
  const auto piece = store.piece("table");
  REQUIRE(piece);
  CHECK(piece->species == "red-oak");
  CHECK(piece->surface == "P120");
  CHECK(piece->over == "old-finish");
  CHECK(piece->schedule == "stain-and-lacquer");
  CHECK(piece->area.square_metres() == Approx(1.9));
  CHECK(piece->faces == PieceFaces::kOnPoints);
  CHECK(piece->due == at("2027-03-12T17:00:00Z"));
  CHECK_FALSE(piece->earliest);
  CHECK(piece->weight == Approx(2.0));
  CHECK(piece->created_at == at("2027-03-05T16:00:00Z"));
}

TEST_CASE("A piece's name is taken until the piece is retired", "[store]") {
  const TemporaryFolder folder;
  Store store = open_store(folder / "shop.db");
  REQUIRE(store.add_piece(table_piece()));
  const auto second = store.add_piece(table_piece());
  REQUIRE_FALSE(second);
  CHECK(second.error().code == ErrorCode::kUsage);
  CHECK_THAT(second.error().text(), Catch::Contains("'table'"));

  REQUIRE(store.retire_piece("table", at("2027-03-20T16:00:00Z")));
  CHECK(store.pieces().value().empty());
  CHECK(store.add_piece(table_piece()));
  CHECK(store.pieces().value().size() == 1);
}

TEST_CASE("A piece that is not there is answered with those that are", "[store]") {
  const TemporaryFolder folder;
  Store store = open_store(folder / "shop.db");
  REQUIRE(store.add_piece(table_piece()));
  const auto retired = store.retire_piece("chair", at("2027-03-20T16:00:00Z"));
  REQUIRE_FALSE(retired);
  CHECK(retired.error().code == ErrorCode::kNotFound);
  CHECK_THAT(retired.error().text(), Catch::Contains("'chair'") && Catch::Contains("table"));
}

}  // namespace
}  // namespace coatwright
