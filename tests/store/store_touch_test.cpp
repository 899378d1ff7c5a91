// What was found, and photos: the log's details.
#include <catch2/catch.hpp>

#include "store/database.h"
#include "store/log_samples.h"
#include "store/migrations.h"
#include "store/store.h"
#include "store/temporary_folder.h"

namespace coatwright {
namespace {

using samples::at;
using samples::coat;
using samples::step;

const std::string kRecipe = "format = 1\nname = \"dewaxed-shellac\"\n";
const Time kFound = at("2027-03-06T12:00:00Z");

/// A store with the piece "table" and a coat on it.
struct Shop {
  TemporaryFolder folder;
  std::filesystem::path path = folder / "shop.db";
  Store store = make(path);

  static Store make(const std::filesystem::path& path) {
    auto store = Store::open(path, Store::Mode::kWrite);
    REQUIRE(store);
    REQUIRE(store->add_piece(samples::piece("table")));
    return std::move(*store);
  }
};

LogEntry found(LogKind kind) {
  LogEntry entry = step("table", std::string(name_of(kind)), kFound);
  entry.kind = kind;
  return entry;
}

LogEntry touch(const std::string& words, Stage stage, bool reached) {
  LogEntry entry = found(LogKind::kTouch);
  entry.touch = LoggedTouch{words, stage, reached};
  return entry;
}

LogEntry moisture(double fraction) {
  LogEntry entry = found(LogKind::kMoisture);
  entry.moisture = fraction;
  return entry;
}

LogEntry outcome(const std::string& word) {
  LogEntry entry = found(LogKind::kOutcome);
  entry.outcome = word;
  return entry;
}

std::int64_t count(const std::filesystem::path& path, const std::string& table) {
  const auto database = Database::open(path, Database::Access::kExisting);
  REQUIRE(database);
  return database->integer_of("SELECT count(*) FROM " + table).value();
}

}  // namespace

TEST_CASE("What was found comes back from the log as it was given", "[store]") {
  Shop shop;
  LogEntry tacky = touch("Tacky", Stage::kTackFree, false);
  tacky.face = "front";
  tacky.part = "top";
  tacky.by = "Ines";
  tacky.note = "by the window";
  tacky.photo = "IMG_0412.jpg";
  REQUIRE(shop.store.log_steps(
      {tacky, touch("no print", Stage::kPrintFree, true), moisture(0.085), outcome("runs")}));
  const auto log = shop.store.log("table").value();
  REQUIRE(log.size() == 4);
  CHECK(log[0].kind == LogKind::kTouch);
  CHECK(log[0].step == "touch");
  REQUIRE(log[0].touch);
  CHECK(log[0].touch->words == "Tacky");
  CHECK(log[0].touch->stage == Stage::kTackFree);
  CHECK_FALSE(log[0].touch->reached);
  CHECK(log[0].part == "top");
  CHECK(log[0].face == "front");
  CHECK(log[0].by == "Ines");
  CHECK(log[0].note == "by the window");
  CHECK(log[0].photo == "IMG_0412.jpg");
  CHECK(log[1].touch->stage == Stage::kPrintFree);
  CHECK(log[1].touch->reached);
  CHECK(log[1].photo.empty());
  CHECK(log[2].kind == LogKind::kMoisture);
  CHECK(*log[2].moisture == Approx(0.085));
  CHECK_FALSE(log[2].touch);
  CHECK(log[3].kind == LogKind::kOutcome);
  CHECK(log[3].outcome == "runs");
  CHECK_FALSE(log[3].moisture);
}

TEST_CASE("A finding is read by its number and can be struck out", "[store]") {
  Shop shop;
  const auto id = shop.store.log_steps({touch("hard", Stage::kDryHard, true)}).value().front();
  REQUIRE(shop.store.strike(id, "the other top", kFound));
  const auto entry = shop.store.log_entry(id);
  REQUIRE(entry);
  CHECK(entry->struck());
  CHECK(entry->touch->words == "hard");
}

TEST_CASE("A coat and a step may have a photo", "[store]") {
  Shop shop;
  LogEntry shellac = coat("table", kFound);
  shellac.photo = "coat one.jpg";
  REQUIRE(shop.store.log_coat(shellac, kRecipe));
  LogEntry sand = step("table", "sand", kFound);
  sand.photo = "photos/scratch.png";
  REQUIRE(shop.store.log_steps({sand}));
  const auto log = shop.store.log("table").value();
  REQUIRE(log.size() == 2);
  CHECK(log[0].kind == LogKind::kCoat);
  CHECK(log[0].photo == "coat one.jpg");
  CHECK(log[0].findings.size() == 2);
  CHECK(log[1].kind == LogKind::kStep);
  CHECK(log[1].photo == "photos/scratch.png");
}

TEST_CASE("An entry whose details cannot be kept is not kept either", "[store]") {
  Shop shop;
  for (const double impossible : {0.0, -0.1, 1.01, 9.0}) {
    REQUIRE_FALSE(shop.store.log_steps({step("table", "sand", kFound), moisture(impossible)}));
  }
  REQUIRE_FALSE(shop.store.log_steps({touch("", Stage::kTackFree, true)}));
  LogEntry sand = step("table", "sand", kFound);
  sand.moisture = 0.09;  // a step that is no measurement
  REQUIRE_FALSE(shop.store.log_steps({sand}));
  CHECK(count(shop.path, "log_entry") == 0);
  CHECK(count(shop.path, "log_moisture") == 0);
}

TEST_CASE("An entry that does not say what was found is an error and no surprise", "[store]") {
  for (const LogKind kind : {LogKind::kTouch, LogKind::kMoisture, LogKind::kOutcome}) {
    Shop shop;
    REQUIRE(shop.store.log_steps({found(kind)}));
    const auto log = shop.store.log("table");
    REQUIRE_FALSE(log);
    CHECK(log.error().code == ErrorCode::kStore);
  }
}

TEST_CASE("The file itself refuses that a finding or photo is erased or changed", "[store]") {
  Shop shop;
  LogEntry tacky = touch("tacky", Stage::kTackFree, false);
  tacky.photo = "a.jpg";
  REQUIRE(shop.store.log_steps({tacky, moisture(0.09), outcome("good")}));
  const auto database = Database::open(shop.path, Database::Access::kExisting);
  REQUIRE(database);
  for (const char* sql : {"DELETE FROM log_touch",
                          "DELETE FROM log_moisture",
                          "DELETE FROM log_outcome",
                          "DELETE FROM log_photo",
                          "UPDATE log_touch SET reached = 1",
                          "UPDATE log_moisture SET moisture_fraction = 0.1",
                          "UPDATE log_outcome SET defect = 'runs'",
                          "UPDATE log_photo SET file_name = 'b.jpg'",
                          "INSERT INTO log_outcome (entry_id, defect) VALUES (1, 'runs')",
                          "INSERT INTO log_touch (entry_id, words, stage, reached) VALUES "
                          "(2, 'hard', 'dry-hard', 1)",
                          "INSERT INTO log_moisture (entry_id, moisture_fraction) VALUES (3, 0.1)",
                          "INSERT INTO log_photo (entry_id, file_name) VALUES (99, 'a.jpg')"}) {
    INFO(sql);
    CHECK_FALSE(database->run(sql));
  }
  CHECK(count(shop.path, "log_touch") == 1);
  CHECK(count(shop.path, "log_photo") == 1);
}

TEST_CASE("A log without findings is brought up to date and keeps its entries", "[store]") {
  const TemporaryFolder folder;
  const auto path = folder / "shop.db";
  {
    const auto database = Database::open(path, Database::Access::kCreate);
    REQUIRE(database);
    REQUIRE(migrate(*database, path, built_in_migrations().subspan(0, 7)));
    for (const char* sql :
         {"INSERT INTO piece (name, species, schedule, area_m2, faces, created_at) VALUES "
          "('table', 'red-oak', 'stain-and-lacquer', 1.9, 'one', '2027-03-01T08:00:00Z')",
          "INSERT INTO product_revision VALUES ('dewaxed-shellac', '0123456789abcdef', 'format')",
          "INSERT INTO log_entry (piece_id, kind, step, product, revision, at, abraded, temp_c, "
          "rh_fraction, air_from, logged_at) VALUES (1, 'coat', 'apply', 'dewaxed-shellac', "
          "'0123456789abcdef', '2027-03-06T10:00:00Z', 0, 20, 0.5, 'reading', "
          "'2027-03-06T10:00:00Z')",
          "INSERT INTO log_verdict VALUES (1, 1, 'in window', 0, NULL, 0.95, 'ready', '', '', 'x')",
          "INSERT INTO log_strike VALUES (1, 'wrong piece', '2027-03-06T11:00:00Z')"}) {
      REQUIRE(database->run(sql));
    }
  }
  auto store = Store::open(path, Store::Mode::kWrite);
  REQUIRE(store);
  REQUIRE(store->log_steps({touch("hard", Stage::kDryHard, true)}));
  const auto log = store->log("table").value();
  REQUIRE(log.size() == 2);
  CHECK(log[0].kind == LogKind::kCoat);
  CHECK(log[0].product == "dewaxed-shellac");
  CHECK(log[0].findings.size() == 1);
  CHECK(log[0].strike->why == "wrong piece");
  CHECK(log[0].photo.empty());
  CHECK(log[1].touch->words == "hard");
  CHECK(std::filesystem::exists(path.string() + ".before-version-10"));
}

}  // namespace coatwright
