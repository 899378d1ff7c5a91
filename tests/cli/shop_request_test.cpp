#include "cli/shop_request.h"

#include <cstdlib>

#include <catch2/catch.hpp>

#include "store/log_samples.h"
#include "store/temporary_folder.h"

namespace coatwright {
namespace {

using samples::at;
using samples::step;

/// A store of a folder, and what a shop's plan takes from it.
class Shop {
 public:
  Shop() { global_.store = (folder_ / "week.sqlite").string(); }

  [[nodiscard]] std::string folder() const { return (folder_ / "").string(); }
  [[nodiscard]] Store store() const {
    auto store = Store::open(global_.store, Store::Mode::kWrite);
    REQUIRE(store);
    return std::move(*store);
  }
  [[nodiscard]] PreparedShop prepare(const PlanOptions& options = {}) const {
    auto shop = ask(options);
    INFO((shop ? std::string() : shop.error().text()));
    REQUIRE(shop);
    return std::move(*shop);
  }
  [[nodiscard]] Result<PreparedShop> ask(const PlanOptions& options = {}) const {
    GlobalOptions global = global_;
    global.at_clock = "2027-05-03T11:30:00Z";
    const auto session = open_session(global, Store::Mode::kRead);
    REQUIRE(session);
    return prepare_shop(options, global, *session);
  }

 private:
  TemporaryFolder folder_;
  GlobalOptions global_;
};

/// A piece of a body and two doors that are apart.
StoredPiece cabinet() {
  StoredPiece piece = samples::piece("cabinet");
  piece.units = {
      {"body", Area::from_square_metres(1.2), PieceFaces::kOnPoints, 2, "", "1 x body"},
      {"door 1", Area::from_square_metres(0.3), PieceFaces::kTwo, 1, "hardwax-oil", "1 x door"},
      {"door 2", Area::from_square_metres(0.3), PieceFaces::kTwo, 1, "hardwax-oil", "1 x door"}};
  return piece;
}

const JobRequest& job_named(const ShopRequest& request, const std::string& name) {
  for (const JobRequest& job : request.jobs) {
    if (job.name == name) {
      return job;
    }
  }
  FAIL("no job " << name);
  return request.jobs.front();
}

std::vector<StepKind> kinds_of(const PartRequest& part) {
  std::vector<StepKind> kinds;
  for (const LoggedWork& work : part.finish.log) {
    kinds.push_back(work.kind);
  }
  return kinds;
}

/// Sets up the demo week by its own script.
void set_up_week(const Shop& shop) {
  const std::string call = "COATWRIGHT='" COATWRIGHT_BINARY "' '" COATWRIGHT_SOURCE_DIR
                           "/scripts/demo-week' '" +
                           shop.folder() + "' > /dev/null";
  REQUIRE(std::system(call.c_str()) == 0);
}

using Kinds = std::vector<StepKind>;

}  // namespace

TEST_CASE("The demo week becomes jobs of parts with the work that joins them", "[cli]") {
  const Shop shop;
  set_up_week(shop);
  const PreparedShop week = shop.prepare();
  REQUIRE(week.request.jobs.size() == 6);
  CHECK(week.left_aside.empty());

  const JobRequest& bench = job_named(week.request, "hall bench");
  CHECK(bench.due == at("2027-05-14T20:00:00Z"));
  CHECK(bench.weight == 3.0);
  REQUIRE(bench.parts.size() == 2);
  CHECK(bench.parts[0].name == "seat");
  CHECK(bench.parts[0].finish.faces == Faces::kTwo);
  // By hand: (2 x 1100 x 350 + 2 x 1450 x 30) mm2, half of it a face.
  CHECK(bench.parts[0].finish.area.square_metres() == Approx(0.4285));
  CHECK(bench.parts[1].finish.faces == Faces::kOnPoints);
  REQUIRE(bench.build.size() == 5);
  CHECK(bench.build[0].kind == StepKind::kGlue);
  CHECK(bench.build[0].parts == std::vector<int>{0});
  CHECK(bench.build[0].before_finish);
  REQUIRE(bench.build[0].glue != nullptr);
  CHECK(bench.build[0].glue->clamp_low.minutes() == Approx(30));
  CHECK(bench.build[4].kind == StepKind::kDeliver);
  CHECK(bench.build[4].parts == std::vector<int>{0, 1});
  CHECK(bench.build[4].needs == Stage::kPrintFree);

  const JobRequest& screen = job_named(week.request, "slatted screen");
  REQUIRE(screen.build.size() == 4);
  CHECK(screen.build[1].kind == StepKind::kMask);
  CHECK(screen.build[2].kind == StepKind::kUnmask);
  CHECK_FALSE(screen.build[3].before_finish);
  CHECK(screen.parts[0].rack_places == 2);
  CHECK(job_named(week.request, "side table").earliest == at("2027-05-04T12:00:00Z"));
}

TEST_CASE("The demo shop's people, places and days stand in its request", "[cli]") {
  const Shop shop;
  set_up_week(shop);
  const ShopRequest request = shop.prepare().request;
  CHECK(request.resources.spray_places == 1);
  CHECK(request.resources.rack_places == 9);
  CHECK(request.resources.benches == 2);
  CHECK(request.resources.finishing_apart);
  // By hand, in New York's summer time: Monday and Tuesday whole, Wednesday cut at 13:00.
  REQUIRE(request.hours.size() > 6);
  CHECK(request.hours[0].open == Interval{at("2027-05-03T12:00:00Z"), at("2027-05-03T21:00:00Z")});
  CHECK(request.hours[0].people == 3);
  CHECK(request.hours[2].open == Interval{at("2027-05-05T12:00:00Z"), at("2027-05-05T17:00:00Z")});
  CHECK(request.hours[3].people == 2);
  // Saturday the 8th is open once, with two.
  CHECK(request.hours[6].open == Interval{at("2027-05-08T13:00:00Z"), at("2027-05-08T17:00:00Z")});
  CHECK(request.hours[6].people == 2);
  for (const StaffedHours& hours : request.hours) {
    CHECK((hours.open.end <= at("2027-05-31T04:00:00Z") ||
           hours.open.start >= at("2027-06-01T04:00:00Z")));
  }
  CHECK(request.horizon >= at("2027-05-14T21:00:00Z"));
}

TEST_CASE("A piece without units is one part, with all of its log", "[cli]") {
  const Shop shop;
  REQUIRE(shop.store().add_piece(samples::piece("table")));
  REQUIRE(shop.store().log_steps({step("table", "sand", at("2027-05-03T09:00:00Z"))}));
  const PreparedShop prepared = shop.prepare();
  REQUIRE(prepared.request.jobs.size() == 1);
  const JobRequest& job = prepared.request.jobs[0];
  REQUIRE(job.parts.size() == 1);
  CHECK(job.parts[0].name == "all");
  CHECK(job.parts[0].rack_places == 1);
  CHECK(kinds_of(job.parts[0]) == Kinds{StepKind::kSand});
  CHECK(job.build.empty());
}

TEST_CASE("An entry counts for its part, and one without a part for every part", "[cli]") {
  const Shop shop;
  REQUIRE(shop.store().add_piece(cabinet()));
  LogEntry sanded = step("cabinet", "sand", at("2027-05-03T09:00:00Z"));
  LogEntry cleaned = step("cabinet", "clean", at("2027-05-03T10:00:00Z"));
  cleaned.part = "door 1";
  cleaned.face = "front";
  LogEntry strange = step("cabinet", "clean", at("2027-05-03T10:30:00Z"));
  strange.part = "drawer";
  REQUIRE(shop.store().log_steps({sanded, cleaned, strange}));
  const PreparedShop prepared = shop.prepare();
  const JobRequest& job = prepared.request.jobs.at(0);
  REQUIRE(job.parts.size() == 3);
  CHECK(kinds_of(job.parts[0]) == Kinds{StepKind::kSand});
  CHECK(kinds_of(job.parts[1]) == Kinds{StepKind::kSand, StepKind::kClean});
  CHECK(kinds_of(job.parts[2]) == Kinds{StepKind::kSand});
  CHECK(job.parts[1].finish.log[1].faces == std::vector<int>{1});  // the front
  REQUIRE(prepared.left_aside.size() == 1);
  CHECK_THAT(prepared.left_aside[0], Catch::Contains("drawer"));
}

TEST_CASE("A part has its own area, faces and schedule", "[cli]") {
  const Shop shop;
  REQUIRE(shop.store().add_piece(cabinet()));
  const PreparedShop prepared = shop.prepare();
  const JobRequest& job = prepared.request.jobs.at(0);
  CHECK(job.parts[0].finish.schedule->name == "stain-and-lacquer");
  CHECK(job.parts[1].finish.schedule->name == "hardwax-oil");
  CHECK(job.parts[1].finish.area.square_metres() == Approx(0.3));
  CHECK(job.parts[1].finish.faces == Faces::kTwo);
  CHECK(job.parts[0].finish.name == "cabinet");
}

TEST_CASE("Work of a part list that is logged is done, of two alike the first", "[cli]") {
  const Shop shop;
  StoredPiece piece = cabinet();
  StoredWork glue;
  glue.kind = "glue";
  glue.name = "glue the case up";
  glue.units = {0};
  glue.before_finish = true;
  glue.work = Hours::from_minutes(8);
  glue.glue = "pva-yellow";
  StoredWork back = glue;
  back.name = "glue the back in";
  StoredWork mask = glue;
  mask.kind = "mask";
  mask.name = "mask the edges";
  mask.units = {1, 2};
  mask.glue = "";
  StoredWork hang = mask;
  hang.kind = "hardware";
  hang.name = "hang the doors";
  hang.units = {0, 1, 2};
  hang.before_finish = false;
  piece.work = {glue, back, mask, hang};
  REQUIRE(shop.store().add_piece(piece));
  const auto works = [&] { return shop.prepare().request.jobs.at(0).build; };
  REQUIRE(works().size() == 4);
  for (const BuildWork& work : works()) {
    CHECK_FALSE(work.done_at);
  }

  LogEntry glued = step("cabinet", "glue", at("2027-05-03T09:00:00Z"));
  glued.part = "body";
  LogEntry masked = step("cabinet", "mask", at("2027-05-03T10:00:00Z"));
  masked.part = "door 1";
  REQUIRE(shop.store().log_steps({glued, masked}));
  REQUIRE(works().size() == 4);
  CHECK(works()[0].name == "glue the case up");
  CHECK(works()[0].done_at == at("2027-05-03T09:00:00Z"));
  CHECK_FALSE(works()[1].done_at);
  CHECK_FALSE(works()[2].done_at);  // of one door alone

  masked.part = "door 2";
  masked.at = at("2027-05-03T10:30:00Z");
  LogEntry left = step("cabinet", "hardware", at("2027-05-03T11:00:00Z"));
  left.kind = LogKind::kSkip;
  left.why = "it goes without doors";
  REQUIRE(shop.store().log_steps({masked, left}));
  REQUIRE(works().size() == 3);  // the doors are left out
  CHECK(works()[2].done_at == at("2027-05-03T10:30:00Z"));

  // A body that carries a coat was glued up before, though nobody logged it.
  LogEntry coat = samples::coat("cabinet", at("2027-05-03T11:10:00Z"));
  coat.part = "body";
  coat.face = "";
  REQUIRE(shop.store().log_coat(coat, "name = \"dewaxed-shellac\""));
  REQUIRE(works().size() == 2);
  CHECK(works()[0].name == "glue the case up");
  CHECK(works()[1].name == "mask the edges");
}

TEST_CASE("A shop without a piece to plan is told so", "[cli]") {
  const Shop shop;
  const auto none = shop.ask();
  REQUIRE_FALSE(none);
  CHECK(none.error().code == ErrorCode::kUsage);
  REQUIRE(shop.store().add_piece(samples::piece("table")));
  REQUIRE(shop.store().add_piece(cabinet()));
  PlanOptions one;
  one.piece = "table";
  CHECK(shop.prepare(one).request.jobs.size() == 1);
  one.piece = "chair";
  CHECK(shop.ask(one).error().code == ErrorCode::kNotFound);
}

}  // namespace coatwright
