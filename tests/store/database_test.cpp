#include "store/database.h"

#include <catch2/catch.hpp>

#include "store/store.h"
#include "store/temporary_folder.h"

namespace coatwright {
namespace {

/// A fresh store's file, opened beneath the store's interface.
Database open_store_file(const std::filesystem::path& path) {
  REQUIRE(Store::open(path, Store::Mode::kWrite));
  auto database = Database::open(path, Database::Access::kExisting);
  REQUIRE(database);
  return std::move(*database);
}

std::string text_of(const Database& database, std::string_view sql) {
  auto query = database.prepare(sql);
  REQUIRE(query);
  REQUIRE(query->step().value() == Statement::Step::kRow);
  return query->text(0);
}

TEST_CASE("A store logs ahead, checks foreign keys and syncs fully", "[store]") {
  const TemporaryFolder folder;
  const auto database = open_store_file(folder / "shop.db");
  CHECK(text_of(database, "PRAGMA journal_mode") == "wal");
  CHECK(text_of(database, "PRAGMA foreign_keys") == "1");
  // EVIDENCE: SQLite's documentation of PRAGMA synchronous: 2 is FULL
  CHECK(text_of(database, "PRAGMA synchronous") == "2");
  CHECK(std::stoi(text_of(database, "PRAGMA busy_timeout")) >= 1000);
}

TEST_CASE("A foreign key that leads nowhere is refused", "[store]") {
  const TemporaryFolder folder;
  const auto database = open_store_file(folder / "shop.db");
  const auto done = database.run(
      "INSERT INTO air_entry (source_id, at, temp_c, rh_fraction, origin) "
      "VALUES (99, '2027-03-05T16:00:00Z', 14, 0.62, 'logger')");
  REQUIRE_FALSE(done);
  CHECK_THAT(done.error().message, Catch::Contains("FOREIGN KEY"));
}

TEST_CASE("The schema refuses what no command would write", "[store]") {
  const TemporaryFolder folder;
  const auto database = open_store_file(folder / "shop.db");
  const std::string piece =
      "INSERT INTO piece (name, species, schedule, area_m2, faces, created_at) ";
  const std::string air = "INSERT INTO air_entry (at, temp_c, rh_fraction, origin) ";
  for (const std::string& wrong :
       {air + "VALUES ('2027-03-05 16:00', 14, 0.62, 'reading')",          // not the form of times
        air + "VALUES ('2027-03-05T16:00:00Z', 14, 62, 'reading')",        // percent
        air + "VALUES ('2027-03-05T16:00:00Z', 287.15, 0.62, 'reading')",  // kelvin
        air + "VALUES ('2027-03-05T16:00:00Z', 14, 0.62, 'rumour')",       // unknown origin
        air + "VALUES ('2027-03-05T16:00:00Z', 14, 0.62, 'logger')",       // no file
        air + "VALUES ('2027-03-05T16:00:00Z', 'warm', 0.62, 'reading')",  // STRICT
        piece + "VALUES ('', 'red-oak', 's', 1, 'one', '2027-03-05T16:00:00Z')",
        piece + "VALUES ('table', 'red-oak', 's', 0, 'one', '2027-03-05T16:00:00Z')",
        piece + "VALUES ('table', 'red-oak', 's', 1, 'three', '2027-03-05T16:00:00Z')"}) {
    INFO(wrong);
    CHECK_FALSE(database.run(wrong));
  }
  CHECK(database.run(air + "VALUES ('2027-03-05T16:00:00Z', 14, 0.62, 'reading')"));
}

TEST_CASE("A breach of uniqueness is an answer, other breaches are errors", "[store]") {
  const TemporaryFolder folder;
  const auto database = open_store_file(folder / "shop.db");
  auto insert = database.prepare("INSERT INTO shop_setting (key, value) VALUES (?, ?)");
  REQUIRE(insert);
  const std::string_view units = "units";
  const std::string_view metric = "metric";
  CHECK(insert->bind(1, units).bind(2, metric).step().value() == Statement::Step::kDone);
  insert->reset();
  CHECK(insert->step().value() == Statement::Step::kTaken);
  insert->reset();
  const auto refused = insert->bind(1, std::string_view("colour")).step();
  REQUIRE_FALSE(refused);
  CHECK_THAT(refused.error().message, Catch::Contains("CHECK"));
}

TEST_CASE("A transaction that is not committed is undone", "[store]") {
  const TemporaryFolder folder;
  const auto database = open_store_file(folder / "shop.db");
  {
    const auto transaction = Transaction::begin(database);
    REQUIRE(transaction);
    REQUIRE(database.run("INSERT INTO shop_setting VALUES ('units', 'us')"));
  }
  CHECK(database.integer_of("SELECT count(*) FROM shop_setting").value() == 0);
}

TEST_CASE("A folder is no store", "[store]") {
  const TemporaryFolder folder;
  for (const auto mode : {Store::Mode::kRead, Store::Mode::kWrite}) {
    const auto store = Store::open(folder.path(), mode);
    REQUIRE_FALSE(store);
    CHECK(store.error().code == ErrorCode::kStore);
  }
}

}  // namespace
}  // namespace coatwright
