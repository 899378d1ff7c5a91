#include <catch2/catch.hpp>

#include "base/zone.h"
#include "store/database.h"
#include "store/migrations.h"
#include "store/shop_settings.h"
#include "store/store.h"
#include "store/temporary_folder.h"

namespace coatwright {
namespace {

Store open_store(const std::filesystem::path& path, Store::Mode mode = Store::Mode::kWrite) {
  auto store = Store::open(path, mode);
  REQUIRE(store);
  return std::move(*store);
}

date::local_days day(int year, unsigned month, unsigned of_month) {
  return date::local_days(date::year(year) / month / of_month);
}

Time at(const std::string& text) {
  return parse_rfc3339(text).value();
}

StoredPiece cabinet() {
  StoredPiece piece;
  piece.name = "cabinet";
  piece.species = "black-cherry";
  piece.schedule = "hardwax";
  piece.area = Area::from_square_metres(2.5);
  piece.faces = PieceFaces::kTwo;
  piece.created_at = at("2027-05-03T12:00:00Z");
  piece.units = {
      {"body", Area::from_square_metres(1.9), PieceFaces::kOnPoints, 2, "", "2 x side, 4 x shelf"},
      {"doors", Area::from_square_metres(0.6), PieceFaces::kTwo, 1, "shellac-and-wax", "2 x door"}};
  piece.work = {{"glue",
                 "glue the body up",
                 {0},
                 true,
                 Hours::from_minutes(45),
                 2,
                 true,
                 "pva-yellow",
                 Stage::kHandle},
                {"hardware",
                 "hang the doors",
                 {0, 1},
                 false,
                 Hours::from_minutes(30),
                 1,
                 false,
                 "",
                 Stage::kDryHard}};
  return piece;
}

}  // namespace

TEST_CASE("A shop's people, places and finishing room come back as they were set", "[store]") {
  const TemporaryFolder folder;
  Store store = open_store(folder / "shop.db");
  REQUIRE(store.set({{ShopSetting::kPeople, "3; Fri 2"},
                     {ShopSetting::kSprayPlaces, "1"},
                     {ShopSetting::kRackPlaces, "9"},
                     {ShopSetting::kBenches, "any"},
                     {ShopSetting::kFinishingRoom, "apart"}}));
  const ShopSettings shop = read_shop_settings(store).value();
  CHECK(shop.people->text() == "3; Fri 2");
  CHECK(shop.spray_places == 1);
  CHECK(shop.rack_places == 9);
  CHECK_FALSE(shop.benches);
  CHECK(shop.finishing_apart == true);
}

TEST_CASE("What a shop did not say has a default or is not short", "[store]") {
  const TemporaryFolder folder;
  const ShopSettings shop =
      read_shop_settings(open_store(folder / "shop.db", Store::Mode::kRead)).value();
  CHECK_FALSE(shop.people);
  CHECK(shop.times_or_assumed().people == WeekPeople(1));
  CHECK_FALSE(shop.rack_places);
  CHECK_FALSE(shop.finishing_apart);
  CHECK(shop.special_days.empty());
}

TEST_CASE("Days that are not as usual come back, and can be taken back", "[store]") {
  const TemporaryFolder folder;
  Store store = open_store(folder / "shop.db");
  const DatedDay once = parse_open_day("2027-05-08 9:00-13:00, 14:00-16:00 2").value();
  REQUIRE(store.set({}, {{day(2027, 5, 1), SpecialDay{}}, {once.day, once.special}}));
  const SpecialDays days = store.special_days().value();
  REQUIRE(days.size() == 2);
  CHECK(days.at(day(2027, 5, 1)) == SpecialDay{});
  CHECK(days.at(once.day) == once.special);

  REQUIRE(store.set({}, {{day(2027, 5, 1), std::nullopt}, {once.day, SpecialDay{}}}));
  CHECK(store.special_days().value() == SpecialDays{{once.day, SpecialDay{}}});
  CHECK(read_shop_settings(store).value().times_or_assumed().special.size() == 1);
}

TEST_CASE("A count of places that is stored and cannot be read names the setting", "[store]") {
  const TemporaryFolder folder;
  Store store = open_store(folder / "shop.db");
  REQUIRE(store.set({{ShopSetting::kRackPlaces, "many"}}));
  const auto shop = read_shop_settings(store);
  REQUIRE_FALSE(shop);
  CHECK(shop.error().code == ErrorCode::kStore);
  CHECK_THAT(shop.error().text(), Catch::Contains("rack places") && Catch::Contains("many"));
}

TEST_CASE("What a shop says of its finishing room comes back, and can be taken back", "[store]") {
  const TemporaryFolder folder;
  const auto path = folder / "shop.db";
  {
    Store store = open_store(path);
    REQUIRE(store.set({{ShopSetting::kRoom, "6x5x3m"},
                       {ShopSetting::kFan, "500cfm"},
                       {ShopSetting::kFanRated, "yes"},
                       {ShopSetting::kMixing, "3"},
                       {ShopSetting::kIgnition, "a gas heater in the corner"},
                       {ShopSetting::kEmergency, "Ines 555 0100"},
                       {ShopSetting::kCabinet, "no"}}));
  }
  Store store = open_store(path);
  const ShopSettings shop = read_shop_settings(store).value();
  CHECK(shop.room.volume.value().cubic_metres() == Approx(90.0));
  CHECK(shop.room.fan.value().cfm() == Approx(500.0));
  CHECK(shop.room.rating == FanRating::kRated);
  CHECK(shop.room.mixing.number() == 3.0);
  CHECK(shop.room.ignition == "a gas heater in the corner");
  CHECK(shop.emergency == "Ines 555 0100");
  CHECK(shop.cabinet == false);

  REQUIRE(store.set({{ShopSetting::kRoom, "none"},
                     {ShopSetting::kFan, "none"},
                     {ShopSetting::kFanRated, "unknown"},
                     {ShopSetting::kIgnition, "none"},
                     {ShopSetting::kEmergency, "none"}}));
  const ShopSettings less = read_shop_settings(store).value();
  CHECK_FALSE(less.room.volume.has_value());
  CHECK_FALSE(less.room.fan.has_value());
  CHECK(less.room.rating == FanRating::kUnknown);
  CHECK(less.room.ignition.empty());
  CHECK(less.emergency.empty());
}

TEST_CASE("Of a room that the shop did not speak of nothing is taken for granted", "[store]") {
  const TemporaryFolder folder;
  const ShopSettings shop =
      read_shop_settings(open_store(folder / "shop.db", Store::Mode::kRead)).value();
  CHECK_FALSE(shop.room.volume.has_value());
  CHECK_FALSE(shop.room.fan.has_value());
  CHECK(shop.room.rating == FanRating::kUnknown);
  CHECK(shop.room.mixing == MixingFactor::assumed());
  CHECK(shop.room.ignition.empty());
  CHECK(shop.emergency.empty());
  CHECK_FALSE(shop.cabinet.has_value());
}

TEST_CASE("What is no room, fan, rating, mixing, line of words or yes is refused", "[store]") {
  CHECK(parse_room_setting("6 by 5").error().code == ErrorCode::kUsage);
  CHECK(parse_fan_setting("5m3/h").error().code == ErrorCode::kOutOfRange);
  CHECK(parse_fan_rating("maybe").error().code == ErrorCode::kUsage);
  CHECK(parse_mixing("good").error().code == ErrorCode::kUsage);
  CHECK(parse_mixing("0.5").error().code == ErrorCode::kOutOfRange);
  CHECK(parse_mixing("11").error().code == ErrorCode::kOutOfRange);
  CHECK(parse_mixing("1").value() == MixingFactor::perfect());
  CHECK(parse_words("two\nlines").error().code == ErrorCode::kUsage);
  CHECK(parse_words(std::string(301, 'x')).error().code == ErrorCode::kUsage);
  CHECK(parse_words(std::string(300, 'x')).value().size() == 300);
  CHECK(parse_yes_or_no("perhaps").error().code == ErrorCode::kUsage);
}

TEST_CASE("A room that is stored and cannot be read names the setting", "[store]") {
  const TemporaryFolder folder;
  Store store = open_store(folder / "shop.db");
  REQUIRE(store.set({{ShopSetting::kMixing, "poor"}}));
  const auto shop = read_shop_settings(store);
  REQUIRE_FALSE(shop);
  CHECK(shop.error().code == ErrorCode::kStore);
  CHECK_THAT(shop.error().text(), Catch::Contains("mixing factor") && Catch::Contains("poor"));
}

TEST_CASE("A store from before rooms keeps its settings when it is brought up to date", "[store]") {
  const TemporaryFolder folder;
  const auto path = folder / "shop.db";
  {
    const auto old = Database::open(path, Database::Access::kCreate);
    REQUIRE(old);
    REQUIRE(migrate(*old, path, built_in_migrations().first(9)));
    REQUIRE(
        old->run("INSERT INTO shop_setting VALUES ('hours', 'Sat 9:00-13:00'), "
                 "('units', 'us'), ('people', '2'), ('rack_places', '8'), "
                 "('finishing_room', 'apart'), ('learned_recoat', 'as-tested');"));
    CHECK_FALSE(old->run("INSERT INTO shop_setting VALUES ('room', '6x5x3m')"));
  }
  Store store = open_store(path);
  const ShopSettings shop = read_shop_settings(store).value();
  CHECK(shop.hours->text() == WeekHours::parse("Sat 9:00-13:00")->text());
  CHECK(shop.units == UnitSystem::kUs);
  CHECK(shop.people->text() == "2");
  CHECK(shop.rack_places == 8);
  CHECK(shop.finishing_apart == true);
  CHECK(shop.recoat_below_label == true);
  CHECK_FALSE(shop.room.volume.has_value());
  CHECK(store.set({{ShopSetting::kRoom, "20x16x10ft"}, {ShopSetting::kFan, "850m3/h"}}));
  const std::string kept = fmt::format("shop.db.before-version-{}", built_in_migrations().size());
  CHECK(std::filesystem::exists(folder / kept));
}

TEST_CASE("A piece of parts comes back with its units and its work in order", "[store]") {
  const TemporaryFolder folder;
  Store store = open_store(folder / "shop.db");
  REQUIRE(store.add_piece(cabinet()));
  const StoredPiece piece = store.piece("cabinet").value();
  CHECK(piece.units == cabinet().units);
  CHECK(piece.work == cabinet().work);

  const StoredPiece doors = piece.only(*piece.unit("doors"));
  CHECK(doors.schedule == "shellac-and-wax");
  CHECK(doors.faces == PieceFaces::kTwo);
  CHECK(doors.units.empty());
  CHECK(piece.only(*piece.unit("body")).schedule == "hardwax");
  CHECK(piece.unit("drawer") == nullptr);
}

TEST_CASE("A piece with a work that cannot be leaves nothing", "[store]") {
  const TemporaryFolder folder;
  Store store = open_store(folder / "shop.db");
  StoredPiece piece = cabinet();
  piece.work.back().people = 0;
  REQUIRE_FALSE(store.add_piece(piece));
  CHECK(store.pieces().value().empty());
}

TEST_CASE("A store from before shops had resources is brought up to date", "[store]") {
  const TemporaryFolder folder;
  const auto path = folder / "shop.db";
  {
    const auto old = Database::open(path, Database::Access::kCreate);
    REQUIRE(old);
    REQUIRE(migrate(*old, path, built_in_migrations().first(5)));
    REQUIRE(
        old->run("INSERT INTO shop_setting VALUES ('hours', 'Sat 9:00-13:00'), ('units', 'us');"
                 "INSERT INTO piece (name, species, schedule, area_m2, faces, created_at) "
                 "VALUES ('bench', 'white-ash', 'hardwax', 1.5, 'two', '2027-03-01T09:00:00Z');"));
    CHECK_FALSE(old->run("INSERT INTO shop_setting VALUES ('people', '3')"));
  }
  Store store = open_store(path);
  CHECK(store.setting(ShopSetting::kHours).value() == "Sat 9:00-13:00");
  CHECK(store.setting(ShopSetting::kUnits).value() == "us");
  CHECK(store.set({{ShopSetting::kPeople, "3"}}));
  const StoredPiece bench = store.piece("bench").value();
  CHECK(bench.units.empty());
  CHECK(bench.work.empty());
  const std::string kept = fmt::format("shop.db.before-version-{}", built_in_migrations().size());
  CHECK(std::filesystem::exists(folder / kept));
}

TEST_CASE("A plan kept before steps had parts is read without them", "[store]") {
  const TemporaryFolder folder;
  const auto path = folder / "shop.db";
  {
    const auto old = Database::open(path, Database::Access::kCreate);
    REQUIRE(old);
    REQUIRE(migrate(*old, path, built_in_migrations().first(6)));
    REQUIRE(
        old->run("INSERT INTO piece (name, species, schedule, area_m2, faces, created_at) "
                 "VALUES ('bench', 'white-ash', 'hardwax', 1.5, 'two', '2027-03-01T09:00:00Z');"
                 "INSERT INTO kept_plan (piece_id, made_at) VALUES (1, '2027-03-02T09:00:00Z');"
                 "INSERT INTO kept_step (piece_id, position, kind, coat, starts) "
                 "VALUES (1, 1, 'flip', 0, '2027-03-03T09:00:00Z');"));
  }
  const Store store = open_store(path);
  const auto plan = store.kept_plan("bench").value();
  REQUIRE(plan);
  REQUIRE(plan->steps.size() == 1);
  CHECK(plan->steps[0].kind == StepKind::kFlip);
  CHECK(plan->steps[0].part.empty());
}

}  // namespace coatwright
